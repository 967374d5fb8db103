"""A verb and its clause -> what it is done to: names behind it, its subject, what a pronoun means."""

from __future__ import annotations

from itertools import takewhile

from guidec.draft.clauses import Clause
from guidec.draft.mind import Mind
from guidec.draft.pronouns import meant
from guidec.draft.reading import BE, PARTICLES
from guidec.draft.refer import counted, things_of
from guidec.draft.set_details import details
from guidec.draft.story import Things
from guidec.draft.subjects import fronted, subject
from guidec.draft.verbs import Doing, doings
from guidec.draft.wordset import among

__all__ = ["objects"]


def objects(mind: Mind, clause: Clause, verb: int, row: Doing, particle: str) -> Things:
    """What a verb is done to: the names behind it, else its subject; pronouns mean what is in focus."""
    before = clause.items[:verb]
    passive = "past" in row.forms and any(item.text in BE for item in before[-4:])
    lifts = bool(before) and before[-1].kind in ("thing", "noun") and before[-1].plural and "base" in row.forms
    said_of_itself = row.passive or (("third" in row.forms or lifts) and bool(particle))
    told = any(item.kind in ("thing", "noun") or item.text in _THEY for item in before)
    if particle == "apart" and not any(item.kind in ("thing", "noun") for item in clause.items):
        return []  # the device itself
    if said_of_itself and told:
        refs = subject(mind, clause, verb, row)
        if refs or (row.passive and "third" in row.forms):
            return refs
    if not passive and (refs := _behind(mind, clause, verb, row)):
        return refs
    return subject(mind, clause, verb, row) or fronted(mind, clause, row)


_THEY = among("it they that it'll those these this she he both everything all they'll")


def _behind(mind: Mind, clause: Clause, verb: int, row: Doing) -> Things:
    """The names after a verb, up to the first preposition other than `of`."""
    items = clause.items
    refs: Things = []
    for at in range(verb + 1, len(items)):
        item = items[at]
        if _ends(mind, clause, at, row, bool(refs)):
            break
        if item.kind in ("thing", "noun"):
            refs += things_of(mind, clause, at, row)
        elif refs:
            continue
        elif item.kind == "word" and item.text in _PRONOUNS:
            if at + 1 == len(items) or items[at + 1].kind not in ("thing", "noun"):
                numbers = (int(one.number) for one in items[verb + 1 : at + 3] if one.kind == "num" and one.number)
                return meant(mind, clause, item.text, row, next(numbers, None))
        elif item.kind == "num" and item.number:
            if (at + 1 == len(items) or items[at + 1].kind in ("word", "drive") or item.stop) and (
                rows := counted(mind, item)
            ):
                return rows
        elif item.kind == "drive" and row.family == "undo" and items[at - 1].kind == "num":
            details(mind, Clause(items[at - 1 : at + 1], ""))
            refs += [mind.set] if mind.set and not mind.set.gone else []
    return refs or _unsaid(mind, clause, verb, row)


def _unsaid(mind: Mind, clause: Clause, verb: int, row: Doing) -> Things:
    """`two caps, unscrew`, `grab it by the shaft and lift`: an order without its object, named before."""
    small = mind.words.small
    ordering = small["starters"] | small["adverbs"] | small["auxiliaries"] | _PARTS_OF_ORDERS
    lead = all(item.text in ordering for item in clause.items[:verb])
    if not lead or not any("base" in one.forms for one in doings(clause.items[verb].text)):
        return []
    after = list(takewhile(lambda item: item.text != "and", clause.items[verb + 1 :]))
    if any(item.kind != "word" and item.text not in PARTICLES for item in after):
        return []
    if any(item.text not in small["adverbs"] and item.text not in PARTICLES for item in after):
        return []
    recent_many = mind.many is not None and not mind.many.gone and clause.start - mind.many.heard < 10
    return meant(mind, clause, "them" if recent_many else "it", row, None)


_PARTS_OF_ORDERS = among("just gently and then to i we you i'm i'll we'll")


def _ends(mind: Mind, clause: Clause, at: int, row: Doing, found: bool) -> bool:
    """Whether the reach of a verb ends at an item."""
    items, text = clause.items, clause.items[at].text
    if items[at].kind == "verb":
        return text not in among("free open back loose")
    if items[at].kind != "word":
        return False
    follow = items[at + 1] if at + 1 < len(items) else None
    if text in mind.words.small["prepositions"] and text not in PARTICLES and text != "of":
        through = (
            text in ("through", "around", "across")
            and not found
            and row.base in among("slice cut run saw unscrew")
        )
        return not through and not (text == "on" and row.base == "cut")
    if text == "of":
        return found or items[at - 1].text in ("out", "off", "away", "up")
    if (
        found
        and text in among("over down up back open")
        and follow is not None
        and follow.kind in ("thing", "noun")
    ):
        return follow.det in among("his its your their")
    if (
        found
        and text in ("off", "out", "away", "from")
        and follow is not None
        and follow.kind in ("thing", "noun")
    ):
        return bool(follow.det)
    return text in among("but because so if like")


_PRONOUNS = among("it them em these those that this they both everything each all one him her")
