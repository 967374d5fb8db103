"""Screws as they are named -> the set told before that is meant: `the screws`, `those four`, `eight in all`."""

from __future__ import annotations

from guidec.draft.ahead import ROUND, Said
from guidec.draft.item import Item
from guidec.draft.story import Screws
from guidec.draft.wordset import among

__all__ = ["known_set"]

SINCE = 90.0
"""Seconds for which a set told is meant by `the screws`."""


def known_set(one: Said) -> Screws | None:
    """The set already told that an item means, if any."""
    item, story = one.item, one.mind.story
    rows = [row for row in story.screws if item.start - row.heard < SINCE]
    if not rows or item.det in ("a", "an", "one"):
        return None
    totals = one.has("altogether|in total|total|in all|all told|all in|all up")
    if totals and item.count and (found := _total(rows, item.count)) is not None:
        return found
    definite = item.det in among("the these those all both my your its last") or any(
        word in among("these those the all") for word in item.words[:2]
    )
    if item.count is not None:
        return _with_count(rows, item) if definite else _of_each(rows, item)
    if definite and item.drive:
        like = [row for row in rows if row.drive == item.drive]
        bare = [row for row in rows if not row.drive and item.start - row.heard < ROUND]
        return like[-1] if like else bare[-1] if bare else None
    return _without_count(rows, item, definite=definite)


def _total(rows: list[Screws], count: int) -> Screws | None:
    """The sets that make a total; a set told by its half."""
    recent = [row for row in rows if not row.gone] or rows
    for size in range(1, len(recent) + 1):
        if sum(row.count or 0 for row in recent[-size:]) == count:
            return recent[-1]
    last = recent[-1]
    if not last.count or count % last.count == 0:
        last.count = count
        return last
    return None


def _of_each(rows: list[Screws], item: Item) -> Screws | None:
    """`eight screws`, behind `two screws each`: all of them together."""
    row = next((row for row in reversed(rows) if row.each), None)
    told = rows[-1]
    if told.how == "each" and told.count == item.count and item.start - told.heard < 20 and not item.more:
        return told
    if row is None or item.more or item.start - row.heard > 40:
        return None
    if row.count and (item.count or 0) % row.count:
        return None
    row.count, row.each = item.count, False
    return row


def _with_count(rows: list[Screws], item: Item) -> Screws | None:
    """`those four screws`: the latest set with that count, or the sets that make it."""
    like = [
        row
        for row in rows
        if row.count == item.count
        and (not item.drive or not row.drive or item.drive.startswith(row.drive))
        and (not item.size or not row.size or row.size == item.size)
    ]
    open_ = [row for row in like if not row.gone]
    recent = [row for row in like if item.start - row.heard < 45]
    if open_ or recent:
        return (open_ or recent)[-1]
    waiting = [row for row in rows if not row.gone]
    bare = item.det in ("these", "those", "all") and not item.drive
    if bare and waiting and sum(row.count or 0 for row in waiting) == item.count:
        return waiting[-1]
    untold = [row for row in waiting if row.count is None and item.start - row.heard < 45]
    return untold[-1] if untold else None


def _without_count(rows: list[Screws], item: Item, *, definite: bool) -> Screws | None:
    """`the screws`, `the last screw`, `screws`: the latest set that is still in."""
    waiting = [row for row in rows if not row.gone]
    small = among("the all these those of more both")
    described = item.plural and len(item.words) > 1 and item.words[-2] not in small and not item.drive
    if not item.det and described:
        return None
    if not item.det and not item.plural and waiting and waiting[-1].count == 1:
        return waiting[-1]
    bare = (
        item.det == "" and item.plural and item.head in ("screw", "bolt", "nut") and not (item.drive or item.size)
    )
    return (waiting or rows)[-1] if item.det == "last" or definite or bare else None
