"""Text at an offset -> a quantity in the units typed: bound, number or range, unit."""

from __future__ import annotations

import re
from functools import cache
from typing import NamedTuple

from guidec.trade.load import data
from guidec.trade.numbers import Number, read_number, read_word
from guidec.trade.unit_table import Unit, find_unit, read_unit

__all__ = ["Scanned", "scan"]

_SPACE = re.compile(r"\s*")
_RANGE = re.compile(r"\s*(?:[-–—−‑]|…|\.{2,3}|to\b|bis\b|or\b|oder\b)\s*", re.I)
_BETWEEN = re.compile(r"(?:between|zwischen|from|von)\s+(?=[\d.,−-])", re.I)
_BETWEEN_RANGE = re.compile(r"\s*(?:[-–—]|and\b|und\b|to\b|bis\b|or\b|oder\b)\s*", re.I)
_PLUS_MINUS = re.compile(r"\s*(?:±|\+\s?/\s?[-−]|\+-)\s*")
_AND = re.compile(r"\s*(?:and\b|und\b)?\s*")
_CLOCK = re.compile(r"(\d+):([0-5]\d)(?![\d:])")
_SIGN = re.compile(r"<=|=<|≤|⩽|<|>=|=>|≥|⩾|>|~|≈|≃|∼|=")
_BOUND_WORD = re.compile(r"[^\W\d_]+\.?(?:\s[^\W\d_]+){0,2}\s+")
_DOTTED = re.compile(r"(?<!\d)[1-9]\d{0,2}\.\d{3}\s*$")
"""A thousand with a dot (`2.600 mAh`): no cell has so little that a point could be meant."""


class Scanned(NamedTuple):
    """What was read: numbers in the unit typed. `unit` None: `word` is no unit known, or empty: none typed."""

    start: int
    end: int
    low: float
    high: float
    bound: str
    unit: Unit | None
    word: str
    word_start: int
    digits: int = 0
    decimals: int = 0
    tolerance: float | None = None
    middle: float = 0.0
    parts: tuple[tuple[float, Unit], ...] = ()
    """The pieces of `1 min 30 s`."""


@cache
def _bounds() -> dict[str, str]:
    rows = data("units")["bounds"].items()
    words = {word.replace("·", " "): sign for sign, line in rows for word in line.split()}
    return words | {sign: sign for sign, _ in rows}


def scan(text: str, at: int = 0, dimensions: tuple[str, ...] = ()) -> Scanned | None:
    """The quantity that starts at an offset, or None where no number does.

    A number in words counts only with a unit known. `dimensions`: what is due there.
    """
    bound, here = _bound(text, at)
    between = _BETWEEN.match(text, here)
    here = between.end() if between else here
    clock = _clock(text, here, dimensions)
    if clock:
        return clock._replace(start=at, bound=bound)
    number = read_number(text, here)
    words = number is None
    number = number or read_word(text, here)
    if number is None:
        return None
    range_ = _BETWEEN_RANGE if between else _RANGE
    read = _with_unit(text, at, bound, number, dimensions, range_)
    if words and read.unit is None:
        return None
    return read


def _bound(text: str, at: int) -> tuple[str, int]:
    """A bound before a number (`<=`, `about`) and the offset after it; `=` where there is none."""
    found = _SIGN.match(text, at)
    if found:
        return _bounds()[found[0]], _skip(text, found.end())
    words = _BOUND_WORD.match(text, at)
    while words:
        sign = _bounds().get(" ".join(words[0].casefold().split()))
        if sign:
            return sign, words.end()
        shorter = words[0].rstrip().rfind(" ")
        words = _BOUND_WORD.match(text, at, at + shorter + 1) if shorter > 0 else None
    return "=", at


def _skip(text: str, at: int) -> int:
    found = _SPACE.match(text, at)
    return found.end() if found else at


