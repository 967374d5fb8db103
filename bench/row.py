"""What is measured and its floor -> a row: medians of interleaved runs, their ratio, a verdict."""

from __future__ import annotations

import gc
import statistics
import time
from collections.abc import Callable
from dataclasses import dataclass

__all__ = ["Figure", "Ratio", "Row", "timed"]


@dataclass(frozen=True, slots=True)
class Row:
    """One line of the report. `measured` and `floor` are in `unit`; all but `measured` may be unknown."""

    name: str
    measured: float
    unit: str
    floor: float | None = None
    ratio: float | None = None
    bound: float | None = None

    @property
    def verdict(self) -> str:
        """`ok`, `OVER`, or nothing where there is no bound."""
        value = self.measured if self.ratio is None else self.ratio
        return "" if self.bound is None else "ok" if value <= self.bound else "OVER"


@dataclass(frozen=True, slots=True)
class Ratio:
    """Two ways to spend time, run in turns; the ratio of their medians has a bound."""

    name: str
    measured: Callable[[], object]
    floor: Callable[[], object]
    bound: float
    runs: int = 9

    def row(self) -> Row:
        """Measure. One run of each first, uncounted, fills caches."""
        self.measured()
        self.floor()
        pairs = [(timed(self.measured), timed(self.floor)) for _ in range(self.runs)]
        measured, floor = (statistics.median(times) for times in zip(*pairs, strict=True))
        return Row(self.name, measured * 1000, "ms", floor * 1000, measured / floor, self.bound)


@dataclass(frozen=True, slots=True)
class Figure:
    """A number that is no ratio of two times; it may have a bound."""

    name: str
    value: Callable[[], float]
    unit: str
    bound: float | None = None

    def row(self) -> Row:
        """Measure."""
        return Row(self.name, self.value(), self.unit, bound=self.bound)


def timed(job: Callable[[], object]) -> float:
    """Seconds that one call takes, with no collection of garbage in the middle of it."""
    gc.collect()
    start = time.perf_counter()
    job()
    return time.perf_counter() - start
