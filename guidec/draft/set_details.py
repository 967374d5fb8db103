"""Drives, sizes and counts said apart from their set -> the set they belong to, or one of its own."""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import replace

from guidec.draft.clauses import Clause
from guidec.draft.item import Item
from guidec.draft.mind import Mind
from guidec.draft.sets import like_last
from guidec.draft.story import Quote, Screws
from guidec.draft.wordset import among, phrased

__all__ = ["details", "ellipses"]


def details(mind: Mind, clause: Clause) -> None:
    """Drives and sizes said apart from the set: `they're all T5`, `these three are T5 and this one is a PH0`."""
    _of_last(mind, clause)
    for at, item in enumerate(clause.items):
        if item.kind in ("drive", "size"):
            _detail(mind, clause, at)
        elif at + 1 < len(clause.items) and clause.items[at + 1].kind == "drive":
            continue
        elif (
            item.amount is not None and item.kind == "value" and item.amount.unit == "mm" and not item.amount.bound
        ):
            _length(mind, clause, at)
    last = mind.set
    if last is not None and clause.start - last.heard < 12:
        _pinned(last, clause)
        last.count = last.count or _late_count(clause.items)


def _of_last(mind: Mind, clause: Clause) -> None:
    """What a clause says of the last set without naming a drive: the same again, a pin in the middle, a key's
    size."""
    last = mind.set
    if last is None or clause.start - last.heard >= 15:
        return
    keys = (item.value for item in clause.items if item.is_a("tool") and item.value and item.head.endswith("key"))
    if last.drive == "H" and clause.start - last.heard < 10 and (sized := next(keys, None)):
        last.drive = f"H{sized.low:g}"
    same = phrased("same as|the same ones|same screws|same type|same size|same kind")
    if not last.drive and any(said in clause.text for said in same):
        like_last(mind, last)
    if clause.start - last.heard < 12:
        _pinned(last, clause)


def _pinned(row: Screws, clause: Clause) -> None:
    """A hexalobular drive with a centre pin, where the words say so."""
    pins = phrased("pin in the|centre pin|center pin|security|tamper")
    if row.drive[:1] == "T" and row.drive[1:].isdigit() and any(said in clause.text for said in pins):
        row.drive += "H"


def _detail(mind: Mind, clause: Clause, at: int) -> None:
    """A drive or size: of a share of the last set, of a set of its own, of the last set."""
    items, item = clause.items, clause.items[at]
    before = items[at - 1] if at else None
    if (
        item.text in among("NUT H SL 5L 3W")
        and before is not None
        and before.amount
        and before.amount.unit == "mm"
    ):
        item = replace(item, text=f"{item.text}{before.amount.low:g}")
    if item.kind == "drive" and _tool(mind, clause, at):
        return
    if item.kind == "drive" and before is not None and before.text in among("not aren't isn't no without"):
        return
    number = _number_of(clause, at)
    if number and _split(mind, item, int(number)):
        return
    if number and before is not None and before.kind == "num" and not _same_set(mind, int(number), item):
        _new(mind, clause, item, int(number))
        return
    target = mind.set
    if target is None or item.start - target.heard > 25:
        if number or _stands_for_one(items, at):
            _new(mind, clause, item, int(number or 1))
    elif (target.parent or target).split and _one(clause):
        _split(mind, item, 1)
    else:
        _set_detail(mind, target, item, clause)
        _tip(target, items, at)


def _number_of(clause: Clause, at: int) -> float | None:
    """How many a drive or size is said of: `three T5`, `two of them are 1.2 by 3`, `these three are T5`."""
    items, before = clause.items, clause.items[at - 1] if at else None
    if before is None:
        return None
    if before.kind == "num" and not before.stop and before.number is not None:
        return before.number
    number = _share(items, at)
    predicate = items[at].kind == "drive" and before.text in among("are 're they're is all 's")
    if (number is None and predicate) or before.text in ("be", "like"):
        number = _subject_number(clause, at)
    return number


def _stands_for_one(items: Sequence[Item], at: int) -> bool:
    """`a T5 up here`: a screw, though nobody says the word."""
    if at == 0 or items[at - 1].text not in ("a", "an"):
        return False
    after = items[at + 1] if at + 1 < len(items) else None
    if after is None or items[at].stop:
        return True
    return after.kind == "word" and after.text in among("too as here and one up at in on so this for")


