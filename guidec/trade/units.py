"""Text with units -> quantities in SI, and quantities -> the words to show."""

from __future__ import annotations

import math
import re
from collections.abc import Iterable
from functools import lru_cache

from guidec.source import Span
from guidec.trade.numbers import number_words, read_count, read_number
from guidec.trade.quantity import Quantity
from guidec.trade.scan import Scanned, scan
from guidec.trade.unit_table import Unit, beside, dimension_units, find_unit, unit_of

__all__ = [
    "Quantity",
    "convert",
    "dimension_units",
    "every_quantity",
    "find_quantities",
    "find_unit",
    "first_quantity",
    "number_words",
    "read_count",
    "read_number",
    "read_quantity",
    "shown",
    "shown_in",
    "unit_of",
]

Dimensions = str | tuple[str, ...] | None
_START = re.compile(r"[\d½¼¾⅓⅔<>≤≥~≈±=−.-]|\b[^\W\d_]", re.S)


def _due(dimension: Dimensions) -> tuple[str, ...]:
    return (dimension,) if isinstance(dimension, str) else dimension or ()


def read_quantity(text: str, offset: int = 0, dimension: Dimensions = None) -> Quantity | None:
    """The whole of a text as one quantity, or None where it does not start with a number or more text follows.

    `offset`: where the text starts in its source. `dimension`: what is due, where a unit's letter has two
    meanings (`F` after heat); it does not refuse others. An unknown unit gives dimension `` and the word typed.
    """
    start = len(text) - len(text.lstrip())
    read = scan(text, start, _due(dimension))
    if read is None or text[read.end :].strip().rstrip("."):
        return None
    return _quantity(text, offset, read)


def find_quantities(text: str, offset: int = 0, dimension: Dimensions = None) -> tuple[Quantity, ...]:
    """All quantities with a unit known in a text, in order."""
    found: list[Quantity] = []
    for read in _each(text, _due(dimension)):
        if read.unit:
            found.append(_quantity(text, offset, read))
    return tuple(found)


def every_quantity(text: str, offset: int = 0, dimension: Dimensions = None) -> tuple[Quantity, ...]:
    """All numbers in a text as quantities, in order, those without a known unit too (dimension ``).

    A number that only says how often (`2x 30 s`) is left out.
    """
    return tuple(
        _quantity(text, offset, read)
        for read in _each(text, _due(dimension))
        if read.unit or read.word.casefold() not in ("x", "×", "times", "mal")
    )


def first_quantity(text: str, offset: int = 0, dimension: Dimensions = None) -> Quantity | None:
    """The first quantity whose unit is known; else the first number, whatever stands after it; else None."""
    every = _each(text, _due(dimension))
    best = next((read for read in every if read.unit), every[0] if every else None)
    return _quantity(text, offset, best) if best else None


@lru_cache(4096)
def _each(text: str, due: tuple[str, ...]) -> tuple[Scanned, ...]:
    """All that reads as a quantity, left to right, none overlapping. A number inside a word is none."""
    found: list[Scanned] = []
    at = last = 0
    while start := _START.search(text, at):
        free = _stands_free(text, start.start()) or not re.search(r"\w", text[last : start.start()])
        read = scan(text, start.start(), due) if free else None
        if read:
            found.append(read)
            last = read.end
        at = read.end if read and read.end > start.start() else _past(text, start.start())
    return tuple(found)


def _stands_free(text: str, at: int) -> bool:
    return at == 0 or not (text[at - 1].isalnum() or (text[at - 1] in "_#.,/-" and text[at].isdecimal()))


def _past(text: str, at: int) -> int:
    """The offset after the word or number that stands at an offset."""
    end = at + 1
    while end < len(text) and text[end].isalnum() and text[at].isalnum():
        end += 1
    return end


def _quantity(text: str, offset: int, read: Scanned) -> Quantity:
    typed, span = text[read.start : read.end], Span(offset + read.start, offset + read.end)
    if read.unit is None:
        return Quantity(read.low, read.high, read.word, "", typed, span, read.bound)
    unit = read.unit
    low, high = unit.to_base(read.low), unit.to_base(read.high)
    return Quantity(low, high, unit_of(unit.dimension), unit.dimension, typed, span, read.bound)


