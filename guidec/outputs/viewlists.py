"""A guide's things -> the rows of its lists: what to lay out, the bill of materials, the index of things."""

from __future__ import annotations

import unicodedata
from bisect import bisect_right
from collections.abc import Iterable, Mapping
from dataclasses import dataclass

from markupsafe import Markup

from guidec.model import printed
from guidec.model.types import (
    Change,
    Connector,
    Fastening,
    Guide,
    Part,
    Quantity,
    ScrewSet,
    Supply,
    Thing,
    Tool,
)
from guidec.outputs.inline import Pen, anchor
from guidec.trade.units import shown

__all__ = ["Entry", "Lists", "Table", "lists", "occurrences"]


@dataclass(frozen=True, slots=True)
class Table:
    """A table of the lists. `columns`: class and label of each; `rows`: a value for each column."""

    title: str
    columns: tuple[tuple[str, str], ...]
    rows: tuple[tuple[Markup, ...], ...]


@dataclass(frozen=True, slots=True)
class Entry:
    """One row of the index: a thing's anchor, how it prints, its kind in words, the operations that name it."""

    id: str
    name: str
    kind: str
    details: str
    operations: Markup
    draft: bool


@dataclass(frozen=True, slots=True)
class Lists:
    """`lay_out`: tools and supplies (either may have no rows); `materials`: tables with rows; `index`: by name."""

    lay_out: tuple[Table, ...]
    materials: tuple[Table, ...]
    index: tuple[Entry, ...]


def lists(pen: Pen) -> Lists:
    """All lists of a guide."""
    places = occurrences(pen.guide)
    made = (_parts(pen), _fasteners(pen), _connectors(pen), _adhesives(pen), _batteries(pen))
    return Lists(
        lay_out=(_tools(pen, places), _supplies(pen, places)),
        materials=tuple(table for table in made if table.rows),
        index=_index(pen, places),
    )


def occurrences(guide: Guide) -> Mapping[str, tuple[int, ...]]:
    """The numbers of the operations in which each thing occurs: where it is named, or used by an action."""
    spans = sorted((operation.span, operation.number) for operation in guide.operations)
    starts = [span.start for span, _ in spans]
    found: dict[str, set[int]] = {name: set() for name in guide.things}
    for thing in guide.things.values():
        for place in thing.places:
            at = bisect_right(starts, place.start) - 1
            if at >= 0 and place.start < spans[at][0].end:
                found[thing.id].add(spans[at][1])
    for action in guide.actions.values():
        number = guide.operation[action.operation].number
        for use in (*action.objects, *action.mentions, *action.tools, *action.supplies):
            found[use.id].add(number)
    return {name: tuple(sorted(numbers)) for name, numbers in found.items()}


def _links(pen: Pen, numbers: Iterable[int]) -> Markup:
    """Operation numbers as links."""
    by_number = {operation.number: operation.id for operation in pen.guide.operations}
    link = Markup('<a class="no" href="#op-{}">{}</a>')
    return Markup(", ").join(link.format(by_number[number], number) for number in numbers)


def _text(value: object) -> Markup:
    return Markup.escape("" if value is None else value)


def _quantity(pen: Pen, value: Quantity | None) -> Markup:
    return _text(pen.words.figures(shown(value)) if value else "")


def _of(pen: Pen, kind: type[Thing]) -> Iterable[Thing]:
    return (thing for thing in pen.guide.things.values() if isinstance(thing, kind))


def _table(pen: Pen, title: str, columns: str, rows: Iterable[tuple[Markup, ...]]) -> Table:
    """A table with the columns of these words; columns that stay empty in every row are left out."""
    made, names = tuple(rows), columns.split()
    used = [at for at in range(len(names)) if any(row[at] for row in made)]
    return Table(
        pen.words(title),
        tuple((names[at], pen.words(names[at])) for at in used),
        tuple(tuple(row[at] for at in used) for row in made),
    )


def _graded(pen: Pen, tool: Tool) -> Markup:
    says = pen.words
    if tool.grade is None:
        return Markup("")
    grade = says.named("grade", tool.grade)
    return _text(f"{grade} ({says('proposed')})" if tool.grade_proposed else grade)


def _tools(pen: Pen, places: Mapping[str, tuple[int, ...]]) -> Table:
    rows = [
        (pen.thing(tool.id), _text(tool.size), _graded(pen, tool), _links(pen, places[tool.id]))
        for tool in _of(pen, Tool)
        if isinstance(tool, Tool)
    ]
    return _table(pen, "tools", "name size grade operations", rows)


def _supplies(pen: Pen, places: Mapping[str, tuple[int, ...]]) -> Table:
    """What is used up, and what has to be new on refit."""
    rows = []
    for thing in pen.guide.things.values():
        if isinstance(thing, Supply):
            amount, note = thing.amount, Markup("")
            strength = thing.strength
        elif getattr(thing, "renew", False):
            amount, note = getattr(thing, "amount", None), _text(pen.words("renew"))
            strength = thing.type if isinstance(thing, Fastening) else ""
        else:
            continue
        rows.append(
            (
                pen.thing(thing.id),
                _text(strength),
                _text(pen.words.figures(amount.text) if amount else ""),
                note,
                _links(pen, places[thing.id]),
            )
        )
    return _table(pen, "supplies", "name strength amount remarks operations", rows)


