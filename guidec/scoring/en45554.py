"""What is met on the way to a part, and the note's word on place and skill -> the classes of EN 45554:2020.

Classes only: no points are made of them, and none of a method's points are turned into them.
"""

from __future__ import annotations

from collections.abc import Mapping, Sequence
from functools import cache, lru_cache
from typing import Any

from guidec.model.types import Guide, Part
from guidec.plan import Route
from guidec.quick import dataclass
from guidec.scoring.evidence import Met, fastenings_of, once, tools_of
from guidec.scoring.method import Method
from guidec.scoring.names import for_part
from guidec.trade.likeness import fold
from guidec.trade.load import data

__all__ = ["Both", "Classes", "Grade", "classes", "level", "levels"]

Both = tuple[tuple[Met, ...], tuple[Met, ...]]
"""Fastenings and tools."""


@dataclass(frozen=True, slots=True)
class Grade:
    """One class. `letter`: None where something on the way has none; `by`: the things that decide it.

    `assumed`: a default or a proposal decides it.
    """

    letter: str | None
    by: tuple[str, ...] = ()
    assumed: bool = False


@dataclass(frozen=True, slots=True)
class Classes:
    """The classes of one part that comes off. `environment`, `skill`: None where the note does not say."""

    part: str
    fastenings: Grade
    tools: Grade
    environment: Grade | None
    skill: Grade | None


def levels(scale: str) -> tuple[str, ...]:
    """The words of a scale (`environment`, `skill`), and its letters."""
    rows = data("en-45554")[scale]
    return (*(word for row in rows for word in row["words"]), *(row["class"] for row in rows))


def level(scale: str, said: Any) -> str | None:
    """The letter of a word or letter as typed; None for what is neither."""
    return _level(scale, str(said))


@lru_cache(1024)  # asked of all that is met on the way to each part
def _level(scale: str, said: str) -> str | None:
    return _letters(scale).get(fold(said))


@cache
def _letters(scale: str) -> Mapping[str, str]:
    """Each word and letter of a scale, folded -> its letter; the first row that has it counts."""
    rows = data("en-45554")[scale]
    said = [(word, row["class"]) for row in rows for word in (*row["words"], row["class"].casefold())]
    return dict(reversed(said))


def classes(
    part: Part, guide: Guide, route: Route, method: Method | None, known: dict[str, Both] | None = None
) -> Classes:
    """The classes of a part by its whole way from the closed device.

    `known`: what is met on each action, kept from part to part of one guide.
    """
    met = [_met(action, guide, {} if known is None else known) for action in route.actions]
    return Classes(
        part.id,
        _worst("fastenings", once(one for fastenings, _ in met for one in fastenings)),
        _worst("tools", once(one for _, tools in met for one in tools)),
        _said("environment", part, guide, method),
        _said("skill", part, guide, method),
    )


def _met(own: str, guide: Guide, known: dict[str, Both]) -> Both:
    """The fastenings and tools met on one action."""
    found = known.get(own)
    if found is None:
        action = guide.actions[own]
        found = known[own] = (tuple(fastenings_of(action, guide)), tuple(tools_of(action, guide)))
    return found


def _worst(scale: str, found: Sequence[Met]) -> Grade:
    """The worst class among what is met; where one thing has none, only the last class is sure."""
    letters = {one.thing: level(scale, one.word) if one.word else None for one in found}
    known = [letter for letter in letters.values() if letter]
    unknown = tuple(thing for thing, letter in letters.items() if letter is None)
    last = data("en-45554")[scale][-1]["class"]
    worst = max(known, default="A")
    if unknown and worst != last:
        return Grade(None, unknown)
    by = tuple(thing for thing, letter in letters.items() if letter == worst)
    return Grade(worst, by, any(one.assumed for one in found if one.thing in by))


def _said(scale: str, part: Part, guide: Guide, method: Method | None) -> Grade | None:
    said = for_part(guide.meta.scoring.get(scale), part, method, guide)
    letter = level(scale, said) if said is not None else None
    return Grade(letter) if letter else None
