"""Sets of small numbers as bits of whole numbers -> their members, and back."""

from __future__ import annotations

from collections.abc import Iterable, Iterator

__all__ = ["Needs", "bits", "mask", "mask_of", "members"]

Needs = tuple[tuple[int, ...], ...]
"""For each need its ways, each way a bit set of tasks."""


def bits(mask: int) -> Iterator[int]:
    """The members of a bit set, smallest first."""
    while mask:
        low = mask & -mask
        yield low.bit_length() - 1
        mask ^= low


def members(mask: int) -> tuple[int, ...]:
    """The same at once. Most sets have one member."""
    return (mask.bit_length() - 1,) if mask.bit_count() == 1 else tuple(bits(mask))


def mask(tasks: Iterable[int]) -> int:
    """A bit set of its members."""
    found = 0
    for member in tasks:
        found |= 1 << member
    return found


def mask_of(masks: Iterable[int]) -> int:
    """The union of bit sets."""
    found = 0
    for each in masks:
        found |= each
    return found
