"""What holds a part -> whether all of it is out when the part comes off, whichever way was taken."""

from __future__ import annotations

from collections.abc import Iterator, Mapping

from guidec.model.types import Action, Change, Fastening, Guide, Need, Reason, ScrewSet
from guidec.plan import Graph
from guidec.rules.finding import Finding

__all__ = ["check"]


def check(guide: Guide, graph: Graph) -> Iterator[Finding]:
    """P120: another way takes out fewer of a set than the note's own does."""
    told: set[tuple[str, str]] = set()
    for own in graph.numbers.actions:
        action = guide.actions[own]
        for need in action.needs:
            if need.reason is Reason.HOLDS and len(need.ways) > 1:
                for finding, key in _short(guide, action, need):
                    if key not in told:
                        told.add(key)
                        yield finding


def _short(guide: Guide, action: Action, need: Need) -> Iterator[tuple[Finding, tuple[str, str]]]:
    """The ways of a need on which some of a set stay in."""
    thing = guide.things.get(need.thing or "")
    if not isinstance(thing, ScrewSet | Fastening) or not thing.count:
        return
    out = [_taken(guide, way, thing.id, thing.count) for way in need.ways]
    for way, taken in zip(need.ways, out, strict=True):
        if taken < max(out):
            last = guide.actions[way[-1]]
            off = next(effect.id for effect in action.effects if effect.change is Change.OFF)
            yield (
                Finding.at(
                    "P120",
                    last.span,
                    labels={"removal": action.span, "holds": need.span},
                    name=thing.name,
                    part=_name(guide.things, off),
                    left=max(out) - taken,
                    count=max(out),
                    operation=guide.operation[last.operation].title,
                ),
                (thing.id, last.id),
            )


def _taken(guide: Guide, way: tuple[str, ...], thing: str, count: int) -> int:
    """How many of a set come out on a way."""
    effects = [effect for own in way for effect in guide.actions[own].effects if effect.id == thing]
    return sum(count if effect.count is None else effect.count for effect in effects)


def _name(things: Mapping[str, object], own: str) -> str:
    return str(getattr(things.get(own), "name", own))