def convert(value: float, dimension: str, symbol: str) -> float:
    """A value of the dimension's own unit in another of its units. Raises KeyError for a unit it has not."""
    units = {unit.symbol: unit for unit in dimension_units(dimension)}
    return units[symbol].from_base(value)


# ---------------------------------------------------------------- showing

_SIGNS = {"=": "", "~": "≈ ", "<=": "≤ ", ">=": "≥ ", "<": "< ", ">": "> "}


def shown(quantity: Quantity, comma: bool = False) -> str:
    """A quantity for people: in an SI unit, others of the trade beside it, rounded to the digits typed.

    `0.15 N·m (1.5 kgf·cm, 1.3 lbf·in)`; `71 °C (160 °F)`. `comma`: with decimal commas. A quantity whose unit is
    unknown is shown as typed.
    """
    words = _shown(quantity.typed, quantity.dimension, quantity.unit, quantity.bound)
    if words is None:
        return quantity.typed
    return words.replace(".", ",") if comma else words


@lru_cache(1024)  # notes repeat their values: `5 min`, `60 °C`
def _shown(typed: str, dimension: str, symbol: str, bound: str) -> str | None:
    read = scan(typed, 0, (dimension,))
    if not dimension or read is None or read.unit is None:
        return None
    own = next(unit for unit in dimension_units(dimension) if unit.symbol == symbol)
    first = own if read.unit.foreign else read.unit
    others = [unit for unit in beside(dimension) if unit != first]
    if read.unit.foreign and read.unit not in others and read.unit.dimension not in ("temperature", "torque"):
        others.append(read.unit)
    words = _SIGNS[bound] + _in(read, first)
    return words + (f" ({', '.join(_in(read, unit) for unit in others)})" if others else "")


def shown_in(text: str, quantities: Iterable[Quantity]) -> str:
    """A text with each of the quantities in it as it is shown, and all other words kept."""
    done, rest = "", text
    for quantity in quantities:
        before, typed, after = rest.partition(quantity.typed)
        if typed:
            done, rest = done + before + shown(quantity), after
    return done + rest


def _in(read: Scanned, unit: Unit) -> str:
    """A quantity read, in another unit of its dimension."""
    assert read.unit is not None
    if read.parts and unit == read.unit:
        return " ".join(f"{value:g} {part.symbol}" for value, part in read.parts)
    space = "" if unit.symbol == '"' else "\u00a0"
    symbol = unit.symbol.replace("·oz", " oz")
    if read.tolerance is not None:
        spread = read.tolerance * read.unit.factor / unit.factor
        return f"{_number(read, read.middle, unit)} ± {_spread(read, spread, unit)}{space}{symbol}"
    low = _number(read, read.low, unit)
    high = _number(read, read.high, unit)
    return f"{low}{space}{symbol}" if low == high else f"{low}–{high}{space}{symbol}"


def _spread(read: Scanned, spread: float, unit: Unit) -> str:
    return f"{spread:g}" if unit == read.unit else _rounded(spread, 2)


def _number(read: Scanned, value: float, unit: Unit) -> str:
    assert read.unit is not None
    if unit == read.unit:
        return f"{value:.{read.decimals}f}" if value == round(value, read.decimals) else f"{value:g}"
    other = unit.from_base(read.unit.to_base(value))
    if unit.dimension == "temperature":
        return f"{round(other, read.decimals) + 0.0:.{read.decimals}f}"
    return _rounded(other, max(2, read.digits))


def _rounded(value: float, digits: int) -> str:
    """A number with so many significant digits, no exponent: `0.15`, `370`."""
    if value == 0:
        return "0"
    decimals = digits - 1 - math.floor(math.log10(abs(value)))
    rounded = round(value, decimals)
    return f"{rounded:.{max(decimals, 0)}f}"
