"""Drives, sizes and lengths said apart from their set -> the set they belong to, or one of its own."""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import replace

from guidec.draft.clauses import Clause
from guidec.draft.drivers import elliptic
from guidec.draft.drives import completed
from guidec.draft.item import Item
from guidec.draft.mind import Mind
from guidec.draft.newset import DRIVEN, WHOLLY, last_drive, like_last, share
from guidec.draft.story import Quote, Screws
from guidec.draft.wordset import among, phrased

__all__ = ["details"]

LATE = 25.0
"""Seconds within which a drive or size is said of the set told last."""


def details(mind: Mind, clause: Clause) -> None:
    """Drives and sizes said apart from the set: `they're all T5`, `these three are T5 and this one is a PH0`."""
    _of_last(mind, clause)
    for at, item in enumerate(clause.items):
        if item.kind in ("drive", "size"):
            _detail(mind, clause, at)
        elif item.kind == "num" and mind.set is not None:
            _bare_number(mind, mind.set, clause, at)
        elif item.is_a("tool", "part") and item.head == "blade":
            if item.value and mind.set and mind.set.drive == "SL":
                mind.set.drive += f"{item.value.low:g}"
        elif item.amount is not None and item.kind == "value" and _is_length(clause, at):
            _length(mind, clause, at)
    last = mind.set
    if last is not None and clause.start - last.heard < 12:
        _pinned(last, clause)
        last.count = _pointed(last, clause) or last.count or _late_count(clause)


def _bare_number(mind: Mind, target: Screws, clause: Clause, at: int) -> None:
    """`number two`, `one point five` (of a hex), `three and a half long`."""
    items, item = clause.items, clause.items[at]
    since = item.start - target.heard
    if at and items[at - 1].text in ("number", "size"):
        _numbered(mind, target, item)
    elif at == 0 and item.number != int(item.number or 0):
        if target.drive in ("H", "3W", "5L") and since < 8:
            target.drive += f"{item.number:g}"
    elif at + 1 < len(items) and items[at + 1].text == "long" and since < 14 and item.number != 1:
        target.size = target.size or f"x{item.number:g}"


def _is_length(clause: Clause, at: int) -> bool:
    """Whether a value may be the length of screws: millimetres, not those of a drive behind it."""
    amount = clause.items[at].amount
    driven = at + 1 < len(clause.items) and clause.items[at + 1].kind == "drive"
    return amount is not None and amount.unit == "mm" and not amount.bound and not driven


_AS_LAST = phrased(
    "same as|the same ones|same screws|same type|same size|same kind|same again|same sort|just like"
)


def _of_last(mind: Mind, clause: Clause) -> None:
    """What a clause says of the last set without naming a drive: the same again, a pin in the middle."""
    last = mind.set
    if last is None or clause.start - last.heard >= 15:
        return
    phrased("same as|the same ones|same screws|same type|same size|same kind|same again|same sort|just like")
    if not last.drive and any(said in clause.text for said in _AS_LAST):
        like_last(mind, last, size=any(said in clause.text for said in WHOLLY))
    if any(said in clause.text for said in DRIVEN):
        last.drive = last.drive or last_drive(mind, clause.text)
    if clause.start - last.heard < 12:
        _pinned(last, clause)


def _pinned(row: Screws, clause: Clause) -> None:
    """A hexalobular drive with a centre pin, where the words say so."""
    pins = phrased(
        "pin in the|centre pin|center pin|security|tamper|pin in them|with the pin|with a pin|little pin"
    )
    if row.drive[:1] == "T" and row.drive[1:].isdigit() and any(said in clause.text for said in pins):
        row.drive += "H"


# ---------------------------------------------------------------- drives and sizes


