"""A teardown without words: the small problem that the planner's search works on.

Tasks, blocks, tools, sides and things are numbers from 0 (sides from 1); a set of tasks or tools is a bit set in
a whole number. The guide is turned into such a problem by `guidec.plan.build`.
"""

from __future__ import annotations

from dataclasses import field
from functools import cached_property

from guidec.plan.bits import Needs, bits, mask, mask_of, members
from guidec.plan.rings import knots
from guidec.plan.wires import Wires
from guidec.quick import dataclass

__all__ = ["Needs", "Problem", "Stock", "Task", "bits", "mask", "mask_of", "members"]


@dataclass(frozen=True, slots=True)
class Task:
    """One action.

    `block`: the operation it stands in. `needs`: for each need its ways, each way a bit set of tasks; one whole
    way must be done before. `tools`: a bit set. `side`: the side that must be up, 0 for any; `turn`: the side
    that is up after it, where it is a turn. `ends`: it ends a step by itself (a removal, a part moved, heating,
    cleaning); `works`: it leaves work pending. `takes`: things it takes, with how many of each. `hand`, `wait`:
    milliseconds. `hot`: must not be done before an `isolates` task is.
    """

    block: int
    needs: Needs = ()
    tools: int = 0
    side: int = 0
    turn: int = 0
    ends: bool = False
    works: bool = False
    risks: int = 0
    takes: tuple[tuple[int, int], ...] = ()
    hand: int = 0
    wait: int = 0
    hot: bool = False
    isolates: bool = False


@dataclass(frozen=True, slots=True)
class Stock:
    """A thing that tasks take: how many there are; `spent`: not reusable; `single`: each counts for itself."""

    count: int = 1
    spent: bool = False
    single: bool = False


@dataclass(frozen=True)
class Problem:
    """All tasks in note order. Blocks are numbered in note order.

    `rivals`: for each block, the other blocks that are another way to the same. `start`: the side that is up
    first, 0 where it is laid as the first task wants it. `change_time`, `turn_time`: milliseconds of a change of
    tool and of a turn-over.
    """

    tasks: tuple[Task, ...]
    stocks: tuple[Stock, ...] = ()
    rivals: tuple[frozenset[int], ...] = ()
    start: int = 0
    change_time: int = 0
    turn_time: int = 0
    blocks: int = field(init=False, default=0)

    def __post_init__(self) -> None:
        used = 1 + max((task.block for task in self.tasks), default=-1)
        object.__setattr__(self, "blocks", max(used, len(self.rivals)))

    @cached_property
    def members(self) -> tuple[int, ...]:
        """The tasks of each block, as a bit set."""
        found = [0] * self.blocks
        for at, task in enumerate(self.tasks):
            found[task.block] |= 1 << at
        return tuple(found)

    @cached_property
    def wires(self) -> Wires:
        """What waits for what, laid out for questions."""
        return Wires((at, task.needs) for at, task in enumerate(self.tasks))

    @cached_property
    def takers(self) -> tuple[int, ...]:
        """The tasks that take each thing, as a bit set."""
        found = [0] * len(self.stocks)
        for at, task in enumerate(self.tasks):
            for thing, _ in task.takes:
                found[thing] |= 1 << at
        return tuple(found)

    @cached_property
    def rival_members(self) -> tuple[int, ...]:
        """For each block, the tasks of its rivals, as a bit set."""
        if not self.rivals:
            return (0,) * self.blocks
        return tuple(mask_of(self.members[block] for block in rivals) for rivals in self.rivals)

    @cached_property
    def tangled(self) -> int:
        """The tasks of blocks that need each other, in whatever way (a bit set of tasks).

        Blocks outside can be put in order as wholes whichever ways are taken.
        """
        heads: list[set[int]] = [set() for _ in range(self.blocks)]
        for task in self.tasks:
            for ways in task.needs:
                for way in ways:
                    heads[task.block].update([self.tasks[other].block for other in members(way)])
        return mask_of(self.members[block] for knot in knots(heads) if len(knot) > 1 for block in knot)

    @cached_property
    def isolators(self) -> int:
        """The tasks that make the device dead."""
        return mask(at for at, task in enumerate(self.tasks) if task.isolates)
