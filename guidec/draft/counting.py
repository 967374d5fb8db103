"""Words -> numbers: `twenty four`, `three point eight five`, `nineteen hundred`, `a hundred and fifty`,
`2,500`."""

from __future__ import annotations

import re
from collections.abc import Sequence

__all__ = ["UNITS", "number_at"]

UNITS = {
    word: value
    for value, word in enumerate(
        [
            "zero",
            "one",
            "two",
            "three",
            "four",
            "five",
            "six",
            "seven",
            "eight",
            "nine",
            "ten",
            "eleven",
            "twelve",
            "thirteen",
            "fourteen",
            "fifteen",
            "sixteen",
            "seventeen",
            "eighteen",
            "nineteen",
        ]
    )
}
TENS = {
    word: 10 * value
    for value, word in enumerate(["twenty", "thirty", "forty", "fifty", "sixty", "seventy", "eighty", "ninety"], 2)
} | {"fourty": 40}
SCALES = {"hundred": 100, "thousand": 1000, "grand": 1000}
_DIGITS = re.compile(r"\d{1,3}(?:,\d{3})+(?:\.\d+)?|\d+(?:\.\d+)?|\d+,\d{1,2}")
HALVES = {"½": 0.5, "¼": 0.25, "¾": 0.75}


_DOZENS = (
    (("half", "a", "dozen"), 6.0), (("half", "dozen"), 6.0), (("a", "dozen"), 12.0), (("two", "dozen"), 24.0),
)  # fmt: skip


def number_at(words: Sequence[str], at: int) -> tuple[float, int] | None:
    """The number that starts at a word, and how many words it takes; None where there is none.

    `a` and `an` count only before `hundred` and `thousand`; `and a half`, `and a quarter` belong to it.
    """
    start = at
    for lead, dozen in _DOZENS:
        if tuple(words[at : at + len(lead)]) == lead:
            return dozen, len(lead)
    value, at = _whole(words, at)
    if value is None:
        if words[at] != "point" or (decimals := _decimals(words, at + 1)) is None:
            return None
        return float(f"0.{decimals[0]}"), decimals[1] - start
    if at < len(words) and words[at] == "point" and (decimals := _decimals(words, at + 1)):
        value, at = float(f"{int(value)}.{decimals[0]}"), decimals[1]
    tail = tuple(words[at : at + 3])
    if tail == ("and", "a", "half"):
        value, at = value + 0.5, at + 3
    elif tail == ("and", "a", "quarter"):
        value, at = value + 0.25, at + 3
    elif tail[:1] and tail[0] in HALVES:
        value, at = value + HALVES[tail[0]], at + 1
    return value, at - start


def _whole(words: Sequence[str], at: int) -> tuple[float | None, int]:
    word = words[at]
    if _DIGITS.fullmatch(word):
        value = float(re.sub(r",(?=\d{3})", "", word).replace(",", "."))
        if at + 1 < len(words) and words[at + 1] in SCALES:
            return value * SCALES[words[at + 1]], at + 2
        return value, at + 1
    if word in ("a", "an") and at + 1 < len(words) and words[at + 1] in SCALES:
        return _scaled(words, at + 1, 1.0)
    if word == "hundred" and words[at + 1 : at + 2] == ["and"] and at + 2 < len(words):
        return _scaled(words, at, 1.0)  # `a minute, hundred and twenty or so`
    below, at = _below_hundred(words, at)
    if below is None:
        return None, at
    if 0 < below < 10 and at < len(words) and words[at] in TENS:  # `three sixty`
        tens, at = _below_hundred(words, at)
        return below * 100 + (tens or 0), at
    return _scaled(words, at, below)


def _scaled(words: Sequence[str], at: int, value: float) -> tuple[float, int]:
    """`VALUE hundred and fifty`, `VALUE thousand two hundred`; also `twenty five hundred`."""
    total = 0.0
    while at < len(words) and words[at] in SCALES:
        scale = SCALES[words[at]]
        at += 1
        if scale == 1000:
            total, value = (total + value) * 1000, 0.0
        else:
            total, value = total + value * scale, 0.0
        rest = at + 1 if at < len(words) and words[at] == "and" else at
        if rest < len(words):
            more, after = _below_hundred(words, rest)
            if more is not None:
                value, at = more, after
    return total + value, at


def _below_hundred(words: Sequence[str], at: int) -> tuple[float | None, int]:
    word = words[at] if at < len(words) else ""
    if word in TENS:
        value = float(TENS[word])
        if at + 1 < len(words) and 0 < UNITS.get(words[at + 1], 0) < 10:
            return value + UNITS[words[at + 1]], at + 2
        return value, at + 1
    if word in UNITS:
        return float(UNITS[word]), at + 1
    if word in HALVES:
        return HALVES[word], at + 1
    return None, at


def _decimals(words: Sequence[str], at: int) -> tuple[str, int] | None:
    """The digits after `point`: `eight five`, `eighty five`, `zero five`, `85`."""
    digits = ""
    while at < len(words):
        if words[at].isdigit():
            digits += words[at]
        elif UNITS.get(words[at], 10) < 10 or words[at] in ("oh", "o"):
            digits += str(UNITS.get(words[at], 0))
        elif words[at] in TENS and not digits:
            value, at = _below_hundred(words, at)
            return str(int(value or 0)), at
        else:
            break
        at += 1
    return (digits, at) if digits else None
