"""A table of work times -> the seconds of one piece of work, by phase.

Times are written as seconds (`4.2 s`) or as index values of a MOST sequence (`A1 B0 G1 M1 X10 I0 A0`): the sum of
the index values times 10 TMU, and 1 TMU is 0.036 s (K. B. Zandin, MOST Work Measurement Systems). The time of a
row is what comes once plus so many times what comes for each, phase by phase, as in published metrics of ease of
disassembly (P. Vanegas et al. 2018, Resources, Conservation and Recycling 135: 323-334). The values of the table
that comes with the project are its own assumptions.
"""

from __future__ import annotations

import re
from collections.abc import Mapping
from fractions import Fraction
from functools import cache, cached_property
from typing import Any

from guidec.quick import dataclass
from guidec.trade.load import data

__all__ = ["KEYS", "Row", "Table", "own_table", "seconds", "table_of", "tmu"]

KEYS = ("family", "kind", "class", "change", "type", "verb", "name")
"""What a row may ask of a piece of work, most general first."""

_SECONDS = re.compile(r"([0-9]+(?:[.,][0-9]+)?)\s*(?:s|sec|seconds?)?")
_INDEX = re.compile(r"([A-Z])([0-9]+)")
TMU_S = Fraction(36, 1000)


@dataclass(frozen=True)
class Row:
    """Times of one kind of work. `on`: what the work must be, key -> words; `once`, `each`: phase -> seconds."""

    on: Mapping[str, frozenset[str]]
    once: Mapping[str, Fraction]
    each: Mapping[str, Fraction]

    def fits(self, work: Mapping[str, str]) -> bool:
        """Whether a piece of work is what the row is for."""
        return all(work.get(key, "") in words for key, words in self.on.items())

    def phases(self, count: int) -> dict[str, Fraction]:
        """Phase -> seconds for so many."""
        found = dict(self.once)
        for phase, value in self.each.items():
            found[phase] = found.get(phase, Fraction(0)) + value * count
        return found

    def total(self, count: int = 1) -> Fraction:
        """Seconds for so many."""
        if count not in self._totals:
            self._totals[count] = sum(self.phases(count).values(), Fraction(0))
        return self._totals[count]

    @cached_property
    def _totals(self) -> dict[int, Fraction]:
        """The seconds for the numbers that were asked for."""
        return {}


@dataclass(frozen=True)
class Table:
    """A table of work times. `change`: seconds of a change of tool; `turn`: of a turn-over that is put in."""

    title: str
    source: str
    status: str
    rows: tuple[Row, ...]
    change: Fraction
    turn: Fraction

    def row(self, work: Mapping[str, str]) -> Row | None:
        """The first row that fits; None where the table does not know such work."""
        asked = tuple([work.get(key, "") for key in self.asked])
        if asked not in self._known:
            self._known[asked] = next((row for row in self.rows if row.fits(work)), None)
        return self._known[asked]

    @cached_property
    def asked(self) -> tuple[str, ...]:
        """What any row asks of work."""
        return tuple(dict.fromkeys(key for row in self.rows for key in row.on))

    @cached_property
    def _known(self) -> dict[tuple[str, ...], Row | None]:
        """The rows that were found, by what is asked."""
        return {}


def tmu(sequence: str) -> int:
    """The time measurement units of a MOST sequence. Raises ValueError for what is none."""
    found = sequence.split()
    if not found or not all(_INDEX.fullmatch(one) for one in found):
        raise ValueError(sequence)
    return 10 * sum(int(one[1:]) for one in found)


def seconds(value: str | float) -> Fraction:
    """Seconds as written, or those of a MOST sequence. Raises ValueError for what is neither."""
    text = str(value).strip()
    plain = _SECONDS.fullmatch(text)
    if plain:
        return Fraction(plain[1].replace(",", "."))
    return tmu(text) * TMU_S


def table_of(content: Mapping[str, Any]) -> Table:
    """The table in a file's content, which must have passed the checks of such files. Raises ValueError."""
    return Table(
        title=content["title"],
        source=content["source"],
        status=content["status"],
        rows=tuple(_row(row) for row in content["rows"]),
        change=seconds(content["change"]),
        turn=seconds(content["turn"]),
    )


def _row(row: Mapping[str, Any]) -> Row:
    return Row(
        {key: _words(value) for key, value in row.get("on", {}).items()},
        {phase: seconds(value) for phase, value in row.get("once", {}).items()},
        {phase: seconds(value) for phase, value in row.get("each", {}).items()},
    )


def _words(value: str | list[str]) -> frozenset[str]:
    words = value if isinstance(value, list) else str(value).split(",")
    return frozenset(" ".join(str(word).casefold().split()) for word in words)


@cache
def own_table() -> Table:
    """The project's own table."""
    return table_of(data("times"))
