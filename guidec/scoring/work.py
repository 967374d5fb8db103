"""A guide and a table of work times -> hand time and waiting of actions, operations, ways; what was measured."""

from __future__ import annotations

from collections.abc import Iterable, Mapping
from fractions import Fraction
from functools import cached_property

from guidec.model.types import Guide, Operation, Time
from guidec.plan import Route
from guidec.plan.times import Piece, pieces, total, waiting
from guidec.quick import dataclass
from guidec.trade.work_times import Table

__all__ = ["OperationTime", "RouteTime", "Timed", "WorkTimes", "work_times"]

_NONE = Fraction(0)


@dataclass(frozen=True)
class Timed:
    """One action: the pieces of its work; seconds by hand, and of waiting and heating that the note states."""

    action: str
    pieces: tuple[Piece, ...]
    wait: Fraction

    @cached_property
    def hand(self) -> Fraction:
        """Seconds by hand."""
        return total(self.pieces)

    @property
    def phases(self) -> Mapping[str, Fraction]:
        """Phase of the table -> seconds."""
        found: dict[str, Fraction] = {}
        for piece in self.pieces:
            for phase, seconds in piece.row.phases(piece.count).items() if piece.row else ():
                found[phase] = found.get(phase, Fraction(0)) + seconds
        return found


@dataclass(frozen=True, slots=True)
class OperationTime:
    """One operation, all its actions. `measured`: seconds by the recording's time codes; None without an end."""

    operation: str
    hand: Fraction
    wait: Fraction
    measured: float | None


@dataclass(frozen=True, slots=True)
class RouteTime:
    """One way. `hand` holds the changes of tool and turn-overs. `measured`: seconds of those operations of the way
    that have time codes and are done as a whole; `covers`: how many these are, of `operations`."""

    part: str
    hand: Fraction
    wait: Fraction
    changes: int
    turns: int
    measured: float | None
    covers: int
    operations: int


@dataclass(frozen=True, slots=True)
class WorkTimes:
    """All times of a guide. `unknown`: pieces of work that the table has no row for."""

    table: Table
    actions: Mapping[str, Timed]
    operations: tuple[OperationTime, ...]
    unknown: tuple[str, ...]

    def route(self, guide: Guide, route: Route) -> RouteTime:
        """The times of a way."""
        spans = {one.operation: one.measured for one in self.operations}
        whole = [
            spans[visit.operation]
            for visit in route.visits
            if not visit.skipped and _all_of(guide.operation[visit.operation], visit.actions, guide)
        ]
        known = [span for span in whole if span is not None]
        return RouteTime(
            part=route.targets[0],
            hand=Fraction(route.cost.hand, 1000),
            wait=Fraction(route.cost.wait, 1000),
            changes=route.cost.changes,
            turns=route.cost.turns,
            measured=sum(known) if known else None,
            covers=len(known),
            operations=len(route.visits),
        )


def work_times(guide: Guide, table: Table) -> WorkTimes:
    """Time every action and operation, those of refit left out."""
    operations = [operation for operation in guide.operations if not operation.refit_only]
    timed = {
        own: Timed(own, pieces(guide, guide.actions[own], table), _seconds(waiting(guide.actions[own])))
        for operation in operations
        for own in operation.actions
    }
    return WorkTimes(
        table,
        timed,
        tuple(_operation(operation, timed) for operation in operations),
        tuple(own for own, one in timed.items() if any(piece.row is None for piece in one.pieces)),
    )


def _seconds(value: float) -> Fraction:
    return Fraction(str(value)) if value else _NONE


def _operation(operation: Operation, timed: Mapping[str, Timed]) -> OperationTime:
    actions = [timed[own] for own in operation.actions]
    return OperationTime(
        operation.id,
        sum([one.hand for one in actions], _NONE),
        sum([one.wait for one in actions if one.wait], _NONE),
        _span(operation.time),
    )


def _span(time: Time | None) -> float | None:
    return time.end - time.start if time is not None and time.end is not None else None


def _all_of(operation: Operation, actions: Iterable[str], guide: Guide) -> bool:
    """Whether a visit does all that an operation's recording shows: every action that others need."""
    return {own for own in operation.actions if guide.actions[own].step} <= set(actions)
