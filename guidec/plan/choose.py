"""Targets -> the smallest sets of tasks that serve them, one for each choice among other ways.

A set serves when each of its tasks has, for each of its needs, a whole way inside the set; it is smallest when
nothing can be left out. Shared work is weighed by construction: a need that the set serves already opens no
choice.
"""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import dataclass

from guidec.plan.closure import Closure, chain
from guidec.plan.problem import Problem, bits

__all__ = ["Sets", "smallest"]

BOUND = 1024
"""So many combinations of ways are weighed; past it the best of the first found is taken, and said so."""


@dataclass(frozen=True, slots=True)
class Sets:
    """The sets found, and whether they are all there are."""

    sets: tuple[int, ...]
    complete: bool


def smallest(
    problem: Problem, closure: Closure, targets: Sequence[tuple[int, ...]], check: bool, banned: int = 0
) -> Sets:
    """Targets -> their smallest sets.

    `targets`: needs, each with its ways (bit sets). `check`: ways may need each other, so each set is tried for
    an order. `banned`: tasks that no set may hold.
    """
    wanted = [[way for way in ways if not way & ~closure.can] for ways in targets]
    if not all(wanted):
        return Sets((), True)
    extra = [tuple(ways) for ways in wanted if len(ways) > 1]
    start = 0
    for ways in wanted:
        if len(ways) == 1:
            start |= ways[0]
    leaves, complete = _leaves(closure, closure.of(start), extra, banned)
    kept = _minimal(leaves)
    if check:
        kept = [each for each in kept if _orderable(problem, each)]
    return Sets(tuple(kept), complete)


def _leaves(
    closure: Closure, start: tuple[int, int], extra: list[tuple[int, ...]], banned: int
) -> tuple[list[int], bool]:
    """Depth first over open choices, note's own ways first."""
    found: dict[int, None] = {}
    seen: set[tuple[int, int]] = set()
    stack = [(start, len(extra))]
    while stack:
        (tasks, choices), left = stack.pop()
        if tasks & banned:
            continue
        ways, choices, left = _next_open(closure, tasks, choices, extra, left)
        if ways is None:
            found[tasks] = None
            if len(found) >= BOUND:
                return list(found), not stack
            continue
        for way in reversed(ways):
            more, opened = closure.of(way)
            node = (tasks | more, choices | opened)
            if node not in seen:
                seen.add(node)
                stack.append((node, left))
    return list(found), True


def _next_open(
    closure: Closure, tasks: int, choices: int, extra: list[tuple[int, ...]], left: int
) -> tuple[tuple[int, ...] | None, int, int]:
    """The next need that the set does not serve, with the choices that are left after it."""
    while left:
        left -= 1
        if all(way & ~tasks for way in extra[left]):
            return extra[left], choices, left
    for number in bits(choices):
        choices &= ~(1 << number)
        if all(way & ~tasks for way in closure.choices[number]):
            return closure.choices[number], choices, 0
    return None, 0, 0


def _minimal(sets: list[int]) -> list[int]:
    """The sets that hold no other of them; in the order given."""
    if len(sets) == 1:
        return sets
    kept: list[int] = []
    for each in sorted(sets, key=int.bit_count):
        if not any(not smaller & ~each for smaller in kept):
            kept.append(each)
    place = {each: at for at, each in enumerate(sets)}
    return sorted(kept, key=place.__getitem__)


def _orderable(problem: Problem, tasks: int) -> bool:
    """Whether a set can be done in some order with nothing from outside it."""
    members = list(bits(tasks))
    done = chain(
        lambda task: tuple(tuple(way for way in ways if not way & ~tasks) for ways in problem.tasks[task].needs),
        members,
    )
    return len(done) == len(members)
