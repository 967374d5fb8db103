"""What must come before what: problem -> an order in which all can be done, what each task surely needs, cycles.

`Closure.order` is found by doing whatever can be done until nothing more can; with needs that any of several ways
serves, this is exact. A task that is left over is in a cycle, behind one, or has a need that nothing serves.
"""

from __future__ import annotations

from collections.abc import Callable, Collection, Iterable, Iterator
from dataclasses import field
from functools import cached_property

from guidec.plan.problem import Needs, Problem, bits, mask_of, members
from guidec.plan.wires import Wires
from guidec.quick import dataclass

__all__ = ["Closure", "chain", "close", "find_cycles"]


@dataclass(frozen=True)
class Closure:
    """`order`: the tasks that can be done, in an order that works. `can`: the same as a bit set.

    `forced`: for each task, itself and all that is done before it whichever ways are taken (needs with one way
    left, followed to the end). `open`: the numbers, as a bit set, of the `choices` met on that way. `choices`:
    the different needs with several ways. `blocks`: like `forced`, each block touched counted whole. `direct`,
    `asks`: a task's own forced needs and its own choices, not followed.
    """

    order: tuple[int, ...]
    can: int
    forced: tuple[int, ...]
    open: tuple[int, ...]
    choices: tuple[tuple[int, ...], ...]
    blocks: tuple[int, ...]
    direct: tuple[int, ...]
    asks: tuple[int, ...]
    known: dict[int, tuple[int, int]] = field(default_factory=dict, repr=False, compare=False)

    def of(self, tasks: int) -> tuple[int, int]:
        """A set of tasks -> all that is surely done for it, and the open choices on that way."""
        found = self.known.get(tasks)
        if found is None:
            forced = choices = 0
            for task in bits(tasks):
                forced |= self.forced[task]
                choices |= self.open[task]
            found = self.known[tasks] = (forced, choices)
        return found

    @cached_property
    def reach(self) -> tuple[int, ...] | None:
        """For each task all that any of its ways could bring in; None where ways need each other in a ring."""
        found = [0] * len(self.direct)
        left = {at: self.direct[at] for at in bits(self.can)}
        for at in left:
            left[at] |= mask_of(mask_of(self.choices[number]) for number in bits(self.asks[at]))
        for at in _topological(left):
            found[at] = 1 << at | mask_of(found[other] for other in bits(left[at]))
        return tuple(found) if all(found[at] for at in left) else None


def _topological(needs: dict[int, int]) -> list[int]:
    """Tasks in an order in which all that each might need comes first; those in rings left out."""
    users: dict[int, list[int]] = {}
    missing = {}
    for at, needed in needs.items():
        missing[at] = needed.bit_count()
        for other in bits(needed):
            users.setdefault(other, []).append(at)
    ready = [at for at, count in missing.items() if not count]
    for at in ready:
        for user in users.get(at, ()):
            missing[user] -= 1
            if not missing[user]:
                ready.append(user)
    return ready


def chain(needs: Callable[[int], Needs], tasks: Iterable[int]) -> list[int]:
    """Tasks -> those that can be done with nothing but each other, in an order that works."""
    return Wires((task, needs(task)) for task in tasks).order()


def close(problem: Problem, without: int = 0) -> Closure:
    """The closure of a problem. `without`: tasks that are never done."""
    tasks = problem.tasks
    order = problem.wires.order(members(without))
    can = 0
    for task in order:
        can |= 1 << task
    forced, opened, blocks, direct, asks = ([0] * len(tasks) for _ in range(5))
    numbers: dict[tuple[int, ...], int] = {}
    for task in order:
        for ways in tasks[task].needs:
            alive = _alive(ways, can)
            if len(alive) == 1:
                direct[task] |= alive[0]
            elif alive:
                asks[task] |= 1 << numbers.setdefault(alive, len(numbers))
        mine, choices, touched = 1 << task, asks[task], problem.members[tasks[task].block]
        for other in members(direct[task]):
            mine |= forced[other]
            choices |= opened[other]
            touched |= blocks[other]
        forced[task], opened[task], blocks[task] = mine, choices, touched
    lists = (forced, opened, tuple(numbers), blocks, direct, asks)
    return Closure(tuple(order), can, *(tuple(each) for each in lists))  # type: ignore[arg-type]


def _alive(ways: tuple[int, ...], can: int) -> tuple[int, ...]:
    """The ways that can be gone, those that hold another whole way left out; () where nothing is needed."""
    if 0 in ways:
        return ()
    alive = [way for way in dict.fromkeys(ways) if not way & ~can]
    if len(alive) > 1:
        alive = [way for way in alive if not any(other != way and not other & ~way for other in alive)]
    return tuple(alive)


def find_cycles(problem: Problem, stuck: Collection[int]) -> Iterator[list[int]]:
    """Tasks that can never be done -> the rings that keep them from it: in each, every task needs the next.

    The last needs the first. Rings share no task.
    """
    done: set[int] = set()
    for root in sorted(stuck):
        walk: list[int] = []
        seen: dict[int, int] = {}
        at: int | None = root
        while at is not None and at not in done:
            if at in seen:
                yield walk[seen[at] :]
                break
            seen[at] = len(walk)
            walk.append(at)
            at = _stuck_on(problem, at, stuck)
        done.update(seen)


def _stuck_on(problem: Problem, task: int, stuck: Collection[int]) -> int | None:
    """A task, never done, of the first way of the first need of a task that is never served."""
    for ways in problem.tasks[task].needs:
        never = [next((other for other in bits(way) if other in stuck), None) for way in ways]
        if never and None not in never:
            return never[0]
    return None
