"""Things of a guide -> tables for the templates: columns in words, and the cells that several lists share."""

from __future__ import annotations

from collections.abc import Iterable, Mapping
from functools import lru_cache

from markupsafe import Markup, escape

from guidec.model.types import Change, Guide, Quantity, Thing
from guidec.outputs.fill import fill, joined
from guidec.outputs.inline import Pen
from guidec.quick import dataclass
from guidec.trade.units import shown

__all__ = ["Table", "cell", "links", "numbers", "of_kind", "operation_link", "quantity", "table"]


_NOTHING = Markup("")


@dataclass(frozen=True, slots=True)
class Table:
    """A table of the lists. `columns`: class and label of each; `rows`: a value for each column."""

    title: str
    columns: tuple[tuple[str, str], ...]
    rows: tuple[tuple[Markup, ...], ...]


def links(pen: Pen, numbers: Iterable[int]) -> Markup:
    """Operation numbers as links."""
    return joined(", ", [operation_link(pen.operations[number], number) for number in numbers])


@lru_cache(maxsize=4096)
def operation_link(operation: str, number: int) -> Markup:
    """An operation's number as a link; a page says most of them many times."""
    return fill('<a class="no" href="#op-{}">{}</a>', operation, number)


def cell(value: object) -> Markup:
    return escape(value) if value or value == 0 else _NOTHING


def quantity(pen: Pen, value: Quantity | None) -> Markup:
    return cell(pen.words.figures(shown(value)) if value else "")


def of_kind(pen: Pen, kind: type[Thing]) -> Iterable[Thing]:
    return (thing for thing in pen.guide.things.values() if isinstance(thing, kind))


def numbers(guide: Guide, changes: Iterable[Change]) -> Mapping[str, tuple[int, ...]]:
    """The operations in which each thing meets one of these changes."""
    wanted, found = frozenset(changes), dict[str, dict[int, None]]()
    for action in guide.actions.values():
        for effect in action.effects:
            if effect.change in wanted:
                found.setdefault(effect.id, {})[guide.operation[action.operation].number] = None
    return {name: tuple(numbers) for name, numbers in found.items()}


def table(pen: Pen, title: str, columns: str, rows: Iterable[tuple[Markup, ...]]) -> Table:
    """A table with the columns of these words; columns that stay empty in every row are left out."""
    made, names = tuple(rows), columns.split()
    used = [at for at in range(len(names)) if any(row[at] for row in made)]
    return Table(
        pen.words(title),
        tuple((names[at], pen.words(names[at])) for at in used),
        tuple(tuple(row[at] for at in used) for row in made),
    )
