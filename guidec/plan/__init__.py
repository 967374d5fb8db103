"""A guide -> what needs what, the best way to each part, and the way back.

`graph` is what a check needs. Routes and refit are loaded when they are first asked for, so that a check stays
fast.
"""

from __future__ import annotations

from importlib import import_module
from typing import TYPE_CHECKING, Any

from guidec.plan.graph import Graph, graph

if TYPE_CHECKING:
    from guidec.plan.refit_stages import Refit
    from guidec.plan.refitting import refit
    from guidec.plan.routing import UnknownPartError, route, routes
    from guidec.plan.types import By, Cost, Edge, Route
    from guidec.plan.whole import teardown

__all__ = [
    "By",
    "Cost",
    "Edge",
    "Graph",
    "Refit",
    "Route",
    "UnknownPartError",
    "graph",
    "refit",
    "route",
    "routes",
    "teardown",
]

_LATER = {
    "By": "types",
    "Cost": "types",
    "Edge": "types",
    "Refit": "refit_stages",
    "Route": "types",
    "UnknownPartError": "routing",
    "refit": "refitting",
    "route": "routing",
    "routes": "routing",
    "teardown": "whole",
}


def __getattr__(name: str) -> Any:
    """Load what only planning needs on first use."""
    if name not in _LATER:
        raise AttributeError(f"module {__name__!r} has no attribute {name!r}")
    return getattr(import_module(f"guidec.plan.{_LATER[name]}"), name)
