"""A word that can start a clause, where it stands -> whether it does."""

from __future__ import annotations

from collections.abc import Sequence

from guidec.draft.item import Item
from guidec.draft.verbs import doings
from guidec.draft.vocabulary import Vocabulary
from guidec.draft.wordset import among

__all__ = ["BACKED", "SUBORDINATE", "has_verb", "starter_starts", "subject_starts"]


SUBORDINATE = among("if before after once when while until unless because cause cos since although whereas till")


_AUX = among(
    "is are was were 's 're 'll can could will would should must may might has "
    "have had needs need wants get gets got don't didn't doesn't isn't aren't "
    "won't can't"
)


BACKED = among("to that which who what how where like think than as as")


def starter_starts(items: Sequence[Item], at: int, now: list[Item], words: Vocabulary, busy: bool) -> bool:
    """Whether a word that may start a clause (`then`, `and`, `first`) starts one where it stands."""
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
    """Whether a pronoun (`it`, `we`) starts a clause where it stands."""
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
