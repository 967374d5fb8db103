"""Refit notes that ask for a place on the way back -> whether what needs what allows it."""

from __future__ import annotations

from collections.abc import Iterator

from guidec.model.types import Guide
from guidec.plan import Graph
from guidec.plan.refit_order import order_back, wishes
from guidec.plan.whole import teardown
from guidec.rules.finding import Finding

__all__ = ["check"]


def check(guide: Guide, graph: Graph) -> Iterator[Finding]:
    """P140: a wish that cannot be granted."""
    if not any(True for action in guide.actions.values() for _ in wishes(guide, action)):
        return
    for wish in order_back(graph, teardown(graph)).refused:
        yield Finding.at(
            "P140",
            wish.note.span,
            variant="before" if wish.before else "after",
            text=guide.actions[wish.action].text.rstrip("."),
            other=graph.names[wish.thing],
        )
