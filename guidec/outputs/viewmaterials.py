"""A guide's things -> the tables of its bill of materials: parts, fasteners, connectors, adhesives, batteries."""

from __future__ import annotations

from collections.abc import Iterator
from functools import lru_cache

from markupsafe import Markup

from guidec.model.types import Battery, Change, Connector, Fastening, Guide, Part, Ref, ScrewSet
from guidec.outputs.fill import fill
from guidec.outputs.inline import Pen
from guidec.outputs.viewtables import Table, cell, links, numbers, of_kind, quantity, table
from guidec.plan.deeds import is_lithium
from guidec.trade.batteries import transport
from guidec.trade.depollution import Listed, depollution
from guidec.trade.plastics import totals

__all__ = ["materials", "out_first"]


def materials(pen: Pen) -> tuple[Table, ...]:
    """The tables that have rows."""
    made = (
        _parts(pen),
        _fasteners(pen),
        _connectors(pen),
        _adhesives(pen),
        _batteries(pen),
        _depollution(pen),
        _masses(pen),
    )
    return tuple(found for found in made if found.rows)


def _parts(pen: Pen) -> Table:
    says, off = pen.words, numbers(pen.guide, (Change.OFF,))
    rows = []
    for part in of_kind(pen, Part):
        assert isinstance(part, Part)
        cls = says.named("class", part.cls) if part.cls else ""
        cls += f" ({says('proposed')})" if part.cls and part.cls_proposed else ""
        removed = links(pen, off[part.id]) if part.id in off else cell(says("not-removed"))
        rows.append(
            (
                cell(part.qty),
                pen.thing(part.id),
                cell(cls),
                cell(part.number),
                cell(part.material),
                quantity(pen, part.mass),
                removed,
            )
        )
    return table(pen, "parts", "quantity part class number material mass removed", rows)


def _fasteners(pen: Pen) -> Table:
    """Screw sets in the order they come out."""
    out = numbers(pen.guide, (Change.UNDONE,))
    sets = [thing for thing in of_kind(pen, ScrewSet) if isinstance(thing, ScrewSet)]
    last = len(pen.guide.operations) * 10 + 10
    rows = [
        (
            links(pen, out.get(screws.id, ())) or cell(pen.words("never")),
            pen.thing(screws.id, screws.name),
            cell(screws.count),
            cell(" | ".join(screws.drives)),
            cell(pen.words.figures(screws.thread.text).replace("x", "×") if screws.thread else ""),
            quantity(pen, screws.torque),
            cell(pen.words.between.join(_screw_remarks(pen, screws))),
        )
        for screws in sorted(sets, key=lambda screws: out.get(screws.id, (last,))[0])
    ]
    return table(pen, "fasteners", "comes-out set quantity drive thread torque remarks", rows)


def _screw_remarks(pen: Pen, screws: ScrewSet) -> list[str]:
    says, remarks = pen.words, [word for word in (screws.head, screws.colour, screws.grade) if word]
    remarks += [says("left-hand")] if screws.left_hand else []
    if screws.locked is not None:
        remarks.append(says("locked-with", **{"with": screws.locked}) if screws.locked else says("locked"))
    remarks += [says("captive")] if screws.captive else []
    return remarks + ([says("renew")] if screws.renew else [])


def _connectors(pen: Pen) -> Table:
    says, opened = pen.words, numbers(pen.guide, (Change.OPEN,))
    rows = []
    for item in of_kind(pen, Connector):
        assert isinstance(item, Connector)
        ends = [_end(pen, end) for end in (item.from_, item.to) if end]
        both = fill(says("from-to", **{"from": "{0}", "to": "{1}"}), *ends) if len(ends) == 2 else ""
        places = links(pen, opened.get(item.id, ())) or cell(says("never"))
        rows.append(
            (
                cell(item.qty),
                pen.thing(item.id),
                cell(says.named("connector", item.type)),
                Markup(both) or Markup("").join(ends),
                places,
            )
        )
    return table(pen, "connectors", "quantity connector type between opened", rows)


def _end(pen: Pen, end: Ref) -> Markup:
    """What a connector ends on, a link where the guide knows it."""
    return pen.thing(end.id) if end.id and end.id in pen.guide.things else cell(end.name)


def _adhesives(pen: Pen) -> Table:
    says, undone = pen.words, numbers(pen.guide, (Change.UNDONE,))
    rows = []
    for item in of_kind(pen, Fastening):
        assert isinstance(item, Fastening)
        kind = says(f"thing.{item.kind.value}")
        remarks = says("renew") if item.renew else ""
        places = links(pen, undone.get(item.id, ())) or cell(says("never"))
        rows.append((pen.thing(item.id), cell(kind), cell(item.type or item.details), cell(remarks), places))
    return table(pen, "adhesives", "fastening kind type remarks undone-in", rows)


def _batteries(pen: Pen) -> Table:
    number = pen.words.number
    rows = []
    for part in of_kind(pen, Part):
        if isinstance(part, Part) and (battery := part.battery):
            values = ((battery.capacity_mah, "mAh", 0), (battery.voltage_v, "V", 2), (battery.energy_wh, "Wh", 2))
            shown_as = [
                cell(f"{number(value, places)} {unit}" if value is not None else "")
                for value, unit, places in values
            ]
            rows.append((cell(part.qty), pen.thing(part.id), *shown_as, cell(_shipped(pen, part, battery))))
    return table(pen, "batteries", "quantity battery capacity voltage energy transport", rows)


def _shipped(pen: Pen, part: Part, battery: Battery) -> str:
    """What provision of transport a lithium battery falls under; nothing where its energy is not known."""
    if battery.energy_wh is None or not is_lithium(pen.guide, part):
        return ""
    says, found = pen.words, transport(battery.energy_wh, battery.voltage_v)
    key = {True: "transport.small", False: "transport.large", None: "transport.depends"}[found.small]
    numbers = says("transport-un", un=found.alone, packed=found.packed)
    return f"{says(key, limit=says.number(found.limit_wh))}; {numbers}. {says('transport-why')}"


_listed = lru_cache(maxsize=4096)(depollution)
"""The same parts are asked about for the guide of each route."""


def out_first(guide: Guide) -> Iterator[tuple[Part, Listed]]:
    """The parts that the law wants out first, each with what it is listed as."""
    for part in guide.things.values():
        if isinstance(part, Part):
            listed = _listed(
                part.name,
                part.cls,
                material=part.material,
                details=part.details,
                subject_kind=guide.meta.subject.kind or "",
                language=guide.meta.language,
            )
            yield from ((part, item) for item in listed)


def _depollution(pen: Pen) -> Table:
    """The parts that the law wants out first."""
    rows = [(pen.thing(part.id), cell(item.item), cell(item.condition)) for part, item in out_first(pen.guide)]
    return table(pen, "depollution", "part listed-as condition", rows)


def _masses(pen: Pen) -> Table:
    """Sums by material of the parts that are weighed."""
    says = pen.words
    parts = [part for part in of_kind(pen, Part) if isinstance(part, Part) and part.mass]
    weighed = [(part.material, part.mass.low, part.mass.high, part.qty) for part in parts if part.mass]
    rows = []
    for total in totals(weighed, pen.guide.meta.language):
        low, high = says.number(total.low_g), says.number(total.high_g)
        rows.append(
            (
                cell(total.material or says("no-material")),
                cell(total.function),
                cell(f"{low} g" if low == high else f"{low}–{high} g"),
                cell(total.parts),
            )
        )
    return table(pen, "masses", "material function mass parts", rows)
