"""What is said behind the noun of screws -> the same screws with it: `four screws, phillips, double zero`."""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import replace

from guidec.draft.drives import completed
from guidec.draft.item import Item
from guidec.draft.wordset import among

__all__ = ["behind", "is_whole", "of_tool", "text_at"]


def is_whole(item: Item) -> bool:
    """Whether an item is a number that things can be counted with: whole, 1 to 59."""
    return item.number is not None and item.number == int(item.number) and 0 < item.number < 60


def text_at(items: Sequence[Item], at: int) -> str:
    """The text of an item, and of none where the index is outside of them."""
    return items[at].text if 0 <= at < len(items) else ""


def of_tool(items: Sequence[Item], at: int) -> bool:
    """Whether a drive is that of a tool named behind it: `a T5 bit`, `phillips number two driver`."""
    return any(
        one.is_a("tool") or one.text in among("bit bits driver drivers key keys socket wrench spanner")
        for one in items[at + 1 : at + 3]
    )


def behind(items: Sequence[Item], at: int, item: Item) -> tuple[Item, int]:
    """The item with drive, size, length and count that follow its noun, and how many items these are."""
    start = at
    while at < len(items) and item.stop != 2:
        grown = _grown(items, at, item)
        if grown is None:
            break
        item, taken = grown
        at += taken
    return item, at - start


def _grown(items: Sequence[Item], at: int, item: Item) -> tuple[Item, int] | None:
    after = items[at]
    skip = after.text in ("number", "size", "with") and item.stop == 0 and at + 1 < len(items)
    said = items[at + 1] if skip else after
    if said.kind == "drive" and not of_tool(items, at + skip) and not _shared(items, at, item):
        drive = completed(item.drive, said.text)
        return (_longer(item, said, drive=drive), 1 + skip) if drive != item.drive else None
    if skip and said.kind == "num" and after.text != "with" and (said.number or 0) < 5 and said.stop != 1:
        drive = completed(item.drive, f"?{said.number:g}")
        return (_longer(item, said, drive=drive), 2) if drive != item.drive else None
    if skip:
        return None
    if after.kind == "size" and not item.size:
        return _longer(item, after, size=after.text), 1
    heads = among("head heads hex spanner socket headed")
    headed = after.is_a("part") and after.head == "head" and after.value is not None and after.value.unit == "mm"
    if headed and not item.drive and after.value is not None:
        return _longer(item, after, drive=f"NUT{after.value.low:g}"), 1
    if (
        after.amount is not None
        and after.amount.unit == "mm"
        and not item.drive
        and text_at(items, at + 1) in heads
    ):
        return _longer(item, items[at + 1], drive=f"NUT{after.amount.low:g}"), 2
    of_them = text_at(items, at + 1) == "of" and text_at(items, at + 2) in among("them these those 'em em")
    if of_them and item.count is None and after.kind == "num" and is_whole(after) and not after.stop:
        return _longer(item, items[at + 2], count=int(after.number or 0)), 3
    return None


def _shared(items: Sequence[Item], at: int, item: Item) -> bool:
    """Whether a drive starts a set of its own: `four screws | T5 at the top and T6 at the bottom`."""
    return item.stop != 0 and at + 1 < len(items) and items[at + 1].is_a("screw")


def _longer(item: Item, last: Item, **said: object) -> Item:
    grown: Item = replace(item, last=last.last, stop=last.stop, words=(*item.words, *last.words), **said)  # type: ignore[arg-type]
    return grown
