"""Items around a place -> whether what was said can stand, and whether what comes can start a clause."""

from __future__ import annotations

from collections.abc import Sequence

from guidec.draft.item import Item
from guidec.draft.verbs import doings
from guidec.draft.vocabulary import Vocabulary
from guidec.draft.wordset import among

__all__ = ["BEGINNERS", "is_complete", "is_imperative", "is_plain", "orders", "second_verb", "stands_alone"]


BEGINNERS = among("let leave don't never do careful mind watch remember keep please notice look give")


def stands_alone(items: Sequence[Item], at: int, now: list[Item], words: Vocabulary) -> bool:
    """`battery out card out`, `out it comes`, `on the way back in`, `print head next`, and a name behind an
    object and its particle (`set the cover aside | battery connector first`)."""
    item, before = items[at], now[-1]
    follow = [one.text for one in items[at + 1 : at + 4]]
    if _comes(items, at, before):
        return True
    if item.text == "going" and follow[:1] == ["back"]:
        return before.text not in among("when is it's they're i'm we're")
    if item.text == "on" and "way" in follow[:2]:
        return "back" in follow
    if item.kind not in ("thing", "noun") or _governs(before, words):
        return False
    return _told_of(items, at, now, words) or _behind_particle(item, now)


def _comes(items: Sequence[Item], at: int, before: Item) -> bool:
    """`out it comes`, `off they go`."""
    if items[at].text not in among("out off up away") or items[at].kind != "word" or len(items) <= at + 2:
        return False
    if before.text in among("all 's are is it's that's they're both comes come came straight right"):
        return False
    return items[at + 1].text in among("it they that she") and items[at + 2].kind == "verb"


def _governs(before: Item, words: Vocabulary) -> bool:
    """Whether the word before a name takes it: a verb, `and`, `the`, `then`."""
    if before.kind == "verb" and before.text not in ("free", "open"):
        return True
    small = words.small
    return before.text in among("and or to of with the") or any(
        before.text in small[name] for name in ("determiners", "starters")
    )


def _told_of(items: Sequence[Item], at: int, now: list[Item], words: Vocabulary) -> bool:
    """`card out`, `screen that's next`, `print head next`: a name and what is told of it."""
    before = now[-1]
    follow = items[at + 1].text if at + 1 < len(items) else ""
    if before.text in words.small["prepositions"] - words.small["particles"]:
        return False
    if follow in ("out", "off"):
        return _ends(items, at + 1)
    if follow in ("that's", "it's") and not items[at].det and before.kind == "word":
        return any(one.kind == "verb" or one.text in ("is", "'s", "are") for one in now)
    return follow in ("next", "first")


def _ends(items: Sequence[Item], at: int) -> bool:
    """Whether a particle ends what is said, and does not lead on: `out of the`, `off with`."""
    if items[at].stop or len(items) <= at + 1:
        return True
    after = items[at + 1]
    return after.kind in among("thing verb noun num") or after.text not in among("of the in with on")


def _behind_particle(item: Item, now: list[Item]) -> bool:
    """`set the cover aside | battery connector first`."""
    before = now[-1]
    if len(now) < 3 or not (before.text in among("aside off out away free apart too") or _upright(item, before)):
        return False
    held = now[-2].kind in ("thing", "noun") or now[-2].text in among("it them those that these")
    return held and any(one.kind == "verb" for one in now[:-2])


def _upright(item: Item, before: Item) -> bool:
    """`over`, `down`, `up` as a particle, and not before the place that it leads to."""
    return before.text in ("over", "down", "up") and (not item.det or item.leads)


def is_imperative(item: Item, before: Item, words: Vocabulary) -> bool:
    """Whether a verb in its plain form, after a clause that stands ("they're tight take them out"), starts
    anew."""
    if not any("base" in doing.forms for doing in doings(item.text)):
        return False
    if before.kind in among("thing noun drive size value num"):
        return True
    if before.text in among("just then gently carefully simply"):
        return True
    small = words.small
    return (
        before.text in among("here there off out up it them down together though too again now tight one stuck in")
        and before.text not in small["auxiliaries"]
    )


def orders(items: Sequence[Item], at: int, before: Item, words: Vocabulary) -> bool:
    """Whether a plain verb with an object behind it starts a new order: `… in between | peel that off`."""
    item = items[at]
    follow = items[at + 1] if at + 1 < len(items) else None
    if follow is None or item.stop or not any("base" in doing.forms for doing in doings(item.text)):
        return False
    small = words.small
    participle = before.kind == "verb" and any("past" in doing.forms for doing in doings(before.text))
    if (
        (before.kind == "verb" and not participle)
        or before.text in small["auxiliaries"]
        or before.text in small["subjects"]
        or before.text in small["negations"]
        or before.text in small["be"]
    ):
        return False
    if before.text in among(
        "and or the a an of by with without who which that both all these those they things people"
    ):
        return False
    return follow.text in among("it that them those these this") or (
        follow.kind in ("thing", "noun") and bool(follow.det)
    )


def is_complete(now: list[Item]) -> bool:
    """Whether what has been said can stand: its verb has something beside it."""
    verb = next((n for n, one in enumerate(now) if one.kind == "verb"), None)
    if verb is None or any(
        one.text in among("is are 's they're it's that's") for one in now[max(0, verb - 3) : verb]
    ):
        return True
    return len(now) > verb + 1 or (verb > 0 and now[verb - 1].kind in ("thing", "noun"))


def second_verb(item: Item, before: Item, now: list[Item]) -> bool:
    """Whether a further verb starts a clause."""
    forms = {form for doing in doings(item.text) for form in doing.forms}
    if before.text in among("to by without for of"):
        return True
    while before.text in among("just then gently slowly carefully simply now also") and before is not now[0]:
        before = now[now.index(before) - 1]
    if before.kind == "verb" or before.text in among(
        "go going let's ahead be been just start i you we gonna wanna can could help not don't it's"
    ):
        return (before.kind == "verb" and False) or before.text in ("i", "you", "we")
    if "ing" in forms and "base" not in forms:
        return before.kind in ("thing", "noun")
    if before.kind in ("thing", "noun", "num") or before.text in among(
        "it them off out up away free in down over these those that back here there aside open"
    ):
        return True
    return before.text in among("and or then but just go also gently slowly carefully")


def is_plain(item: Item) -> bool:
    """Whether a verb stands in its plain form."""
    return any("base" in doing.forms for doing in doings(item.text))