def _detail(mind: Mind, clause: Clause, at: int) -> None:
    """A drive or size: of a share of the last set, of a set of its own, of the last set."""
    items, item = clause.items, clause.items[at]
    before = items[at - 1] if at else None
    if _sized_before(item, before) and before is not None and before.amount is not None:
        item = replace(item, text=f"{item.text}{before.amount.low:g}")
    if before is not None and before.text == "same" and last_drive(mind).startswith(item.text):
        item = replace(item, text=last_drive(mind))
    if item.kind == "drive" and elliptic(mind, clause, at):
        return
    if item.kind == "drive" and before is not None and before.text in among("not aren't isn't no without"):
        return
    target = mind.set
    if target is None or item.start - target.heard > LATE:
        if _stands_for_one(items, at):
            _new(mind, clause, item)
        return
    whole = target.parent or target
    left = (whole.count or 0) - sum(row.count or 0 for row in whole.split)
    number = _share(clause, at, left, split=bool(whole.split))
    if number and _splits(whole, item) and number < (whole.count or 0) and number <= left:
        share(mind, whole, _as_screws(item), number)
        return
    if item.kind == "drive" and _other(clause, at, target, item):
        _new(mind, clause, item)
        return
    _set_detail(mind, target, item, clause)
    _tip(target, items, at)


def _numbered(mind: Mind, target: Screws, item: Item) -> None:
    """`a number two`, behind a drive without its size."""
    star = target.drive[:1] == "T" and item.number is not None and item.number < 60
    if item.start - target.heard < LATE and (item.number in (0, 1, 2, 3, 4) or star):
        known = target.drive or _family(mind)
        target.drive = (
            completed(known, f"?{item.number:g}") if known in ("PH", "PZ", "JIS", "T", "TH") else target.drive
        )


def _family(mind: Mind) -> str:
    """The family of the drive told last that comes in numbers."""
    said = (row.drive.rstrip("0123456789") for row in reversed(mind.story.screws))
    return next((family for family in said if family in ("PH", "PZ", "JIS", "T")), "")


def _sized_before(item: Item, before: Item | None) -> bool:
    """`a three millimetre hex`."""
    sized = before is not None and before.amount is not None and before.amount.unit == "mm"
    return sized and item.text in among("NUT H SL 5L 3W")


def _as_screws(item: Item) -> Item:
    said = {"drive": item.text} if item.kind == "drive" else {"size": item.text}
    return replace(item, **said)  # type: ignore[arg-type]


def _splits(whole: Screws, item: Item) -> bool:
    """Whether a set can fall into shares by this: it has no such detail of its own."""
    return bool(whole.split) or not (whole.drive if item.kind == "drive" else whole.size)


_LONE = phrased("this one|that one|the other|this is|that's|the last|one is|one's|odd one|this 1|that 1|the final")


def _share(clause: Clause, at: int, left: int, *, split: bool) -> int:
    """How many of the set are meant: `this one is`, `the rest are`, `the other three are`; 0 where all are."""
    said = " ".join(word for one in clause.items[:at] for word in one.words)
    if any(
        f" {word} " in f" {said} " for word in phrased("the rest|the others|other ones|remaining|everything else")
    ):
        return left
    phrased("this one|that one|the other|this is|that's|the last|one is|one's|the odd one|this 1|that 1|the final")
    if any(word in said for word in _LONE) and (split or "one" in said or "1" in said.split() or "other" in said):
        return 1
    return 0


def _other(clause: Clause, at: int, target: Screws, item: Item) -> bool:
    """`that's a security Torx`: a screw of its own, where the set told last has another drive."""
    unlike = bool(target.drive) and completed(target.drive, item.text) == target.drive != item.text
    lead = [one.text for one in clause.items[:at]]
    lone = any(word in among("that's it's this one") for word in lead[:2]) and "all" not in lead
    return unlike and lone and item.text[:1] != "?" and "not" not in lead


def _stands_for_one(items: Sequence[Item], at: int) -> bool:
    """`a T5 up here`: a screw, though nobody says the word."""
    if at == 0 or items[at - 1].text not in ("a", "an"):
        return False
    after = items[at + 1] if at + 1 < len(items) else None
    if after is None or items[at].stop:
        return True
    return after.kind == "word" and after.text in among("too as here and one up at in on so this for")


