"""Tokens -> numbers, values, drives and sizes."""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import replace

from guidec.draft.counting import number_at
from guidec.draft.drives import drive_at
from guidec.draft.hearing import Token
from guidec.draft.item import Item
from guidec.draft.measures import size_at, value_at
from guidec.draft.wordset import among

__all__ = ["measure", "spanning"]


_TOOL_FIRST = frozenset(["allen", "hex"])


def measure(piece: list[str], kept: Sequence[Token], at: int) -> tuple[Item, int] | None:
    """The size, drive, value or number that starts at a token, and how many tokens it takes."""
    if len(piece) > 1 and piece[0] in _TOOL_FIRST and piece[1] in among("key keys wrench driver bit socket"):
        return None
    if found := size_at(piece, 0):
        return spanning("size", found[0], kept, at, found[1]), found[1]
    if found := _drive(piece, kept, at):
        return spanning("drive", found[0], kept, at, found[1]), found[1]
    if value := value_at(piece, 0):
        bound = _bound(kept, at)
        amount = replace(value[0], bound=bound)
        return replace(spanning("value", amount.text, kept, at, value[1]), amount=amount), value[1]
    if number := number_at(piece, 0):
        return replace(spanning("num", f"{number[0]:g}", kept, at, number[1]), number=number[0]), number[1]
    return None


def _drive(piece: list[str], kept: Sequence[Token], at: int) -> tuple[str, int] | None:
    """A drive; the `one` of `a phillips one` is the screw and not the size."""
    found = drive_at(piece, 0)
    if (
        found is None
        or not found[0].endswith("1")
        or piece[found[1] - 1] != "one"
        or "number" in piece[: found[1]]
    ):
        return found
    if piece[0] not in among("cross crosshead plus phillips torx pozidriv"):
        return found
    lead = [token.text for token in kept[max(0, at - 3) : at]]
    headed = piece[0] in ("cross", "crosshead", "plus")
    return (found[0][:-1], found[1] - 1) if headed or any(word in ("a", "an") for word in lead) else found


def _bound(kept: Sequence[Token], at: int) -> str:
    before = [token.text for token in kept[max(0, at - 2) : at]]
    if before[-1:] and before[-1] in ("under", "below"):
        return "<"
    if before == ["less", "than"]:
        return "<"
    if (
        (before[-1:] and before[-1] in ("over", "above"))
        or before == ["more", "than"]
        or before == ["at", "least"]
    ):
        return ">"
    return ""


def spanning(kind: str, text: str, kept: Sequence[Token], at: int, size: int) -> Item:
    """An item of a kind over some tokens, with their times and words."""
    rows = kept[at : at + size]
    return Item(
        kind,
        text,
        rows[0].start,
        rows[0].first,
        rows[-1].last,
        rows[-1].stop,
        leads=rows[0].leads,
        words=tuple(row.text for row in rows),
    )
