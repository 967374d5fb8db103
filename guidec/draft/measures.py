"""Words -> values with units, and thread sizes, as spoken.

Each reader takes the words and a place, and returns what starts there with the number of words it takes, or None.
"""

from __future__ import annotations

import re
from collections.abc import Sequence
from functools import cache

from guidec.draft.counting import number_at
from guidec.draft.item import Amount
from guidec.draft.wordset import among
from guidec.trade.load import data

__all__ = ["size_at", "spoken", "value_at"]

Words = Sequence[str]


@cache
def spoken(table: str) -> tuple[tuple[tuple[str, ...], str], ...]:
    """A table of `draft/spoken-en.yaml` -> (words, what they mean), the longest first."""
    rows = data("draft/spoken-en")[table]
    pairs = ((tuple(name.split()), str(meant)) for meant, names in rows.items() for name in names.split(","))
    return tuple(sorted(pairs, key=lambda pair: -len(pair[0])))


_STUCK = re.compile(r"(\d+(?:\.\d+)?)(°c|°f|s|min|h|ml|mah|ah|wh|v|mv|kv|mm|cm|nm|g|ohm|k|%|c)")
_STUCK_UNITS = {
    "°c": "°C",
    "°f": "°F",
    "mah": "mAh",
    "ah": "Ah",
    "wh": "Wh",
    "v": "V",
    "mv": "mV",
    "kv": "kV",
    "nm": "N·m",
}
_STUCK_UNITS |= {"k": "kohm", "c": "°C"}


def value_at(words: Words, at: int) -> tuple[Amount, int] | None:
    """A value: `seventy degrees`, `five to ten minutes`, `half a minute`, `a couple of minutes`, `2ml`."""
    if stuck := _STUCK.fullmatch(words[at]):
        return Amount(float(stuck[1]), _STUCK_UNITS.get(stuck[2], stuck[2])), 1
    if vague := _vague(words, at):
        return vague
    found = number_at(words, at)
    if not found:
        return None
    low, taken = found
    high = None
    middle = at + taken
    if middle < len(words) and words[middle] in among("to or and -") and middle + 1 < len(words):
        upper = number_at(words, middle + 1)
        if upper and upper[0] > low:
            high, taken = upper[0], taken + 1 + upper[1]
    elif upper_ := _upper(words, middle, low):
        high, taken = upper_[0], taken + upper_[1]
    unit = _unit(words, at + taken)
    if unit is None and high is not None:
        high, taken = None, found[1]
        unit = _unit(words, at + taken)
    if unit is None:
        return None
    after = at + taken + unit[1]
    if unit[0] in ("min", "h", "s") and tuple(words[after : after + 3]) == ("and", "a", "half"):
        return Amount(low + 0.5, unit[0]), taken + unit[1] + 3
    if high is None and unit[0] in ("min", "h", "s") and (later := _later(words, after, low)):
        return Amount(low, unit[0], later[0]), taken + unit[1] + later[1]
    return Amount(low, unit[0], high), taken + unit[1]


def _later(words: Words, at: int, low: float) -> tuple[float, int] | None:
    """The upper end of `two minutes maybe three`, and how many words it takes."""
    skip = 0
    while at + skip < len(words) and words[at + skip] in among("or maybe perhaps possibly"):
        skip += 1
    upper = number_at(words, at + skip) if skip and at + skip < len(words) else None
    if upper is None or not low < upper[0] <= 3 * low:
        return None
    after = words[at + skip + upper[1] :][:1]
    plain = not after or after[0] in among("and then so until till on at if just to but that now okay right")
    return (upper[0], skip + upper[1]) if plain else None


def _upper(words: Words, at: int, low: float) -> tuple[float, int] | None:
    """The upper end of `two three minutes`, `two or maybe three minutes`, and how many words it takes."""
    skip = 0
    while at + skip < len(words) and words[at + skip] in among("or maybe perhaps even to"):
        skip += 1
    upper = number_at(words, at + skip) if at + skip < len(words) else None
    if (
        upper is None
        or not low < upper[0] <= 3 * low
        or (not skip and upper[0] > 12)
        or _unit(words, at + skip + upper[1]) is None
    ):
        return None
    return upper[0], skip + upper[1]


