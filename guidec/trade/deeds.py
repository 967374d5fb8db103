"""A verb, or a text, and a language -> the kind of work it is (levering, heating, discharging a cell, …)."""

from __future__ import annotations

import re
from functools import cache, lru_cache

from guidec.trade.load import data
from guidec.trade.phrases import first_phrase, in_language

__all__ = ["advises_discharge", "is_deed", "patterns", "says_swollen", "speaks_of", "words"]

_CLAUSE = re.compile(r"[^.;!?\n]+")


@cache
def _verbs(deed: str, language: str) -> frozenset[str]:
    return frozenset(in_language(data("deeds")["verbs"][deed], language))


@lru_cache(4096)  # asked of every action by a dozen rules
def is_deed(verb: str, deed: str, language: str = "en") -> bool:
    """Whether a verb of the lexicon (its particle after it) is a kind of work: `lever`, `heat`, `solder`, …"""
    return verb.split(" ")[0].casefold() in _verbs(deed, language)


def speaks_of(text: str, list_: str, language: str = "en") -> bool:
    """Whether a text names something of a list of the data: `hot_tools`, `glass`, `under_tension`, …"""
    return bool(text) and first_phrase(text, _listed(list_, language)) is not None


@cache
def _listed(list_: str, language: str) -> tuple[str, ...]:
    return in_language(data("deeds")[list_], language)


def patterns(list_: str, language: str = "en") -> re.Pattern[str]:
    """A list of regular expressions of the data as one: `conditional`, `waiting`, `putting_back`, …"""
    return _pattern(list_, language)


def words(list_: str, language: str = "en") -> tuple[str, ...]:
    """A list of words of the data, in a language."""
    return _listed(list_, language)


@cache
def _pattern(list_: str, language: str) -> re.Pattern[str]:
    return re.compile("|".join(_listed(list_, language)), re.I)


@lru_cache(2)  # asked of the whole note for each cell that is levered
def advises_discharge(text: str, language: str = "en") -> bool:
    """Whether some clause of a text says to run a cell down, and not to discharge something else."""
    pattern = _pattern("discharging_cells", language)
    others = _listed("not_discharging", language)
    return any(
        pattern.search(clause[0]) and not first_phrase(clause[0], others) for clause in _CLAUSE.finditer(text)
    )


def says_swollen(text: str, language: str = "en") -> bool:
    """Whether a text speaks of a swollen cell."""
    return _pattern("swelling", language).search(text) is not None
