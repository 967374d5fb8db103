"""A language tag -> its verbs and small words, as the action reader wants them."""

from __future__ import annotations

from collections.abc import Mapping
from functools import cache
from pathlib import Path
from typing import Any

import yaml

from guidec.quick import dataclass

__all__ = ["Lexicon", "Sense", "lexicon"]

FOLDER = Path(__file__).parent / "data" / "lexicon"
BASE, THIRD, PAST, ING = "base", "third", "past", "ing"


@dataclass(frozen=True, slots=True)
class Sense:
    """One reading of a word form: its verb, what the verb does, the particle it asks for, and its form."""

    verb: str
    family: str
    particle: str | None
    forms: frozenset[str]


@dataclass(frozen=True, slots=True)
class Lexicon:
    """The words of one language. `senses`: word form -> its readings, those with a particle first."""

    language: str
    senses: Mapping[str, tuple[Sense, ...]]
    adverbs: frozenset[str]
    connectives: frozenset[str]
    particles: frozenset[str]
    prepositions: frozenset[str]
    instruments: frozenset[str]
    """The prepositions that name what something is done with."""
    linking: frozenset[str]
    negations: frozenset[str]
    determiners: frozenset[str]
    shares: Mapping[str, tuple[tuple[str, ...], ...]]
    numbers: Mapping[str, int]
    signals: Mapping[str, str]
    sides: Mapping[str, str]
    first_side: str
    of: frozenset[str]
    gerunds: frozenset[str]
    """Forms that are an -ing form and nothing else."""
    particles_last: bool
    """A verb's particle may stand behind a preposition and what follows it ("nimm … mit der Karte ab")."""

    def words(self) -> tuple[str, ...]:
        """Every verb form, for looking up what a misspelt word may have been."""
        return tuple(self.senses)


@cache
def lexicon(language: str) -> Lexicon | None:
    """The lexicon of a BCP 47 tag (`en-GB` falls back to `en`), or None where none is shipped."""
    tag = language.replace("_", "-").lower()
    while tag:
        path = FOLDER / f"{tag}.yaml"
        if path.is_file():
            loader = getattr(yaml, "CSafeLoader", yaml.SafeLoader)
            return _build(yaml.load(path.read_bytes(), loader))
        tag = tag.rpartition("-")[0]
    return None


def _build(data: Mapping[str, Any]) -> Lexicon:
    senses = _senses(data["verbs"])
    return Lexicon(
        language=data["language"],
        senses=senses,
        gerunds=frozenset(form for form, found in senses.items() if any(one.forms == {ING} for one in found)),
        shares={
            name: tuple(tuple(phrase.split()) for phrase in phrases) for name, phrases in data["shares"].items()
        },
        numbers=data["numbers"],
        signals=data["signals"],
        sides=data["sides"],
        first_side=data["first_side"],
        particles_last=data["particles_last"],
        **{name: frozenset(data[name].split()) for name in _WORD_SETS},
    )


_WORD_SETS = (
    "adverbs",
    "connectives",
    "particles",
    "prepositions",
    "instruments",
    "linking",
    "negations",
    "determiners",
    "of",
)


def _senses(verbs: Mapping[str, Mapping[str, str]]) -> dict[str, tuple[Sense, ...]]:
    """Form -> readings. `verbs`: family -> `verb [particle]` -> its other forms, third person first, -ing last."""
    found: dict[str, dict[tuple[str, str | None], set[str]]] = {}
    families: dict[tuple[str, str | None], str] = {}
    for family, entries in verbs.items():
        for entry, others in entries.items():
            word, _, particle = entry.partition(" ")
            key = (word, particle or None)
            families[key] = family
            for form, kind in _kinds(word, others.split()):
                found.setdefault(form, {}).setdefault(key, set()).add(kind)
    return {
        form: tuple(
            Sense(" ".join(filter(None, key)), families[key], key[1], frozenset(kinds))
            for key, kinds in sorted(readings.items(), key=lambda item: item[0][1] is None)
        )
        for form, readings in found.items()
    }


def _kinds(word: str, others: list[str]) -> list[tuple[str, str]]:
    third, *past, ing = others
    return [(word, BASE), (third, THIRD), (ing, ING), *((form, PAST) for form in past or [word])]
