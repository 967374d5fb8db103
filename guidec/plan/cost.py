"""What a route costs, as one whole number that compares as the chosen order of its parts does.

Each part of the cost has a field of 40 bits in a Python integer, the weightiest part in the highest bits: adding
two such numbers adds part by part, and comparing them compares part after part. That is what makes an exact
search over thousands of orders affordable.
"""

from __future__ import annotations

from functools import cached_property
from typing import Literal

from guidec.quick import dataclass

__all__ = ["ORDERS", "By", "Cost", "Scale", "scale"]

By = Literal["damage", "steps", "time"]

BITS = 40
_MASK = (1 << BITS) - 1
_TAIL = ("distance", "shuffle", "screws", "wait")
ORDERS: dict[By, tuple[str, ...]] = {
    "damage": ("flaws", "risks", "spent", "steps", "changes", "turns", "hand", *_TAIL),
    "steps": ("flaws", "steps", "risks", "spent", "changes", "turns", "hand", *_TAIL),
    "time": ("flaws", "total", "risks", "spent", "steps", "changes", "turns", "hand", *_TAIL),
}
"""The parts of a cost, weightiest first, for each `--by`. `total` is hand and waiting time together."""


@dataclass(frozen=True, slots=True)
class Cost:
    """A cost taken apart.

    `flaws`: actions done on the live device; `risks`: `risk` marks met; `spent`: fastenings undone that are not
    reusable; `steps`, `changes` (of tool), `turns`; `hand` and `wait` in milliseconds; `distance`: in how
    many pairs of operations the route goes against the note's order; `shuffle`: the same for the actions within
    each operation; `screws`: single screws undone.
    """

    flaws: int = 0
    risks: int = 0
    spent: int = 0
    steps: int = 0
    changes: int = 0
    turns: int = 0
    hand: int = 0
    wait: int = 0
    distance: int = 0
    shuffle: int = 0
    screws: int = 0


@dataclass(frozen=True)
class Scale:
    """Where each part stands in the packed number."""

    by: By

    @cached_property
    def shifts(self) -> dict[str, int]:
        """Part -> how far left it is shifted."""
        return {name: BITS * place for place, name in enumerate(reversed(ORDERS[self.by]))}

    def pack(self, **parts: int) -> int:
        """Parts -> one number. Parts are not negative."""
        shifts = self.shifts
        total = parts.get("hand", 0) + parts.get("wait", 0)
        packed = total << shifts["total"] if "total" in shifts else 0
        for name, value in parts.items():
            packed += value << shifts[name]
        return packed

    def cost(self, packed: int) -> Cost:
        """One number -> its parts."""
        return Cost(**{name: packed >> at & _MASK for name, at in self.shifts.items() if name != "total"})


_SCALES: dict[By, Scale] = {by: Scale(by) for by in ORDERS}


def scale(by: By) -> Scale:
    """The scale of a `--by`."""
    return _SCALES[by]
