"""Items with an order among them -> in how many orders they can all be done."""

from __future__ import annotations

from collections.abc import Sequence

__all__ = ["count_orders"]

BOUND = 20_000
"""So many sets of items are looked at before the count is given up."""


def count_orders(before: Sequence[int]) -> int | None:
    """The number of linear extensions. `before`: for each item the items that must stand before it (bit set).

    Layer by layer over the sets that can be done first; None where there are too many of them.
    """
    layer = {0: 1}
    looked_at = 0
    for _ in before:
        following: dict[int, int] = {}
        for done, ways in layer.items():
            for item, needed in enumerate(before):
                if not done >> item & 1 and not needed & ~done:
                    grown = done | 1 << item
                    following[grown] = following.get(grown, 0) + ways
        looked_at += len(following)
        if looked_at > BOUND:
            return None
        layer = following
    return layer.get((1 << len(before)) - 1, 0)
