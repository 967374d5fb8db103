"""Results told without a verb that removes ("it's on the bench", "there she goes", "out with it") -> actions."""

from __future__ import annotations

import re
from functools import cache

from guidec.draft import moods
from guidec.draft.acts import turn, undo
from guidec.draft.clauses import Clause
from guidec.draft.item import Item
from guidec.draft.mind import Mind
from guidec.draft.pronouns import meant
from guidec.draft.reading import BE, CABLES, NEGATIVE, OVER
from guidec.draft.refer import things_of
from guidec.draft.story import Act, Named, Things
from guidec.draft.verbs import Doing
from guidec.draft.wordset import among
from guidec.trade.load import data

__all__ = ["result"]

_OFF = Doing("come", "", "undo", "Remove", frozenset({"base"}))


@cache
def _patterns() -> dict[str, re.Pattern[str]]:
    return {name: re.compile(words) for name, words in data("draft/words-en")["results"].items()}


def result(mind: Mind, clause: Clause) -> Act | None:
    """The action that a clause of result tells; None where it tells none."""
    if any(item.text in NEGATIVE or item.text in among("if until unless when") for item in clause.items):
        return None
    if _said("turned", clause) or _over(clause):
        return turn(mind, clause)
    refs = _gone(mind, clause) or _rests(mind, clause) or _likewise(mind, clause) or _listed(mind, clause)
    refs = [
        ref for ref in refs if not (isinstance(ref, Named) and ref.kind not in ("part", "connector", "adhesive"))
    ]
    return undo(mind, clause, clause.items[0], _OFF, "", refs) if refs else None


def _said(name: str, clause: Clause) -> re.Match[str] | None:
    return _patterns()[name].search(clause.text.replace(" 's", "'s"))


def _over(clause: Clause) -> bool:
    """`place it face down`, `put it so the screws face you`: an order, or what somebody does."""
    words = clause.text.split()
    if not any(word in among("it her him this that") for word in words) or any(word in BE for word in words):
        return False
    return OVER.search(clause.text) is not None and not any(item.is_a("part") for item in clause.items)


def _gone(mind: Mind, clause: Clause) -> Things:
    """`there she goes`, `here it comes`, `out with it`, `away with the board`."""
    if _said("goes", clause):
        return meant(mind, clause, "them" if "they" in clause.text.split() else "it", _OFF, None)
    if _said("with", clause):
        return _named(mind, clause) or meant(mind, clause, "it", _OFF, None)
    return []


def _rests(mind: Mind, clause: Clause) -> Things:
    """`the gimbal is on the mat`, `i'm holding the board`, `and that's in the tray`."""
    if _said("rests", clause):
        return _named(mind, clause, before=among("on in onto into")) or _pronoun(mind, clause)
    if _said("holding", clause):
        return _named(mind, clause)
    return []


def _likewise(mind: Mind, clause: Clause) -> Things:
    """`and so does the speaker`, `the board follows`, right behind a removal."""
    last = mind.last
    if last is None or last.do not in ("remove", "unplug") or clause.start - last.start > 12:
        return []
    return _named(mind, clause) if _said("too", clause) else []


def _listed(mind: Mind, clause: Clause) -> Things:
    """`speaker lead. keyboard ribbon.`, right behind a connector that was opened: opened too."""
    last = mind.last
    if last is None or last.do != "unplug" or not 0 <= clause.start - last.start < 11 or clause.verb is not None:
        return []
    first = next((at for at, item in enumerate(clause.items) if item.text not in mind.words.small["starters"]), 0)
    item = clause.items[first]
    if (
        item.kind != "thing"
        or item.det not in ("", "the")
        or len(clause.items) > first + 6
        or moods.is_("look", clause)
    ):
        return []
    if not (item.is_a("connector") or item.head.split()[-1] in CABLES):
        return []
    return things_of(mind, clause, first, _OFF)


def _named(mind: Mind, clause: Clause, before: frozenset[str] = frozenset()) -> Things:
    """The things that a clause names, up to the first of some words."""
    found: Things = []
    for at, item in enumerate(clause.items):
        if found and item.text in before:
            break
        if item.is_a("part", "connector") and not _led(clause, at, before):
            found += things_of(mind, clause, at, _OFF)
    return found


def _led(clause: Clause, at: int, before: frozenset[str]) -> bool:
    return at > 0 and clause.items[at - 1].text in before | among("of from under over by")


def _pronoun(mind: Mind, clause: Clause) -> Things:
    first: Item | None = next((item for item in clause.items if item.text in _THEY), None)
    if first is None:
        return []
    return meant(mind, clause, "them" if first.text in _MANY else "it", _OFF, None)


_MANY = among("they they're those these")
_THEY = among("it it's that that's she she's he he's this") | _MANY
