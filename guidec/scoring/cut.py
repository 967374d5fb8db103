"""A guide and things -> the guide as if a part could be had without touching those things.

The actions that take the things off, undo or open them are left out, and so are those of the same operation that
nothing else needs. What a left-out action needed, whatever needed it now needs: the order of the rest stands.
"""

from __future__ import annotations

from collections.abc import Collection, Iterable, Mapping
from dataclasses import replace

from guidec.model.types import Action, Change, Guide, Need, Reason

__all__ = ["spared", "without"]

_WHOLE = frozenset({Reason.OPERATION, Reason.AFTER, Reason.EARLIER_LIST, Reason.ISOLATION})
"""Needs of a whole operation or list: no reason to think that an action in it is needed for itself."""


def without(guide: Guide, things: Collection[str]) -> Guide:
    """The guide in which nobody needs to do anything to some things (ids of parts or fastenings)."""
    doing = {action.id for action in guide.actions.values() if _only_does(action, things)}
    gone = doing | _for_these(guide, doing)
    return spared(guide, gone) if gone else guide


def _only_does(action: Action, things: Collection[str]) -> bool:
    done = [effect for effect in action.effects if effect.change is not Change.EXPOSED]
    return bool(done) and all(effect.id in things for effect in done)


def _for_these(guide: Guide, doing: Collection[str]) -> set[str]:
    """The actions before these in their operations that nothing but these needs for itself."""
    users: dict[str, set[str]] = {}
    for action in guide.actions.values():
        for need in action.needs:
            for other in (one for way in need.ways for one in way):
                if need.reason not in _WHOLE or guide.actions[other].operation == action.operation:
                    users.setdefault(other, set()).add(action.id)
    operations = {guide.actions[own].operation for own in doing}
    kept = [own for own in guide.actions if guide.actions[own].operation in operations and own not in doing]
    found: set[str] = set()
    while True:
        more = {own for own in kept if own not in found and users.get(own) and users[own] <= found | set(doing)}
        if not more:
            return found
        found |= more


def spared(guide: Guide, gone: Collection[str]) -> Guide:
    """The guide without some actions, the needs of the rest led past them."""
    actions = {
        own: replace(action, needs=tuple(_past(action.needs, guide.actions, gone)))
        for own, action in guide.actions.items()
        if own not in gone
    }
    operations = tuple(
        replace(one, actions=tuple(own for own in one.actions if own not in gone)) for one in guide.operations
    )
    isolating = tuple(own for own in guide.isolating if own not in gone)
    return replace(guide, actions=actions, operations=operations, isolating=isolating)


def _past(needs: Iterable[Need], actions: Mapping[str, Action], gone: Collection[str]) -> Iterable[Need]:
    for need in needs:
        ways = tuple(dict.fromkeys(_led(way, actions, gone) for way in need.ways))
        if ways == ((),):
            continue
        yield replace(need, ways=ways)


def _led(way: Iterable[str], actions: Mapping[str, Action], gone: Collection[str]) -> tuple[str, ...]:
    """A way without the actions that are gone, with the first ways of what these needed instead."""
    found: dict[str, None] = {}
    waiting, seen = list(way), set()
    while waiting:
        own = waiting.pop(0)
        if own in seen:
            continue
        seen.add(own)
        if own not in gone:
            found[own] = None
            continue
        waiting = [one for need in actions[own].needs if need.ways for one in need.ways[0]] + waiting
    return tuple(found)
