"""Items around a place -> whether what was said can stand, and whether what comes can start a clause."""

from __future__ import annotations

from collections.abc import Sequence

from guidec.draft.item import Item
from guidec.draft.verbs import doings
from guidec.draft.vocabulary import Vocabulary
from guidec.draft.wordset import among

__all__ = [
    "BACKED",
    "BEGINNERS",
    "SUBORDINATE",
    "has_verb",
    "is_complete",
    "is_imperative",
    "is_plain",
    "new_cue",
    "orders",
    "second_verb",
    "stands_alone",
    "starter_starts",
    "subject_starts",
]

SUBORDINATE = among("if before after once when while until unless because cause cos since although whereas till")


_AUX = among(
    "is are was were 's 're 'll can could will would should must may might has "
    "have had needs need wants get gets got don't didn't doesn't isn't aren't "
    "won't can't"
)


BACKED = among("to that which who what how where like think than as as")


BEGINNERS = among("let leave don't never do careful mind watch remember keep please")


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


def new_cue(items: Sequence[Item], at: int, now: list[Item], words: Vocabulary) -> bool:
    """Whether a clause ends with its cue: what was said can stand, and what comes can start."""
    item, before = items[at], now[-1]
    small = words.small
    follow = items[at + 1] if at + 1 < len(items) else None
    if (
        item.kind == "verb"
        and follow is not None
        and follow.kind in ("thing", "noun")
        and follow.det
        and before.kind != "verb"
        and any("base" in doing.forms for doing in doings(item.text))
    ) and (
        before.text in ("her", "him", "me")
        or not (
            before.text in small["prepositions"]
            or before.text in small["auxiliaries"]
            or before.text in small["subjects"]
            or before.text in among("and or not don't the to i you we")
        )
    ):
        return True
    if before.kind == "word" and (
        before.text in small["prepositions"] - small["particles"]
        or before.text in small["determiners"]
        or before.text in small["auxiliaries"]
        or before.text in small["starters"]
        or before.text in small["be"]
        or before.text in among("and or i you we they it's that's there's i'm is very about like just a")
    ):
        return False
    verbs = [n for n, one in enumerate(now) if one.kind == "verb"]
    if verbs:
        tail = now[verbs[-1] + 1 :]
        front = now[: verbs[-1]]
        stands = any(
            one.kind in among("thing noun num value drive")
            or one.text in among("it them those that these this off out away free up over down")
            for one in tail
        ) or any(one.kind in ("thing", "noun") for one in front)
        if not stands or (
            len(now) > verbs[-1] + 1
            and tail[-1].text in among("off out up away")
            and not any(
                one.kind in ("thing", "noun") or one.text in among("it them those that they")
                for one in (*tail, *front)
            )
        ):
            return False
    elif not any(
        one.text in among("is are 's it's that's there's they're has have here's got") for one in now
    ) and (
        not any(one.kind in ("thing", "noun") for one in now)
        or (len(now) > 6 and before.kind not in among("thing noun drive size value num"))
    ):
        return False
    if item.kind == "verb":
        return any("base" in doing.forms for doing in doings(item.text))
    if item.kind in ("thing", "noun"):
        return (
            bool(item.det)
            or item.count is not None
            or has_verb(items, at, words)
            or (
                bool(items[at + 1 : at + 2])
                and items[at + 1].text
                in among("next first out off and now has hangs held at on in of sit sits goes go has have")
            )
        )
    if item.kind == "num":
        return before.kind not in ("thing", "noun") or True
    return item.text in among(
        "these those this they it they're it's that's there's here's both all each "
        "under underneath behind inside on with at before up down under use using with "
        "over"
    ) and item.text not in among("with on at before down up all using under behind inside over")


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


