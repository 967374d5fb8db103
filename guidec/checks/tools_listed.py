"""Screws that come out -> whether the tool list can say what turns them."""

from __future__ import annotations

from collections.abc import Iterator

from guidec.model.types import Change, Guide, ScrewSet
from guidec.plan import Graph
from guidec.rules.finding import Finding

__all__ = ["check"]


def check(guide: Guide, graph: Graph) -> Iterator[Finding]:
    """P130: a set is undone with no tool in the line, and its drive is not given."""
    told: set[str] = set()
    for own in graph.numbers.actions:
        action = guide.actions[own]
        for effect in action.effects if not action.tools else ():
            thing = guide.things.get(effect.id)
            if effect.change is not Change.UNDONE or not isinstance(thing, ScrewSet) or thing.id in told:
                continue
            if thing.notation is not None and not thing.drives and not thing.notation.unknown_drives:
                told.add(thing.id)
                yield Finding.at("P130", effect.span, labels={"declared": thing.span}, name=thing.name)
