"""`holds`, `under`, `from`, `to` and what is supposed -> what a removal needs besides the order as written."""

from __future__ import annotations

from collections import defaultdict
from collections.abc import Iterator, Sequence

from guidec.model.context import Context
from guidec.model.producers import Producers, Ways
from guidec.model.types import (
    Action,
    Adhesive,
    Change,
    Connector,
    Fastening,
    Need,
    Part,
    Reason,
    Ref,
    ScrewSet,
    Supposed,
    Thermal,
)
from guidec.rules.finding import Finding
from guidec.trade.deeds import is_deed, speaks_of

__all__ = ["Facts", "suppose"]


class Facts:
    """The facts of a note, turned round: for each part, what holds it, covers it and is plugged into it."""

    def __init__(self, actions: Sequence[Action], producers: Producers, context: Context) -> None:
        self._producers = producers
        self._context = context
        self._things = context.declared.things
        self._inside = {
            thing.id: thing.inside.id
            for thing in self._things.values()
            if isinstance(thing, Part) and thing.inside
        }
        self._holders: dict[str, list[tuple[str, Ref]]] = defaultdict(list)
        self._plugs: dict[str, list[tuple[Connector, Ref]]] = defaultdict(list)
        for thing in self._things.values():
            self._enter(thing)
        self._shares = _Shares(actions, self._holders, producers)
        self._order = {action.id: at for at, action in enumerate(actions)}
        self._leftovers = {action.id for action in actions if is_leftover(action, context)}
        self._reported: set[tuple[str, str]] = set()

    def _enter(self, thing: object) -> None:
        if isinstance(thing, ScrewSet | Fastening):
            for ref in thing.holds:
                if ref.id is not None:
                    self._holders[ref.id].append((thing.id, ref))
        elif isinstance(thing, Connector):
            ends = [end for end in (thing.from_, thing.to) if end is not None and end.id is not None]
            for end in ends:
                for part in self._around(end.id or ""):
                    others = [self._around(other.id or "") for other in ends if other is not end]
                    if not any(part in other for other in others):
                        self._plugs[part].append((thing, end))

    def _around(self, part: str) -> tuple[str, ...]:
        """A part and the assemblies it belongs to, innermost first."""
        found = [part]
        while (outer := self._inside.get(found[-1])) is not None and outer not in found:
            found.append(outer)
        return tuple(found)

    def stated(self, part: str) -> bool:
        """Whether the note says of anything that it holds this part."""
        return part in self._holders

    def needs(self, action: Action) -> Iterator[Need]:
        """The needs that facts give an action for each part it takes off."""
        for effect in action.effects:
            if effect.change is Change.OFF:
                if effect.id in self._holders:
                    yield from self._held(action, effect.id)
                yield from self._covered(action, effect.id)
                if effect.id in self._plugs:
                    yield from self._plugged(action, effect.id)

    def _held(self, action: Action, part: str) -> Iterator[Need]:
        for holder, ref in self._holders.get(part, ()):
            ways = self._shares.kept(holder, action.id, self._producers.ways(holder))
            if not ways:
                self._never(ref, "", self._things[holder].name, part)
            if self._leftovers:
                ways = self._without_leftovers(ways, action)
            yield from _need(Reason.HOLDS, ways, ref, holder, action)

    def _without_leftovers(self, ways: Ways, action: Action) -> Ways:
        """The ways without the wiping off of what is left on a part after it came off; none if that is all."""
        here = self._order[action.id]
        kept = [tuple(one for one in way if one not in self._leftovers or self._order[one] < here) for way in ways]
        return tuple(kept) if all(kept) else ()

    def _covered(self, action: Action, part: str) -> Iterator[Need]:
        thing = self._things[part]
        for ref in thing.under if isinstance(thing, Part) else ():
            if ref.id is None:
                continue
            ways = self._producers.ways(ref.id) or self._producers.ways(ref.id, Change.MOVED)
            if not ways:
                self._never(ref, "under", self._things[ref.id].name, part)
            yield from _need(Reason.UNDER, ways, ref, ref.id, action)

    def _plugged(self, action: Action, part: str) -> Iterator[Need]:
        for connector, ref in self._plugs.get(part, ()):
            ways = self._producers.ways(connector.id)
            if not ways:
                self._never(ref, "plugged", connector.name, part)
            yield from _need(Reason.CONNECTOR, ways, ref, connector.id, action)

    def _never(self, ref: Ref, variant: str, name: str, part: str) -> None:
        """Report, once a fact, that nobody ever does what a removal needs."""
        if (variant + name, part) not in self._reported:
            self._reported.add((variant + name, part))
            self._context.report(
                Finding.at("M304", ref.span, variant=variant, name=name, part=self._things[part].name)
            )


def _need(reason: Reason, ways: Ways, ref: Ref, thing: str, action: Action) -> Iterator[Need]:
    """The need, unless it is served by nothing at all or by the action itself."""
    kept = tuple(tuple(one for one in way if one != action.id) for way in ways)
    if kept and all(kept):
        yield Need(reason, kept, ref.span, thing)


