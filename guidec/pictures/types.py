"""What is asked of a photo, what comes of it, and the same as bytes for the cache and for workers."""

from __future__ import annotations

import json
from typing import NamedTuple

from guidec.quick import dataclass

__all__ = ["Box", "Derived", "File", "UnreadableError", "packed", "unpacked"]

Box = tuple[float, float, float, float]
"""Left, top, right, bottom of the part that is shown, in percent of the whole upright picture."""


class UnreadableError(Exception):
    """The bytes are no picture that can be used; the message says why, in words that follow "cannot be read:"."""


class File(NamedTuple):
    """One derived picture. `name` is made of its content; `type` is its media type; sizes in pixels."""

    name: str
    data: bytes
    width: int
    height: int
    type: str


@dataclass(frozen=True, slots=True)
class Derived:
    """All that comes of one photo, or of a part of it.

    `width`, `height`: what was there to show, upright, in pixels. `screen`: from small to large; `fallback`: for
    browsers that do not read those; `printed`: for paper. `format`: what the photo was; `facts`: what there was to
    notice in it: `animated`, `cmyk`, `deep`, `see-through`.
    """

    width: int
    height: int
    screen: tuple[File, ...]
    fallback: File
    printed: File
    format: str
    facts: tuple[str, ...] = ()


def packed(derived: Derived) -> bytes:
    """As bytes: a line of JSON, then the files one after another."""
    files = (*derived.screen, derived.fallback, derived.printed)
    head = {
        "width": derived.width,
        "height": derived.height,
        "format": derived.format,
        "facts": derived.facts,
        "files": [[one.name, len(one.data), one.width, one.height, one.type] for one in files],
    }
    return b"".join((json.dumps(head).encode(), b"\n", *(one.data for one in files)))


def unpacked(data: bytes) -> Derived:
    """The same back. Raises ValueError for anything else."""
    end = data.index(b"\n")
    head = json.loads(data[:end])
    files, at = [], end + 1
    for name, length, width, height, type_ in head["files"]:
        files.append(File(name, data[at : at + length], width, height, type_))
        at += length
    if at != len(data) or len(files) < 3:
        raise ValueError("cut short")
    return Derived(
        head["width"],
        head["height"],
        tuple(files[:-2]),
        files[-2],
        files[-1],
        head["format"],
        tuple(head["facts"]),
    )
