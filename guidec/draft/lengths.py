"""Items -> items in which `mil`, said of millimetres and of millilitres, is one of them, by what is around it."""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import replace

from guidec.draft.item import Item
from guidec.draft.wordset import among

__all__ = ["lengths"]

_POURED = among("of syringe dropper drop drops squirt inject pour poured add put splash about maybe around")


def lengths(items: Sequence[Item]) -> list[Item]:
    """The items, each value in `mil` turned into one in `ml` (a liquid is named) or `mm`."""
    return [_settled(items, at) if _is_mil(item) else item for at, item in enumerate(items)]


def _is_mil(item: Item) -> bool:
    return item.kind == "value" and item.amount is not None and item.amount.unit == "mil"


def _settled(items: Sequence[Item], at: int) -> Item:
    item = items[at]
    unit = "ml" if _liquid(items, at) else "mm"
    if item.amount is None:
        return item
    amount = replace(item.amount, unit=unit)
    return replace(item, amount=amount, text=amount.text)


def _liquid(items: Sequence[Item], at: int) -> bool:
    """Whether a liquid or what it is put in stands close by, with no screw, tool or blade before it."""
    after, before = items[at + 1 : at + 5], items[max(0, at - 6) : at]
    for one in after:
        if one.is_a("screw", "part") or (one.is_a("tool") and not one.is_a("supply")):
            return False
        if one.is_a("supply"):
            return True
    poured = any(one.text in _POURED - among("of about maybe around") or one.is_a("supply") for one in before)
    return poured or (bool(after) and after[0].text == "of" and not any(one.is_a("screw") for one in before))
