"""Blocks and tasks of a search -> which are alike, which stand where, and where an order falls apart."""

from __future__ import annotations

from guidec.plan.problem import Problem, bits
from guidec.plan.search import Grown

__all__ = ["cuts", "inward", "items", "places", "twins"]


def twins(stands: list[int], before: list[int], shapes: list[tuple[object, ...] | None]) -> None:
    """Let items that are alike, before and behind the same others, keep the note's order (changes `before`)."""
    behind = [0] * len(stands)
    for at, needed in enumerate(before):
        for other in bits(needed):
            behind[other] |= 1 << at
    last: dict[tuple[object, ...], int] = {}
    pairs = []
    for at in sorted(range(len(stands)), key=lambda at: stands[at]):
        if shapes[at] is not None:
            key = (shapes[at], before[at], behind[at])
            if key in last:
                pairs.append((at, last[key]))
            last[key] = at
    for at, other in pairs:
        before[at] |= 1 << other


def inward(problem: Problem) -> int:
    """The tasks with a need of several ways, one of which is in their own block (bit set)."""
    found = 0
    for at, task in enumerate(problem.tasks):
        mine = problem.members[task.block]
        if any(len(ways) > 1 and any(way & mine for way in ways) for ways in task.needs):
            found |= 1 << at
    return found


def items(grown: Grown) -> tuple[int, ...]:
    """What was placed, in order."""
    found: list[int] = []
    at: Grown | None = grown
    while at is not None and at.before is not None:
        found.append(at.placed)  # type: ignore[arg-type]
        at = at.before
    return tuple(reversed(found))


def places(blocks: list[int], needed: int) -> int:
    """Which blocks hold any of the tasks needed."""
    found = 0
    for at, acts in enumerate(blocks):
        if acts & needed:
            found |= 1 << at
    return found


def cuts(groups: list[tuple[int, int]], upto: list[int]) -> list[int]:
    """The places at which all groups before come before all groups behind, in order; not the ends."""
    found = []
    common = -1
    for at in range(len(groups) - 1, 0, -1):
        common &= groups[at][1]
        if not upto[at] & ~common:
            found.append(at)
    return found[::-1]
