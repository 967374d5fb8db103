"""A drive and a thread -> what the standards say of the two together.

Standards disagree and makers go their own way: a size that none gives is worth a look, never an error.
"""

from __future__ import annotations

import re
from functools import lru_cache
from typing import Any

from guidec.quick import dataclass
from guidec.trade.load import data
from guidec.trade.phrases import first_phrase

__all__ = ["Suit", "recess_numbers", "suits"]

_CHEESE = ("cheese", "cheese head", "fillister", "cylinder", "zylinder", "zylinderkopf")
_DRIVE = re.compile(r"(PH|PZ|JIS|T|H)(\d+(?:\.\d+)?)H?")


@dataclass(frozen=True, slots=True)
class Suit:
    """`fits`: some standard or practice pairs the two. `iso`, `jis`: the sizes they give, as drives, if any.

    `only`: the one standard that pairs them where ISO gives another size (`JIS`), else empty.
    """

    fits: bool
    iso: tuple[str, ...]
    jis: tuple[str, ...]
    only: str = ""


@lru_cache(1024)  # a note has the same few screws again and again
def suits(drive: str, system: str, size_mm: float, head: str = "") -> Suit | None:
    """How a drive (`PH0`, `H2.5`, `T6`) and a thread go together; None where no table speaks of them.

    `head` as typed: cheese heads have larger recesses.
    """
    found = _DRIVE.fullmatch(drive)
    if not found or system not in ("M", "ST"):
        return None
    family, size = found[1], found[2]
    if family in ("PH", "PZ", "JIS"):
        return _cross(family, size, system, size_mm, head)
    if system != "M":
        return None
    return _hexagon(size, size_mm) if family == "H" else _hexalobular(size, size_mm)


def recess_numbers(name: str, size_mm: float) -> tuple[int, ...]:
    """The cross recess numbers that a table gives a diameter, or both its neighbours' where it has none."""
    table = next(row for row in data("recesses")["cross"] if row["name"] == name)
    return _at_or_about({float(size): tuple(values) for size, values in table["sizes"].items()}, size_mm)


def _at_or_about(table: dict[float, tuple[Any, ...]], size: float) -> tuple[Any, ...]:
    """The row of a size; between two rows what both have; past the ends nothing."""
    if size in table:
        return table[size]
    below = max((at for at in table if at < size), default=None)
    above = min((at for at in table if at > size), default=None)
    if below is None or above is None:
        return ()
    return tuple(sorted({*table[below], *table[above]}))


def _cross(family: str, size: str, system: str, size_mm: float, head: str) -> Suit | None:
    if size in data("recesses")["trade_sizes"]:
        return _trade_size(size, size_mm) if system == "M" else None
    if system == "ST":
        numbers = recess_numbers("self-tapping", size_mm)
        return Suit(int(size) in numbers, _named("PH", numbers), ()) if numbers else None
    iso, jis = recess_numbers("ISO", size_mm), recess_numbers("JIS", size_mm)
    cheese = recess_numbers("ISO cheese head", size_mm) if first_phrase(head, _CHEESE) else ()
    others = {*cheese, *recess_numbers("camera type", size_mm)}
    number, shown = int(size), Suit(False, _named("PH", iso), _named("JIS", jis))
    if not iso and not jis and not others:
        return None
    if number in ({*jis, *others} if family == "JIS" else {*iso, *others}):
        return Suit(True, shown.iso, shown.jis)
    by_jis = number in jis and family != "JIS"
    return Suit(by_jis, shown.iso, shown.jis, "JIS" if by_jis else "")


def _trade_size(size: str, size_mm: float) -> Suit:
    low, high = data("recesses")["trade_sizes"][size]
    iso, jis = recess_numbers("ISO", size_mm), recess_numbers("JIS", size_mm)
    return Suit(low <= size_mm <= high, _named("PH", iso), _named("JIS", jis))


def _named(family: str, numbers: tuple[Any, ...]) -> tuple[str, ...]:
    return tuple(f"{family}{number:g}" for number in numbers)


def _hexagon(size: str, size_mm: float) -> Suit | None:
    tables = [{float(d): (float(s),) for d, s in row["sizes"].items()} for row in data("recesses")["hexagon"]]
    keys = [_at_or_about(table, size_mm) for table in tables]
    if not keys[0]:
        return None
    return Suit(any(float(size) in every for every in keys), _named("H", keys[0]), ())


def _hexalobular(size: str, size_mm: float) -> Suit | None:
    """The standard's number, and one table row either way: small devices often use others."""
    table = {float(d): (int(n),) for d, n in data("recesses")["hexalobular"]["sizes"].items()}
    own = _at_or_about(table, size_mm)
    sizes = sorted(table)
    if size_mm > sizes[-1]:
        return None
    below = max((table[at][0] for at in sizes if at < size_mm), default=1)
    above = min((table[at][0] for at in sizes if at > size_mm), default=table[sizes[-1]][0])
    if size_mm <= sizes[0]:
        below = 1
    return Suit(below <= float(size) <= above, _named("T", own), ())
