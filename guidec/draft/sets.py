"""Screw sets: what is said of them where, and when they are out.

People tell a set first ("held by four screws"), its drive later ("they're all T5"), and its undoing last or never
("and the cover comes off"): so sets stay pending until they are said or plainly meant to be out.
"""

from __future__ import annotations

from guidec.draft.clauses import Clause
from guidec.draft.item import Item
from guidec.draft.mind import Mind
from guidec.draft.story import Act, Named, Quote, Screws
from guidec.draft.wordset import among, phrased

__all__ = ["close", "implied", "like_last", "mention", "pending", "undo"]

NEAR = 75.0
"""Seconds for which a set told waits for the part it holds."""


def mention(mind: Mind, clause: Clause, at: int) -> Screws | None:
    """The set that an item names: one told before, or a new one."""
    item = clause.items[at]
    if item.first in mind.met:
        return mind.met[item.first]
    found = _mention(mind, clause, at)
    if found is not None:
        mind.met[item.first] = found
    return found


def _mention(mind: Mind, clause: Clause, at: int) -> Screws | None:
    item = clause.items[at]
    follow = clause.items[at + 1].text if at + 1 < len(clause.items) else ""
    each = item.count == 1 and (follow == "each" or "each" in clause.text.split())
    if item.det == "no" or "no" in item.words[:1]:
        return None
    if (last := mind.set) is not None:
        if _corrects(last, clause, at):
            last.count, last.heard = item.count, item.start
            return last
        if not each and item.same and item.count is None and item.start - last.heard < 6 and not last.drive:
            _fill(last, item)
            return last
    if each:
        return None
    known = _known(mind, clause, item)
    if known is None:
        return _told(mind, clause, item)
    _fill(known, item)
    known.heard = item.start
    mind.set = mind.many = known
    return known


def _corrects(last: Screws, clause: Clause, at: int) -> bool:
    """`sorry, eleven screws`; `eleven screws, yeah`, alone and right behind `ten screws`."""
    item = clause.items[at]
    since = item.start - last.heard
    before = [one.text for one in clause.items[max(0, at - 3) : at]]
    if item.count and since < 15 and any(word in among("sorry actually no correction") for word in before):
        return True
    bare = item.det == "" and not item.more and not item.drive and clause.verb is None and clause.fresh
    if not bare or not item.count or not last.count or last.gone or since >= 12:
        return False
    return len(clause.text.split()) < 7 and 0 < abs(item.count - last.count) < 3


_SAME = phrased("of the same|the same type|same size|same ones|same again|same kind|same sort|same type")


def _told(mind: Mind, clause: Clause, item: Item) -> Screws:
    """A set told for the first time."""
    fresh = Screws(
        Quote(item.start, item.first, item.last), item.count, item.drive, item.size, heard=item.start,
        word="nut" if item.head.endswith("nut") else "screw",
    )  # fmt: skip
    further = item.more and any(said in clause.text for said in phrased("same|of those|of these|more of the"))
    if item.same or further or any(said in clause.text for said in _SAME):
        like_last(mind, fresh)
    if item.value and not fresh.size:
        fresh.size = f"x{item.value.low:g}"
    if fresh.word == "nut" and not fresh.drive:
        fresh.drive = "NUT"
    fresh.captive = "captive" in clause.text
    mind.story.screws.append(fresh)
    mind.set = mind.many = fresh
    if mind.trip is not None:
        fresh.gone = True
        mind.trip.acts.append(Act("undo", "Undo", fresh.quote, [fresh], implied=True))
    return fresh


def like_last(mind: Mind, fresh: Screws) -> None:
    last = next((row for row in reversed(mind.story.screws) if row.drive or row.size), None)
    if last:
        fresh.drive = fresh.drive or last.drive
        fresh.size = last.size if not fresh.size or last.size.startswith(fresh.size) else fresh.size


def _fill(known: Screws, item: Item) -> None:
    known.count = known.count or item.count
    if item.head.endswith("nut") and not known.drive:
        known.drive = "NUT"
    known.drive = known.drive or item.drive
    known.size = known.size or item.size


