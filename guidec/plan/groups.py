"""A set of tasks of a problem -> its blocks as groups, and what each surely needs."""

from __future__ import annotations

from guidec.plan.closure import Closure
from guidec.plan.problem import Problem, bits
from guidec.plan.rings import knots

__all__ = ["groups_of", "is_loose", "is_served", "needed_directly", "sure_last"]


def groups_of(problem: Problem, tasks: int) -> list[tuple[int, int]]:
    """The blocks of a set (tangled ones merged) in an order that works, each with all it surely needs.

    A list of (the block's tasks, what is surely before it).
    """
    blocks: dict[int, int] = {}
    for at in bits(tasks):
        block = problem.tasks[at].block
        blocks[block] = blocks.get(block, 0) | 1 << at
    groups = list(blocks.values())
    direct = [needed_directly(problem, acts, tasks) for acts in groups]
    heads = [{at for at, other in enumerate(groups) if need & other} for need in direct]
    found: list[tuple[int, int]] = []
    for knot in knots(heads):
        acts = needed = 0
        for at in knot:
            acts |= groups[at]
            needed |= direct[at]
        for other, above in found:
            if needed & other:
                needed |= other | above
        found.append((acts, needed & ~acts))
    return found


def needed_directly(problem: Problem, acts: int, tasks: int) -> int:
    """What a group of tasks of a set surely needs directly: what all ways that are in the set share."""
    needed = 0
    for task in bits(acts):
        for ways in problem.tasks[task].needs:
            inside = [way for way in ways if not way & ~tasks]
            if 0 in inside or not inside:
                continue
            common = inside[0]
            for way in inside[1:]:
                common &= way
            needed |= common
    return needed & ~acts


def is_loose(problem: Problem, task: int, tasks: int) -> bool:
    """Whether a task has a need that several ways within a set could serve."""
    return any(sum(not way & ~tasks for way in ways) > 1 and 0 not in ways for ways in problem.tasks[task].needs)


def is_served(problem: Problem, task: int, done: int) -> bool:
    """Whether all needs of a task are served by what is done."""
    return all(any(not way & ~done for way in ways) for ways in problem.tasks[task].needs)


def sure_last(problem: Problem, closure: Closure, tasks: int) -> int:
    """The tasks of the block that surely stands last, 0 where none does or blocks are tangled."""
    if tasks & problem.tangled:
        return 0
    block = problem.tasks[tasks.bit_length() - 1].block
    mine = tasks & problem.members[block]
    covered = 0
    for at in bits(mine):
        covered |= closure.blocks[at]
    return 0 if tasks & ~covered else mine