class _Shares:
    """Which shares of a set free which part: each share frees the held part that comes off next."""

    def __init__(
        self, actions: Sequence[Action], holders: dict[str, list[tuple[str, Ref]]], producers: Producers
    ) -> None:
        held: dict[str, set[str]] = defaultdict(set)
        for part, found in holders.items():
            for holder, _ in found:
                held[holder].add(part)
        several = {holder for holder, parts in held.items() if len(parts) > 1 and len(producers.of(holder)) > 1}
        self._frees: dict[tuple[str, str], set[str]] = {}
        pending: dict[str, set[str]] = defaultdict(set)
        for action in actions if several else ():
            for effect in action.effects:
                if effect.id in several and effect.change is Change.UNDONE:
                    pending[effect.id].add(action.id)
                elif effect.change is Change.OFF:
                    for holder in several:
                        if effect.id in held[holder] and pending[holder]:
                            self._frees[holder, action.id] = pending.pop(holder)

    def kept(self, holder: str, action: str, ways: Ways) -> Ways:
        """The ways with only the shares that free this removal; all shares where none is its own."""
        own = self._frees.get((holder, action))
        if own is None:
            return ways
        kept = tuple(tuple(one for one in way if one in own) for way in ways)
        return tuple(way for way in kept if way) or ways


def is_leftover(action: Action, context: Context) -> bool:
    """Whether an action wipes, scrapes or cleans paste or glue off, which may be the rest of it on a part."""
    lexicon = context.lexicon
    if lexicon is None or not is_deed(action.verb, "clean_off", lexicon.language):
        return False
    return any(isinstance(context.declared.things[effect.id], Adhesive | Thermal) for effect in action.effects)


def suppose(actions: Sequence[Action], facts: Facts, context: Context) -> tuple[tuple[Supposed, Action], ...]:
    """What is supposed to hold a part: fastenings undone earlier in its operation, where nobody says what does.

    `actions`: one operation's, in the order in which they are done. In a `-` list, what a line undoes before it
    takes a part off itself is taken to hold that part alone. Of several parts that come off before the next thing
    is undone, one that is only drawn out (a sensor, a plug) gives way to what is lifted off last; where all are
    drawn, nothing is supposed. Gives each supposition with the action that undoes the fastening.
    """
    loose: list[tuple[str, Action]] = []
    found: list[tuple[Supposed, Action]] = []
    offs = _likely_held(actions, facts, context)
    for action in actions:
        if _opens(action, context):  # what was undone held what is opened now
            loose = []
        for effect in action.effects:
            thing = context.declared.things[effect.id]
            if effect.change is Change.UNDONE and isinstance(thing, ScrewSet | Fastening) and not thing.holds:
                if isinstance(thing, Thermal) and is_leftover(action, context):
                    continue
                loose.append((effect.id, action))
            elif effect.change is Change.OFF and not facts.stated(effect.id):
                held = (action.id, effect.id) if action.free else offs[action.id, effect.id]
                found += [(Supposed(one, held[1], held[0]), by) for one, by in loose if held]
                own_line = [(one, by) for one, by in loose if by.line_span == action.line_span]
                loose = [] if not action.free else [pair for pair in loose if pair not in own_line]
    return tuple(found)


_Off = tuple[str, str]
"""An action and the part that it takes off."""


def _opens(action: Action, context: Context) -> bool:
    """Whether an action opens a part that stays on ("open {lid} like a book")."""
    opening = context.lexicon.opening if context.lexicon else ()
    return action.verb in opening and any(effect.change is Change.MOVED for effect in action.effects)


def _likely_held(actions: Sequence[Action], facts: Facts, context: Context) -> dict[_Off, _Off | None]:
    """For each removal the one that what was undone before it most likely held up; None where that is open."""
    runs: list[list[tuple[_Off, Action]]] = [[]]
    for action in actions:
        for effect in action.effects:
            if effect.change is Change.UNDONE:
                runs.append([])
            elif effect.change is Change.OFF and not facts.stated(effect.id):
                runs[-1].append(((action.id, effect.id), action))
    found: dict[_Off, _Off | None] = {}
    for run in runs:
        things = [context.declared.things[off[1]] for off, _ in run]
        lone = len(run) == 1
        drawn = [not lone and _drawn(by, thing, context) for (_, by), thing in zip(run, things, strict=True)]
        lifted = [off for (off, _), out in zip(run, drawn, strict=True) if not out]
        for (off, _), out in zip(run, drawn, strict=True):
            found[off] = off if not out else lifted[-1] if lifted else None
    return found


def _drawn(action: Action, thing: object, context: Context) -> bool:
    """Whether a part is only drawn out, as a sensor or a plug is, and neither a cover nor drawn off."""
    if context.lexicon is None or (isinstance(thing, Part) and thing.cls in ("cover", "battery", "board")):
        return False
    language = context.lexicon.language
    return is_deed(action.verb, "draw", language) and not speaks_of(
        f"{action.verb} {action.text}", "drawn_off", language
    )
