"""Screws as they are named -> the set that is meant: one told before, a share of it, or a new one.

What a number without a noun means is only known from the numbers that follow: `two at the top and two at the
bottom` are the four told before if they add up to it, and sets of their own if they do not.
"""

from __future__ import annotations

from dataclasses import replace
from typing import Literal

from guidec.draft.ahead import Said, announced, further, is_said_of, round_up, times, window
from guidec.draft.clauses import Clause
from guidec.draft.knownset import known_set
from guidec.draft.mind import Mind
from guidec.draft.newset import fill, said, share
from guidec.draft.story import Screws
from guidec.draft.wordset import among

__all__ = ["mention"]


def mention(mind: Mind, clause: Clause, at: int) -> Screws | None:
    """The set that an item names: one told before, or a new one; None where it names none."""
    item = clause.items[at]
    if item.first in mind.met:
        return mind.met[item.first]
    found = _meant(Said(mind, clause, at))
    if found is not None:
        mind.met[item.first] = found
    return found


def _meant(one: Said) -> Screws | None:
    item = one.item
    none = item.det == "no" or "no" in item.words[:1]
    if (none and not {"fewer", "less"} & set(item.words)) or _of_one(one):
        return None
    if item.number and one.last is not None and item.number <= (one.last.count or 0):
        return None  # `the third one`, of those told
    if item.ellipsis == "mend" and one.last is None:
        return None
    lone = item.ellipsis == "ones" and item.count == 1 and item.det in ("a", "an") and not item.more
    if lone and not _there_is(one):
        return None
    if (mended := _corrected(one) or _predicate(one)) is not None:
        return mended
    if (spread := _spread(one)) is not None:
        return spread or None
    if not further(item) and (parts := _parts(one)):
        return parts[0]
    last = one.last if item.ellipsis in ("of", "place", "ones") and not further(item) else None
    if last is not None and (told := _counted(one, last)) is not None:
        return told or None
    known = None if further(item) else known_set(one)
    if known is None:
        lost = item.ellipsis == "of" and one.last is None and not is_said_of(list(one.clause.items), one.at)
        return None if lost else said(one.mind, one.clause, item)
    fill(known, item)
    known.heard = item.start
    one.mind.set = one.mind.many = known
    return known


def _of_one(one: Said) -> bool:
    """`one each`, `one of these is a wood screw`: nothing that is counted for itself."""
    items, at = one.clause.items, one.at
    if one.item.count != 1:
        return False
    if "each" in one.item.words:
        return True
    before = [word.text for word in items[max(0, at - 5) : at]]
    share_ = any(word.ellipsis == "of" for word in items[max(0, at - 4) : at])
    return one.item.det == "a" and share_ and bool(before) and before[-1] in ("is", "'s", "was")


def _there_is(one: Said) -> bool:
    """Whether `a longer one` is told for itself: behind `there's`, `and`, `plus`; not where it describes (`it's a
    long one`) or is only spoken of."""
    before = [word.text for word in one.clause.items[max(0, one.at - 2) : one.at]]
    return any(word in among("there's and plus got have has then find is with here's another") for word in before)


def _predicate(one: Said) -> Screws | None:
    """`they're T6 screws`: said of the set told last."""
    item, last = one.item, one.last
    before = one.clause.items[one.at - 1].text if one.at else ""
    said_of = before in among("they're are these those") and item.count is None and item.plural
    if last is None or not said_of or last.drive or item.det:
        return None
    fill(last, item)
    return last


def _corrected(one: Said) -> Screws | None:
    """`sorry, eleven screws`; `eleven screws, yeah`, alone and right behind `ten screws`."""
    item, last = one.item, one.last
    if last is None or not item.count:
        if last is not None and item.same and item.start - last.heard < 6 and not last.drive:
            fill(last, item)
            return last
        return None
    since = item.start - last.heard
    before = [word.text for word in one.clause.items[max(0, one.at - 3) : one.at]]
    told = since < 15 and any(word in among("sorry actually no nope correction wait lie lied") for word in before)
    told = told or item.ellipsis == "mend"
    bare = item.det == "" and not item.more and not item.drive and one.clause.verb is None and one.clause.fresh
    again = bare and last.count and not last.gone and since < 12 and len(one.clause.text.split()) < 7
    if told or (again and not item.ellipsis and 0 < abs(item.count - (last.count or 0)) < 3):
        one.mind.spread, one.mind.spread_of = last.count or 0, item.count
        last.count, last.heard = item.count, item.start
        fill(last, item)
        return last
    return None


# ---------------------------------------------------------------- numbers that fall on the set told last