def _known(mind: Mind, clause: Clause, item: Item) -> Screws | None:
    """The set already told that an item means, if any."""
    rows = [row for row in mind.story.screws if item.start - row.heard < 90]
    if not rows or item.more or item.det in among("another a an one"):
        return None
    totals = any(word in clause.text for word in phrased("altogether|in total|total|in all"))
    if totals and item.count:
        recent = [row for row in rows if not row.gone] or rows
        if sum(row.count or 0 for row in recent) == item.count:
            return recent[-1]
        last = recent[-1]
        if last.count and item.count % last.count == 0:
            last.count = item.count
            return last
    definite = item.det in among("the these those all both my your its last") or any(
        word in among("these those the all") for word in item.words[:2]
    )
    waiting = [row for row in rows if not row.gone]
    if item.count is not None:
        like = [
            row
            for row in rows
            if row.count == item.count
            and (not item.drive or not row.drive or row.drive == item.drive)
            and (not item.size or not row.size or row.size == item.size)
        ]
        open_ = [row for row in like if not row.gone]
        recent = [row for row in like if item.start - row.heard < 45]
        if definite and (open_ or recent):
            return (open_ or recent)[-1]
        if (
            definite
            and item.det in ("these", "those", "all")
            and waiting
            and not item.drive
            and sum(row.count or 0 for row in waiting) == item.count
        ):
            return waiting[-1]
        return None
    if definite and item.drive:
        like = [row for row in rows if row.drive == item.drive]
        return like[-1] if like else None
    if (
        not item.det
        and item.plural
        and len(item.words) > 1
        and item.words[-2] not in among("the all these those of more both")
        and not item.drive
    ):
        return None
    if not item.det and not item.plural and waiting and waiting[-1].count == 1:
        return waiting[-1]
    if (
        item.det == "last"
        or definite
        or (
            item.det == ""
            and item.plural
            and item.head in ("screw", "bolt", "nut")
            and not item.drive
            and not item.size
        )
    ):
        return (waiting or rows)[-1]
    return None


def pending(mind: Mind, at: float, span: float = NEAR) -> list[Screws]:
    """The sets told and not yet out, lately."""
    return [row for row in mind.story.screws if not row.gone and not row.split and at - row.heard < span]


def undo(mind: Mind, clause: Clause, rows: list[Screws], verb: str, *, implied: bool = False) -> Act | None:
    """Enter that sets come out; None where they are out already."""
    left = []
    for row in rows:
        left += [share for share in row.split if not share.gone] if row.split else [row] if not row.gone else []
    left = list(dict.fromkeys(left))
    if not left:
        return None
    if mind.trip is None:
        for row in left:
            row.gone = True
            if row.parent:
                row.parent.gone = True
    quote = mind.quote(clause)
    if implied:
        quote = left[0].quote
        for row in left[1:]:
            quote = quote.to(row.quote)
    act = Act("undo", verb, quote, list(left), implied=implied)
    mind.add(act)
    return act


def implied(mind: Mind, clause: Clause, part: Named | None) -> None:
    """Before a part comes off: the sets told since the last removal came out, though nobody said so."""
    rows = pending(mind, clause.start)
    rows = [
        row
        for row in rows
        if row.holds is None
        or row.holds is part
        or part is None
        or row.holds.gone
        or row.holds.name in part.name
        or part.name in row.holds.name
    ]
    if rows and mind.trip is None:
        undo(mind, clause, rows, "Undo", implied=True)
    clips = [
        row
        for row in mind.story.named
        if row.kind == "clip" and not row.gone and (row.count or row.plural) and clause.start - row.heard < 45
    ]
    if clips and mind.trip is None:
        for row in clips:
            row.gone = True
        mind.add(Act("undo", "Release", clips[0].quote, list(clips), implied=True))


def close(mind: Mind) -> None:
    """At the end: a set that fell into shares is those shares."""
    story = mind.story
    for row in story.screws:
        if not row.gone and not row.split:
            _behind_removal(mind, row)
    for row in list(story.screws):
        if row.split:
            rest = (row.count or 0) - sum(share.count or 0 for share in row.split)
            if rest > 0:
                row.count = rest
                row.split = []
                row.gone = any(share.gone for share in story.screws if share.parent is row)
            else:
                story.screws.remove(row)


def _behind_removal(mind: Mind, row: Screws) -> None:
    """`remove the module, two tiny screws`: a set told right behind a removal came out for it."""
    acts = mind.story.acts
    for at in range(len(acts) - 1, -1, -1):
        act = acts[at]
        if act.quote.first > row.quote.first:
            continue
        if (
            act.do == "remove"
            and 0 <= row.quote.start - act.start < 7
            and (row.holds is None or row.holds in act.things)
        ):
            row.gone = True
            acts.insert(
                at, Act("undo", "Undo", Quote(act.start, act.quote.first, row.quote.last), [row], implied=True)
            )
        return
