"""What a mark or a heading says on the side: references, values, times."""

from __future__ import annotations

from guidec.quick import dataclass
from guidec.source import Span
from guidec.trade.units import Quantity

__all__ = ["Heat", "Measure", "Ref", "Time", "Wait"]


@dataclass(frozen=True, slots=True)
class Ref:
    """A name that refers to a thing (or an operation); `id` is None where nothing of that name is declared."""

    name: str
    span: Span
    id: str | None
    operation: bool = False


@dataclass(frozen=True, slots=True)
class Heat:
    """A `{heat …}`: a temperature, a time, or both."""

    span: Span
    text: str
    temperature: Quantity | None
    duration: Quantity | None


@dataclass(frozen=True, slots=True)
class Wait:
    """A `{wait …}`."""

    span: Span
    text: str
    duration: Quantity | None


@dataclass(frozen=True, slots=True)
class Measure:
    """A `{measure …}`: the value to find, and where."""

    span: Span
    text: str
    value: Quantity | None
    where: str


@dataclass(frozen=True, slots=True)
class Time:
    """Seconds from the start of the recording."""

    start: float
    end: float | None
    span: Span
