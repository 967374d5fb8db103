"""Screws told for the first time, alone or as a share of a set -> a set, with what is carried over to it."""

from __future__ import annotations

from guidec.draft.ahead import further, times
from guidec.draft.clauses import Clause
from guidec.draft.counting import UNITS
from guidec.draft.drives import completed
from guidec.draft.item import Item
from guidec.draft.mind import Mind
from guidec.draft.story import Act, Quote, Screws
from guidec.draft.wordset import among, phrased

__all__ = ["DRIVEN", "WHOLLY", "fill", "last_drive", "like_last", "said", "share"]


def share(mind: Mind, whole: Screws, item: Item, number: int) -> Screws:
    """A share of a set that differs: the set falls into its shares."""
    root = whole.parent or whole
    part = Screws(
        Quote(item.start, item.first, item.last), number, item.drive.strip("?") or root.drive,
        item.size or root.size, heard=item.start, parent=root, holds=root.holds, how=item.ellipsis,
    )  # fmt: skip
    if item.value and item.value.unit == "mm" and not part.size:
        part.size = f"x{item.value.low:g}"
    root.split.append(part)
    mind.story.screws.append(part)
    mind.set = mind.many = part
    return part


_SAME = phrased("of the same|the same type|same size|same ones|same again|same kind|same sort|same type|just like")
WHOLLY = phrased("same size|same again|of the same|just like|exactly|identical|same ones|same screws")
DRIVEN = phrased("same driver|same bit|same screwdriver|same head|same drive|same key|same tool")


def _number(item: Item) -> int | None:
    """How many are told: `the screw` is one."""
    lone = item.count is None and not item.plural and not item.ellipsis and item.det in among("the this that its")
    return 1 if lone else item.count


def said(mind: Mind, clause: Clause, item: Item) -> Screws:
    """A set told for the first time."""
    fresh = Screws(
        Quote(item.start, item.first, item.last), _number(item), item.drive, item.size, heard=item.start,
        how=item.ellipsis, word="nut" if item.head.endswith("nut") else "screw",
    )  # fmt: skip
    alike = further(item) and any(word in clause.text for word in phrased("same|of those|of these|more of the"))
    if item.same or alike or any(word in clause.text for word in _SAME):
        like_last(mind, fresh, size=any(word in clause.text for word in WHOLLY))
    if any(word in clause.text for word in DRIVEN):
        fresh.drive = fresh.drive or last_drive(mind, clause.text)
    if fresh.word == "nut" and not fresh.drive and item.head not in ("ring nut", "wing nut", "wingnut"):
        fresh.drive = "NUT"
    fresh.drive = completed("", fresh.drive)
    _measured(fresh, item)
    fresh.captive = "captive" in clause.text
    mind.story.screws.append(fresh)
    mind.set = mind.many = fresh
    led = mind.before.text if mind.before is not None and clause.start - mind.before.start < 4 else ""
    if mind.before is not None and any(one.is_a("screw") for one in mind.before.items):
        led = ""
    fresh.each = item.count is not None and item.count < 5 and one_each(clause, item, led)
    if fresh.each and fresh.count and (number := _things(mind, clause, item)):
        fresh.count *= number
        fresh.each = False
        fresh.how = "each"
    elif fresh.each and fresh.count == 1:
        fresh.count = None
    elif fresh.count and not fresh.each:
        at = next((n for n, one in enumerate(clause.items) if one.first == item.first), 0)
        fresh.count *= times(list(clause.items), at)
    if mind.trip is not None:
        fresh.gone = True
        mind.trip.acts.append(Act("undo", "Undo", fresh.quote, [fresh], implied=True))
    return fresh


def one_each(clause: Clause, item: Item, led: str = "") -> bool:
    """`two screws each`, `one screw apiece`, `in each hole there's a screw`."""
    at = clause.items.index(item) if item in clause.items else 0
    after = [one.text for one in clause.items[at + 1 : at + 3]]
    before = " ".join(word for one in clause.items[:at] for word in one.words)
    before = f"{led} {before}"
    if after[1:] in (["side"], ["end"], ["corner"]):
        return False
    return (
        after[:1] in (["each"], ["apiece"])
        or after == ["per", "side"]
        or any(
            said in before
            for said in phrased("in each|under each|in every|under every|behind each|at each|on each|each corner")
        )
    )


def _things(mind: Mind, clause: Clause, item: Item) -> int:
    """How many there are of what each has its screws: the number before it, else that of the part counted last."""
    for one in clause.items:
        if one.first < item.first and (one.number or one.count or 0) > 1 and one.kind in ("num", "thing", "noun"):
            return int(one.number or one.count or 0)
    rows = [row for row in mind.story.named if row.count and row.count > 1 and item.start - row.heard < 40]
    rows = [row for row in rows if row.kind == "part"]
    return max(rows, key=lambda row: row.heard).count or 0 if rows else 0


def _measured(fresh: Screws, item: Item) -> None:
    """`four 3 mm allen screws`: the size of the drive; `four 6 mm screws`: the length."""
    if item.value is None or item.value.unit != "mm":
        return
    if fresh.drive in among("H NUT SL 5L"):
        fresh.drive += f"{item.value.low:g}"
    elif not fresh.size:
        fresh.size = f"x{item.value.low:g}"


def like_last(mind: Mind, fresh: Screws, *, size: bool = True) -> None:
    """Drive and size of the set told before (`the same again`), or its drive alone (`the same type`)."""
    last = next((row for row in reversed(mind.story.screws) if row is not fresh and (row.drive or row.size)), None)
    if last:
        fresh.drive = fresh.drive or last.drive
        if (size and not fresh.size) or (fresh.size and last.size.startswith(fresh.size)):
            fresh.size = last.size


def last_drive(mind: Mind, said: str = "") -> str:
    """The drive of the driver in hand: that of the set told last which has one; `same driver as the first five`:
    that of the five. A screwdriver turns no nuts."""
    rows = [row for row in reversed(mind.story.screws) if row.drive]
    if " as " in said:
        counts = set(said.split(" as ", 1)[1].split())
        rows = [row for row in rows if str(row.count) in counts or _SPOKEN.get(row.count or 0) in counts] or rows
    if "screwdriver" in said or "bit" in said.split():
        rows = [row for row in rows if not row.drive.startswith("NUT")]
    return rows[0].drive if rows else ""


_SPOKEN = {value: word for word, value in UNITS.items()}


def fill(known: Screws, item: Item) -> None:
    """Adds to a set what an item says and the set does not know yet."""
    known.count = known.count or item.count
    if item.head.endswith("nut") and not known.drive:
        known.drive = "NUT"
    known.drive = completed(known.drive, item.drive) if item.drive else known.drive
    known.size = known.size or item.size
