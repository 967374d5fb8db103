"""`M2×6`, `M10x0.75x12`, `ST2.9x9.5`, `2.5x8` -> diameter, pitch and length in mm."""

from __future__ import annotations

import re
from functools import cache
from typing import NamedTuple

from guidec.trade.load import data

__all__ = ["ThreadSize", "coarse_pitch", "read_inch_thread", "scan_thread"]

_NUMBER = r"\d+(?:[.,]\d+)?"
_TIMES = r"\s?[x×X*]\s?"
_LENGTH = r"(?:\s?mm\b)?"
_THREAD = re.compile(
    rf"(?P<system>ST|M)[ \-]?(?P<one>{_NUMBER})"
    rf"(?:{_TIMES}(?P<two>{_NUMBER})(?:{_TIMES}(?P<three>{_NUMBER}))?|[ ,]+(?P<after>{_NUMBER})(?=\s?mm\b))?"
    rf"{_LENGTH}(?![\w]|[.,]\d)",
    re.I,
)
_BARE = re.compile(
    rf"(?P<one>{_NUMBER})(?:\s?mm)?{_TIMES}(?P<two>{_NUMBER})(?:{_TIMES}(?P<three>{_NUMBER}))?{_LENGTH}(?![\w]|[.,]\d)",
    re.I,
)

_INCH = re.compile(
    r"(?:#\s?(?P<number>\d{1,2})|(?P<fraction>[135]/(?:4|8|16)))\s?-\s?(?:\d{2})(?:\s?(?:UNC|UNF))?"
    r"(?:\s?[x×X]\s?(?P<length>(?:\d+ )?\d+(?:/\d+|\.\d+)?)\s?(?:\"|″|in\b)?)?(?![\w/])",
    re.I,
)


class ThreadSize(NamedTuple):
    """A thread read, in mm. `text` is canonical (`M2×6`); `pitch` only where typed; `end` the offset after it."""

    text: str
    system: str
    diameter: float
    pitch: float | None
    length: float | None
    end: int


def scan_thread(text: str, at: int, nut: bool = False) -> ThreadSize | None:
    """The thread at an offset, or None. `nut`: a second number is the pitch."""
    found = _THREAD.match(text, at) or _BARE.match(text, at)
    if not found:
        return None
    groups = found.groupdict()
    numbers = [_mm(groups.get(name)) for name in ("one", "two", "three")]
    system = (groups.get("system") or "").upper()
    one, two, three = numbers
    after = _mm(groups.get("after"))
    if three is not None:
        pitch, length = two, three
    elif nut and two is not None and system != "ST":
        pitch, length = two, None
    else:
        pitch, length = None, two if two is not None else after
    sizes = [number for number in (one, pitch, length) if number is not None]
    text_ = system + "×".join(f"{number:g}" for number in sizes)
    return ThreadSize(text_, system, one or 0.0, pitch, length, found.end())


def _mm(typed: str | None) -> float | None:
    return float(typed.replace(",", ".")) if typed else None


@cache
def coarse_pitch(diameter: float) -> float | None:
    """The coarse pitch of a metric thread in mm (ISO 261), or None where the table has none."""
    table = data("threads")
    pitch = table["coarse"]["pitch"].get(diameter, table["more"]["pitch"].get(diameter))
    return float(pitch) if pitch is not None else None


def read_inch_thread(text: str, at: int) -> tuple[int, str] | None:
    """An inch thread at an offset (`#6-32 x 1/4`, `1/4-20`): the offset after it, and the same by diameter in mm.

    A number size n has 0.060 + 0.013 n inches (ASME B1.1; from memory).
    """
    found = _INCH.match(text, at) if "-" in text else None
    if not found:
        return None
    size = _inches(found["fraction"]) if found["fraction"] else 0.06 + 0.013 * int(found["number"])
    if not found["number"] or int(found["number"]) <= 12:
        length = f"x{_inches(found['length']) * 25.4:.3g}" if found["length"] else ""
        return found.end(), f"{size * 25.4:.3g}{length}"
    return None


def _inches(typed: str) -> float:
    whole, _, rest = typed.rpartition(" ")
    top, _, bottom = rest.partition("/")
    return float(whole or 0) + float(top) / float(bottom or 1)