def _numbers(guide: Guide, changes: Iterable[Change]) -> Mapping[str, tuple[int, ...]]:
    """The operations in which each thing meets one of these changes."""
    wanted, found = frozenset(changes), dict[str, dict[int, None]]()
    for action in guide.actions.values():
        for effect in action.effects:
            if effect.change in wanted:
                found.setdefault(effect.id, {})[guide.operation[action.operation].number] = None
    return {name: tuple(numbers) for name, numbers in found.items()}


def _parts(pen: Pen) -> Table:
    says, off = pen.words, _numbers(pen.guide, (Change.OFF,))
    rows = []
    for part in _of(pen, Part):
        assert isinstance(part, Part)
        cls = says.named("class", part.cls) if part.cls else ""
        cls += f" ({says('proposed')})" if part.cls and part.cls_proposed else ""
        removed = _links(pen, off[part.id]) if part.id in off else _text(says("not-removed"))
        rows.append(
            (
                _text(part.qty),
                pen.thing(part.id),
                _text(cls),
                _text(part.number),
                _text(part.material),
                _quantity(pen, part.mass),
                removed,
            )
        )
    return _table(pen, "parts", "quantity part class number material mass removed", rows)


def _fasteners(pen: Pen) -> Table:
    """Screw sets in the order they come out."""
    out = _numbers(pen.guide, (Change.UNDONE,))
    sets = [thing for thing in _of(pen, ScrewSet) if isinstance(thing, ScrewSet)]
    last = len(pen.guide.operations) * 10 + 10
    rows = [
        (
            _links(pen, out.get(screws.id, ())) or _text(pen.words("never")),
            pen.thing(screws.id, screws.name),
            _text(screws.count),
            _text(" | ".join(screws.drives)),
            _text(screws.thread.text.replace("x", "×") if screws.thread else ""),
            _quantity(pen, screws.torque),
            _text(pen.words.between.join(_screw_remarks(pen, screws))),
        )
        for screws in sorted(sets, key=lambda screws: out.get(screws.id, (last,))[0])
    ]
    return _table(pen, "fasteners", "comes-out set quantity drive thread torque remarks", rows)


def _screw_remarks(pen: Pen, screws: ScrewSet) -> list[str]:
    says, remarks = pen.words, [word for word in (screws.head, screws.colour, screws.grade) if word]
    remarks += [says("left-hand")] if screws.left_hand else []
    if screws.locked is not None:
        remarks.append(says("locked-with", **{"with": screws.locked}) if screws.locked else says("locked"))
    remarks += [says("captive")] if screws.captive else []
    return remarks + ([says("renew")] if screws.renew else [])


def _connectors(pen: Pen) -> Table:
    says, opened = pen.words, _numbers(pen.guide, (Change.OPEN,))
    rows = []
    for item in _of(pen, Connector):
        assert isinstance(item, Connector)
        ends = [pen.thing(end.id) if end.id else _text(end.name) for end in (item.from_, item.to) if end]
        both = Markup(says("from-to", **{"from": "{0}", "to": "{1}"})).format(*ends) if len(ends) == 2 else ""
        numbers = _links(pen, opened.get(item.id, ())) or _text(says("never"))
        rows.append(
            (_text(item.qty), pen.thing(item.id), _text(item.type), Markup(both) or Markup("").join(ends), numbers)
        )
    return _table(pen, "connectors", "quantity connector type between opened", rows)


def _adhesives(pen: Pen) -> Table:
    says, undone = pen.words, _numbers(pen.guide, (Change.UNDONE,))
    rows = []
    for item in _of(pen, Fastening):
        assert isinstance(item, Fastening)
        kind = says(f"thing.{item.kind.value}")
        remarks = says("renew") if item.renew else ""
        numbers = _links(pen, undone.get(item.id, ())) or _text(says("never"))
        rows.append((pen.thing(item.id), _text(kind), _text(item.type or item.details), _text(remarks), numbers))
    return _table(pen, "adhesives", "fastening kind type remarks undone-in", rows)


def _batteries(pen: Pen) -> Table:
    number = pen.words.number
    rows = []
    for part in _of(pen, Part):
        if isinstance(part, Part) and (cell := part.battery):
            values = ((cell.capacity_mah, "mAh", 0), (cell.voltage_v, "V", 2), (cell.energy_wh, "Wh", 2))
            shown_as = [
                _text(f"{number(value, places)} {unit}" if value is not None else "")
                for value, unit, places in values
            ]
            rows.append((_text(part.qty), pen.thing(part.id), *shown_as))
    return _table(pen, "batteries", "quantity battery capacity voltage energy", rows)


def _index(pen: Pen, places: Mapping[str, tuple[int, ...]]) -> tuple[Entry, ...]:
    says = pen.words
    return tuple(
        Entry(
            id=anchor(thing.id),
            name=thing.name,
            kind=says(f"thing.{thing.kind.value}"),
            details=printed.screw_notation(thing) if isinstance(thing, ScrewSet) else "",
            operations=_links(pen, places[thing.id]) or _text(says("index-none")),
            draft=thing.draft,
        )
        for thing in sorted(pen.guide.things.values(), key=lambda thing: _sort_key(thing.name))
    )


def _sort_key(name: str) -> tuple[str, str]:
    """Letters without their accents, any case; the name itself where that is the same."""
    plain = unicodedata.normalize("NFKD", name)
    return "".join(char for char in plain if not unicodedata.combining(char)).casefold(), name
