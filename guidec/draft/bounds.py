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
    object and
    its particle (`set the cover aside | battery connector first`)."""
    item, before = items[at], now[-1]
    follow = [one.text for one in items[at + 1 : at + 4]]
    if (
        item.text in among("out off up away")
        and item.kind == "word"
        and before.text not in among("all 's are is it's that's they're both comes come came straight right")
        and follow[:1]
        and follow[0] in among("it they that she")
        and len(items) > at + 2
        and items[at + 2].kind == "verb"
    ):
        return True
    if (
        item.text == "going"
        and follow[:1] == ["back"]
        and before.text not in among("when is it's they're i'm we're")
    ):
        return True
    if (item.text == "on" and follow[:2] == ["the", "way"]) or (
        item.text == "on" and items[at + 1 : at + 2] and items[at + 1].text == "way"
    ):
        return "back" in follow
    if (
        item.kind not in ("thing", "noun")
        or (before.kind == "verb" and before.text not in ("free", "open"))
        or before.text in among("and or to of with the")
    ):
        return False
    if before.text in words.small["determiners"] or before.text in words.small["starters"]:
        return False
    ends = (
        len(items) <= at + 2
        or items[at + 1].stop
        or items[at + 2].kind in among("thing verb noun num")
        or items[at + 2].text not in among("of the in with on")
    )
    if (
        follow[:1]
        and follow[0] in ("out", "off")
        and ends
        and before.text not in words.small["prepositions"] - words.small["particles"]
    ):
        return True
    if (
        item.det == ""
        and follow[:1] in (["that's"], ["it's"])
        and before.kind == "word"
        and before.text not in words.small["prepositions"] - words.small["particles"]
    ):
        return any(one.kind == "verb" or one.text in ("is", "'s", "are") for one in now)
    if (
        follow[:1] in (["next"], ["first"])
        and before.text not in words.small["prepositions"] - words.small["particles"]
    ):
        return True
    return (
        len(now) > 2
        and (before.text in among("aside off out away free apart too") or _upright(item, before))
        and (now[-2].kind in ("thing", "noun") or now[-2].text in among("it them those that these"))
        and any(one.kind == "verb" for one in now[:-2])
    )  # fmt: skip


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
