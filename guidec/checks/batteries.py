"""Batteries as typed -> what their energy means for sending them, and values that look mistaken."""

from __future__ import annotations

from collections.abc import Iterator

from guidec.model.types import Guide, Part
from guidec.plan import Graph
from guidec.plan.deeds import batteries, is_lithium
from guidec.rules.finding import Finding
from guidec.trade.batteries import charge_limit, transport

__all__ = ["check"]


def check(guide: Guide, graph: Graph) -> Iterator[Finding]:
    """T401, T402, T403."""
    for part in batteries(guide):
        if not is_lithium(guide, part):
            continue
        yield from _energy(part)
        yield from _voltage(part)


def _energy(part: Part) -> Iterator[Finding]:
    energy = part.battery.energy_wh if part.battery else None
    if energy is None:
        if not part.cls_proposed and (part.battery is None or part.battery.energy_wh is None):
            yield Finding.at("T402", part.span, name=part.name)
        return
    found = transport(energy, part.battery.voltage_v if part.battery else None)
    if not found.small:
        yield Finding.at(
            "T401",
            part.span,
            variant="cell" if found.small is None else "",
            name=part.name,
            energy=f"{energy:.3g}",
            limit=f"{found.limit_wh:g}",
            alone=found.alone,
            packed=found.packed,
        )


def _voltage(part: Part) -> Iterator[Finding]:
    voltage = part.battery.voltage_v if part.battery else None
    found = charge_limit(voltage) if voltage else None
    if found and voltage:
        limit, cells = found
        count = "one cell" if cells == 1 else f"{cells} cells in series"
        yield Finding.at(
            "T403", part.span, name=part.name, voltage=f"{voltage:g}", count=count, limit=f"{limit:g}"
        )
