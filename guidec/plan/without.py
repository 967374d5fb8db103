"""A graph, and actions that are left out -> the actions that can be done all the same, whatever ways are taken."""

from __future__ import annotations

from collections.abc import Collection

from guidec.plan.graph import Graph

__all__ = ["done_without", "surely_after"]


def done_without(graph: Graph, without: Collection[str]) -> frozenset[str]:
    """The ids of all actions that can be done in some order in which none of `without` is done.

    Linear in the size of the needs. Actions that are only done on the way back are not among them.
    """
    return graph.possible(without)


def surely_after(graph: Graph, action: str, others: Collection[str]) -> bool:
    """Whether every way to an action does at least one of the others before it."""
    if action not in graph.numbers.task or action in graph.impossible:
        return False
    return action not in done_without(graph, {other for other in others if other != action})
