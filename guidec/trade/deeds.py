"""A verb, or a text, and a language -> the kind of work it is (levering, heating, discharging a cell, …)."""

from __future__ import annotations

import re
from functools import cache

from guidec.trade.load import data
from guidec.trade.phrases import first_phrase, in_language

__all__ = ["advises_discharge", "is_deed", "says_swollen", "speaks_of"]

_CLAUSE = re.compile(r"[^.;!?\n]+")


@cache
def _verbs(deed: str, language: str) -> frozenset[str]:
    return frozenset(in_language(data("deeds")["verbs"][deed], language))


def is_deed(verb: str, deed: str, language: str = "en") -> bool:
    """Whether a verb of the lexicon (its particle after it) is a kind of work: `lever`, `heat`, `solder`, …"""
    return verb.split(" ")[0].casefold() in _verbs(deed, language)


def speaks_of(text: str, list_: str, language: str = "en") -> bool:
    """Whether a text names something of a list of the data: `hot_tools`, `glass`, `under_tension`, …"""
    return bool(text) and first_phrase(text, in_language(data("deeds")[list_], language)) is not None


@cache
def _pattern(list_: str, language: str) -> re.Pattern[str]:
    return re.compile("|".join(in_language(data("deeds")[list_], language)), re.I)


def advises_discharge(text: str, language: str = "en") -> bool:
    """Whether some clause of a text says to run a cell down, and not to discharge something else."""
    pattern = _pattern("discharging_cells", language)
    others = in_language(data("deeds")["not_discharging"], language)
    return any(
        pattern.search(clause[0]) and not first_phrase(clause[0], others) for clause in _CLAUSE.finditer(text)
    )


def says_swollen(text: str, language: str = "en") -> bool:
    """Whether a text speaks of a swollen cell."""
    return _pattern("swelling", language).search(text) is not None
