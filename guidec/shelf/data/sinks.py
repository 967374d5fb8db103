"""Named files that appear in a folder all at once, or not at all."""

from __future__ import annotations

import os
import shutil
import tempfile
from collections.abc import Iterator
from contextlib import contextmanager
from pathlib import Path
from typing import BinaryIO

__all__ = ["Folder", "folder"]


class Folder:
    """A folder of its own that is being filled, from which the files move to their places when all are there."""

    def __init__(self, at: Path) -> None:
        self._at = at
        self._files: list[BinaryIO] = []

    def open(self, name: str) -> BinaryIO:
        """A new file under this name, closed with all others."""
        file = self.path(name).open("wb")
        self._files.append(file)
        return file

    def take(self, name: str, old: Path) -> None:
        """A file as it lies in another folder: a second name of it where the file system has such, else a copy."""
        path = self.path(name)
        try:
            os.link(old / name, path)
        except OSError:
            shutil.copy2(old / name, path)

    def path(self, name: str) -> Path:
        """Where the file of this name lies until it is moved; its folder is there."""
        path = self._at / name
        path.parent.mkdir(parents=True, exist_ok=True)
        return path

    def close(self) -> None:
        """Close all files."""
        for file in self._files:
            file.close()


@contextmanager
def folder(out: Path) -> Iterator[Folder]:
    """Files to be written into `out`: there in the end, all of them, or none if anything goes wrong on the way."""
    out.mkdir(parents=True, exist_ok=True)
    work = Path(tempfile.mkdtemp(prefix=".data-", dir=out))
    made = Folder(work)
    try:
        yield made
        made.close()
        for path in sorted(path for path in work.rglob("*") if path.is_file()):
            place = out / path.relative_to(work)
            place.parent.mkdir(parents=True, exist_ok=True)
            path.replace(place)
    finally:
        made.close()
        shutil.rmtree(work, ignore_errors=True)
