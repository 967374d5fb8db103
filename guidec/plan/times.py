"""An action -> the seconds it takes by hand, piece by piece, and the seconds it makes one wait.

The hand times come from a table of work times (`trade/data/times.yaml`, own assumptions of the project); whoever
has better ones passes a table: `plan.graph(guide, times=of_table(table))`.
"""

from __future__ import annotations

from collections.abc import Callable, Mapping, Sequence
from fractions import Fraction

from guidec.model.types import Action, Change, Connector, Effect, Fastening, Guide, Part, ScrewSet, Thing
from guidec.quick import dataclass
from guidec.trade.work_times import Row, Table, own_table

__all__ = ["Piece", "Times", "assumed", "of_table", "pieces", "total", "waiting"]


@dataclass(frozen=True, slots=True)
class Times:
    """`action(guide, action)`: seconds by hand. `change`, `turn`: seconds of a change of tool, of a turn-over."""

    action: Callable[[Guide, Action], float]
    change: float
    turn: float


@dataclass(frozen=True, slots=True)
class Piece:
    """One piece of an action's work: so many of a thing (None: no thing), by a row of the table (None: no row)."""

    thing: str | None
    count: int
    row: Row | None

    @property
    def seconds(self) -> Fraction:
        """Seconds by hand; none where the table has no row."""
        return self.row.total(self.count) if self.row else Fraction(0)


def assumed() -> Times:
    """The times assumed where nobody gives others."""
    return of_table(own_table())


def of_table(table: Table) -> Times:
    """The times of a table."""

    def action(guide: Guide, one: Action) -> float:
        return float(total(pieces(guide, one, table)))

    return Times(action, float(table.change), float(table.turn))


def pieces(guide: Guide, action: Action, table: Table) -> tuple[Piece, ...]:
    """The pieces of an action's work: one for each thing that it changes, else one for the action itself."""
    plain = {"family": action.family.value, "verb": action.verb.split(" ")[0].casefold()}
    found = [effect for effect in action.effects if effect.change is not Change.EXPOSED]
    if not found:
        return (Piece(None, 1, table.row(plain)),)
    return tuple(_piece(guide, effect, plain, table) for effect in found)


def _piece(guide: Guide, effect: Effect, plain: Mapping[str, str], table: Table) -> Piece:
    thing = guide.things.get(effect.id)
    work = {**plain, "change": effect.change.value}
    if thing is not None:
        work["kind"] = thing.kind.value
        if "name" in table.asked:
            work["name"] = " ".join(thing.name.casefold().split())
    if isinstance(thing, Part):
        work["class"] = thing.cls or "other"
    elif isinstance(thing, Connector | Fastening):
        work["type"] = thing.type.casefold()
    return Piece(effect.id, _count(thing, effect), table.row(work))


def _count(thing: Thing | None, effect: Effect) -> int:
    """Screws and clips count singly; of a part and of glue there is one piece of work."""
    if effect.count is not None:
        return effect.count
    if isinstance(thing, ScrewSet | Fastening):
        return thing.count or 1
    return thing.qty if isinstance(thing, Connector) else 1


def total(found: Sequence[Piece]) -> Fraction:
    """The seconds of the pieces of an action; there is always one."""
    return sum([piece.seconds for piece in found[1:]], found[0].seconds)


def waiting(action: Action) -> float:
    """The seconds of an action's `wait` and `heat` values; of a range the upper end."""
    waits = [wait.duration for wait in action.waits] + [heat.duration for heat in action.heats]
    return sum(duration.high for duration in waits if duration is not None)
