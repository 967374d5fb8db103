"""Work on what must be dead -> whether every way to it makes the device dead first."""

from __future__ import annotations

from collections.abc import Iterator
from typing import Any

from guidec.model.types import Guide, Operation, Part
from guidec.plan import Graph
from guidec.plan.hot import Touched, has_power, touched_live
from guidec.plan.live import Live
from guidec.plan.reach import reaches
from guidec.quick import dataclass
from guidec.rules.finding import Finding, Severity
from guidec.source import Span

__all__ = ["check"]


@dataclass(frozen=True, slots=True)
class _Found:
    """One action that works on something live, in one operation."""

    action: str
    touched: Touched
    first: bool
    """Isolation itself needs it done before."""


def check(guide: Guide, graph: Graph) -> Iterator[Finding]:
    """P110, P111: one finding for each operation."""
    if not has_power(guide):
        return
    live = Live.of(graph)
    for operation in graph.operations:
        found = [
            _Found(own, touched, live.needed_for_isolation(own))
            for own in operation.actions
            if own in live.possible and (touched := touched_live(guide, guide.actions[own]))
        ]
        early = [one for one in found if one.first]
        late = [one for one in found if not one.first]
        if late:
            yield _broken(guide, graph, live, operation, min(late, key=lambda one: one.touched.proposed))
        if early:
            one = min(early, key=lambda one: one.touched.proposed)
            yield Finding.at("P111", one.touched.span, labels=_isolators(guide), **_facts(guide, graph, one))


def _broken(guide: Guide, graph: Graph, live: Live, operation: Operation, one: _Found) -> Finding:
    """The proof is broken: the route to some part works on this while there is power."""
    unsure = operation.live or one.touched.proposed
    reached = _reached(graph, one.action)
    variant = "live" if operation.live else "proposed" if one.touched.proposed else ""
    thing = guide.things.get(one.touched.thing or "")
    if reached is None or thing is None or reached == thing.id:
        variant = f"{variant}-itself".lstrip("-")
    return Finding.at(
        "P110",
        one.touched.span,
        labels=_isolators(guide),
        variant=variant,
        severity=Severity.WARNING if unsure else None,
        part=graph.names.get(reached or "", ""),
        way=", ".join(f"{step.number} {step.title}" for step in live.way(one.action)),
        taken_for=thing.cls or "" if isinstance(thing, Part) else "",
        operation=operation.title,
        **_facts(guide, graph, one),
    )


def _facts(guide: Guide, graph: Graph, one: _Found) -> dict[str, Any]:
    isolators = [guide.actions[own] for own in guide.isolating]
    names = [graph.names.get(ref.id or "", ref.name) for ref in guide.meta.isolate] or [isolators[0].text]
    return {
        "name": graph.names.get(one.touched.thing or "", "joint"),
        "text": guide.actions[one.action].text.rstrip("."),
        "isolator": "` or `".join(names),
    }


def _isolators(guide: Guide) -> dict[str, Span]:
    return {"isolate": guide.actions[guide.isolating[0]].span}


def _reached(graph: Graph, action: str) -> str | None:
    """A part whose way leads over an action: what the action itself reaches, else the first one behind it."""
    at = 1 << graph.numbers.task[action]
    behind = None
    for part, one in reaches(graph).items():
        if any(way & at for way in one.ways):
            return part
        if behind is None and all(_leads_over(graph, way, action) for way in one.ways):
            behind = part
    return behind


def _leads_over(graph: Graph, way: int, action: str) -> bool:
    return bool(graph.closure.of(way)[0] >> graph.numbers.task[action] & 1)
