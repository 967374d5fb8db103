"""A guide and an order of its actions -> the usual cautions that the work calls for, each once, at its place.

The order may be the whole note's or a route's: a cell that is out by then is not warned of. What the author's own
hazards say already is not said again; theirs are never touched.
"""

from __future__ import annotations

from collections.abc import Iterator, Sequence

from guidec.model.types import Action, Change, Guide, Hazard, Part, Signal
from guidec.plan.calls import Due, Walk, due
from guidec.plan.deeds import batteries, dries, hazards_of, solvents_used
from guidec.quick import dataclass
from guidec.source import Span
from guidec.trade.cautions import caution, covers
from guidec.trade.dangers import dangers

__all__ = ["Placed", "cautions"]


@dataclass(frozen=True, slots=True)
class Placed:
    """An added caution before an action of an operation; both None for one that stands before the whole guide."""

    hazard: Hazard
    operation: str | None = None
    action: str | None = None


def cautions(guide: Guide, order: Sequence[str] | None = None) -> tuple[Placed, ...]:
    """The cautions of an order of action ids, in their order; without one, of all actions as the note has them."""
    actions = [guide.actions[one] for one in (order if order is not None else guide.actions)]
    walk = Walk(guide, cells=batteries(guide), told="\n".join(_text(guide, hazard) for hazard in guide.hazards))
    found = [*_before_all(guide, actions, walk.told)]
    said, entered = set[tuple[str, str]](), set[str]()
    for action in actions:
        if action.operation not in entered:
            entered.add(action.operation)
            walk.told += "".join(f"\n{_text(guide, one)}" for one in hazards_of(guide.operation[action.operation]))
        for each in due(walk, action):
            if (each.id, each.about) in said:
                continue
            said.add((each.id, each.about))
            if not covers(each.id, walk.told, guide.meta.language):
                found.append(Placed(_hazard(guide, each, action.span), action.operation, action.id))
        _step(walk, action)
    return tuple(found)


def _text(guide: Guide, hazard: Hazard) -> str:
    return guide.source.slice(hazard.span)


def _hazard(guide: Guide, called: Due, span: Span) -> Hazard:
    words = caution(called.id, guide.meta.language, said=called.said, **called.facts)
    return Hazard(span, Signal(words.signal), words.text, added=True, rule=called.id)


def _step(walk: Walk, action: Action) -> None:
    """What is so after an action."""
    walk.dead = walk.dead or action.id in walk.guide.isolating
    walk.off |= {effect.id for effect in action.effects if effect.change is Change.OFF}
    used = [supply.name for supply, kind in solvents_used(walk.guide, action) if kind.flammable]
    if used:
        walk.wet = (used[0], action)
    elif dries(walk.guide, action):
        walk.wet = None


# ---------------------------------------------------------------- before the whole guide


def _before_all(guide: Guide, actions: Sequence[Action], told: str) -> Iterator[Placed]:
    """Mains, and the kinds of device that can kill: only where something of them is touched."""
    if not any(action.step and action.effects for action in actions):
        return
    told += "".join(
        _text(guide, one) for action in actions[:1] for one in hazards_of(guide.operation[action.operation])
    )
    language = guide.meta.language
    subject = f"{guide.meta.subject.kind or ''}\n{guide.meta.title}"
    parts = [thing.name for thing in guide.things.values() if isinstance(thing, Part)]
    ids = [danger.caution for danger in dangers(subject, parts, language)]
    if "mains" in guide.meta.power:
        ids.append("mains")
    for id_ in ids:
        if not covers(id_, told, language):
            yield Placed(_hazard(guide, Due(id_), guide.meta.front.span))