def _spread(one: Said) -> Screws | Literal[False] | None:
    """What is counted already (False, or the set), and what only begins a count: `two by the neck, two in the
    middle and one more under the sticker, five in all`."""
    mind, item, last = one.mind, one.item, one.last
    counted = last is not None and last.count is not None
    whole = item.ellipsis or item.drive or counted or item.count is None
    if item.ellipsis in ("", "drive") and not item.more and whole:
        return None
    count = item.count or 0
    if item.ellipsis == "place" and _first_of(one):
        return False
    if last is not None and mind.spread_of == last.count and mind.spread and mind.spread + count <= mind.spread_of:
        mind.spread += count
        last.heard = item.start
        return last if one.clause.verb is not None else False
    if last is not None and last.count and count * times(list(window(one)), 0) == last.count > count:
        mind.spread = mind.spread_of = last.count
        return last if one.clause.verb is not None else False
    begins = item.ellipsis in ("place", "ones", "more") and item.det not in among("the these those this that")
    total = announced(one) if begins else None
    if total is None:
        return None
    if last is not None and last.count == total and item.start - last.heard < 12:
        mind.spread, mind.spread_of = count, total
        return last if one.clause.verb is not None else False
    again = last is not None and not last.drive and (last.count is None or (last.count == count and not last.how))
    row = last if last is not None and again else said(mind, one.clause, item)
    row.count = total
    row.heard = item.start
    mind.spread, mind.spread_of = count, total
    return row


def _first_of(one: Said) -> bool:
    """`three, and one behind, four bolts`: counting up to what is named next."""
    items, at = one.clause.items, one.at
    told = next((item.number for item in reversed(items[:at]) if item.kind == "num"), None)
    named = next((item for item in items[at + 1 : at + 6] if item.is_a("screw") and not item.ellipsis), None)
    return told is not None and named is not None and named.count == told + (one.item.count or 0)


def _parts(one: Said) -> list[Screws]:
    """The shares of the set told last, where this and what follows add up to it and differ in drive or size."""
    last, item = one.last, one.item
    whole = (last.parent or last) if last is not None else None
    if whole is None or not item.count or not whole.count or item.count >= whole.count or whole.gone:
        return []
    if item.det in ("these", "those") and not item.ellipsis and not _differs(one, whole):
        return []
    row = list(round_up(one))
    done = sum(part.count or 0 for part in whole.split)
    if whole.split and done + item.count == whole.count and item.det in among("the other those these last"):
        return [share(one.mind, whole, replace(item, drive=item.drive or "?"), item.count)]
    exact = done + sum(each.count or 0 for each, _ in row) == whole.count
    if any(differs for _, differs in row) and (exact or _differs(one, whole)) and done + item.count <= whole.count:
        return [share(one.mind, whole, item, item.count)]
    return []


def _differs(one: Said, whole: Screws) -> bool:
    """Whether what is said here is another drive or size than that of the set, or the first that is said."""
    items = list(one.clause.items)
    if not is_said_of(items, one.at):
        return False
    if one.item.ellipsis == "of":
        return True
    drive, size = one.item.drive, one.item.size
    return (
        bool(whole.split)
        or (bool(drive) and not whole.drive and one.item.ellipsis == "drive")
        or bool(size and not whole.size and one.item.ellipsis)
    )


def _counted(one: Said, last: Screws) -> Screws | Literal[False] | None:
    """`six of them`, `two at the top and two at the bottom`: the count of the set told last, or how it is spread.
    False where they tell of no set; None where they tell of a new one."""
    item, count = one.item, one.item.count or 0
    row = [each.count or 0 for each, _ in round_up(one)]
    total = sum(row) if item.ellipsis == "place" else count
    if item.det in among("the these those that this") and item.ellipsis != "of" and sum(row) != last.count:
        return last if count == last.count else False
    if last.count is None:
        if last.gone and item.ellipsis != "of":
            return None
        last.count, last.heard = total, item.start
        fill(last, item)
        _settle(one)
        return last
    if item.ellipsis == "of":
        return _of_them(one, last, count)
    late = last.gone and item.start - last.heard > 10
    if item.ellipsis == "ones" and count == last.count and not (late or last.drive or last.how):
        fill(last, item)
        return last
    spread = (last.how not in ("place", "ones", "more") and len(row) > 1) or row[:1] != [count]
    if (sum(row) == last.count and spread) or one.mind.spread + count <= one.mind.spread_of:
        if one.mind.spread_of == 0 or one.mind.spread + count > one.mind.spread_of:
            one.mind.spread, one.mind.spread_of = 0, last.count
        one.mind.spread += count
        last.heard = item.start
        return last if one.clause.verb is not None else False
    return None


def _settle(one: Said) -> None:
    """What follows is already counted."""
    one.mind.spread, one.mind.spread_of = one.item.count or 0, one.mind.set.count or 0 if one.mind.set else 0


def _of_them(one: Said, last: Screws, count: int) -> Screws | Literal[False] | None:
    if last.count == count:
        fill(last, one.item)
        return last
    if (last.count or 0) > count:
        return False
    recent = [row.count or 0 for row in one.mind.story.screws if one.item.start - row.heard < 40 and not row.split]
    if any(sum(recent[-size:]) == count for size in range(2, len(recent) + 1)):
        return last
    if last.count == 1 and not last.gone:
        last.count = count
        return last
    return None
