"""A guide, its routes and a method -> what the method looks at, found in the note: no points yet."""

from __future__ import annotations

from collections.abc import Callable, Iterable, Mapping
from dataclasses import dataclass
from typing import Any

from guidec.model.types import (
    Action,
    Adhesive,
    Change,
    Clip,
    Connector,
    Fastening,
    Guide,
    Part,
    Reuse,
    ScrewSet,
    Solder,
    Thermal,
    Thing,
    Tool,
)
from guidec.plan import Route
from guidec.scoring.method import Method, PriorityPart

__all__ = ["Evidence", "Instance", "Met", "gather"]

FASTENINGS = (ScrewSet, Connector, Adhesive, Clip, Solder, Thermal, Fastening)


@dataclass(frozen=True, slots=True)
class Met:
    """A fastening or tool met on the stretch: its word in the method (`None`: not known), and on which action."""

    thing: str
    word: str | None
    action: str
    assumed: bool


@dataclass(frozen=True, slots=True)
class Instance:
    """One part of a priority class, as its route shows it.

    `steps`: the steps of its route, by the action that ends each; None where it never comes off. `stretch`: the
    actions since the previous priority part was removed. `after`: that part, if there is one.
    """

    part: str
    steps: tuple[tuple[str, str], ...] | None
    stretch: tuple[str, ...] = ()
    after: str | None = None
    fastenings: tuple[Met, ...] = ()
    tools: tuple[Met, ...] = ()
    authorisations: int = 0
    proposed: bool = False


@dataclass(frozen=True, slots=True)
class Evidence:
    """`parts`: priority part id -> its instances; empty where the note shows none. `absent`: ids of parts that
    the product has not. `answers`: what the front matter answers, by key."""

    parts: Mapping[str, tuple[Instance, ...]]
    absent: frozenset[str]
    answers: Mapping[str, Any]


def gather(guide: Guide, method: Method, route_to: Callable[[str], Route | None]) -> Evidence:
    """Look at the note as a method asks. `route_to`: the cheapest route to a part, by the method's order."""
    answers = guide.meta.scoring
    absent = _listed(answers.get("absent"))
    found: dict[str, tuple[Instance, ...]] = {}
    gone: set[str] = set()
    for row in method.parts:
        instances = tuple(
            _instance(thing, row, guide, method, route_to)
            for thing in guide.things.values()
            if isinstance(thing, Part) and thing.cls == row.cls
        )
        found[row.id] = instances
        if not instances and absent & {row.id.casefold(), row.cls, row.name}:
            gone.add(row.id)
    return Evidence(found, frozenset(gone), answers)


def _listed(value: Any) -> set[str]:
    """A list or comma list of names, folded."""
    items = value.split(",") if isinstance(value, str) else value if isinstance(value, list) else []
    return {" ".join(str(item).casefold().split()) for item in items}


def _instance(
    part: Part, row: PriorityPart, guide: Guide, method: Method, route_to: Callable[[str], Route | None]
) -> Instance:
    route = route_to(part.id)
    if route is None or route.how[0] == "exposed":
        return Instance(part.id, None, proposed=part.cls_proposed)
    actions = [guide.actions[one] for one in route.actions]
    after, stretch = _stretch(part, actions, guide, {one.cls for one in method.parts})
    return Instance(
        part=part.id,
        steps=tuple((step.action, step.by) for step in route.steps),
        stretch=tuple(action.id for action in stretch),
        after=after,
        fastenings=tuple(_fastenings(stretch, guide)),
        tools=tuple(_tools(stretch, guide)),
        authorisations=_authorisations(part, row, guide.meta.scoring),
        proposed=part.cls_proposed,
    )


def _stretch(
    part: Part, actions: list[Action], guide: Guide, classes: Iterable[str]
) -> tuple[str | None, list[Action]]:
    """The last priority part that comes off before this one, and the actions after that."""
    wanted = set(classes)
    last, start = None, 0
    for at, action in enumerate(actions):
        for effect in action.effects:
            thing = guide.things[effect.id]
            removed = effect.change in (Change.OFF, Change.MOVED) and isinstance(thing, Part)
            if removed and effect.id != part.id and isinstance(thing, Part) and thing.cls in wanted:
                last, start = effect.id, at + 1
    return last, actions[start:]


def _fastenings(stretch: list[Action], guide: Guide) -> Iterable[Met]:
    seen: set[str] = set()
    for action in stretch:
        for effect in action.effects:
            thing = guide.things[effect.id]
            if (
                effect.change in (Change.UNDONE, Change.OPEN)
                and isinstance(thing, FASTENINGS)
                and thing.id not in seen
            ):
                seen.add(thing.id)
                word = None if thing.reuse is Reuse.UNKNOWN else thing.reuse.value
                yield Met(thing.id, word, action.id, not thing.reuse_stated)


def _tools(stretch: list[Action], guide: Guide) -> Iterable[Met]:
    seen: set[str] = set()
    for action in stretch:
        for use in action.tools:
            thing: Thing = guide.things[use.id]
            if isinstance(thing, Tool) and thing.id not in seen:
                seen.add(thing.id)
                yield Met(thing.id, thing.grade, action.id, thing.grade_proposed)


def _authorisations(part: Part, row: PriorityPart, answers: Mapping[str, Any]) -> int:
    """How many remote authorisations a part asks for: by its name, its class or the method's id."""
    said = answers.get("authorisations")
    if not isinstance(said, Mapping):
        return 0
    names = {part.id, part.name.casefold(), row.cls, row.name, row.id.casefold()}
    counts = [count for name, count in said.items() if " ".join(str(name).casefold().split()) in names]
    return max((int(count) for count in counts if isinstance(count, int)), default=0)
