"""The end of a cue -> whether a clause ends with it."""

from __future__ import annotations

from collections.abc import Sequence

from guidec.draft.item import Item
from guidec.draft.starters import has_verb
from guidec.draft.verbs import doings
from guidec.draft.vocabulary import Vocabulary
from guidec.draft.wordset import among

__all__ = ["new_cue"]


def new_cue(items: Sequence[Item], at: int, now: list[Item], words: Vocabulary) -> bool:
    """Whether a clause ends with its cue: what was said can stand, and what comes can start."""
    item, before = items[at], now[-1]
    if item.text in ("free", "open", "loose") and before.text in among("it them that those this these"):
        return False
    if _orders(items, at, before, words):
        return True
    return not _goes_on(before, words) and _stands(now) and _starts(items, at, words)


def _is_base(item: Item) -> bool:
    return any("base" in doing.forms for doing in doings(item.text))


def _orders(items: Sequence[Item], at: int, before: Item, words: Vocabulary) -> bool:
    """Whether an order comes: a verb in its plain form, with its object, that nothing governs."""
    item, small = items[at], words.small
    follow = items[at + 1] if at + 1 < len(items) else None
    if item.kind != "verb" or before.kind == "verb" or not _is_base(item):
        return False
    if follow is None or follow.kind not in ("thing", "noun") or not follow.det:
        return False
    governs = any(before.text in small[name] for name in ("prepositions", "auxiliaries", "subjects"))
    return before.text in ("her", "him", "me") or not (
        governs or before.text in among("and or not don't the to i you we")
    )


def _goes_on(before: Item, words: Vocabulary) -> bool:
    """Whether a word asks for more: `the`, `will`, `under`, `and`."""
    if before.kind != "word":
        return False
    small, text = words.small, before.text
    if text in small["prepositions"]:
        return text not in small["particles"]
    asks = ("determiners", "auxiliaries", "starters", "be")
    return any(text in small[name] for name in asks) or text in among(
        "and or i you we they it's that's there's i'm is very about like just a"
    )


def _stands(now: list[Item]) -> bool:
    """Whether what was said can stand: a verb with something beside it, or a name of which something is said."""
    verbs = [n for n, one in enumerate(now) if one.kind == "verb"]
    if verbs:
        return _has_object(now[: verbs[-1]], now[verbs[-1] + 1 :])
    if any(one.text in among("is are 's it's that's there's they're has have here's got") for one in now):
        return True
    named = any(one.kind in ("thing", "noun") for one in now)
    return named and (len(now) <= 6 or now[-1].kind in among("thing noun drive size value num"))


def _has_object(front: list[Item], tail: list[Item]) -> bool:
    """Whether a verb has its subject before it or its object behind it; a particle alone waits for one."""
    named = any(one.kind in ("thing", "noun") for one in front)
    said = any(
        one.kind in among("thing noun num value drive")
        or one.text in among("it them those that these this off out away free up over down")
        for one in tail
    )
    if not (said or named):
        return False
    if not tail or tail[-1].text not in among("off out up away"):
        return True
    return any(
        one.kind in ("thing", "noun") or one.text in among("it them those that they") for one in (*tail, *front)
    )


_BEHIND = among("next first out off and now has hangs held at on in of sit sits goes go has have")
_LEADING = among("these those this they it they're it's that's there's here's both each underneath")


def _starts(items: Sequence[Item], at: int, words: Vocabulary) -> bool:
    """Whether a clause can start at an item."""
    item = items[at]
    if item.kind == "verb":
        return _is_base(item)
    if item.kind == "num":
        return True
    if item.kind not in ("thing", "noun"):
        return item.text in _LEADING
    if item.det or item.count is not None or has_verb(items, at, words):
        return True
    return at + 1 < len(items) and items[at + 1].text in _BEHIND
