"""A folder, here or on any file system that fsspec knows -> its notes, its settings, the pictures of a note."""

from __future__ import annotations

import hashlib
import os
import posixpath
from collections.abc import Iterable, Iterator, Sequence
from fnmatch import fnmatchcase
from pathlib import Path
from typing import Any, Protocol

from guidec import notes
from guidec.edge.load import MOST_BYTES, of_bytes
from guidec.edge.pictures import MOST_BYTES as LARGEST_PICTURE
from guidec.edge.pictures import is_remote, shown_pictures

__all__ = [
    "Folder",
    "Here",
    "There",
    "digest",
    "is_address",
    "note_names",
    "opened",
    "picture",
    "picture_stamp",
    "shown",
]


class Folder(Protocol):
    """Where notes lie. All names are relative, with `/`."""

    @property
    def title(self) -> str:
        """The folder's own name."""

    def names(self) -> Iterable[str]:
        """All files, in it and below."""

    def read(self, name: str) -> bytes | None:
        """A file's bytes; None where it is not there, is no plain file, or lies outside `within` by a link."""

    def below(self, path: str) -> Folder:
        """Another folder, from this one."""

    def stamp(self, name: str) -> tuple[int, int] | None:
        """Size and time of a file, where they can be told without reading it."""


def is_address(path: str) -> bool:
    """Whether a path is an fsspec address (`s3://…`) and not one on this machine."""
    return "://" in path


def opened(path: str) -> Folder:
    """The folder at a path or an fsspec address."""
    return There(path) if is_address(path) else Here(Path(path))


class Here:
    """A folder on this machine."""

    def __init__(self, root: Path) -> None:
        self.root = Path(os.path.realpath(root))

    @property
    def title(self) -> str:
        """The folder's own name."""
        return self.root.name

    def names(self) -> Iterator[str]:
        """All plain files, in it and below; nothing that hides behind a full stop."""
        for folder, below, files in os.walk(self.root):
            below[:] = sorted(name for name in below if not name.startswith("."))
            inside = Path(folder).relative_to(self.root).as_posix()
            yield from (posixpath.normpath(f"{inside}/{name}") for name in sorted(files))

    def read(self, name: str) -> bytes | None:
        """A file's bytes."""
        at = self._at(name)
        if at is None:
            return None
        try:
            return at.read_bytes()
        except OSError:
            return None

    def below(self, path: str) -> Here:
        """Another folder, from this one."""
        return Here(self.root / path)

    def stamp(self, name: str) -> tuple[int, int] | None:
        """Size and time of a file."""
        at = self._at(name)
        if at is None:
            return None
        found = at.stat()
        return found.st_size, found.st_mtime_ns

    def _at(self, name: str) -> Path | None:
        """The plain file of a name, links followed as long as they stay in the folder."""
        if "\0" in name:
            return None
        real = Path(os.path.realpath(self.root / name))
        return real if real.is_relative_to(self.root) and real.is_file() else None


class There:
    """A folder at an fsspec address."""

    def __init__(self, address: str) -> None:
        import fsspec  # type: ignore[import-untyped]  # here, not above: it comes with the extra `dask`

        self.address = address.rstrip("/")
        self.files: Any
        self.files, self.root = fsspec.core.url_to_fs(self.address)

    @property
    def title(self) -> str:
        """The folder's own name."""
        return str(self.root).rstrip("/").rpartition("/")[2]

    def names(self) -> list[str]:
        """All files, in it and below; nothing that hides behind a full stop."""
        found = (posixpath.relpath(path, self.root) for path in self.files.find(self.root))
        return sorted(name for name in found if not any(piece.startswith(".") for piece in name.split("/")))

    def read(self, name: str) -> bytes | None:
        """A file's bytes."""
        path = posixpath.normpath(f"{self.root}/{name}")
        if not path.startswith(f"{self.root.rstrip('/')}/"):
            return None
        try:
            data: bytes = self.files.cat_file(path)
        except (OSError, ValueError):
            return None
        return data

    def below(self, path: str) -> There:
        """Another folder, from this one."""
        scheme, _, _ = self.address.partition("://")
        return There(f"{scheme}://{posixpath.normpath(f'{self.root}/{path}')}")

    def stamp(self, name: str) -> tuple[int, int] | None:
        """Times are told in too many ways there: a file is read."""
        return None


def note_names(folder: Folder, leave_out: Sequence[str], pages: Sequence[str]) -> list[str]:
    """The notes of a folder, in the order of their names.

    None are: what begins with `.` or `_`, `README.md`, the shelf's own pages, what `leave_out` names.
    """
    found = []
    for name in folder.names():
        base = name.rpartition("/")[2]
        if not base.endswith(".md") or base[0] in "._" or base.casefold() == "readme.md" or name in pages:
            continue
        if not any(fnmatchcase(name, pattern) or fnmatchcase(base, pattern) for pattern in leave_out):
            found.append(name)
    return sorted(found)


def shown(note: str, data: bytes) -> tuple[str, ...]:
    """The paths of the pictures that a note shows and that may lie in its folder, each once, as typed."""
    if b"![" not in data or len(data) > MOST_BYTES:
        return ()
    document, _ = notes.read(of_bytes(note, data, Path()).source)
    paths = dict.fromkeys(one.path for one in shown_pictures(document))
    return tuple(path for path in paths if path and not is_remote(path) and _stays_inside(path))


def _stays_inside(path: str) -> bool:
    flat = posixpath.normpath(path)
    return not (flat.startswith(("/", "../")) or flat == ".." or "\0" in flat)


def picture_stamp(folder: Folder, note: str, path: str) -> tuple[int, int] | None:
    """Size and time of a picture, where they can be told without reading it."""
    home = posixpath.dirname(note)
    return (folder.below(home) if home else folder).stamp(path)


def picture(folder: Folder, note: str, path: str) -> bytes | None:
    """A picture of a note; None where it is not there or is larger than a guide takes."""
    home = posixpath.dirname(note)
    inside = folder.below(home) if home else folder
    size = inside.stamp(path)
    if size and size[0] > LARGEST_PICTURE:
        return None
    return inside.read(path)


def digest(data: bytes) -> str:
    """What tells bytes apart: their SHA-256."""
    return hashlib.sha256(data).hexdigest()
