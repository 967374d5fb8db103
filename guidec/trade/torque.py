"""A thread, a property class and a torque -> whether the screw can bear it.

The bound is the minimum breaking torque of ISO 898-7: M_B = X * Rm * pi/16 * d3min^3 (N·mm), pure torsion. It
tells a wrong value from a possible one and recommends none.
"""

from __future__ import annotations

import re
from functools import cache
from math import pi
from typing import Any

from guidec.quick import dataclass
from guidec.trade.load import data
from guidec.trade.scan import scan

__all__ = ["Bound", "breaking_torque", "class_named", "computed_torque", "slips", "strongest_torque"]


@dataclass(frozen=True, slots=True)
class Bound:
    """A breaking torque in N·m, the property class it is for, and the size whose row it is (mm)."""

    value_nm: float
    grade: str
    size_mm: float
    class_known: bool


def _rows() -> dict[float, dict[str, Any]]:
    return {float(row["d"]): row for row in data("torque")["breaking"]["rows"]}


def _classes() -> tuple[str, ...]:
    return tuple(key for key in data("torque")["classes"] if key not in ("source", "status"))


def computed_torque(size_mm: float, grade: str) -> float:
    """The breaking torque of a coarse thread by the formula, N·m. Raises KeyError for an unknown size or class."""
    row, strength = _rows()[size_mm], data("torque")["classes"][grade]
    pitch_diameter = size_mm - 0.649519 * row["pitch"] - (row["es"] + row["td2"]) / 1000
    return _torsion(pitch_diameter - 0.616025 * row["pitch"], strength)


def _torsion(minor_mm: float, strength: dict[str, float]) -> float:
    return float(strength["x"] * strength["rm"] * pi / 16 * minor_mm**3 / 1000)


def class_named(typed: str | None) -> str | None:
    """The class that a `grade` names: `8.8` to `12.9`, or `50`, `70`, `80` of stainless (`A2-70`); else None."""
    text = (typed or "").strip().replace(",", ".")
    if text in _classes():
        return text
    found = re.fullmatch(r"[AC]\d[- ]?(50|70|80)", text, re.I)
    return found[1] if found else None


def breaking_torque(size_mm: float, pitch_mm: float | None = None, grade: str | None = None) -> Bound | None:
    """The bound for an ISO metric thread, by the class named or 8.8; None past the table.

    A size between two rows takes the larger one's value; a finer pitch is reckoned from its nominal minor
    diameter, without tolerances: both err on the side of silence.
    """
    named = class_named(grade)
    known = named or str(data("torque")["limits"]["usual_class"])
    return _stainless(size_mm, known) if known not in _classes() else _steel(size_mm, pitch_mm, known, bool(named))


def _steel(size_mm: float, pitch_mm: float | None, grade: str, named: bool) -> Bound | None:
    size = min((size for size in _rows() if size >= size_mm - 1e-9), default=None)
    if size is None:
        return None
    row = _rows()[size]
    if pitch_mm is not None and size == size_mm and pitch_mm < row["pitch"] - 1e-9:
        fine = _torsion(size_mm - 1.22687 * pitch_mm, data("torque")["classes"][grade])
        return Bound(fine, grade, size_mm, named)
    return Bound(float(row["values"][_classes().index(grade)]), grade, size, named)


def _stainless(size_mm: float, grade: str) -> Bound | None:
    table = {float(size): value for size, value in data("torque")["stainless"][grade].items()}
    size = min((size for size in table if size >= size_mm - 1e-9), default=None)
    return Bound(float(table[size]), grade, size, True) if size is not None else None


@cache
def strongest_torque(size_mm: float, pitch_mm: float | None = None) -> float | None:
    """The bound for the strongest class of the table, N·m."""
    bound = _steel(size_mm, pitch_mm, _classes()[-1], True)
    return bound.value_nm if bound else None


def slips(typed: str, size_mm: float) -> tuple[tuple[str, float], ...]:
    """Units in which the number typed would make sense for the size, each with the value in N·m, SI first.

    Sensible is a share of the 8.8 breaking torque (see `sensible` in the data); the unit typed is left out.
    """
    read = scan(typed, 0, ("torque",))
    bound = breaking_torque(size_mm)
    if read is None or bound is None:
        return ()
    table = data("torque")
    low, high = (table["sensible"][key] * bound.value_nm for key in ("low", "high"))
    own = read.unit.symbol if read.unit else ""
    readings = [(unit, read.low * factor) for unit, factor in table["slips"]["units"].items() if unit != own]
    return tuple((unit, value) for unit, value in readings if low <= value <= high)
