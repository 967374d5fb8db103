"""What each task needs -> which tasks can be done with nothing but each other, asked any number of times.

The rules of one check ask five times, each time without some other actions: what waits for what is laid out once.
"""

from __future__ import annotations

from collections import defaultdict
from collections.abc import Collection, Iterable

from guidec.plan.bits import Needs, members

__all__ = ["Wires"]


class Wires:
    """Leads from every task to the ways that it is part of, and from every way to the need that it serves."""

    __slots__ = ("_lacking", "_open", "_serves", "_users")

    def __init__(self, tasks: Iterable[tuple[int, Needs]]) -> None:
        """`tasks`: each with its needs. Linear in the size of the needs."""
        self._open: dict[int, int] = {}  # task -> how many needs it has
        self._lacking: list[int] = []  # way -> how many tasks it has
        self._serves: list[tuple[int, int]] = []  # way -> the task it serves, and the number of the need
        self._users: dict[int, list[int]] = defaultdict(list)  # task -> the ways it is part of
        need = 0
        for task, needs in tasks:
            first = need
            for ways in needs:
                if 0 in ways:
                    continue
                for way in ways:
                    others = members(way)
                    for other in others:
                        self._users[other].append(len(self._lacking))
                    self._lacking.append(len(others))
                    self._serves.append((task, need))
                need += 1
            self._open[task] = need - first

    def order(self, without: Collection[int] = ()) -> list[int]:
        """The tasks that can be done, in an order that works. `without`: tasks that are never done."""
        missing, lacking, served = self._open.copy(), self._lacking.copy(), set[int]()
        for task in without:
            missing.pop(task, None)
        ready = [task for task, needs in missing.items() if not needs]
        for task in ready:
            for way in self._users.get(task, ()):
                lacking[way] -= 1
                user, need = self._serves[way]
                if lacking[way] or need in served or user not in missing:
                    continue
                served.add(need)
                missing[user] -= 1
                if not missing[user]:
                    ready.append(user)
        return ready
