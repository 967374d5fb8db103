"""Numbers, and a set of their places -> their sum, remembered."""

from __future__ import annotations

from collections.abc import Sequence

from guidec.plan.problem import bits

__all__ = ["Sums"]

MANY = 48
"""With more numbers than this nothing is remembered: their sets would fill the memory."""


class Sums:
    """Sums of numbers. Bit sets that share no member may be summed too: the sum is their union."""

    def __init__(self, numbers: Sequence[int]) -> None:
        self._numbers = numbers
        self._known = {0: 0}
        self._many = len(numbers) > MANY

    def of(self, places: int) -> int:
        """The sum of the numbers at a set of places."""
        found = self._known.get(places)
        if found is not None:
            return found
        if self._many:
            return sum(self._numbers[at] for at in bits(places))
        behind = []
        while places not in self._known:
            behind.append(places)
            places ^= 1 << places.bit_length() - 1
        found = self._known[places]
        for each in reversed(behind):
            found += self._numbers[each.bit_length() - 1]
            self._known[each] = found
        return found
