"""A part's name -> the class it is proposed for, by the words it ends with."""

from __future__ import annotations

import re
from functools import cache

from guidec.trade.load import data

__all__ = ["part_classes", "propose_class"]

_STOP = re.compile(r"\s+(?:of|for|from|with|to|on|in|at|under|behind|und|and|von|für|mit|der|des)\s+|\s*[(,]")
_TAIL = re.compile(r"(?:[\W\d_]*\d+|\b[a-z])$")
_COMPOUNDING = ("de",)
"""Languages that write compounds as one word: there a name may end inside a word (`Akkudeckel`)."""


@cache
def part_classes() -> tuple[str, ...]:
    """The classes of the language, in its order."""
    return tuple(data("classes")["classes"].split())


def propose_class(name: str, language: str = "en") -> str | None:
    """The class to propose for a part of that name, or None. English is tried where the language has no list.

    What a name ends with decides: a display cable is a cable, and a battery cover a cover.
    """
    tongue = language.split("-")[0].casefold()
    for table in (tongue, "en") if tongue in _phrases() else ("en",):
        found = _by_ending(_STOP.split(name.casefold().strip(), 1)[0], table)
        if found:
            return None if found == "-" else found
    return None


def _by_ending(name: str, table: str) -> str | None:
    phrases, tails = _phrases()[table]
    words = name.replace("_", " ").split()
    while words:
        found = _longest(words, phrases)
        if found or table not in _COMPOUNDING:
            pass
        else:
            found = _inside(words[-1], phrases)
        if found:
            return found
        if words[-1] not in tails and not _TAIL.fullmatch(words[-1]):
            return None
        words = words[:-1]
    return None


def _longest(words: list[str], phrases: dict[str, str]) -> str | None:
    for start in range(max(0, len(words) - 4), len(words)):
        phrase = " ".join(words[start:])
        for form in (phrase, *_singulars(phrase)) if phrase.endswith("s") else (phrase,):
            # A bare "cover" is one only where nothing before it says of what.
            if form in phrases and not (form in _ALONE and start):
                return phrases[form]
    return None


def _singulars(phrase: str) -> tuple[str, str, str]:
    """What a phrase that ends with `s` may be the plural of."""
    return phrase.removesuffix("s"), phrase.removesuffix("ies") + "y", phrase.removesuffix("es")


_ALONE = frozenset({"cover", "lid"})


def _inside(word: str, phrases: dict[str, str]) -> str | None:
    ends = [phrase for phrase in phrases if len(phrase) > 3 and word.endswith(phrase)]
    return phrases[max(ends, key=len)] if ends else None


@cache
def _phrases() -> dict[str, tuple[dict[str, str], frozenset[str]]]:
    """By language: each phrase with its class, and the words that may follow."""
    tables = {}
    for tongue, row in data("classes").items():
        if isinstance(row, dict):
            found = {phrase: cls for cls, line in row.items() if cls != "tail" for phrase in line.split(", ")}
            tables[tongue] = (found, frozenset(row["tail"].split()))
    return tables
