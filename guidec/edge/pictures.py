"""A document and its folder -> the picture files it shows, each inside the folder, and what is wrong with others.

Nothing is opened here: a check only asks whether the files are there. `read` opens one.
"""

from __future__ import annotations

import os
import stat
from collections.abc import Iterator, Mapping
from pathlib import Path

from guidec.edge.near import near_files
from guidec.notes.syntax import Document, Picture
from guidec.rules.finding import Finding

__all__ = ["find", "is_remote", "read", "shown_pictures"]

MOST_BYTES = 256 * 1024 * 1024
_LARGE = f"it is larger than {MOST_BYTES // 1024 // 1024} MB"


def find(folder: Path, document: Document) -> tuple[Mapping[str, Path], tuple[Finding, ...]]:
    """The files of all pictures by their path as typed. `folder` must be fully resolved."""
    files: dict[str, Path] = {}
    findings: list[Finding] = []
    for picture in shown_pictures(document):
        if picture.path in files or not picture.path or is_remote(picture.path):
            continue
        problem = _problem(folder, picture)
        if problem:
            findings.append(problem)
        else:
            files[picture.path] = Path(os.path.realpath(folder / picture.path))
    return files, tuple(findings)


def read(file: Path) -> bytes:
    """The bytes of a picture found by `find`.

    Raises OSError where it is gone, is no plain file by now, cannot be read, or changes while it is read.
    """
    flags = os.O_RDONLY | getattr(os, "O_NOFOLLOW", 0) | getattr(os, "O_NONBLOCK", 0) | getattr(os, "O_BINARY", 0)
    with os.fdopen(os.open(file, flags), "rb") as opened:
        before = os.fstat(opened.fileno())
        if not stat.S_ISREG(before.st_mode):
            raise OSError(0, "it is no plain file")
        data = opened.read(MOST_BYTES + 1)
        after = os.fstat(opened.fileno())
    if len(data) > MOST_BYTES:
        raise OSError(0, _LARGE)
    if (before.st_mtime_ns, before.st_size) != (after.st_mtime_ns, after.st_size) or len(data) != after.st_size:
        raise OSError(0, "the file changes while it is read")
    return data


def is_remote(path: str) -> bool:
    """Whether a path is an address: the note's reader speaks of those."""
    head = path.split("/", 1)[0]
    return ":" in head or path.startswith("//")


def _problem(folder: Path, picture: Picture) -> Finding | None:
    span, path = picture.path_span, picture.path
    if "\0" in path:
        return Finding.at("N005", span, path=path.replace("\0", "?"))
    try:
        lexical = os.path.normpath(folder / path)
        if not Path(lexical).is_relative_to(folder):
            return Finding.at("N006", span, path=path)
        real = Path(os.path.realpath(folder / path))
        if not real.is_relative_to(folder):
            return Finding.at("N006", span, variant="link", path=path)
        status = real.stat()
    except FileNotFoundError:
        return Finding.at("N005", span, path=path, suggest=_near(folder, path))
    except (OSError, ValueError) as error:
        return Finding.at("N007", span, path=path, reason=_reason(error))
    return _unusable(span_of=picture, status=status, real=real)


def _unusable(span_of: Picture, status: os.stat_result, real: Path) -> Finding | None:
    reason = ""
    if stat.S_ISDIR(status.st_mode):
        reason = "it is a folder"
    elif not stat.S_ISREG(status.st_mode):
        reason = "it is no plain file"
    elif status.st_size == 0:
        reason = "the file is empty"
    elif status.st_size > MOST_BYTES:
        reason = _LARGE
    elif not os.access(real, os.R_OK):
        reason = "permission denied"
    return Finding.at("N007", span_of.path_span, path=span_of.path, reason=reason) if reason else None


def _reason(error: OSError | ValueError) -> str:
    return (error.strerror or str(error)).lower() if isinstance(error, OSError) else str(error)


def _near(folder: Path, path: str) -> list[str]:
    parent = Path(path).parent
    return [(parent / name).as_posix() for name in near_files(folder / parent, Path(path).name)]


def shown_pictures(document: Document) -> Iterator[Picture]:
    """All pictures of a document, in note order."""
    return (picture for inline in document.inlines for picture in inline.pictures)
