"""A guide, its routes and a method -> what the method looks at, found in the note: no points yet."""

from __future__ import annotations

from collections.abc import Callable, Collection, Iterable, Iterator, Mapping, Sequence
from dataclasses import field
from fractions import Fraction
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
    Tool,
)
from guidec.plan import Route
from guidec.plan.turn_into import real_tools
from guidec.quick import dataclass
from guidec.scoring.method import Method
from guidec.scoring.names import classes_named, for_part, listed, rows_named

__all__ = [
    "Evidence",
    "Instance",
    "Met",
    "RouteTo",
    "fastenings_of",
    "gather",
    "met_fastenings",
    "met_tools",
    "once",
    "tools_of",
]

FASTENINGS = (ScrewSet, Connector, Adhesive, Clip, Solder, Thermal, Fastening)

RouteTo = Callable[[str], Route | None]
"""The cheapest route to a part, by its id; None where there is none."""


@dataclass(frozen=True, slots=True)
class Met:
    """A fastening or tool met on the stretch: its word in the method (`None`: not known), and on which action.

    `assumed`: the word is a default or was proposed; nobody wrote it.
    """

    thing: str
    word: str | None
    action: str
    assumed: bool


@dataclass(frozen=True, slots=True)
class Instance:
    """One part of a priority class, as its route shows it.

    `steps`: the steps of its route, by the action that ends each; None where it never comes off. `stretch`: the
    actions since the previous priority part was removed. `after`: that part, if there is one. `numbers`: what
    else is measured on the route, by measure. `exact`: no route has fewer steps.
    """

    part: str
    steps: tuple[tuple[str, str], ...] | None
    stretch: tuple[str, ...] = ()
    after: str | None = None
    fastenings: tuple[Met, ...] = ()
    tools: tuple[Met, ...] = ()
    authorisations: int = 0
    proposed: bool = False
    numbers: Mapping[str, Fraction] = field(default_factory=dict)
    exact: bool = True


@dataclass(frozen=True, slots=True)
class Evidence:
    """`parts`: priority part id -> its instances; empty where the note shows none. `absent`: ids of parts that
    the product has not. `answers`: what the front matter answers, by key; lists of parts as sets of classes."""

    parts: Mapping[str, tuple[Instance, ...]]
    absent: frozenset[str]
    answers: Mapping[str, Any]


def gather(guide: Guide, method: Method, route_to: RouteTo) -> Evidence:
    """Look at the note as a method asks."""
    answers = guide.meta.scoring
    gone = {row.id for name in listed(answers.get("absent")) for row in rows_named(name, method, guide)}
    found = {row.id: _instances(row.cls, guide, method, route_to) for row in method.parts}
    return Evidence(found, frozenset(own for own in gone if not found[own]), _resolved(guide, method))


def _instances(cls: str, guide: Guide, method: Method, route_to: RouteTo) -> tuple[Instance, ...]:
    """All parts of a class. Where only what is shown counts, one without a class that stays in is passed over."""
    things = (one for one in guide.things.values() if isinstance(one, Part) and (one.cls or "other") == cls)
    made = ((thing, _instance(thing, guide, method, route_to)) for thing in things)
    return tuple(one for thing, one in made if one.steps is not None or thing.cls or not method.leave_out)


def _resolved(guide: Guide, method: Method) -> dict[str, Any]:
    """The answers, lists of parts made into sets of classes."""
    answers = dict(guide.meta.scoring)
    for criterion in method.criteria:
        key = criterion.answer or ""
        if (criterion.contains or criterion.shares) and answers.get(key) is not None:
            classes = (classes_named(name, method, guide) for name in listed(answers[key]))
            answers[key] = frozenset(cls for found in classes if found for cls in found)
    return answers


def _instance(part: Part, guide: Guide, method: Method, route_to: RouteTo) -> Instance:
    route = route_to(part.id)
    proposed = part.cls_proposed
    if route is None or route.how[0] != "removed":
        return Instance(part.id, None, proposed=proposed)
    actions = [guide.actions[one] for one in route.actions]
    classes = frozenset() if method.whole_route else {one.cls for one in method.parts}
    after, stretch = _stretch(part, actions, guide, classes)
    return Instance(
        part=part.id,
        steps=tuple((step.action, step.by) for step in route.steps),
        stretch=tuple(action.id for action in stretch),
        after=after,
        fastenings=met_fastenings(stretch, guide),
        tools=met_tools(stretch, guide),
        authorisations=_authorisations(part, guide, method),
        proposed=proposed,
        numbers=_numbers(route),
        exact=route.exact,
    )


def _numbers(route: Route) -> dict[str, Fraction]:
    cost = route.cost
    return {
        "changes": Fraction(cost.changes),
        "screws": Fraction(cost.screws),
        "spent": Fraction(cost.spent),
        "minutes": Fraction(cost.hand, 60_000),
    }


def _stretch(
    part: Part, actions: Sequence[Action], guide: Guide, classes: Collection[str]
) -> tuple[str | None, Sequence[Action]]:
    """The last priority part that comes off before this one, and the actions after that.

    What the removing action takes off together with the part does not come before it.
    """
    last, start = None, 0
    for at, action in enumerate(actions):
        taken = {effect.id for effect in action.effects if effect.change is Change.OFF}
        if part.id in taken:
            break
        for effect in action.effects:
            thing = guide.things[effect.id]
            removed = effect.change in (Change.OFF, Change.MOVED) and isinstance(thing, Part)
            if removed and effect.id != part.id and isinstance(thing, Part) and thing.cls in classes:
                last, start = effect.id, at + 1
    return last, actions[start:]


def met_fastenings(stretch: Iterable[Action], guide: Guide) -> tuple[Met, ...]:
    """The fastenings undone or opened, each once, with how they come through."""
    return once(one for action in stretch for one in fastenings_of(action, guide))


def fastenings_of(action: Action, guide: Guide) -> Iterator[Met]:
    """Those that one action undoes or opens."""
    for effect in action.effects:
        if effect.change in (Change.UNDONE, Change.OPEN):
            thing = guide.things[effect.id]
            if isinstance(thing, FASTENINGS):
                word = None if thing.reuse is Reuse.UNKNOWN else thing.reuse.value
                yield Met(thing.id, word, action.id, not thing.reuse_stated)


def met_tools(stretch: Iterable[Action], guide: Guide) -> tuple[Met, ...]:
    """The tools used, each once, with their grade. Hands are no tool."""
    return once(one for action in stretch for one in tools_of(action, guide))


def tools_of(action: Action, guide: Guide) -> Iterator[Met]:
    """Those that one action uses."""
    for own in real_tools(guide, action):
        thing = guide.things[own]
        if isinstance(thing, Tool):
            yield Met(own, thing.grade, action.id, thing.grade_proposed or thing.implied)


def once(found: Iterable[Met]) -> tuple[Met, ...]:
    """Each thing where it is met first."""
    first: dict[str, Met] = {}
    for one in found:
        first.setdefault(one.thing, one)
    return tuple(first.values())


def _authorisations(part: Part, guide: Guide, method: Method) -> int:
    """How many remote authorisations a part asks for: by its name, its class or the method's word."""
    said = guide.meta.scoring.get("authorisations")
    count = for_part(said, part, method, guide) if isinstance(said, Mapping) else said
    return max(count, 0) if isinstance(count, int) and not isinstance(count, bool) else 0