_VAGUE = (("half a", 0.5), ("half an", 0.5), ("a couple of", 2.0), ("a couple", 2.0), ("a", 1.0), ("an", 1.0))
_COUNTED = {
    1.0: ("min", "h", "ml", "V"), 2.0: ("s", "min", "h", "ml", "mm"),
    0.5: ("min", "h", "ohm", "ml", "l", "V", "mm", "g"),
}  # fmt: skip
"""The units that may follow: `a second` is no time, `a couple of seconds` is one."""


def _vague(words: Words, at: int) -> tuple[Amount, int] | None:
    """`a minute`, `a minute and a half`, `half an hour`, `a couple of minutes`, `under a volt`."""
    for lead, low in _VAGUE:
        size = len(lead.split())
        unit = _unit(words, at + size) if tuple(words[at : at + size]) == tuple(lead.split()) else None
        if unit is None:
            continue
        if unit[0] not in _COUNTED[low]:
            return None
        after = at + size + unit[1]
        if low == 0.5 and unit[0] in ("min", "h"):
            return Amount(30.0, "s" if unit[0] == "min" else "min"), size + unit[1]
        if tuple(words[after : after + 3]) == ("and", "a", "half"):
            return Amount(low + 0.5, unit[0]), size + unit[1] + 3
        return Amount(low, unit[0]), size + unit[1]
    return None


def _unit(words: Words, at: int) -> tuple[str, int] | None:
    for names, unit in spoken("units"):
        if tuple(words[at : at + len(names)]) == names:
            return unit, len(names)
    return None


# ---------------------------------------------------------------- thread sizes

_METRIC = re.compile(r"m(\d{1,2}(?:\.\d)?)(?:[x×](\d{1,3}(?:\.\d)?))?(?:mm|s)?")
_PLAIN = re.compile(r"(\d{1,2}(?:\.\d)?)[x×](\d{1,3}(?:\.\d)?)(?:mm)?")
_BY = ("by", "x", "times", "×")


def size_at(words: Words, at: int) -> tuple[str, int] | None:
    """A thread: `m two by six` M2x6, `m3x8`, `m three` M3, `3.5 by 12` 3.5x12."""
    if match := _METRIC.fullmatch(words[at]):
        after = at + 1
        length = match[2]
        if not length and (longer := _by(words, after)):
            length, after = longer[0], after + longer[1]
        after += tuple(words[after : after + 1]) in (("millimeter",), ("millimetre",), ("mm",), ("mil",))
        return f"M{match[1]}x{length}" if length else f"M{match[1]}", after - at
    if match := _PLAIN.fullmatch(words[at]):
        return f"{match[1]}x{match[2]}", 1
    metric = words[at] in ("m", "em")
    found = (
        number_at(words, at + 1) if metric and at + 1 < len(words) else None if metric else number_at(words, at)
    )
    if not found:
        return None
    value, taken = found
    after = at + metric + taken
    longer = _by(words, after)
    if longer:
        after += longer[1]
        after += tuple(words[after : after + 1]) in (
            ("millimeter",),
            ("millimetre",),
            ("millimeters",),
            ("mm",),
            ("mil",),
        )
        if not metric and f"{value:g}" == longer[0]:
            return None  # `one by one`
        return f"{'M' if metric else ''}{value:g}x{longer[0]}", after - at
    if metric and words[at] == "m" and 1 <= value <= 24:
        return f"M{value:g}", after - at
    return None


def _by(words: Words, at: int) -> tuple[str, int] | None:
    if at + 1 < len(words) and words[at] in _BY and (found := number_at(words, at + 1)):
        return f"{found[0]:g}", 1 + found[1]
    return None