def _with_unit(
    text: str, start: int, bound: str, number: Number, dimensions: tuple[str, ...], range_: re.Pattern[str]
) -> Scanned:
    second, tolerance = _second(text, number, range_), None
    if second is None:
        tolerance = _tolerance(text, number.end)
    end = (second or tolerance or number).end
    unit, word, word_at, end = _unit(text, end, dimensions)
    if unit and unit.symbol == "mAh" and _DOTTED.search(text, start, word_at):
        number = number._replace(value=number.value * 1000)
    if tolerance and tolerance.value and word == "" and unit is None:
        word_at = end
    digits = max(number.digits, second.digits if second else 0)
    high = (second or number).value
    decimals, middle = number.decimals, number.value
    read = Scanned(start, end, number.value, high, bound, unit, word, word_at, digits, decimals, None, middle)
    if tolerance:
        return _spread(read, tolerance.value)
    if unit and second is None:
        return _after_unit(text, read, dimensions, range_)
    return read


def _second(text: str, number: Number, range_: re.Pattern[str]) -> Number | None:
    """The far end of a range that begins with a number: `30-60`, `30 to 60`."""
    dash = range_.match(text, number.end)
    second = read_number(text, dash.end()) if dash else None
    return second if second and second.value >= number.value else None


def _tolerance(text: str, at: int) -> Number | None:
    sign = _PLUS_MINUS.match(text, at)
    return read_number(text, sign.end()) if sign else None


def _unit(text: str, at: int, dimensions: tuple[str, ...]) -> tuple[Unit | None, str, int, int]:
    """The unit after a number: unit, word, where the word starts, where it ends."""
    word_at = _skip(text, at)
    found = read_unit(text, word_at, dimensions)
    if not found:
        return None, "", at, at
    unit, word, end = found
    return unit, word, word_at, end


def _after_unit(text: str, read: Scanned, dimensions: tuple[str, ...], range_: re.Pattern[str]) -> Scanned:
    """What may follow `30 s`: `- 60 s`, `± 10 %`, or the next smaller unit (`1 min 30 s`)."""
    unit = read.unit
    assert unit is not None
    tolerance = _tolerance(text, read.end)
    if tolerance:
        other, _, _, end = _unit(text, tolerance.end, dimensions)
        spread = tolerance.value
        if other and other.dimension == "ratio":
            spread = abs(read.low) * tolerance.value / 100
        elif other and other.dimension == unit.dimension:
            spread = tolerance.value * other.factor / unit.factor
        return _spread(read._replace(end=end if other else tolerance.end), spread)
    dash = range_.match(text, read.end)
    second = read_number(text, dash.end()) if dash else None
    if second:
        other, _, _, end = _unit(text, second.end, dimensions)
        if other and other.dimension == unit.dimension:
            high = unit.from_base(other.to_base(second.value))
            if high >= read.high:
                return read._replace(high=high, end=end, digits=max(read.digits, second.digits))
    return _compound(text, read) if unit.dimension == "time" else read


def _compound(text: str, read: Scanned) -> Scanned:
    """`1 h 30 min`, `1 min 30 s`, `1m30s` is not one: `m` is a metre."""
    unit = read.unit
    assert unit is not None
    joint = _AND.match(text, read.end)
    more = read_number(text, joint.end()) if joint else None
    other = _unit(text, more.end, ("time",)) if more else None
    if not more or not other or not other[0] or other[0].dimension != "time" or other[0].factor >= unit.factor:
        return read
    small = other[0]
    parts = (*(read.parts or ((read.low, unit),)), (more.value, small))
    total = read.low + more.value * small.factor / unit.factor
    return read._replace(low=total, high=total, middle=total, end=other[3], parts=parts, digits=0)


def _clock(text: str, at: int, dimensions: tuple[str, ...]) -> Scanned | None:
    """`1:30 min` or `1:30 h`."""
    found = _CLOCK.match(text, at)
    if not found:
        return None
    unit, word, word_at, end = _unit(text, found.end(), dimensions)
    small = find_unit("s" if unit and unit.symbol == "min" else "min")
    if not unit or unit.symbol not in ("min", "h") or not small:
        return None
    value = int(found[1]) + int(found[2]) / 60
    parts = ((float(found[1]), unit), (float(found[2]), small))
    return Scanned(at, end, value, value, "=", unit, word, word_at, middle=value, parts=parts)


def _spread(read: Scanned, spread: float) -> Scanned:
    low, high = read.middle - spread, read.middle + spread
    return read._replace(low=low, high=high, tolerance=spread)
