"""Actions in the order in which they were done -> the order in which they are undone.

The mere reverse is always right. Isolation is then put as late as the graph allows, so that the device stays dead
while it is put together; and a refit note that begins `before NAME:` or `after NAME:` moves its own action.
"""

from __future__ import annotations

import re
from collections.abc import Iterator, Sequence
from functools import cache

from guidec.model.types import Action, Guide, RefitNote
from guidec.plan.graph import Graph
from guidec.quick import dataclass
from guidec.trade.load import data, names

__all__ = ["Order", "Wish", "order_back", "refit_data", "wishes"]


@dataclass(frozen=True, slots=True)
class Wish:
    """A refit note that asks for a place: its action goes back before (or after) a thing or operation does."""

    action: str
    note: RefitNote
    before: bool
    thing: str
    text: str
    """The note without the words that ask."""


@dataclass(frozen=True, slots=True)
class Order:
    """The order back. `refused`: wishes that what needs what does not allow."""

    actions: tuple[str, ...]
    refused: tuple[Wish, ...]


def refit_data(language: str) -> dict[str, dict[str, str]]:
    """The words for putting back in a language, English where there are none."""
    tag = language.split("-")[0].casefold()
    found: dict[str, dict[str, str]] = data(f"refit/{tag}" if f"refit/{tag}" in names("refit") else "refit/en")
    return found


@cache
def _asking(language: str) -> re.Pattern[str]:
    own = refit_data(language)
    before, after = ("|".join(map(re.escape, own[key])) for key in ("before", "after"))
    return re.compile(rf"(?:(?P<before>{before})|(?:{after}))\s+(?P<name>[^:;]+?)\s*:\s*", re.I)


def wishes(guide: Guide, action: Action) -> Iterator[Wish]:
    """The refit notes of an action that ask for a place: `before front housing: …`, with a known name."""
    for note in action.refits:
        asked = _asking(guide.meta.language).match(note.text)
        named = _named(guide, asked["name"]) if asked else None
        if asked and named:
            yield Wish(action.id, note, bool(asked["before"]), named, note.text[asked.end() :])


def _named(guide: Guide, name: str) -> str | None:
    folded = " ".join(name.split()).casefold()
    for thing in guide.things.values():
        if folded == thing.name.casefold() or folded.endswith(f"({thing.name.casefold()})"):
            return thing.id
    titles = {operation.title.casefold(): operation.id for operation in guide.operations}
    return titles.get(folded)


def order_back(graph: Graph, actions: Sequence[str]) -> Order:
    """The order back. `actions`: a valid order of the way in; `Order.actions` is a valid reverse of it."""
    needs = _closed(graph, actions)
    order = list(reversed(actions))
    for isolator in reversed([own for own in actions if own in graph.guide.isolating]):
        last = needs[isolator] | {isolator}
        order = [own for own in order if own not in last] + [own for own in order if own in last]
    refused = []
    for own in actions:
        for wish in wishes(graph.guide, graph.guide.actions[own]):
            moved = _move(graph.guide, order, needs, wish)
            if moved is None:
                refused.append(wish)
            else:
                order = moved
    return Order(tuple(order), tuple(refused))


def _closed(graph: Graph, actions: Sequence[str]) -> dict[str, set[str]]:
    """For each action all that it needed on this way: of several ways the first that was done by then."""
    found: dict[str, set[str]] = {}
    for own in actions:
        mine: set[str] = set()
        for need in graph.needs(own):
            way = next((way for way in need.ways if all(other in found for other in way)), ())
            for other in way:
                mine |= found[other] | {other}
        found[own] = mine
    return found


def _move(guide: Guide, order: list[str], needs: dict[str, set[str]], wish: Wish) -> list[str] | None:
    """The order with a wish granted; None where it cannot be."""
    others = [own for own in order if own != wish.action and _does(guide, own, wish.thing)]
    if not others:
        return order
    place = {own: at for at, own in enumerate(order)}
    if wish.before:
        along = {own for own in order if wish.action in needs[own]} | {wish.action}
        target = min(others, key=place.__getitem__)
        if target in along:
            return None
        before = order[: place[target]]
        later = [own for own in order[place[target] :] if own in along]
        return [*before, *later, *(own for own in order[place[target] :] if own not in along)]
    along = needs[wish.action] | {wish.action}
    target = max(others, key=place.__getitem__)
    if target in along:
        return None
    upto, rest = order[: place[target] + 1], order[place[target] + 1 :]
    return [*(own for own in upto if own not in along), *(own for own in upto if own in along), *rest]


def _does(guide: Guide, action: str, thing: str) -> bool:
    """Whether an action acts on a thing, or stands in an operation."""
    one = guide.actions[action]
    return one.operation == thing or any(effect.id == thing for effect in one.effects)
