"""The order of work as the note has it -> whether it can be done at all: rings of needs, knots of operations."""

from __future__ import annotations

from collections.abc import Iterator
from typing import Any

from guidec.model.types import Guide, Reason
from guidec.plan import Graph
from guidec.plan.knot import knotted
from guidec.plan.problem import bits
from guidec.plan.reach import reaches
from guidec.plan.types import Edge
from guidec.rules.finding import Finding
from guidec.source import Span

__all__ = ["check"]

LABELS = ("first", "second", "third", "fourth", "fifth", "sixth", "seventh", "eighth")


def check(guide: Guide, graph: Graph) -> Iterator[Finding]:
    """P101: actions, or whole operations, that need each other."""
    lost = _lost(graph) if graph.cycles else ""
    for cycle in graph.cycles:
        yield _ring(guide, cycle, lost)
    for first, second in () if graph.cycles else knotted(graph):
        yield Finding.at(
            "P101",
            _place(guide, first),
            variant="operations",
            labels={"second": _place(guide, second)},
            operation=_title(guide, first.needs),
            other=_title(guide, first.needed),
            **_facts(guide, [first, second]),
        )


def _ring(guide: Guide, cycle: tuple[Edge, ...], lost: str) -> Finding:
    """The walk through the note, each edge at its own place; it starts at an edge that the author can change."""
    start = next((at for at, edge in enumerate(cycle) if edge.reason in _STATED), 0)
    walk = [*cycle[start:], *cycle[:start]]
    spans = {name: _place(guide, edge) for name, edge in zip(LABELS, walk, strict=False)}
    main = spans.pop("first")
    return Finding.at("P101", main, labels=spans, walk=_walk(guide, walk), lost=lost, **_facts(guide, walk))


def _lost(graph: Graph) -> str:
    """The parts that no way leads to, named as far as two."""
    lost = [
        graph.names[part]
        for part, one in reaches(graph).items()
        if all(any(graph.numbers.actions[at] in graph.impossible for at in bits(way)) for way in one.ways)
    ]
    named = "` and `".join(lost[:2])
    return f"`{named}`" + (f" and {len(lost) - 2} more" if len(lost) > 2 else "") if lost else "what follows"


_STATED = (Reason.AFTER, Reason.UNDER, Reason.HOLDS, Reason.CONNECTOR, Reason.ISOLATION)


def _walk(guide: Guide, walk: list[Edge]) -> str:
    """`A` needs `B`, needs `C`, needs `A`; the lines of the note in brackets."""
    names = [f"`{_text(guide, edge.needs)}` (line {_line(guide, edge.needs)})" for edge in walk]
    return ", which needs ".join([*names, f"`{_text(guide, walk[0].needs)}`"])


def _facts(guide: Guide, walk: list[Edge]) -> dict[str, Any]:
    """For each label, the words beside it."""
    facts: dict[str, Any] = dict.fromkeys(LABELS, "")
    for name, edge in zip(LABELS, walk, strict=False):
        facts[name] = f"`{_text(guide, edge.needs)}` needs `{_text(guide, edge.needed)}`"
    return facts


def _place(guide: Guide, edge: Edge) -> Span:
    """The words that make an edge; for what follows from the order of lines, the action that needs the other."""
    return edge.span if edge.reason in _STATED else guide.actions[edge.needs].span


def _text(guide: Guide, action: str) -> str:
    return guide.actions[action].text.rstrip(".")


def _line(guide: Guide, action: str) -> int:
    return guide.source.place(guide.actions[action].span.start).line


def _title(guide: Guide, action: str) -> str:
    return guide.operation[guide.actions[action].operation].title
