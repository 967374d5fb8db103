"""A graph -> operations that each need part of the other first, so that neither can be done as a whole."""

from __future__ import annotations

from collections.abc import Iterator

from guidec.plan.graph import Graph
from guidec.plan.problem import members
from guidec.plan.rings import knots
from guidec.plan.types import Edge

__all__ = ["knotted"]


def knotted(graph: Graph) -> Iterator[tuple[Edge, Edge]]:
    """For each knot of operations, an edge out of its first operation to another of it, and one that leads back.

    Only needs with one way count: where there are several, another order may serve.
    """
    problem = graph.shape
    heads: list[set[int]] = [set() for _ in range(problem.blocks)]
    for task in problem.tasks:
        for ways in task.needs:
            if len(ways) == 1:
                heads[task.block].update([problem.tasks[other].block for other in members(ways[0])])
    for knot in knots(heads):
        if len(knot) > 1:
            yield _edges(graph, heads, sorted(knot))


def _edges(graph: Graph, heads: list[set[int]], knot: list[int]) -> tuple[Edge, Edge]:
    """An edge out of the knot's first operation that stays in the knot, and an edge into it."""
    first = knot[0]
    out = next(block for block in sorted(heads[first]) if block in knot and block != first)
    back = next(block for block in knot if block != first and first in heads[block])
    return _edge(graph, first, out), _edge(graph, back, first)


def _edge(graph: Graph, block: int, other: int) -> Edge:
    """The first edge from one operation to another."""
    to = graph.operations[other].id
    return next(
        edge
        for action in graph.operations[block].actions
        for edge in graph.edges_of(action)
        if edge.ways == 1 and graph.guide.actions[edge.needed].operation == to
    )
