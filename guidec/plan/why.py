"""A route -> for each of its actions, which later action needs it, and by which words of the note."""

from __future__ import annotations

from collections.abc import Mapping

from guidec.plan.count import count_orders
from guidec.plan.graph import Graph
from guidec.plan.types import Edge, Route

__all__ = ["orders_open", "why"]


def why(graph: Graph, route: Route) -> Mapping[str, Edge | None]:
    """Action -> the edge from the first later action that needs it; None for what reaches a target.

    Of several reasons the one that says most: a fact before an order of lines.
    """
    held = {action for visit in route.visits for action in visit.actions}
    found: dict[str, Edge | None] = {}
    for visit in route.visits:
        for action in visit.actions:
            found.setdefault(action, None)
            for need in graph.needs(action):
                for number, way in enumerate(need.ways, 1):
                    if not set(way) <= held:
                        continue
                    for other in way:
                        edge = Edge(action, other, need.reason, need.span, need.thing, number, len(need.ways))
                        _enter(found, edge)
    return found


_SAYS_LITTLE = ("line", "list", "earlier-list", "nested", "operation")


def _enter(found: dict[str, Edge | None], edge: Edge) -> None:
    known = found.get(edge.needed)
    if known is None or (known.reason in _SAYS_LITTLE and edge.reason not in _SAYS_LITTLE):
        found[edge.needed] = edge


def orders_open(graph: Graph, route: Route) -> int | None:
    """In how many orders the operations of a route could be done as wholes; None for too many to count."""
    place = {visit.operation: at for at, visit in enumerate(route.visits)}
    held = {action for visit in route.visits for action in visit.actions}
    before = [0] * len(place)
    for visit in route.visits:
        for action in visit.actions:
            for need in graph.needs(action):
                ways = [way for way in need.ways if set(way) <= held]
                shared = set(ways[0]).intersection(*ways[1:]) if ways else set()
                for other in shared:
                    at = place[graph.guide.actions[other].operation]
                    if at != place[visit.operation]:
                        before[place[visit.operation]] |= 1 << at
    return count_orders(before)
