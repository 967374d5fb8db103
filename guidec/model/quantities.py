"""Numbers where a unit is required -> quantities, or what is missing."""

from __future__ import annotations

import re
from functools import cache
from typing import Any

from guidec.model.types import Quantity
from guidec.quick import replace
from guidec.rules.finding import Finding
from guidec.source import Span
from guidec.trade.likeness import nearest
from guidec.trade.load import data
from guidec.trade.unit_table import spellings
from guidec.trade.units import dimension_units, every_quantity

__all__ = ["by_the_way", "fault", "missing", "read_one"]

_USUAL = {
    "temperature": ("°C", "°F"),
    "time": ("s", "min"),
    "torque": ("N·m", "kgf·cm", "lbf·in"),
    "mass": ("g", "kg"),
    "voltage": ("V",),
    "resistance": ("Ω",),
}
_ANY = ("V", "Ω", "µF", "A")
_LINKS = {"again", "then", "about", "around", "dann", "etwa"}
"""Words before a number that is a value all the same; after any other it belongs to that word (`setting 3`)."""

_WORD_BEFORE = re.compile(r"([^\W\d_]{2,})\s*$")
_WORDS = {
    "temperature": "a temperature",
    "time": "a time",
    "torque": "a torque",
    "voltage": "a voltage",
    "current": "a current",
    "resistance": "a resistance",
    "capacitance": "a capacitance",
    "charge": "a charge",
    "energy": "an energy",
    "power": "a power",
    "length": "a length",
    "mass": "a mass",
    "volume": "a volume",
    "pressure": "a pressure",
    "frequency": "a frequency",
    "ratio": "a ratio",
}


def read_one(
    typed: str, span: Span, due: tuple[str, ...], what: str
) -> tuple[Quantity | None, tuple[Finding, ...]]:
    """The one quantity of a text, of a dimension that is due; `what` names the key or kind in messages.

    `span`: where the text stands. Without a quantity that serves, None and the reason.
    """
    found = every_quantity(typed, span.start, due)
    if not found:
        return None, (missing(typed, span, due, what),)
    good = [quantity for quantity in found if quantity.dimension in due]
    if not good:
        return None, (fault(found[0], due, what),)
    wrong = [quantity for quantity in found if quantity.dimension not in due]
    faults = [fault(quantity, due, what) for quantity in wrong if not by_the_way(quantity, typed, span, due)]
    if len(good) > 1:
        faults.append(Finding.at("M134", good[1].span, labels={"first": good[0].span}, what=what, word=_or(due)))
    return good[0], tuple(faults)


def by_the_way(quantity: Quantity, text: str, span: Span, due: tuple[str, ...]) -> bool:
    """Whether a number beside a value that serves says something else and is no slip.

    A distance (`80 °C, 5 cm away`), a number that belongs to a word (`setting 3`), the angle after a torque.
    """
    if quantity.dimension:
        return not _swap(quantity, due)
    if quantity.unit == "°":
        return due == ("torque",)
    before = _WORD_BEFORE.search(text[: quantity.span.start - span.start])
    return before is not None and before[1].casefold() not in (_goes_on() - {"of", "von"}) | _LINKS


def missing(typed: str, span: Span, due: tuple[str, ...], what: str) -> Finding:
    """The finding for a text with no number in it."""
    return Finding.at("M133", span, what=what, typed=typed, word=_or(due), example=_examples(due))


def fault(quantity: Quantity, due: tuple[str, ...], what: str) -> Finding:
    """What is wrong with a quantity: no unit, an unknown unit, or one of another dimension."""
    usual = tuple(unit for dimension in due for unit in _USUAL.get(dimension, ())[:2]) or _ANY
    number = quantity.typed
    if not quantity.dimension and (not quantity.unit or quantity.unit.casefold() in _goes_on()):
        number, quantity = _without_word(quantity)
        suggest = [f"{number} {unit}" for unit in usual]
        return Finding.at("M130", quantity.span, suggest=suggest, what=what, number=number)
    if not quantity.dimension:
        bare = number[: len(number) - len(quantity.unit)].rstrip()
        near = _near_units(quantity.unit, due) or usual
        end = quantity.span.end
        span = Span(end - len(quantity.unit), end)
        return Finding.at("M131", span, suggest=[f"{bare} {unit}" for unit in near], what=what, unit=quantity.unit)
    suggest = _swap(quantity, due)
    facts: dict[str, Any] = {"what": what, "typed": number, "is_": _WORDS[quantity.dimension], "word": _or(due)}
    return Finding.at("M132", quantity.span, suggest=suggest, **facts)


@cache
def _goes_on() -> frozenset[str]:
    """Words that go on with the sentence: a number before them has no unit."""
    return frozenset(data("words_alike")["goes_on"].split())


def _without_word(quantity: Quantity) -> tuple[str, Quantity]:
    """A number without the plain word after it, which is no unit at all."""
    number = quantity.typed[: len(quantity.typed) - len(quantity.unit)].rstrip()
    return number, replace(quantity, span=Span(quantity.span.start, quantity.span.start + len(number)))


def _near_units(unit: str, due: tuple[str, ...]) -> tuple[str, ...]:
    """The symbols of units whose spelling a word is near."""
    if unit.startswith(("°", "deg", "Grad")):
        return ("°C", "°F") if not due or "temperature" in due else ()
    if len(unit) < 2:
        return ()
    known = spellings()
    words = [word for word, units in known.items() if not due or any(one.dimension in due for one in units)]
    return tuple(dict.fromkeys(known[word][0].symbol for word in nearest(unit, words, 4)))


def _swap(quantity: Quantity, due: tuple[str, ...]) -> list[str]:
    """`2 m` where a time is due is `2 min`."""
    letter = quantity.typed.lstrip("<>=~≤≥0123456789.,–- ").strip()
    bare = quantity.typed[: len(quantity.typed) - len(letter)].rstrip()
    slips = {"m": "min", "M": "min", "N": "N·m", "mm": "min"}
    if letter in slips and any(
        slips[letter] == one.symbol for dimension in due for one in dimension_units(dimension)
    ):
        return [f"{bare} {slips[letter]}"]
    return []


def _or(due: tuple[str, ...]) -> str:
    return " or ".join(_WORDS[dimension] for dimension in due) or "a value with its unit"


def _examples(due: tuple[str, ...]) -> str:
    samples = {"temperature": "70 °C", "time": "45 s", "torque": "0.15 N·m", "mass": "12 g"}
    return ", ".join(samples[dimension] for dimension in due if dimension in samples) or "<5 V"
