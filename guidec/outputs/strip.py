"""A guide -> what the strip of each operation says.

The state of the device is kept while the operations are walked in the note's order, first ways only. Another way
starts from where the operation that it stands in for started, and leaves nothing behind. What is done on refit
only finds the device back together.
"""

from __future__ import annotations

from collections.abc import Iterable, Mapping
from dataclasses import field

from guidec.model.types import Action, Change, Guide, Kind, Operation, ScrewSet, Time
from guidec.quick import dataclass

__all__ = ["Gone", "ScrewsOut", "Strip", "strips"]


@dataclass(frozen=True, slots=True)
class Gone:
    """A thing that is off or open: its id, the number of the operation that saw to it, and whether that was
    an optional action, so that it may still be there."""

    id: str
    operation: int
    optional: bool = False


@dataclass(frozen=True, slots=True)
class ScrewsOut:
    """How many of a screw set come out in an operation; None where the note does not say."""

    id: str
    count: int | None


@dataclass(frozen=True, slots=True)
class Strip:
    """One strip. `tools` are ids in the order they are picked up; `off` parts and `open` connectors are those
    at the operation's start, oldest first. `together`: the device is back together (refit only)."""

    time: Time | None
    side: str | None
    ends_side: str | None
    tools: tuple[str, ...]
    screws: tuple[ScrewsOut, ...]
    off: tuple[Gone, ...]
    open: tuple[Gone, ...]
    together: bool = False


@dataclass(slots=True)
class _State:
    """What has become of the device so far. `out`: how many of each screw set are out."""

    off: dict[str, Gone] = field(default_factory=dict)
    open: dict[str, Gone] = field(default_factory=dict)
    out: dict[str, int] = field(default_factory=dict)

    def copy(self) -> _State:
        return _State(dict(self.off), dict(self.open), dict(self.out))


def strips(guide: Guide) -> Mapping[str, Strip]:
    """The strip of every operation, by the operation's id."""
    state, starts, found = _State(), dict[str, _State](), dict[str, Strip]()
    for operation in guide.operations:
        before = _before(operation, state, starts)
        starts[operation.id] = before.copy()
        found[operation.id] = _strip(guide, operation, before)
        after = before.copy()
        for action in _actions(guide, operation):
            _apply(guide, operation, action, after)
        if operation.instead_of is None and not operation.refit_only:
            state = after
    return found


def _before(operation: Operation, state: _State, starts: Mapping[str, _State]) -> _State:
    if operation.refit_only:
        return _State()
    return starts.get(operation.instead_of or "", state)


def _actions(guide: Guide, operation: Operation) -> Iterable[Action]:
    return (guide.actions[name] for name in operation.actions)


def _strip(guide: Guide, operation: Operation, before: _State) -> Strip:
    return Strip(
        time=operation.time,
        side=operation.side,
        ends_side=operation.ends_side,
        tools=tuple(dict.fromkeys(use.id for action in _actions(guide, operation) for use in action.tools)),
        screws=_screws(guide, operation, before),
        off=tuple(before.off.values()),
        open=tuple(before.open.values()),
        together=operation.refit_only,
    )


def _apply(guide: Guide, operation: Operation, action: Action, state: _State) -> None:
    """Do an action to the state."""
    optional = action.optional or operation.optional
    for effect in action.effects:
        gone = Gone(effect.id, operation.number, optional)
        if effect.change is Change.OFF:
            state.off.setdefault(effect.id, gone)
        elif effect.change is Change.OPEN:
            state.open.setdefault(effect.id, gone)
        elif effect.change is Change.UNDONE and guide.things[effect.id].kind is Kind.SCREW:
            taken = _taken(guide, effect.id, effect.count, state)
            state.out[effect.id] = state.out.get(effect.id, 0) + (taken or 0)


def _taken(guide: Guide, name: str, count: int | None, state: _State) -> int | None:
    """How many of a set an effect takes out: those it says, or all that are still in; None where unknown."""
    thing = guide.things[name]
    if count is not None or not isinstance(thing, ScrewSet) or thing.count is None:
        return count
    return max(thing.count - state.out.get(name, 0), 0)


def _screws(guide: Guide, operation: Operation, before: _State) -> tuple[ScrewsOut, ...]:
    """The screw sets that come out in an operation, in order, their shares added up."""
    state, found = before.copy(), dict[str, int | None]()
    for action in _actions(guide, operation):
        for effect in action.effects:
            if effect.change is Change.UNDONE and guide.things[effect.id].kind is Kind.SCREW:
                taken = _taken(guide, effect.id, effect.count, state)
                known = found.get(effect.id, 0)
                found[effect.id] = None if taken is None or known is None else known + taken
        _apply(guide, operation, action, state)
    return tuple(ScrewsOut(name, count) for name, count in found.items())
