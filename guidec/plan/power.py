"""A guide -> the actions that cut the power, of those that stand in what isolates."""

from __future__ import annotations

from collections.abc import Sequence

from guidec.model.types import Action, Change, Connector, Guide, Part, Thing
from guidec.trade.dangers import speaks_of_mains
from guidec.trade.deeds import is_deed, speaks_of

__all__ = ["cutting"]


def cutting(guide: Guide) -> frozenset[str]:
    """The ids of the isolating actions that themselves make the device dead.

    Where a thing isolates, all that undo it. Where an operation does, what pulls a plug or takes a battery off;
    else what opens a connector; else its last action that changes something.
    """
    operations = {ref.id for ref in guide.meta.isolate if ref.operation}
    things = {ref.id for ref in guide.meta.isolate if not ref.operation}
    found: set[str] = set()
    groups: dict[str, list[Action]] = {}
    for own in guide.isolating:
        action = guide.actions[own]
        other_way = guide.operation[action.operation].instead_of
        if any(effect.id in things for effect in action.effects) or not operations & {action.operation, other_way}:
            found.add(own)
        else:
            groups.setdefault(action.operation, []).append(action)
    for actions in groups.values():
        found.update(_surest(guide, actions))
    return frozenset(found)


def _surest(guide: Guide, actions: list[Action]) -> list[str]:
    """Those of one operation's actions that most surely cut the power."""
    changing = [action for action in actions if action.effects]
    cuts = [action for action in changing if _cuts(guide, action)]
    opens = [action for action in changing if _opens(action)]
    return [action.id for action in cuts or opens or changing[-1:]]


def _cuts(guide: Guide, action: Action) -> bool:
    """Whether an action unplugs the mains, or parts a cell from the rest."""
    language = guide.meta.language
    things = [guide.things[effect.id] for effect in action.effects if effect.change in (Change.OFF, Change.OPEN)]
    if any(isinstance(thing, Part) and thing.cls == "battery" for thing in things):
        return True
    named = "\n".join(thing.name for thing in things if isinstance(thing, Part | Connector))
    if speaks_of_mains(named, language) or _feeding(guide, things):
        return True
    return is_deed(action.verb, "unplug", language) and bool(things) and speaks_of_mains(action.text, language)


def _feeding(guide: Guide, things: Sequence[Thing]) -> bool:
    """Whether a connector among some things is a cell's, by an end or by its name."""
    for thing in things:
        if isinstance(thing, Connector):
            ends = [guide.things.get(ref.id) for ref in (thing.from_, thing.to) if ref and ref.id]
            if any(isinstance(end, Part) and end.cls == "battery" for end in ends):
                return True
            if speaks_of(thing.name, "cells", guide.meta.language):
                return True
    return False


def _opens(action: Action) -> bool:
    return any(effect.change is Change.OPEN for effect in action.effects)
