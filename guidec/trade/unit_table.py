"""The table of units -> what a spelling means."""

from __future__ import annotations

import re
from functools import cache
from typing import NamedTuple

from guidec.trade.load import data

__all__ = ["Unit", "beside", "dimension_units", "find_unit", "read_unit", "spellings", "unit_of"]

_FOLD = str.maketrans(
    {
        "µ": "μ",
        "\u2126": "Ω",
        "℃": "°C",
        "℉": "°F",
        "º": "°",
        "˚": "°",
        "″": '"',
        "”": '"',
        "“": '"',
    }
)
_JOIN = re.compile(r"\s*[·⋅∙•‧・*×.\-‑]+\s*|\s+")
_UNIT = re.compile(
    r"(?:°\s?)?(?:[^\W\d_]+[²³23]?(?![\w])|[^\W\d_]+|[%‰\"″”]|'')"
    r"(?:(?:\s?[·⋅∙•‧・*×.\-‑]{1,2}\s?|\s)[^\W\d_]+){0,3}|°"
)


class Unit(NamedTuple):
    """One unit: `value in the dimension's unit = (value + offset) * factor`."""

    symbol: str
    dimension: str
    factor: float
    offset: float = 0.0
    foreign: bool = False
    """Shown in the dimension's own unit first."""

    def to_base(self, value: float) -> float:
        """The value in the dimension's own unit."""
        return (value + self.offset) * self.factor

    def from_base(self, value: float) -> float:
        """A value of the dimension's own unit in this one."""
        return value / self.factor - self.offset


class _Table(NamedTuple):
    units: dict[str, dict[str, Unit]]
    exact: dict[str, tuple[Unit, ...]]
    folded: dict[str, tuple[Unit, ...]]
    needy: dict[str, tuple[Unit, ...]]


@cache
def _table() -> _Table:
    units: dict[str, dict[str, Unit]] = {}
    exact: dict[str, tuple[Unit, ...]] = {}
    folded: dict[str, tuple[Unit, ...]] = {}
    needy: dict[str, tuple[Unit, ...]] = {}
    for dimension, row in data("units")["dimensions"].items():
        own = units[dimension] = {}
        shown = row.get("show")
        foreign = set(row.get("foreign", ()))
        for line in row["units"].splitlines():
            symbol, _, rest = line.partition(" = ")
            factor, _, others = rest.partition(":")
            is_foreign = symbol not in shown if shown else symbol in foreign or dimension == "temperature"
            unit = _unit(symbol, dimension, factor, is_foreign and symbol != row["unit"])
            own[symbol] = unit
            for word in (symbol, *filter(None, others.strip().split(", "))):
                if word.startswith("!") or (word == "K" and dimension == "temperature"):
                    _add(needy, _fold(word.lstrip("!")), unit)
                    continue
                _add(exact, _fold(word), unit)
                _add(folded, _fold(word).casefold(), unit)
    return _Table(units, exact, folded, needy)


def _unit(symbol: str, dimension: str, factor: str, foreign: bool) -> Unit:
    number, _, offset = factor.strip().partition(" +")
    top, _, bottom = number.partition("/")
    return Unit(symbol, dimension, float(top) / float(bottom or 1), float(offset or 0), foreign)


def _add(table: dict[str, tuple[Unit, ...]], key: str, unit: Unit) -> None:
    if unit not in table.get(key, ()):
        table[key] = (*table.get(key, ()), unit)


def _fold(text: str) -> str:
    """One form for the ways a unit is typed: `N m`, `N*m` and `N.m` are `N·m`; both micro signs are one."""
    return _JOIN.sub("·", text.translate(_FOLD).strip().rstrip(".")).replace("°·", "°").replace("''", '"')


def find_unit(spelling: str, dimensions: tuple[str, ...] = ()) -> Unit | None:
    """The unit a spelling means, or None. `dimensions`: what is due, where a spelling has two meanings.

    Case counts where it decides (`mW`, `MW`; `s` is no `S`); where it does not, `NM` is `N·m`.
    """
    table, key = _table(), _fold(spelling)
    for unit in table.needy.get(key.upper() if len(key) == 1 else key, ()):
        if unit.dimension in dimensions:
            return unit
    found = table.exact.get(key) or (
        () if len(key) == 1 and key.isupper() else table.folded.get(key.casefold(), ())
    )
    due = [unit for unit in found if unit.dimension in dimensions]
    if due:
        return due[0] if len(due) == 1 else None
    if len(found) > 1:  # `mv`: the case of the first letter decides
        found = tuple(unit for unit in found if unit.symbol[0] == key[0])
    return found[0] if len(found) == 1 else None


def read_unit(text: str, at: int, dimensions: tuple[str, ...] = ()) -> tuple[Unit | None, str, int] | None:
    """The unit at an offset: the unit (None where unknown), the word as typed, and the offset after it.

    None where no word stands there at all.
    """
    found = _UNIT.match(text, at)
    if not found:
        return None
    ends = [found.end(), *(joint.start() + at for joint in reversed(list(_JOIN.finditer(found[0]))))]
    for end in ends:
        unit = find_unit(text[at:end], dimensions)
        if unit:
            return unit, text[at:end], end
    word = found[0].split()[0]
    return None, word.rstrip(".-"), at + len(word.rstrip(".-"))


def unit_of(dimension: str) -> str:
    """The unit in which quantities of a dimension are kept."""
    return str(data("units")["dimensions"][dimension]["unit"])


def beside(dimension: str) -> tuple[Unit, ...]:
    """The units that are shown beside a dimension's own."""
    units = _table().units[dimension]
    return tuple(units[symbol] for symbol in data("units")["dimensions"][dimension].get("beside", ()))


def dimension_units(dimension: str) -> tuple[Unit, ...]:
    """All units of a dimension, in the order of the table."""
    return tuple(_table().units[dimension].values())


def spellings() -> dict[str, tuple[Unit, ...]]:
    """Every spelling (separators as `·`) and what it can mean."""
    return dict(_table().exact)
