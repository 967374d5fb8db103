"""Capacity, voltage, energy of a battery -> what limits it meets.

Energy (Wh) = rated capacity (Ah) x nominal voltage (V), as the UN Model Regulations reckon it.
"""

from __future__ import annotations

from typing import Any

from guidec.quick import dataclass
from guidec.trade.load import data

__all__ = ["Transport", "cell_limit_c", "charge_limit", "energy_wh", "hazardous_v", "removable", "transport"]


@dataclass(frozen=True, slots=True)
class Transport:
    """How a battery ships. `small`: within the provisions for small ones, None where it depends on whether it is
    one cell. `limit_wh`: the limit it is held against. `alone`, `packed`: UN numbers."""

    small: bool | None
    limit_wh: float
    alone: str
    packed: str


def energy_wh(capacity_mah: float, voltage_v: float) -> float:
    """Energy in Wh."""
    return capacity_mah / 1000 * voltage_v


def transport(energy: float, voltage_v: float | None = None, chemistry: str = "lithium-ion") -> Transport:
    """The provision of the small-battery rules (special provision 188) that an energy falls under.

    Up to the cell limit anything is small; above the battery limit nothing is. Between them it depends: with more
    than one cell in series it is a battery, else it may be one cell. Raises KeyError for a chemistry not listed.
    """
    table = data("batteries")["transport"]
    cell, battery = float(table["cell_wh"]["value"]), float(table["battery_wh"]["value"])
    numbers = {row["chemistry"]: row for row in table["numbers"]}[chemistry]
    several = voltage_v is not None and voltage_v > data("batteries")["single_cell_v"]["value"]
    limit = battery if several or energy > battery else cell
    small = energy <= limit if several or not cell < energy <= battery else None
    return Transport(small, limit, numbers["alone"], numbers["packed"])


def charge_limit(voltage_v: float) -> tuple[float, int] | None:
    """The charge limit and the cells in series that a voltage looks like, instead of a nominal one; else None."""
    for cells in range(1, 5):
        for limit in data("batteries")["charge_limits"]["values"]:
            close = abs(voltage_v - limit * cells) < 0.005 * cells
            if close and not _nominal(voltage_v):
                return float(limit), cells
    return None


def _nominal(voltage_v: float) -> bool:
    """Whether a voltage is some count of cells at a usual nominal voltage, or of 1.2, 1.5 or 2 V ones."""
    nominals = [value for row in data("batteries")["voltages"] for value in row["nominal"]]
    return any(
        abs(voltage_v - nominal * cells) < 0.051
        for nominal in (*nominals, 3.3, 3.85, 1.2, 1.5, 2.0)
        for cells in range(1, 21)
    )


def cell_limit_c() -> float:
    """The surface temperature (°C) that a cell is usually kept below."""
    return float(data("batteries")["heat"]["cell_limit_c"]["value"])


def hazardous_v() -> float:
    """The direct voltage above which touching is taken as dangerous, V."""
    return float(data("batteries")["hazardous_v"]["value"])


def removable() -> Any:
    """The row on the law about removable batteries: `from`, `regulation`, `source`."""
    return data("batteries")["removable"]
