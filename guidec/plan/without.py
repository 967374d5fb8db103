"""A graph, and actions that are left out -> the actions that can be done all the same, whatever ways are taken."""

from __future__ import annotations

from collections.abc import Collection

from guidec.plan.closure import chain
from guidec.plan.graph import Graph
from guidec.plan.problem import mask

__all__ = ["done_without"]


def done_without(graph: Graph, without: Collection[str]) -> frozenset[str]:
    """The ids of all actions that can be done in some order in which none of `without` is done.

    Linear in the size of the needs. Actions that are only done on the way back are not among them.
    """
    problem, numbers = graph.problem, graph.numbers
    left_out = mask(numbers.task[action] for action in without if action in numbers.task)
    done = chain(lambda task: problem.tasks[task].needs, range(len(problem.tasks)), left_out)
    return frozenset(numbers.actions[task] for task in done)
