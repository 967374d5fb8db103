"""A draft and its video -> the draft with a still for each operation and each part that comes off, saved beside
it."""

from __future__ import annotations

from collections.abc import Callable
from dataclasses import replace
from pathlib import Path

from guidec.draft.draft import Drafted
from guidec.draft.film import MissingDecoderError, Still, UnreadableVideoError, stills
from guidec.draft.note import Row
from guidec.draft.plain import clock
from guidec.draft.story import Named

__all__ = ["MissingDecoderError", "UnreadableVideoError", "illustrated", "moments"]

LATER = 1.5
"""Seconds after the words at which the hand has done what they say."""
WIDEST = 1920


def moments(drafted: Drafted) -> dict[float, list[Row]]:
    """The times at which stills are due -> the rows of the note that get them."""
    due: dict[float, list[Row]] = {}
    for row in drafted.writer.rows:
        if row.role == "heading" and row.job is not None and row.job.trip is None:
            due.setdefault(round(row.job.start, 2), []).append(row)
        elif (
            row.role == "line"
            and row.act is not None
            and row.act.do == "remove"
            and row.job is not None
            and row.job.trip is None
        ):
            due.setdefault(round(row.act.start + LATER, 2), []).append(row)
    return due


def illustrated(
    drafted: Drafted, video: Path, note: Path, told: Callable[[int, int], None] = lambda done, all_: None
) -> tuple[Drafted, list[str]]:
    """The draft with its pictures, which are saved in `NOTE-stills/`, and what there is to say.

    A picture that is there already is kept. Raises MissingDecoderError, UnreadableVideoError, OSError.
    """
    due = moments(drafted)
    found, said = stills(video, list(due), lambda done: told(done, len(due)))
    folder = note.parent / f"{note.stem}-stills"
    folder.mkdir(parents=True, exist_ok=True)
    for still in found:
        for row in due[still.asked]:
            name = f"{int(still.asked):05}-{_slug(row)}.jpg"
            _save(still, folder / name)
            row.picture = f"![{_alt(row)}]({folder.name.replace(' ', '%20')}/{name})"
    said.append(f"{len(found)} stills in {folder}")
    return replace(drafted, text=drafted.writer.text()), said


def _save(still: Still, path: Path) -> None:
    if path.exists():
        return
    image = still.image.convert("RGB")
    image.thumbnail((WIDEST, WIDEST))
    image.info = {}
    image.save(path, "JPEG", quality=88, optimize=True)


def _about(row: Row) -> str:
    if row.role == "heading" and row.job is not None:
        return row.job.title
    names = [thing.name for thing in row.act.things if isinstance(thing, Named)] if row.act else []
    return " and ".join(names)


def _alt(row: Row) -> str:
    """The alt text proposed: `Remove the battery, 2:10`, `The battery off, 2:32`."""
    if row.role == "heading" and row.job is not None:
        return f"{row.job.title}, at {clock(row.job.start)}"
    start = row.act.start if row.act else 0.0
    return f"The {_about(row)} coming off, at {clock(start)}"


def _slug(row: Row) -> str:
    words = "".join(letter if letter.isalnum() else "-" for letter in _about(row).lower())
    return "-".join(filter(None, words.split("-")))[:40].strip("-") + ("-off" if row.role == "line" else "")
