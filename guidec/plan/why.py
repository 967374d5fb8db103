"""A route -> for each of its actions, which other actions need it, and by which words of the note."""

from __future__ import annotations

from collections.abc import Mapping

from guidec.plan.count import count_orders
from guidec.plan.graph import Graph
from guidec.plan.types import Edge, Route

__all__ = ["orders_open", "reasons", "why"]


def why(graph: Graph, route: Route) -> Mapping[str, Edge | None]:
    """Action -> the reason for it that says most; None for what reaches a target."""
    return {action: edges[0] if edges else None for action, edges in reasons(graph, route).items()}


_SAYS_LITTLE = ("line", "list", "earlier-list", "nested", "operation")


def reasons(graph: Graph, route: Route) -> Mapping[str, tuple[Edge, ...]]:
    """Action -> the edges from all actions of the route that need it: facts first, then orders of lines, each in
    the order of the route. Nothing for what only reaches a target."""
    held = {action for visit in route.visits for action in visit.actions}
    found: dict[str, list[Edge]] = {}
    for visit in route.visits:
        for action in visit.actions:
            found.setdefault(action, [])
            for need in graph.needs(action):
                for number, way in enumerate(need.ways, 1):
                    for other in way if set(way) <= held else ():
                        edge = Edge(action, other, need.reason, need.span, need.thing, number, len(need.ways))
                        found.setdefault(other, []).append(edge)
    return {action: tuple(sorted(edges, key=_says_little)) for action, edges in found.items()}


def _says_little(edge: Edge) -> bool:
    return edge.reason in _SAYS_LITTLE


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