def starter_starts(items: Sequence[Item], at: int, now: list[Item], words: Vocabulary, busy: bool) -> bool:
    item, before = items[at], now[-1]
    text = item.text
    after = items[at + 1] if at + 1 < len(items) else None
    only_leads = all(one.text in words.small["starters"] or one.text in words.small["fillers"] for one in now)
    if text in ("and", "plus"):
        return after is not None and _opens(items, at + 1, words)
    if only_leads and text not in SUBORDINATE:
        return False
    if text in among("first second third last right well good perfect great nice cool lovely"):
        det = before.kind == "word" and (
            before.text in words.small["determiners"]
            or before.text in words.small["prepositions"]
            or before.text in among("as very that's it's pretty really straight comes is 's look looks")
        )
        later = after is not None and (
            after.text in among("off out up here there away on in now next side at through down across back")
        )
        if (
            after is not None
            and after.kind in ("thing", "noun")
            and text in among("last first second third")
            and before.text in words.small["determiners"]
        ):
            return False
        if text == "first" and (before.kind in ("thing", "noun") or not busy):
            return False
        return not det and not later and before.kind != "verb"
    if text in among("also now there then again next where yes here"):
        if (
            text in ("then", "just", "now")
            and before.kind in ("thing", "noun")
            and after is not None
            and after.kind == "verb"
            and any("third" in doing.forms for doing in doings(after.text))
        ):
            return False
        if text in ("there", "here", "where"):
            return (
                after is not None
                and after.text in among("is are 's was you we i")
                and before.text not in among("in over up down from out right")
            )
        if text == "also" and after is not None and after.kind in ("thing", "noun"):
            return False
        return busy or (
            before.kind in ("thing", "noun", "num") and text in ("then", "now", "next") and text != "next"
        )
    if text in ("which", "who"):
        return before.text not in words.small["prepositions"]
    if text == "since":
        return True
    return not (text == "so" and before.text in among("or like about just do look"))


def _opens(items: Sequence[Item], at: int, words: Vocabulary) -> bool:
    """Whether a clause of its own follows an `and`."""
    n = at
    while (
        n < len(items)
        and items[n].kind == "word"
        and (
            items[n].text in words.small["adverbs"]
            or items[n].text
            in among("then so uh once if when after before with it's that's there's they're these")
        )
    ):
        if items[n].text not in words.small["adverbs"]:
            return True
        n += 1
    if n >= len(items):
        return False
    item = items[n]
    if item.kind == "verb":
        return True
    if item.kind == "word":
        return (
            item.text in words.small["subjects"]
            or item.text in words.small["auxiliaries"]
            or item.text in words.small["starters"]
            or item.text in words.small["negations"]
            or item.text in among("both these those this off out in set put underneath behind under inside")
        )
    return has_verb(items, n, words)


def subject_starts(items: Sequence[Item], at: int, now: list[Item], words: Vocabulary) -> bool:
    item, before = items[at], now[-1]
    text = item.text
    only_leads = all(one.text in words.small["starters"] or one.text in among("all only just or") for one in now)
    if only_leads or before.text in BACKED or (before.kind == "word" and before.text in _AUX):
        return False
    if (
        text in among("it he she they")
        and before.text in among("here there off out up away down")
        and _coming(items, at)
    ):
        return False
    if text in among("it this that these those he she they we you i"):
        if before.text in words.small["prepositions"] or (before.kind == "verb" and text in ("it", "you")):
            return False
        return text in among("we you i they he she") or has_verb(items, at, words)
    return before.text not in words.small["prepositions"] or "'" in text


def _coming(items: Sequence[Item], at: int) -> bool:
    """`here it comes`, `off she goes`: one turn of speech, with what it is said of in the middle."""
    after = items[at + 1].text if at + 1 < len(items) else ""
    return after in among("comes come goes go came")


def has_verb(items: Sequence[Item], at: int, words: Vocabulary) -> bool:
    """Whether a name is followed by a verb of its own: a form of be, an auxiliary, or a verb said of itself."""
    n = at + 1
    if items[at].stop:
        return False
    while (
        n < len(items)
        and n < at + 4
        and items[n].kind == "word"
        and (items[n].text in words.small["adverbs"] or items[n].text in ("itself", "themselves"))
        and not items[n].stop
    ):
        n += 1
    if n >= len(items):
        return False
    item = items[n]
    if item.kind == "word":
        return item.text in _AUX or item.text in among(
            "it's they're that's hangs sits lives goes needs looks covers hold holds"
        )
    if item.kind != "verb":
        return False
    forms = {form for doing in doings(item.text) for form in doing.forms}
    if "third" in forms:
        return True
    plural = items[at].plural or items[at].text in among("these those they both")
    return (
        plural
        and "base" in forms
        and bool(items[n + 1 : n + 2])
        and items[n + 1].text in words.small["particles"] | {"right", "straight", "just", "in", "on"}
    )


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
