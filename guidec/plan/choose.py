"""Targets -> the smallest sets of tasks that serve them, one for each choice among other ways.

A set serves when each of its tasks has, for each of its needs, a whole way inside the set; it is smallest when
nothing can be left out. Shared work is weighed by construction: a need that the set serves already opens no
choice.
"""

from __future__ import annotations

from collections.abc import Callable

from guidec.plan.closure import Closure, chain
from guidec.plan.problem import Problem, bits
from guidec.quick import dataclass

__all__ = ["Sets", "smallest_sets"]

BOUND = 1024
"""So many combinations of ways are weighed; past it the best of the first found is taken, and said so."""


@dataclass(frozen=True, slots=True)
class Sets:
    """The sets found, and whether they are all there are."""

    sets: tuple[int, ...]
    complete: bool


def smallest_sets(
    problem: Problem, closure: Closure, start: tuple[int, int], weight: Callable[[int], int], *, check: bool
) -> Sets:
    """Tasks wanted and choices left open -> the smallest sets.

    `weight`: what some tasks cost at least, so that cheap ways are tried first. `check`: ways may need each other,
    so each set is tried for an order.
    """
    leaves, complete = _leaves(closure, start, weight)
    kept = _minimal(leaves)
    if check:
        kept = [each for each in kept if _orderable(problem, each)]
    return Sets(tuple(kept), complete)


def _leaves(closure: Closure, start: tuple[int, int], weight: Callable[[int], int]) -> tuple[list[int], bool]:
    """Depth first over open choices, the cheaper ways first, of equal ones the note's own."""
    found: dict[int, None] = {}
    seen: set[tuple[int, int]] = set()
    stack = [start]
    while stack:
        tasks, choices = stack.pop()
        ways, choices = _next_open(closure, tasks, choices)
        if ways is None:
            found[tasks] = None
            if len(found) >= BOUND:
                return list(found), not stack
            continue
        weighed = sorted(ways, key=lambda way: weight(closure.of(way)[0] & ~tasks))
        for way in reversed(weighed):
            more, opened = closure.of(way)
            node = (tasks | more, choices | opened)
            if node not in seen:
                seen.add(node)
                stack.append(node)
    return list(found), True


def _next_open(closure: Closure, tasks: int, choices: int) -> tuple[tuple[int, ...] | None, int]:
    """The next choice that the set does not serve, with the choices that are left after it."""
    for number in bits(choices):
        choices &= ~(1 << number)
        if all(way & ~tasks for way in closure.choices[number]):
            return closure.choices[number], choices
    return None, 0


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
