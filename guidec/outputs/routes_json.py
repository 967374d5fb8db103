"""Routes -> `routes.json`, and the data of `guidec route --format json`.

The form is described by `schema/routes.schema.json`.
"""

from __future__ import annotations

from collections.abc import Sequence
from typing import Any

from guidec.model.types import Action, Guide
from guidec.outputs.guide_json import dumped
from guidec.outputs.jsonable import number
from guidec.plan import By, Cost, Graph, Route, routes

__all__ = ["FORMAT", "VERSION", "as_data", "encode", "route_data"]

FORMAT = "guidec routes"
VERSION = 1

Row = dict[str, Any]


def encode(graph: Graph, by: By = "damage", *, clean: bool = True) -> bytes:
    """The bytes of `routes.json`: a route for every part. `clean`: whether the note has no error."""
    return dumped(as_data(graph, routes(graph, by), by, clean=clean))


def as_data(graph: Graph, found: Sequence[Route], by: By, *, clean: bool = True) -> Row:
    """Routes as plain data, as the schema describes it."""
    rows = _Rows(graph.guide)
    return {
        "format": FORMAT,
        "version": VERSION,
        "clean": clean,
        "guide": graph.guide.meta.slug,
        "by": by,
        "routes": [rows.route(one) for one in found],
    }


def route_data(graph: Graph, route: Route) -> Row:
    """One route as plain data."""
    return _Rows(graph.guide).route(route)


class _Rows:
    """Makes rows of the routes of one guide; what several routes share is made once."""

    def __init__(self, guide: Guide) -> None:
        self.guide = guide
        self._actions: dict[str, Row] = {}

    def route(self, route: Route) -> Row:
        """One route."""
        return {
            "part": route.targets[0],
            "parts": list(route.targets),
            "reached": list(route.how),
            "by": route.by,
            "exact": route.exact,
            "operations": list(route.operations),
            "actions": [self._action(own) for own in route.actions],
            "skipped": [
                self._action(own) for visit in route.visits for own in visit.actions if own in visit.skipped
            ],
            "turns": [
                {"line": self._line(turn.before), "side": turn.side}
                for visit in route.visits
                for turn in visit.turns
            ],
            "step_ends": [{**self._action(step.action), "by": step.by} for step in route.steps],
            **_cost(route.cost),
            "tools": list(route.tools),
            "supplies": list(route.supplies),
            "risks": list(self._risks(route)),
            "renewals": list(route.renewals),
            "live": [self._action(own) for own in route.broken],
            "alternatives": [
                {
                    "operation": other.operation,
                    "instead_of": other.replaces,
                    "operations": list(other.operations),
                    "exact": other.exact,
                    **_cost(other.cost),
                }
                for other in route.alternatives
            ],
            "alternatives_left": route.others_left,
        }

    def _action(self, own: str) -> Row:
        found = self._actions.get(own)
        if found is None:
            action = self.guide.actions[own]
            found = self._actions[own] = {
                "operation": action.operation,
                "line": self._line(own),
                "text": action.text,
            }
        return found

    def _line(self, own: str) -> int:
        return self.guide.source.place(self.guide.actions[own].span.start).line

    def _risks(self, route: Route) -> list[Row]:
        found = []
        for own in dict.fromkeys(route.risks):
            action: Action = self.guide.actions[own]
            for risk in action.risks:
                thing = risk.thing.id if risk.thing else None
                line = self.guide.source.place(risk.span.start).line
                found.append({"thing": thing, "text": risk.text, "operation": action.operation, "line": line})
        return found


def _cost(cost: Cost) -> Row:
    """What a route or another way costs."""
    return {
        "steps": cost.steps,
        "tool_changes": cost.changes,
        "turn_overs": cost.turns,
        "screws": cost.screws,
        "not_reusable": cost.spent,
        "risks_met": cost.risks,
        "time_s": number((cost.hand + cost.wait) / 1000),
        "hand_s": number(cost.hand / 1000),
        "wait_s": number(cost.wait / 1000),
        "distance": cost.distance,
    }
