"""A device on the bench, taken apart and put together line by line -> what a line did that cannot be.

It knows things, counts and what holds, covers and feeds what; of graphs, needs and routes it knows nothing. So it
can judge the planner's routes and ways back from outside.
"""

from __future__ import annotations

from collections.abc import Iterable, Iterator
from dataclasses import field

from guidec.model.types import Change, Connector, Effect, Fastening, Guide, Part, Ref, ScrewSet
from guidec.quick import dataclass

__all__ = ["Bench", "Objection", "State"]


@dataclass(frozen=True, slots=True)
class Objection:
    """What is wrong with one line: a word for the fault, the thing it is about, the thing in the way."""

    line: str
    fault: str
    thing: str
    other: str = ""


@dataclass(frozen=True, slots=True)
class State:
    """What is not as it was: parts out, parts moved, connectors open, how many of each fastening are out."""

    out: frozenset[str]
    moved: frozenset[str]
    open: frozenset[str]
    undone: frozenset[tuple[str, int]]


@dataclass(slots=True)
class Bench:
    """A device at work. Lines are named by the caller; every fault is kept in `objections`."""

    guide: Guide
    objections: list[Objection] = field(default_factory=list)
    _out: dict[str, int] = field(default_factory=dict)
    _moved: set[str] = field(default_factory=set)
    _open: set[str] = field(default_factory=set)
    _undone: dict[str, int] = field(default_factory=dict)

    @property
    def state(self) -> State:
        """What is not as it was."""
        return State(
            frozenset(self._out), frozenset(self._moved), frozenset(self._open), frozenset(self._undone.items())
        )

    # ------------------------------------------------------------ apart

    def apart(self, line: str, effects: Iterable[Effect]) -> None:
        """Do what a line does: first all it loosens, then all it takes away."""
        ordered = sorted(effects, key=lambda effect: effect.change is Change.OFF)
        for effect in ordered:
            if effect.change is Change.OFF:
                self._take_off(line, effect)
            elif effect.change is Change.MOVED:
                self._moved.add(effect.id)
            elif effect.change is Change.OPEN:
                self._open.add(effect.id)
            elif effect.change is Change.UNDONE:
                self._undo(line, effect)

    def _undo(self, line: str, effect: Effect) -> None:
        thing = self.guide.things[effect.id]
        total = self._total(effect.id)
        count = effect.count if effect.count is not None else total
        now = self._undone.get(effect.id, 0) + count
        if now > total and isinstance(thing, ScrewSet):
            self._object(line, "more out than there are", effect.id)
        self._undone[effect.id] = min(now, total)

    def _take_off(self, line: str, effect: Effect) -> None:
        part = self.guide.things[effect.id]
        assert isinstance(part, Part)
        count = effect.count if effect.count is not None else part.qty
        if self._out.get(part.id, 0) + count > part.qty:
            self._object(line, "off already", part.id)
            return
        for holder in self._holders(part.id):
            if not self._undone.get(holder):
                self._object(line, "still held", part.id, holder)
        for over in _ids(part.under):
            if over not in self._out and over not in self._moved:
                self._object(line, "still covered", part.id, over)
        for plug in self._plugs(part):
            if plug not in self._open:
                self._object(line, "still plugged in", part.id, plug)
        self._out[part.id] = self._out.get(part.id, 0) + count

    # ------------------------------------------------------------ together

    def together(self, line: str, effects: Iterable[Effect]) -> None:
        """Take back what a line did: first put in place, then fasten and plug in."""
        ordered = sorted(effects, key=lambda effect: effect.change is not Change.OFF)
        for effect in ordered:
            if effect.change is Change.OFF:
                self._put_on(line, effect)
            elif effect.change is Change.MOVED:
                self._moved.discard(effect.id)
            elif effect.change is Change.OPEN:
                self._plug_in(line, effect)
            elif effect.change is Change.UNDONE:
                self._fasten(line, effect)

    def _put_on(self, line: str, effect: Effect) -> None:
        part = self.guide.things[effect.id]
        assert isinstance(part, Part)
        count = effect.count if effect.count is not None else part.qty
        left = self._out.get(part.id, 0) - count
        if left < 0:
            self._object(line, "in place already", part.id)
        for over in _ids(part.under):
            if over not in self._out and over not in self._moved:
                self._object(line, "covered before it is in", part.id, over)
        self._out[part.id] = left
        if left <= 0:
            del self._out[part.id]

    def _plug_in(self, line: str, effect: Effect) -> None:
        if effect.id not in self._open:
            self._object(line, "plugged in already", effect.id)
        thing = self.guide.things[effect.id]
        if isinstance(thing, Connector):
            for end in _ids(tuple(ref for ref in (thing.from_, thing.to) if ref)):
                if end in self._out:
                    self._object(line, "plugged in before its end is in", effect.id, end)
        self._open.discard(effect.id)

    def _fasten(self, line: str, effect: Effect) -> None:
        thing = self.guide.things[effect.id]
        count = effect.count if effect.count is not None else self._total(effect.id)
        left = self._undone.get(effect.id, 0) - count
        if left < 0 and isinstance(thing, ScrewSet):
            self._object(line, "more in than are out", effect.id)
        if isinstance(thing, ScrewSet) and left <= 0:
            for held in _ids(thing.holds):
                if held in self._out:
                    self._object(line, "fastened before it is in", effect.id, held)
        self._undone[effect.id] = max(left, 0)
        if left <= 0:
            del self._undone[effect.id]

    # ------------------------------------------------------------ facts

    def _object(self, line: str, fault: str, thing: str, other: str = "") -> None:
        self.objections.append(Objection(line, fault, thing, other))

    def _total(self, own: str) -> int:
        thing = self.guide.things[own]
        return (thing.count or 1) if isinstance(thing, ScrewSet) else 1

    def _holders(self, part: str) -> Iterator[str]:
        """What the note says holds a part."""
        for thing in self.guide.things.values():
            if isinstance(thing, ScrewSet | Fastening) and part in _ids(thing.holds):
                yield thing.id

    def _plugs(self, part: Part) -> Iterator[str]:
        """The connectors that end on a part, or in it, and lead out of it."""
        for thing in self.guide.things.values():
            if isinstance(thing, Connector):
                inside = [self._within(ref, part.id) for ref in (thing.from_, thing.to) if ref and ref.id]
                if any(inside) and not (len(inside) == 2 and all(inside)):
                    yield thing.id

    def _within(self, ref: Ref, part: str) -> bool:
        """Whether a thing is a part or belongs to it."""
        own, seen = ref.id, set[str]()
        while own is not None and own not in seen:
            if own == part:
                return True
            seen.add(own)
            thing = self.guide.things.get(own)
            own = thing.inside.id if isinstance(thing, Part) and thing.inside else None
        return False


def _ids(refs: Iterable[Ref]) -> tuple[str, ...]:
    return tuple(ref.id for ref in refs if ref.id is not None)
