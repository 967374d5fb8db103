"""Pins and crops of a guide's pictures -> pins that do not fit their screws, their time or their crop."""

from __future__ import annotations

from collections.abc import Iterator, Mapping
from dataclasses import field

from guidec.model.album import placed
from guidec.model.types import Action, Change, Crop, Drawn, Guide, Kind, Pin, ScrewSet, Shown
from guidec.plan import Graph
from guidec.quick import dataclass, replace
from guidec.rules.finding import Finding, Severity
from guidec.source import Span

__all__ = ["check"]

_OUT = (Change.UNDONE, Change.OFF)


@dataclass(slots=True)
class _Pinned:
    """All pins of a screw set. `spots`: path and point of each screw; `most`: the largest number on one picture;
    `by_operation`: the spots in each operation's pictures; `pins`: the pins themselves."""

    spots: set[tuple[str, float, float]] = field(default_factory=set)
    by_operation: dict[str, set[tuple[str, float, float]]] = field(default_factory=dict)
    most: tuple[int, Span] | None = None
    pins: list[Pin] = field(default_factory=list)


def check(guide: Guide, graph: Graph) -> Iterator[Finding]:
    """Screws against their pins, pins against what has been worked on, pins against the crop."""
    marked = [shown for _, shown in placed(guide) if shown.pins or shown.crop]
    if not marked:
        return
    yield from _counts(guide)
    yield from _times(guide)
    for shown in marked:
        if shown.crop:
            yield from _outside(shown, shown.crop)


def _counts(guide: Guide) -> Iterator[Finding]:
    for name, pinned in _pinned(guide).items():
        screws = guide.things[name]
        if isinstance(screws, ScrewSet) and screws.count is not None:
            yield from _count(guide, screws, screws.count, pinned)


def _pinned(guide: Guide) -> Mapping[str, _Pinned]:
    found: dict[str, _Pinned] = {}
    for operation, shown in placed(guide):
        here: dict[str, int] = {}
        for pin in shown.pins:
            name = pin.thing.id
            if name is None or name not in guide.things or guide.things[name].kind is not Kind.SCREW:
                continue
            one = found.setdefault(name, _Pinned())
            one.pins.append(pin)
            spots = {(shown.path, x, y) for x, y in pin.points}
            one.spots |= spots
            if operation:
                one.by_operation.setdefault(operation.id, set()).update(spots)
            here[name] = here.get(name, 0) + len(pin.points)
            if one.most is None or here[name] > one.most[0]:
                one.most = (here[name], pin.span)
    return found


def _count(guide: Guide, screws: ScrewSet, count: int, pinned: _Pinned) -> Iterator[Finding]:
    place = {"declared": screws.span}
    if pinned.most and pinned.most[0] > count:
        most, span = pinned.most
        yield Finding.at("I101", span, labels=place, variant="more", pins=most, name=screws.name, count=count)
    elif len(pinned.spots) < count and not _shares(guide, screws, pinned):
        first, pins = pinned.pins[0].span, len(pinned.spots)
        if pins > 1:
            yield Finding.at("I101", first, labels=place, pins=pins, name=screws.name, count=count)
        else:
            found = Finding.at("I101", first, labels=place, variant="pointer", name=screws.name, count=count)
            yield replace(found, severity=Severity.INFO)


def _shares(guide: Guide, screws: ScrewSet, pinned: _Pinned) -> bool:
    """Whether each operation's pictures pin as many screws of the set as come out in it."""
    for operation, spots in pinned.by_operation.items():
        out = [
            effect.count
            for action in guide.operation[operation].actions
            for effect in guide.actions[action].effects
            if effect.id == screws.id and effect.change in _OUT
        ]
        if not out or None in out or sum(each or 0 for each in out) != len(spots):
            return False
    return True


def _times(guide: Guide) -> Iterator[Finding]:
    """Pins of things that are not worked on or looked at by the end of their operation."""
    first = _first_touch(guide)
    for operation, shown in placed(guide):
        for pin in shown.pins:
            name = pin.thing.id
            if operation is None or name is None or name not in guide.things:
                continue
            known = first.get(name)
            if known is None or known > operation.number:
                variant = "never" if known is None else ""
                yield Finding.at("I102", pin.thing.span, variant=variant, name=guide.things[name].name)


def _first_touch(guide: Guide) -> Mapping[str, int]:
    """The number of the first operation with an action that has to do with a thing."""
    first: dict[str, int] = {}
    for operation in guide.operations:
        for name in operation.actions:
            for touched in _touched(guide.actions[name]):
                first.setdefault(touched, operation.number)
    return first


def _touched(action: Action) -> Iterator[str]:
    for use in (*action.objects, *action.mentions, *action.tools, *action.supplies):
        yield use.id
    for refit in action.refits:
        yield from (use.id for use in refit.uses)
    for effect in action.effects:
        yield effect.id


def _outside(shown: Shown, crop: Crop) -> Iterator[Finding]:
    marks: tuple[Pin | Drawn, ...] = (*shown.pins, *shown.drawn)
    for one in marks:
        out = [not (crop.left <= x <= crop.right and crop.top <= y <= crop.bottom) for x, y in one.points]
        hidden = any(out) if isinstance(one, Pin) else all(out)
        if hidden:
            kind = one.shape if isinstance(one, Drawn) else "pin"
            yield Finding.at("I103", one.span, labels={"crop": crop.span}, kind=kind)
