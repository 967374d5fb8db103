"""Items -> items in which every way to tell screws is one name: `four T5s`, `two longer ones`, `three of them`,
`another two`, `two at the top`, and what is said behind the noun (`four screws, phillips, double zero`).

A number stands for screws only while screws are what was counted last.
"""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import replace

from guidec.draft.behind import behind, is_whole, of_tool, text_at
from guidec.draft.counted import Small, confirmed, goes_on, holds, placed, predicate, runs, same_tool
from guidec.draft.item import Item
from guidec.draft.lead import MODIFIERS, reach_left
from guidec.draft.vocabulary import Vocabulary
from guidec.draft.wordset import among

__all__ = ["fastened"]

SPAN = 25.0
"""Seconds for which a number without a noun still counts screws."""

_COUNTED = ("clip", "connector", "adhesive", "fastening", "solder")


def fastened(items: Sequence[Item], words: Vocabulary) -> list[Item]:
    """The items, with screws that stand for themselves named, and what follows a screw's name taken into it."""
    done: list[Item] = []
    at = 0
    heard = -SPAN
    while at < len(items):
        item, taken = _screws(items, at, done, words.small, open_=items[at].start - heard < SPAN)
        if not taken:
            at += 3
            continue
        if item.is_a("screw"):
            item, more = behind(items, at + taken, item)
            taken += more
            heard = item.start
        elif _counts_others(items, at, item, words.small):
            heard = -SPAN
        done.append(item)
        at += taken
    return done


def _counts_others(items: Sequence[Item], at: int, item: Item, small: Small) -> bool:
    """Whether other things are counted from here on: `three clips`, `two drops`."""
    if item.kind in ("thing", "noun"):
        if item.is_a("connector") and not item.is_a("part"):
            return True
        return (not item.is_a("screw", "tool") and (item.count or 0) > 1) or (item.is_a(*_COUNTED) and item.plural)
    if item.kind != "num" or item.stop or not is_whole(item):
        return False
    after = text_at(items, at + 1)
    plain = any(after in small[name] for name in ("stop", "prepositions", "adverbs", "starters", "generic"))
    return after.endswith("s") and not plain and len(after) > 3 and after not in small["stand_ins"]


def _screws(items: Sequence[Item], at: int, done: list[Item], small: Small, *, open_: bool) -> tuple[Item, int]:
    """The item at a place, as screws where it stands for them; how many items it takes."""
    item = items[at]
    if item.kind == "drive":
        return _of_drive(items, at, done, small)
    if item.kind == "word" and open_ and item.text in small["crossed"] and text_at(items, at + 1) != "the":
        return replace(item, kind="drive", text="PH"), 1
    stands = item.kind == "word" and item.text in small["stand_ins"]
    if stands and not open_ and (confirmed(items, at) or holds(items, at) or same_tool(items, at)):
        return _stand_in(items, at, done, small)
    if not open_ and not (
        item.kind == "num"
        and (confirmed(items, at) or runs(items, at, small) or holds(items, at) or same_tool(items, at))
    ):
        return item, 1
    if item.kind == "word" and item.text in among("couple pair few") and placed(items, at, small):
        return _count(items[at : at + 1], done, "place", 2) if item.text != "few" else (item, 1)
    if item.kind == "word" and item.text in small["stand_ins"]:
        return _stand_in(items, at, done, small)
    if item.kind == "num" and is_whole(item):
        return _of_number(items, at, done, small)
    return item, 1


def _named(
    row: Sequence[Item], done: list[Item], small: Small, how: str, *, plural: bool, drive: str = ""
) -> Item:
    """Screws made of a row of items and of what stands before it, which is taken from the end of `done`."""
    first, last = row[0], row[-1]
    words = tuple(word for one in row for word in one.words)
    bare = Item(
        "thing", "screw", first.start, first.first, last.last, last.stop, leads=first.leads, words=words,
        head="screw", kinds={"screw": ""}, plural=plural, ellipsis=how,
    )  # fmt: skip
    reached = reach_left(bare, done, small)
    return replace(reached, drive=drive or reached.drive)


# ---------------------------------------------------------------- a drive for its screws


def _of_drive(items: Sequence[Item], at: int, done: list[Item], small: Small) -> tuple[Item, int]:
    """`four T5s`, `these two torx`, `six phillips heads`: screws, where a count or a plural says so."""
    item = items[at]
    if item.stop or not of_tool(items, at):
        size = 1 + (not item.stop and text_at(items, at + 1) in small["heads"])
        plural = item.words[-1].endswith("s") and item.words[-1] not in among("phillips cross jis hex")
        before = list(done)
        if before[-1:] and before[-1].kind == "word" and before[-1].text in small["generic"]:
            plural = plural or any(one.text in ("pair", "couple") for one in before[-4:])
        made = _named(items[at : at + size], before, small, "drive", plural=plural, drive=item.text)
        if made.count is not None and item.text.lstrip("TPHZ") == str(made.count) and made.count > 9:
            return item, 1
        if (
            (made.count is not None and made.count > 0 and (made.det not in ("a", "an") or made.count > 1))
            or (plural and made.det in among("the these those all both"))
        ) and (made.det not in ("a", "an") or made.count != 1):
            done[:] = before
            return replace(made, plural=(made.count or 2) > 1), size
    return item, 1


# ---------------------------------------------------------------- words and numbers that stand for screws


def _stand_in(items: Sequence[Item], at: int, done: list[Item], small: Small) -> tuple[Item, int]:
    """`two longer ones`, `four of these guys`: screws, where they are counted."""
    before = list(done)
    made = _named(items[at : at + 1], before, small, "ones", plural=True)
    if made.count is None:
        return items[at], 1
    done[:] = before
    return made, 1