def _late_count(items: Sequence[Item]) -> int | None:
    """`held together with seven`, `two of them`: the count of a set told without one."""
    for at, item in enumerate(items):
        if item.kind == "num" and item.number and item.number == int(item.number) and 0 < item.number < 40:
            follow = [one.text for one in items[at + 1 : at + 3]]
            if follow == ["of", "them"] or (
                not follow and at and items[at - 1].text in among("with by of all are")
            ):
                return int(item.number)
    return None


def ellipses(mind: Mind, clause: Clause) -> None:
    """`two on the left side and two on the right`, `two more under the strip`: sets with no word for screws."""
    items = clause.items
    whole = mind.set
    if whole is None or items[0].start - whole.heard > 20:
        return
    told: list[Item] = []
    if (extra := _ordinal(items)) is not None:
        mind.set = mind.many = Screws(
            Quote(extra.start, extra.first, extra.last), 1, heard=extra.start, holds=whole.holds
        )
        mind.story.screws.append(mind.set)
        return
    for at, item in enumerate(items):
        if (
            item.kind != "num"
            or item.number is None
            or not 0 < item.number < 40
            or item.number != int(item.number)
        ):
            continue
        if (at and items[at - 1].text in among("the these those of all")) or any(
            one.kind == "thing" and not one.is_a("screw") and one.start > whole.heard for one in items[:at]
        ):
            continue
        follow = [one.text for one in items[at + 1 : at + 4]]
        more = follow[:1] == ["more"] and (len(follow) < 2 or follow[1] in _WHERE)
        if more or (
            follow[:1]
            and follow[0] in _WHERE
            and len(follow) > 1
            and follow[1] in among("the each either top bottom left right that this here a")
        ):
            told.append(item)
    if not told or any(word in clause.text.split()[:1] for word in ("the", "these", "those")):
        return
    if sum(int(item.number or 0) for item in told) == whole.count and not any(
        "more" in clause.text.split() for _ in told
    ):
        return
    for item in told:
        fresh = Screws(
            Quote(item.start, item.first, item.last), int(item.number or 0), heard=item.start, holds=whole.holds
        )
        mind.story.screws.append(fresh)
        mind.set = mind.many = fresh


_WHERE = among("on at in under underneath along near behind inside below above over up down around")


def _ordinal(items: Sequence[Item]) -> Item | None:
    """`there's a fifth one`, `one more at the top`."""
    for at, item in enumerate(items[:-1]):
        follow = items[at + 1]
        if item.text in among("third fourth fifth sixth seventh eighth ninth tenth") and follow.text == "1":
            return item
        if item.kind == "num" and item.number == 1 and follow.text == "more" and at + 2 == len(items):
            return item
    return None


def _set_detail(mind: Mind, target: Screws, item: Item, clause: Clause) -> None:
    if item.kind == "drive":
        rows = [target]
        if target.parent is not None and any(one in clause.text for one in ("all", "both sorts")):
            rows += target.parent.split
        rows += [
            row
            for row in mind.story.screws
            if not row.drive
            and item.start - row.heard < 12
            and row is not target
            and ("all" in clause.text.split() or "they're" in clause.text or "these are" in clause.text)
        ]
        for row in rows:
            if not row.drive or item.text.startswith(row.drive) or row.drive in ("NUT",):
                row.drive = item.text
    elif not target.size or target.size.startswith("x"):
        target.size = item.text
    target.quote = (
        target.quote.to(Quote(item.start, item.first, item.last))
        if item.first - target.quote.last < 30
        else target.quote
    )


def _one(clause: Clause) -> bool:
    return any(
        word in clause.text
        for word in phrased("this one|that one|the other|this is|that's|the last|the fourth|one is|one's")
    )


def _share(items: Sequence[Item], at: int) -> float | None:
    """`two of them are 1.2 by 3`: the share that a size or drive is said of."""
    back = at - 1
    while (
        back >= 0
        and items[back].kind == "word"
        and items[back].text in among("are is 're of them these those the")
    ):
        back -= 1
    shared = any(one.text in ("them", "these", "those") for one in items[max(back, 0) : at])
    return items[back].number if back >= 0 and items[back].kind == "num" and shared else None


