"""Adhesives, loosened -> those that nobody names, and those of which nobody says what renews them."""

from __future__ import annotations

from collections.abc import Iterator

from guidec.model.types import Action, Adhesive, Change, Family, Guide, Kind, Part, Supply
from guidec.plan import Graph
from guidec.plan.deeds import adhesives_undone, heats, solders, words_of
from guidec.rules.finding import Finding
from guidec.trade.adhesives import tells_what_renews
from guidec.trade.deeds import is_deed

__all__ = ["check"]

_OTHER = (Kind.SCREW, Kind.SOLDER, Kind.THERMAL, Kind.FASTENING, Kind.CONNECTOR)


def check(guide: Guide, graph: Graph) -> Iterator[Finding]:
    """T205, T207."""
    for operation in guide.operations:
        actions = [guide.actions[one] for one in operation.actions]
        if not any(adhesives_undone(guide, action) for action in actions):
            yield from _unnamed(guide, actions)
    yield from _what_renews(guide)


def _unnamed(guide: Guide, actions: list[Action]) -> Iterator[Finding]:
    """Warmed, then pried or peeled off, and no adhesive named in the whole operation."""
    for at, action in enumerate(actions):
        softens = action.family is Family.SOFTEN and heats(guide, action) and not solders(guide, action)
        if not softens or _is_about_other(guide, action):
            continue
        part = next((found for later in actions[at + 1 :] if (found := _taken(guide, later))), None)
        if part:
            yield Finding.at("T205", action.verb_span, verb=action.verb, name=part.name)
            return


def _is_about_other(guide: Guide, action: Action) -> bool:
    """Heat that is for a screw, a solder joint, a bearing …: something of another kind is named in the line."""
    named = [*action.mentions, *action.objects]
    return any(guide.things[use.id].kind in _OTHER for use in named if use.id in guide.things)


def _taken(guide: Guide, action: Action) -> Part | None:
    """The part that an action pries or peels off."""
    language = guide.meta.language
    if not (is_deed(action.verb, "lever", language) or is_deed(action.verb, "peel", language)):
        return None
    off = (guide.things.get(effect.id) for effect in action.effects if effect.change in (Change.OFF, Change.MOVED))
    return next((thing for thing in off if isinstance(thing, Part)), None)


def _what_renews(guide: Guide) -> Iterator[Finding]:
    """T207: to be renewed, and neither its name nor its type nor any supply says with what."""
    language = guide.meta.language
    undone = {effect.id for action in guide.actions.values() for effect in action.effects}
    bare = [
        thing
        for thing in guide.things.values()
        if isinstance(thing, Adhesive)
        and thing.renew
        and thing.id in undone
        and not thing.type
        and not tells_what_renews(words_of(thing), language)
    ]
    if bare and not _supplied(guide, language):
        for thing in bare:
            yield Finding.at("T207", thing.span, name=thing.name)


def _supplied(guide: Guide, language: str) -> bool:
    """Whether some supply, or note on the way back, names an adhesive."""
    supplies = (words_of(thing) for thing in guide.things.values() if isinstance(thing, Supply))
    refits = (refit.text for action in guide.actions.values() for refit in action.refits)
    return any(tells_what_renews(text, language) for text in (*supplies, *refits))
