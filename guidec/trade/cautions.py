"""The id of a usual caution and a language -> its words and signal word, and whether an author says it already."""

from __future__ import annotations

from string import Template
from typing import Any

from guidec.quick import dataclass
from guidec.trade.load import data, names
from guidec.trade.phrases import in_language, matches_all

__all__ = ["Caution", "Usual", "caution", "caution_ids", "covers", "joined", "says_so", "usual_cautions"]


@dataclass(frozen=True, slots=True)
class Caution:
    """A caution in words. `signs`: numbers of ISO 7010 signs that belong to it."""

    id: str
    signal: str
    hazard: str
    consequence: str
    avoidance: str
    signs: tuple[str, ...]

    @property
    def text(self) -> str:
        """Hazard, consequence, avoidance, in that order."""
        return f"{self.hazard} {self.consequence} {self.avoidance}"


@dataclass(frozen=True, slots=True)
class Usual:
    """The page of usual cautions: its title and its paragraphs."""

    title: str
    paragraphs: tuple[str, ...]


def _words(language: str) -> Any:
    """The words of a language, English where there are none of it."""
    short = language.split("-")[0].casefold()
    return data(f"cautions/{short}" if f"cautions/{short}" in names("cautions") else "cautions/en")


def caution_ids() -> tuple[str, ...]:
    """All ids."""
    return tuple(data("cautions")["rows"])


def caution(id_: str, language: str = "en", *, said: bool = True, **facts: object) -> Caution:
    """A caution with its facts filled in. Raises KeyError for an unknown id or a missing fact.

    `said`: whether the note says that there is what is warned of (see `says_so`).
    """
    row, words = data("cautions")["rows"][id_], _words(language)["cautions"][id_]
    first = "hazard" if said else "hazard.unsaid"
    hazard, consequence, avoidance = (
        Template(words[part]).substitute(facts) for part in (first, "consequence", "avoidance")
    )
    return Caution(id_, row["signal"], _opened(hazard), consequence, avoidance, tuple(row["signs"]))


def _opened(sentence: str) -> str:
    return sentence[:1].upper() + sentence[1:]


def covers(id_: str, text: str, language: str = "en") -> bool:
    """Whether a text in the author's words says what the caution would."""
    return matches_all(text, in_language(data("cautions")["rows"][id_]["covers"], language))


def says_so(id_: str, text: str, language: str = "en") -> bool:
    """Whether a note says that there is what a caution warns of; true of cautions that need no such word."""
    said = data("cautions")["rows"][id_].get("said")
    return said is None or matches_all(text, in_language(said, language))


def joined(items: list[str], language: str = "en") -> str:
    """`a, b and c`."""
    last = _words(language)["lists"]["and"]
    return items[0] if len(items) == 1 else f"{', '.join(items[:-1])} {last} {items[-1]}"


def usual_cautions(language: str = "en", *, power: bool = True, cells: bool = True, waste: bool = True) -> Usual:
    """The page of usual cautions, with the sentence on local codes and licensed practice.

    What is said only of devices with a source of power, of those with cells, or where the guide lists what has to
    come out first, is left out of all others.
    """
    usual, there = _words(language)["usual"], {"power": power, "cells": cells, "waste": waste}
    return Usual(
        usual["title"], tuple(row["text"] for row in usual["paragraphs"] if there.get(row.get("when"), True))
    )
