"""The value of a measurement, in one unit for each dimension."""

from __future__ import annotations

from guidec.quick import dataclass
from guidec.source import Span

__all__ = ["Quantity"]


@dataclass(frozen=True, slots=True)
class Quantity:
    """A measured value in the SI unit of its dimension, with the text as typed.

    `low == high` for a single value. `bound` is one of `=`, `<`, `<=`, `>`, `>=`, `~`. `dimension` is one of
    temperature (°C), time (s), torque (N·m), voltage (V), current (A), resistance (Ω), capacitance (F),
    charge (mAh), energy (Wh), power (W), length (mm), mass (g), volume (ml), pressure (kPa), frequency (Hz),
    ratio (%), or `` where the unit is unknown (`unit` is then the word typed) or missing (`unit` is empty).
    """

    low: float
    high: float
    unit: str
    dimension: str
    typed: str
    span: Span
    bound: str = "="
