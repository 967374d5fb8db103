"""A number as people write it -> its value: decimal comma or point, fractions, thousands, words."""

from __future__ import annotations

import re
import unicodedata
from functools import cache
from typing import NamedTuple

from guidec.trade.load import data

__all__ = ["Number", "number_words", "read_count", "read_number"]

_NUMBER = re.compile(
    r"(?P<sign>[-−+](?=[\d.½-¾]))?"
    r"(?:(?P<mixed>\d+)\s+(?=\d+\s?[/⁄]\s?\d)|(?P<glued>\d+)\s?(?=[¼-¾⅐-⅞]))?"
    r"(?:(?P<top>\d+)\s?[/⁄]\s?(?P<bottom>2|3|4|5|6|8|10|16|32|64)(?![\d.,])|(?P<vulgar>[¼-¾⅐-⅞])"
    r"|(?P<grouped>[1-9]\d{0,2}(?:(?:,\d{3})+|(?:[ \u00a0\u202f\u2009]\d{3})+)(?!\d)(?:\.\d+)?)"
    r"|(?P<plain>\d+(?:[.,]\d+)?|[.,]\d+))"
)
_TIMES = re.compile(r"(?<=[\d\s])\s*[x×]$|\s*×$")
_WORD = re.compile(r"[^\W\d_]+(?:-[^\W\d_]+)*")


class Number(NamedTuple):
    """A number read: its value, the offset after it, and how many of its digits count (0: exact)."""

    value: float
    end: int
    digits: int = 0
    decimals: int = 0


def read_number(text: str, at: int) -> Number | None:
    """The number in figures at an offset. `1,000` is a thousand, `0,150` and `1,5` have a decimal comma."""
    found = _NUMBER.match(text, at)
    if not found:
        return None
    if found["top"]:
        value = int(found["top"]) / int(found["bottom"])
    elif found["vulgar"]:
        value = unicodedata.numeric(found["vulgar"])
    else:
        typed = re.sub(r"[ ,\u00a0\u202f\u2009]", "", found["grouped"]) if found["grouped"] else found["plain"]
        return _figures(typed.replace(",", "."), found)
    value += int(found["mixed"] or found["glued"] or 0)
    return Number(-value if found["sign"] in ("-", "−") else value, found.end())


def _figures(typed: str, found: re.Match[str]) -> Number:
    value = float(typed)
    decimals = len(typed.partition(".")[2])
    digits = len(typed.replace(".", "").lstrip("0"))
    return Number(-value if found["sign"] in ("-", "−") else value, found.end(), max(digits, 1), decimals)


@cache
def number_words() -> dict[str, float]:
    """Number words of all languages known, lower case."""
    table = data("units")["words"]
    words = {
        word: float(number) for tongue in ("en", "de") for number, word in enumerate(table[tongue].split(), 1)
    }
    return words | {word.replace("·", " "): float(number) for word, number in table["more"].items()}


def read_word(text: str, at: int) -> Number | None:
    """The number word at an offset (`two`, `half a`), the longest that fits."""
    words = number_words()
    found = _WORD.match(text, at)
    if not found:
        return None
    second = _WORD.match(text, found.end() + 1)
    for end in ([second.end()] if second else []) + [found.end()]:
        value = words.get(" ".join(text[at:end].casefold().split()))
        if value is not None:
            return Number(value, end)
    return None


def read_count(text: str) -> int | None:
    """A whole number of things, in figures or in words: `4`, `4x`, `six`; None where it is none."""
    word = _TIMES.sub("", text.strip().casefold())
    value = float(word) if word.isdecimal() else number_words().get(word)
    return int(value) if value is not None and value == int(value) else None