def _subject_number(clause: Clause, at: int) -> float | None:
    """`these three are …`: the count in the subject."""
    for item in clause.items[: min(at, 3)]:
        if item.kind == "num" and item.number:
            return item.number
    return None


def _same_set(mind: Mind, number: int, item: Item) -> bool:
    last = mind.set
    if last is None or item.start - last.heard > 90:
        return False
    waiting = [
        row
        for row in mind.story.screws
        if row.count == number and (not row.drive or row.drive == item.text) and item.start - row.heard < 90
    ]
    if waiting:
        mind.set = mind.many = waiting[-1]
        return True
    return False


def _split(mind: Mind, item: Item, number: int) -> bool:
    """A share of the last set that differs: the set falls into two."""
    whole = mind.set
    if whole is None or item.start - whole.heard > 25:
        return False
    root = whole.parent or whole
    if (
        root.count is None
        or number >= root.count
        or (item.kind == "drive" and root.drive and not root.split)
        or (item.kind == "size" and root.size and not root.split)
    ):
        return False
    done = sum(row.count or 0 for row in root.split)
    if done + number > root.count:
        return False
    share = Screws(
        Quote(item.start, item.first, item.last),
        number,
        item.text if item.kind == "drive" else root.drive,
        item.text if item.kind == "size" else root.size,
        heard=item.start,
        parent=root,
        holds=root.holds,
    )
    root.split.append(share)
    mind.story.screws.append(share)
    mind.set = share
    return True


def _new(mind: Mind, clause: Clause, item: Item, number: int) -> None:
    fresh = Screws(Quote(clause.items[0].start, clause.items[0].first, item.last), number, heard=item.start)
    if item.kind == "drive":
        fresh.drive = item.text
    else:
        fresh.size = item.text
    mind.story.screws.append(fresh)
    mind.set = mind.many = fresh


def _tip(target: Screws, items: Sequence[Item], at: int) -> None:
    """The size said behind a three-wing or five-lobe drive: `a three-wing type, 0.6`."""
    for one in items[at + 1 : at + 3]:
        if (
            one.kind == "num"
            and one.number is not None
            and one.number < 3
            and one.number != int(one.number)
            and target.drive in ("3W", "5L")
        ):
            target.drive += f"{one.number:g}"


def _tool(mind: Mind, clause: Clause, at: int) -> bool:
    """`you need a long T20`: a driver, not a screw."""
    item = clause.items[at]
    before = [one.text for one in clause.items[max(0, at - 4) : at]]
    asks = any(word in among("need using use with grab take want get") for word in before)
    article = any(word in among("a an my your the") for word in before[-2:])
    if (
        item.text.startswith("NUT")
        or not (asks and article)
        or any(one.kind == "num" for one in clause.items[max(0, at - 1) : at])
    ):
        return False
    target = mind.set
    if target is not None and not target.drive and item.start - target.heard < 20:
        target.drive = item.text
    named = mind.names.thing("tool", item, name=f"{item.text} driver")
    mind.hand.append((item.start, named))
    return True


def _length(mind: Mind, clause: Clause, at: int) -> None:
    """A length said of the last set: `three millimetres long`, `hex head eight millimetre`, `nuts seven
    millimetre`."""
    amount = clause.items[at].amount
    target = mind.set
    if target is None or amount is None or clause.items[at].start - target.heard > 8:
        return
    if target.drive in ("NUT",) or target.word == "nut":
        if target.drive == "NUT":
            target.drive = f"NUT{amount.low:g}"
    elif target.drive == "H":
        target.drive = f"H{amount.low:g}"
    elif target.drive == "5L":
        target.drive = f"5L{amount.low:g}"
    elif target.drive == "SL":
        target.drive = f"SL{amount.low:g}"
    elif (
        not target.size
        and "tiny" not in clause.text
        and not any(item.is_a("part", "tool") for item in clause.items[at - 2 : at])
    ):
        target.size = f"x{amount.low:g}"
