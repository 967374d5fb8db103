"""A part -> how it is reached, and the actions that reach it.

A part is reached by the actions that take it off; if it never comes off, by the first look that names it; if there
is none, by the first action that moves it out of its place.
"""

from __future__ import annotations

from collections.abc import Iterator, Mapping
from itertools import islice, product

from guidec.model.types import Change, Family, Part
from guidec.plan.graph import Graph
from guidec.plan.types import How
from guidec.quick import dataclass

__all__ = ["Reach", "reach", "reaches"]

MOST_WAYS = 64


@dataclass(frozen=True, slots=True)
class Reach:
    """How a part is reached. `ways`: bit sets of tasks, any one of which reaches it; () for one never reached."""

    part: str
    how: How
    ways: tuple[int, ...]


def reaches(graph: Graph) -> Mapping[str, Reach]:
    """The reach of every part that comes off, is looked at or is moved, in the order in which the note does so."""
    return graph.keep("reaches", lambda: _reaches(graph))


def _reaches(graph: Graph) -> Mapping[str, Reach]:
    found: dict[str, dict[Change, list[int]]] = {}
    for at, part, change in _touches(graph):
        found.setdefault(part, {}).setdefault(change, []).append(at)
    return {part: _reach(graph, part, changes) for part, changes in found.items()}


def reach(graph: Graph, part: str) -> Reach | None:
    """The reach of one part; None where nothing takes it off, looks at it or moves it."""
    return reaches(graph).get(part)


def _touches(graph: Graph) -> Iterator[tuple[int, str, Change]]:
    """What each task does to a part, in note order; a look also exposes the parts it only mentions."""
    things = graph.guide.things
    for at, action_id in enumerate(graph.numbers.actions):
        action = graph.guide.actions[action_id]
        for effect in action.effects:
            if isinstance(things.get(effect.id), Part):
                yield at, effect.id, effect.change
        if action.family is Family.LOOK:
            for use in (*action.objects, *action.mentions):
                if isinstance(things.get(use.id), Part):
                    yield at, use.id, Change.EXPOSED


def _reach(graph: Graph, part: str, changes: Mapping[Change, list[int]]) -> Reach:
    if Change.OFF in changes:
        return Reach(part, "removed", _ways(graph, changes[Change.OFF]))
    if Change.EXPOSED in changes:
        return Reach(part, "exposed", (1 << changes[Change.EXPOSED][0],))
    return Reach(part, "moved", (1 << changes[Change.MOVED][0],))


def _ways(graph: Graph, tasks: list[int]) -> tuple[int, ...]:
    """Removals in operations that are ways to the same: any one serves; in others: shares, all of which count."""
    families: dict[int, dict[int, int]] = {}
    problem = graph.shape
    for at in tasks:
        block = problem.tasks[at].block
        family = min({block, *problem.rivals[block]})
        ways = families.setdefault(family, {})
        ways[block] = ways.get(block, 0) | 1 << at
    choices = [list(ways.values()) for ways in families.values()]
    return tuple(sum(choice) for choice in islice(product(*choices), MOST_WAYS))