def _of_number(items: Sequence[Item], at: int, done: list[Item], small: Small) -> tuple[Item, int]:
    """`six of them`, `two more`, `another two`, `a longer one`, `two at the top`."""
    item = items[at]
    before = done[-1].text if done and not done[-1].stop and done[-1].kind != "thing" else ""
    number = int(item.number or 0)
    if before in ("number", "size") or (number == 1 and before in among("this that the which each every no any")):
        return item, 1
    after = [text_at(items, at + n) for n in (1, 2)]
    if not item.stop and after[0] == "of" and after[1] in among("them these those 'em em"):
        if _counts_before(items, at, done, number):
            return item, 0
        follow = items[at + 3] if at + 3 < len(items) else None
        if _others_last(done):
            return item, 1
        if follow is None or items[at + 2].stop or follow.kind not in ("thing", "noun"):
            return _count(items[at : at + 3], done, "of", number)
    if number == 1 and _lone(items, at, done, small):
        done_text = done[-1].text
        further = done_text in small["ordinals"]
        made = _named(items[at : at + 1], done, small, "ones", plural=False)
        nth = _NTH.get(done_text, 0) if further else None
        return replace(made, count=1, more=made.more or further, number=nth), 1
    how = _way(items, at, before, number, small)
    more = how == "more" and before != "another" and after[0] == "more"
    return _count(items[at : at + 1 + more], done, how, number, more=more) if how else (item, 1)


def _others_last(done: Sequence[Item]) -> bool:
    """Whether the last name in the plural is not that of screws: `the rear cameras, there are three of them`."""
    lately = [one for one in done[-22:] if one.kind == "thing" and one.plural]
    return bool(lately) and not lately[-1].is_a("screw", "tool")


def _counts_before(items: Sequence[Item], at: int, done: list[Item], number: int) -> bool:
    """`rubber feet, three of them`: the count of what stands before; it is entered there."""
    named = bool(done) and done[-1].kind in ("thing", "noun") and done[-1].plural and done[-1].count is None
    if named:
        done[-1] = replace(done[-1], count=number, last=items[at + 2].last, stop=items[at + 2].stop)
    return named


_NTH = {
    "first": 1, "second": 2, "third": 3, "fourth": 4, "fifth": 5, "sixth": 6, "seventh": 7, "eighth": 8,
    "ninth": 9, "tenth": 10,
}  # fmt: skip


def _way(items: Sequence[Item], at: int, before: str, number: int, small: Small) -> str:
    """How a number stands for screws, `` where it does not."""
    item, after = items[at], text_at(items, at + 1)
    if before in _MENDING and number > 1 and not goes_on(items, at):
        return "mend"
    if not item.stop and after in among("at of in") and predicate(items, at + 2) and confirmed(items, at):
        return "ones"
    if after in among("are is 're") and items[at + 2 : at + 3] and predicate(items, at + 2):
        return "of"
    if holds(items, at) and before not in among("this that the which"):
        return "more" if after in ("left", "more") else "ones"
    if before == "another" and number > 1 and not goes_on(items, at):
        return "more"
    if not item.stop and after == "more" and (items[at + 1].stop or not goes_on(items, at + 1)):
        return "more"
    with_ = before in among("with by only just") and item.stop < 2
    if with_ and (confirmed(items, at) or same_tool(items, at)):
        return "ones"
    described = any(before in small[name] for name in ("generic", "looks_of_screws", "ordinals"))
    lone = number == 1 and (described or (before in MODIFIERS and before not in among("top bottom left right")))
    return (
        "place"
        if placed(items, at, small)
        and not lone
        and before not in among("step steps about to numbered labelled labeled marked")
        else ""
    )


_MENDING = among("wait sorry no nope actually make lie lied")


def _count(
    row: Sequence[Item], done: list[Item], how: str, number: int, *, more: bool = False
) -> tuple[Item, int]:
    """Screws of a number, with its determiner; drives and places before it belong to the set before."""
    first, last = row[0], row[-1]
    det = ""
    while done and not done[-1].stop and done[-1].text in _DETERMINED:
        lead = done.pop()
        first = lead
        more = more or lead.text in among("another other further extra")
        det = lead.text if lead.text in among("the these those all both my its last another") else det
    words = tuple(word for one in (first, *row) for word in one.words)
    made = Item(
        "thing", "screw", first.start, first.first, last.last, last.stop, leads=first.leads, words=words, det=det,
        count=number, more=more, head="screw", kinds={"screw": ""}, plural=number > 1, ellipsis=how,
    )  # fmt: skip
    return made, len(row)


_DETERMINED = among("the these those all both my its last another other further extra only just remaining")


def _lone(items: Sequence[Item], at: int, done: list[Item], small: Small) -> bool:
    """`a longer one`, `another one`, `the fifth one`: one screw, not `this one` and not `one of`."""
    follow = text_at(items, at + 1)
    if items[at].stop == 0 and (follow == "of" or goes_on(items, at)):
        return False
    back = len(done) - 1
    described = False
    while back >= 0 and not done[back].stop and _describes(done[back], small):
        described = True
        back -= 1
    lead = done[back].text if back >= 0 and not done[back].stop else ""
    return (lead in ("a", "an") and described) or lead == "another" or done[-1].text in small["ordinals"]


def _describes(item: Item, small: Small) -> bool:
    text = item.text
    return item.kind in ("word", "verb") and (
        text in MODIFIERS
        or text in small["generic"]
        or text in small["looks_of_screws"]
        or text in small["ordinals"]
    )
