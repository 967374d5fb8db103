"""Blocks still to be placed, and a state -> a lower bound on what they will cost, for the search over orders.

Three parts: what each block costs at least by itself, entered with nothing in hand and any side up; the tools that
must be taken up where a block begins; the turn-overs there. A block begins without a change of tool only right
behind one that ends with its tool in hand, and each such end serves one block at most: that is counted off.
"""

from __future__ import annotations

from collections.abc import Iterable, Iterator, Sequence
from typing import NamedTuple

from guidec.plan.search import State
from guidec.plan.sums import Sums

__all__ = ["Bound", "Outline"]

FIELD = 16
"""Bits for one count; so many blocks are never searched at once."""


class Outline(NamedTuple):
    """A block from outside.

    `least`: its cost entered in the best of states. `first`: the tools it begins with; 0 where it uses none or
    may begin in several ways. `last`: the tools it can end with in hand. `first_side`, `last_sides`: the same of
    sides, `last_sides` as a bit set.
    """

    least: int
    first: int
    last: int
    first_side: int
    last_sides: int


class _Entries:
    """Counts beginnings that must cost. `firsts`: what each block begins with; `lasts`: what it ends with."""

    def __init__(self, firsts: Sequence[int], lasts: Sequence[int]) -> None:
        self.kinds = [each for each in dict.fromkeys(firsts) if each]
        size = FIELD * len(self.kinds)
        self._size, self._mask = size, (1 << size) - 1
        self._counts = Sums(
            [
                self._fields(kind == first for kind in self.kinds)
                | self._fields(not kind & ~last for kind in self.kinds) << size
                | self._fields(kind != first and not kind & ~last for kind in self.kinds) << 2 * size
                for first, last in zip(firsts, lasts, strict=True)
            ]
        )
        self._known: dict[tuple[int, int], int] = {}

    @staticmethod
    def _fields(kinds: Iterable[bool]) -> int:
        """A one in the field of each kind that is so."""
        return sum(1 << FIELD * at for at, so in enumerate(kinds) if so)

    def least(self, rest: int, now: int) -> int:
        """The beginnings among the blocks `rest` (bit set) that must cost; `now`: what is in hand, or 0."""
        key = (rest, now)
        found = self._known.get(key)
        if found is None:
            found = self._known[key] = sum(self._each(rest, now))
            if not now:
                found = self._known[key] = max(0, found - 1)
        return found

    def _each(self, rest: int, now: int) -> Iterator[int]:
        counts = self._counts.of(rest)
        begins = counts & self._mask
        ends = counts >> self._size & self._mask
        foreign = counts >> 2 * self._size
        mask = (1 << FIELD) - 1
        for kind in self.kinds:
            count = begins & mask
            if count:
                held = bool(now) and not kind & ~now
                short = count - (ends & mask) - held
                yield max(short, int(not held and not foreign & mask))
            begins >>= FIELD
            ends >>= FIELD
            foreign >>= FIELD


class Bound:
    """The lower bound for a set of blocks."""

    def __init__(self, outlines: Sequence[Outline], change: int, turn: int) -> None:
        self._change = change
        self._turn = turn
        self._everything = (1 << len(outlines)) - 1
        self._least = Sums([each.least for each in outlines])
        self._tools = _Entries([each.first for each in outlines], [each.last for each in outlines])
        self._sides = _Entries(
            [1 << each.first_side if each.first_side else 0 for each in outlines],
            [each.last_sides for each in outlines],
        )

    def of(self, placed: int, state: State) -> int:
        """The least that the blocks not yet placed will cost from a state."""
        rest = self._everything & ~placed
        found = self._least.of(rest) + self._change * self._tools.least(rest, state.hand)
        if self._sides.kinds:
            found += self._turn * self._sides.least(rest, 1 << state.side if state.side else 0)
        return found
