"""The unit of work: one note, its pictures, the settings -> named bytes and the entry. Pure, and can run anywhere.

Everything a guide is made of comes in with the job, and everything made of it goes out with the result, so a unit
can be handed to any executor of `concurrent.futures`, on this machine or another. Nothing is kept between units.
"""

from __future__ import annotations

import os
import tempfile
from collections.abc import Iterator
from contextlib import contextmanager
from pathlib import Path
from typing import Any

from guidec import compile as compiler
from guidec.collector import paused
from guidec.edge.load import of_bytes
from guidec.messages import diagnose
from guidec.messages.data import as_data
from guidec.quick import dataclass
from guidec.shelf.entry import Entry
from guidec.shelf.frame import Frame, framed
from guidec.shelf.summary import summary

__all__ = ["Job", "Made", "make"]


@dataclass(frozen=True, slots=True)
class Job:
    """One note to be made. `note`: its path on the shelf; `pictures`: their bytes by their path from the note."""

    note: str
    data: bytes
    pictures: tuple[tuple[str, bytes], ...]
    frame: Frame
    pdf: bool


@dataclass(frozen=True, slots=True)
class Made:
    """What came of a note. `entry` is None where it could not be read; `diagnostics` as `check --format json`."""

    note: str
    entry: Entry | None
    files: dict[str, bytes]
    diagnostics: tuple[dict[str, Any], ...]


@paused()
def make(job: Job) -> Made:
    """Make one guide. Raises whatever a fault of the program raises, and nothing for what a note can say."""
    with _laid_out(job.pictures) as folder:
        bundle = of_bytes(job.note, job.data, folder)
        built = compiler.build(bundle, compiler.Options(pdf=job.pdf))
    diagnostics = tuple(as_data(one) for one in diagnose(bundle.source, built.findings))
    if built.checked.model is None or not built.files:
        return Made(job.note, None, {}, diagnostics)
    entry = summary(job.note, built, diagnostics)
    return Made(job.note, entry, framed(built.files, entry, built.checked.model.guide, job.frame), diagnostics)


@contextmanager
def _laid_out(pictures: tuple[tuple[str, bytes], ...]) -> Iterator[Path]:
    """A folder that holds the pictures at their paths, for as long as the note is made."""
    with tempfile.TemporaryDirectory(prefix="guidec-") as name:
        folder = Path(os.path.realpath(name))
        for path, data in pictures:
            at = folder / os.path.normpath(path)
            if at.is_relative_to(folder):
                at.parent.mkdir(parents=True, exist_ok=True)
                at.write_bytes(data)
        yield folder
