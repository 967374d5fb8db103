"""What every transcript reader yields: cues, in the order they are spoken."""

from __future__ import annotations

from guidec.quick import dataclass

__all__ = ["Beat", "Cue", "seconds"]


@dataclass(frozen=True, slots=True)
class Beat:
    """A time stamp within a cue: from character `at` of its text on, the words are spoken from `start`."""

    at: int
    start: float


@dataclass(frozen=True, slots=True)
class Cue:
    """A stretch of speech. Times in seconds; `line`: where it stands in the file, from 1; `speaker`: by name,
    or ``."""

    start: float
    end: float
    text: str
    line: int = 1
    speaker: str = ""
    beats: tuple[Beat, ...] = ()


def seconds(stamp: str) -> float:
    """`1:02:03.5`, `2:03,5`, `0:35` -> seconds."""
    total = 0.0
    for part in stamp.strip().replace(",", ".").split(":"):
        total = total * 60 + float(part)
    return total
