"""Clauses -> the verdict: `a seven out of ten`, `six, no, call it seven of ten`, `eight. Out of ten.`"""

from __future__ import annotations

from collections.abc import Sequence
from itertools import takewhile

from guidec.draft.clauses import Clause
from guidec.draft.item import Item
from guidec.draft.story import Quote, Verdict
from guidec.draft.wordset import among

__all__ = ["verdict_of"]

SCALES = (5, 10, 20, 100)
AFTER = 12.0
"""Seconds within which a second thought still changes the score."""
BEFORE = 20.0
"""Seconds before the scale within which the score may be named."""


def verdict_of(told: Sequence[Clause]) -> Verdict | None:
    """The last verdict of all clauses; a second thought right behind it counts."""
    items = [item for clause in told for item in clause.items]
    found = None
    for at in range(len(items)):
        scale = _scale(items, at)
        if scale is not None:
            found = _score(items, at, scale) or found
    return found


def _scale(items: Sequence[Item], at: int) -> int | None:
    """The place of the number behind `out of`, `outta`, `of`, `from` here."""
    text, after = items[at].text, [item.text for item in items[at + 1 : at + 3]]
    skip = 2 if text == "out" and after[:1] == ["of"] else 1 if text in among("outta of from over") else 0
    if not skip:
        return None
    skip += bool(after[skip - 1 :] and after[skip - 1] in among("a the possible"))
    place = at + skip
    if place >= len(items):
        return None
    number = _number(items[place])
    if number is None and _gives(items, at):
        number = items[place].count  # `an eight outta ten tri wings are a pain`
    return place if number in SCALES else None


def _gives(items: Sequence[Item], at: int) -> bool:
    """Whether a score is about to be given."""
    return any(item.text in among("give score rate verdict rating say") for item in items[max(at - 6, 0) : at])


def _number(item: Item) -> float | None:
    """The number that an item is; a bare one may have been taken for that of screws."""
    if item.kind == "num":
        return item.number
    return item.count if item.is_a("screw") and len(set(item.words)) == 1 else None


def _score(items: Sequence[Item], at: int, scale: int) -> Verdict | None:
    """The score before the scale, or behind it (`from ten points I give eight`), with second thoughts."""
    top = float(_number(items[scale]) or items[scale].count or 0)
    behind = [item.text for item in items[scale + 1 : scale + 3]]
    counted = [item for item in items[scale + 1 : scale + 2] if not item.det]
    if any(item.is_a("screw", "clip", "connector", "part", "tool") for item in counted):
        return None
    loose = items[at].text in among("of from over")
    place = _named(items, at, top, loose=loose)
    if place is None and (loose and behind[:1] in (["points"], ["stars"], ["i"], ["marks"])):
        place = _given(items, scale, top)
    if place is None:
        return None
    last = _changed(items, max(place, scale), top)
    chosen = place if last is None else last
    points = float(items[chosen].number or items[chosen].count or 0)
    first, end = items[min(place, at)], items[max(scale, chosen)]
    return Verdict(Quote(first.start, first.first, end.last), points + _half(items, chosen), top)


def _named(items: Sequence[Item], at: int, top: float, *, loose: bool) -> int | None:
    """The number before the scale: next to it, or parted by a noun (`nine bones`) or a stop."""
    reach = 2 if loose else 4
    for back in range(at - 1, max(at - 1 - reach, -1), -1):
        item = items[back]
        if items[at].start - item.start > BEFORE:
            return None
        number = _number(item)
        if number is not None:
            near = items[back + 1 : at]
            unit = not near or near[0].text in among("points point stars marks") or not loose
            often = bool(near) and near[0].text in among("times time")
            return back if number <= top and unit and not often else None
        if item.is_a("screw", "connector", "clip") and item.count is not None:
            return None
        if item.kind == "thing" and item.count is not None and item.count <= top:
            return back
    return None


def _given(items: Sequence[Item], scale: int, top: float) -> int | None:
    """`from ten points I give eight and a half`."""
    ahead = list(takewhile(lambda n: items[n].start - items[scale].start < AFTER, range(scale + 1, len(items))))
    return next((n for n in ahead[:8] if (_number(items[n]) or top + 1) <= top), None)


def _changed(items: Sequence[Item], scale: int, top: float) -> int | None:
    """The number of a second thought: `so seven and a half, final answer`, `no, make it six`."""
    ahead = takewhile(lambda n: items[n].start - items[scale].start < AFTER, range(scale + 1, len(items)))
    found = None
    for n in ahead:
        item = items[n]
        number = _number(item)
        if number is None or not 0 < number <= top:
            continue
        before = {one.text for one in items[max(scale + 1, n - 4) : n]}
        after = {one.text for one in items[n + 1 : n + 3]}
        if after & among("screw screws minutes off of out") or any(
            one.kind == "thing" for one in items[n + 1 : n + 2]
        ):
            continue
        if before & among("so no call make actually say it's answer sorry rather let's") or after & among(
            "final answer"
        ):
            found = n
    return found


def _half(items: Sequence[Item], at: int) -> float:
    """`eight and half`: what the number itself has not taken up."""
    number, after = items[at].number, [item.text for item in items[at + 1 : at + 4]]
    whole = number is not None and number == int(number)
    return 0.5 if whole and after[:1] == ["and"] and "half" in after[1:3] else 0.0