def _new(mind: Mind, clause: Clause, item: Item) -> None:
    fresh = Screws(Quote(clause.items[0].start, clause.items[0].first, item.last), 1, heard=item.start)
    if item.kind == "drive":
        fresh.drive = completed("", item.text)
    else:
        fresh.size = item.text
    mind.story.screws.append(fresh)
    mind.set = mind.many = fresh


def _set_detail(mind: Mind, target: Screws, item: Item, clause: Clause) -> None:
    """The detail, of the set told last and of those told with it where all are meant."""
    if item.kind == "drive":
        for row in _rows(mind, target, item, clause):
            row.drive = item.text if _taken_back(mind, row, item) else completed(row.drive, item.text)
    elif not target.size or target.size.startswith("x"):
        target.size = item.text
    if item.first - target.quote.last < 30:
        target.quote = target.quote.to(Quote(item.start, item.first, item.last))


def _taken_back(mind: Mind, row: Screws, item: Item) -> bool:
    """`it's a T20, no, hang on, it's a T25`: the drive said last."""
    alike = row.drive != item.text and row.drive[:1] == item.text[:1] and item.text[-1:].isdigit()
    words = [
        one.text
        for clause in mind.told
        for one in clause.items
        if one.first < item.first and item.start - one.start < 9
    ]
    return (
        alike
        and item.start - row.heard < 15
        and any(word in among("no sorry actually nope wait") for word in words)
    )


def _rows(mind: Mind, target: Screws, item: Item, clause: Clause) -> list[Screws]:
    words = clause.text.split()
    every = "all" in words or "they're" in words or "these are" in clause.text or "both sorts" in clause.text
    rows = [target]
    if every and target.parent is not None:
        rows += target.parent.split
    if every:
        rows += [row for row in mind.story.screws if not row.drive and item.start - row.heard < 12]
    return rows


def _tip(target: Screws, items: Sequence[Item], at: int) -> None:
    """The size said behind a three-wing or five-lobe drive: `a three-wing type, 0.6`."""
    for one in items[at + 1 : at + 3]:
        small = one.kind == "num" and one.number is not None and one.number < 3 and one.number != int(one.number)
        if small and target.drive in ("3W", "5L", "H"):
            target.drive += f"{one.number:g}"
            return


# ---------------------------------------------------------------- lengths and counts


def _length(mind: Mind, clause: Clause, at: int) -> None:
    """A length said of the last set: `three millimetres long`, `hex head eight millimetre`, `nuts seven
    millimetre`."""
    amount, items = clause.items[at].amount, clause.items
    target = mind.set
    if target is None or amount is None or items[at].start - target.heard > 14:
        return
    long_ = any(one.text in among("long length in") for one in items[at + 1 : at + 3])
    if target.drive in among("NUT H 5L SL") and not long_:
        target.drive += f"{amount.low:g}"
    elif target.word != "nut" and not target.size and "tiny" not in clause.text:
        others = (item.is_a("part", "tool") and not item.stop for item in items[max(0, at - 2) : at])
        target.size = "" if any(others) else f"x{amount.low:g}"


def _pointed(last: Screws, clause: Clause) -> int | None:
    """`a screw here, here, here and here`: as many as are pointed at."""
    number = sum(item.text in ("here", "there") for item in clause.items)
    return number if number > 2 and last.count in (None, 1) else None


def _late_count(clause: Clause) -> int | None:
    """`held together with seven`, `there are nine`: the count of a set told without one."""
    items = clause.items
    for at, item in enumerate(items):
        if item.kind != "num" or not item.number or item.number != int(item.number) or not 0 < item.number < 40:
            continue
        follow = [one.text for one in items[at + 1 : at + 3]]
        led = at > 0 and items[at - 1].text in among("with by of all are there's is are that that's")
        if follow == ["of", "them"] or (led and (not follow or follow[0] in among("in altogether total same of"))):
            return int(item.number)
    return None
