"""Changes that somebody supposes -> the guide, and the ways to its parts, as they would be.

A change is of an answer, of how a fastening comes through, of a tool's grade, of a part's class, of an edge (a
part could be had without something), or that something is not there at all.
"""

from __future__ import annotations

from collections.abc import Mapping, Sequence
from dataclasses import field, replace
from typing import Any

from guidec.model.types import Adhesive, Connector, Fastening, Guide, Part, Reuse, ScrewSet, Thing, Tool
from guidec.plan import Graph, Route, graph
from guidec.quick import dataclass
from guidec.scoring.assess import Ways
from guidec.scoring.cut import without
from guidec.scoring.evidence import gather
from guidec.scoring.index import Index, index
from guidec.scoring.method import Method

__all__ = ["Answer", "Change", "Edge", "Gone", "Grade", "OfClass", "Supposed", "Through", "indexed", "supposed"]


@dataclass(frozen=True, slots=True)
class Answer:
    """An answer under `scoring`; with `part`, one entry of a mapping there."""

    key: str
    value: Any
    part: str | None = None


@dataclass(frozen=True, slots=True)
class Through:
    """How a fastening (id) comes through."""

    thing: str
    reuse: Reuse


@dataclass(frozen=True, slots=True)
class Grade:
    """A tool's (id) grade."""

    thing: str
    grade: str


@dataclass(frozen=True, slots=True)
class OfClass:
    """A part's (id) class."""

    thing: str
    cls: str


@dataclass(frozen=True, slots=True)
class Edge:
    """A part (id) can be had without touching some things (ids)."""

    part: str
    things: tuple[str, ...]


@dataclass(frozen=True, slots=True)
class Gone:
    """A part or fastening (id) is not there, for no route."""

    thing: str


Change = Answer | Through | Grade | OfClass | Edge | Gone


@dataclass(frozen=True)
class Supposed:
    """A guide with changes. `edges`: part -> what its own way need not touch."""

    guide: Guide
    edges: Mapping[str, tuple[str, ...]]
    graph: Graph
    _ways: dict[str, Ways] = field(default_factory=dict, init=False, repr=False, compare=False)

    def to(self, part: str) -> Route | None:
        """The way to a part with the fewest steps."""
        if part not in self._ways:
            spare = self.edges.get(part, ())
            own = graph(without(self.guide, spare), self.graph.times) if spare else self.graph
            self._ways[part] = Ways(own)
        return self._ways[part].to(part)


def supposed(base: Graph, changes: Sequence[Change]) -> Supposed:
    """The guide of a graph with changes; the graph itself where no change touches ways or their costs."""
    guide = base.guide
    edges: dict[str, tuple[str, ...]] = {}
    for change in changes:
        if isinstance(change, Edge):
            edges[change.part] = (*edges.get(change.part, ()), *change.things)
        else:
            guide = _changed(guide, change)
    rivals = any(operation.instead_of for operation in guide.operations)
    planned = any(isinstance(change, Gone) or (rivals and isinstance(change, Through)) for change in changes)
    return Supposed(guide, edges, graph(guide, base.times) if planned else base)


def indexed(base: Graph, method: Method, changes: Sequence[Change], ways: Ways | None = None) -> Index:
    """The index with changes, without what each unknown can move. `ways`: those of the base, worked out before."""
    made = supposed(base, changes)
    reuse = ways if ways is not None and made.graph is base else None
    route_to = made.to if reuse is None else lambda part: made.to(part) if part in made.edges else reuse.to(part)
    return index(method, gather(made.guide, method, route_to), moves=False)


def _changed(guide: Guide, change: Change) -> Guide:
    if isinstance(change, Answer):
        return _answered(guide, change)
    if isinstance(change, Gone):
        left = without(guide, [change.thing])
        gone = guide.things[change.thing]
        return replace(left, things=_with(left, replace(gone, cls=None))) if isinstance(gone, Part) else left
    thing = guide.things[change.thing] if not isinstance(change, Edge) else None
    made = _thing(thing, change) if thing is not None else None
    return replace(guide, things=_with(guide, made)) if made is not None else guide


def _with(guide: Guide, thing: Thing) -> dict[str, Thing]:
    return {**guide.things, thing.id: thing}


def _thing(thing: Thing, change: Change) -> Thing | None:
    """The thing as it would be."""
    if isinstance(change, Grade) and isinstance(thing, Tool):
        return replace(thing, grade=change.grade, grade_proposed=False, implied=False)
    if isinstance(change, OfClass) and isinstance(thing, Part):
        return replace(thing, cls=change.cls, cls_proposed=False)
    if not isinstance(change, Through):
        return None
    renew = change.reuse is not Reuse.REUSABLE
    if isinstance(thing, ScrewSet | Fastening | Adhesive):
        return replace(thing, reuse=change.reuse, reuse_stated=True, renew=renew)
    if isinstance(thing, Connector):
        return replace(thing, reuse=change.reuse, reuse_stated=True)
    return None


def _answered(guide: Guide, change: Answer) -> Guide:
    answers = dict(guide.meta.scoring)
    if change.part is None:
        answers[change.key] = change.value
    else:
        known = answers.get(change.key)
        own = guide.things[change.part].name if change.part in guide.things else change.part
        kept = {name: value for name, value in known.items() if name != own} if isinstance(known, dict) else {}
        answers[change.key] = {**kept, own: change.value}
    return replace(guide, meta=replace(guide.meta, scoring=answers))
