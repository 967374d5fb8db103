"""Words -> values with units, drives and thread sizes as spoken.

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

__all__ = ["drive_at", "size_at", "value_at"]

Words = Sequence[str]


@cache
def _spoken(table: str) -> tuple[tuple[tuple[str, ...], str], ...]:
    """A table of `draft/spoken-en.yaml` -> (words, what they mean), the longest first."""
    rows = data("draft/spoken-en")[table]
    pairs = ((tuple(name.split()), str(meant)) for meant, names in rows.items() for name in names.split(","))
    return tuple(sorted(pairs, key=lambda pair: -len(pair[0])))


@cache
def _alone() -> frozenset[str]:
    """What is a drive without a size behind it."""
    return frozenset(name.strip() for name in data("draft/spoken-en")["alone"].split(","))


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
_PLURALS = {
    "zeros": "zero",
    "ones": "one",
    "one's": "one",
    "twos": "two",
    "threes": "three",
    "fours": "four",
    "fives": "five",
}
_PLURALS |= {
    "sixes": "six",
    "eights": "eight",
    "nines": "nine",
    "tens": "ten",
    "fifteens": "fifteen",
    "twenties": "twenty",
}


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
    unit = _unit(words, at + taken)
    if unit is None and high is not None:
        high, taken = None, found[1]
        unit = _unit(words, at + taken)
    if unit is None:
        return None
    after = at + taken + unit[1]
    if unit[0] in ("min", "h", "s") and tuple(words[after : after + 3]) == ("and", "a", "half"):
        return Amount(low + 0.5, unit[0]), taken + unit[1] + 3
    return Amount(low, unit[0], high), taken + unit[1]


_VAGUE = (("half a", 0.5), ("half an", 0.5), ("a couple of", 2.0), ("a couple", 2.0), ("a", 1.0), ("an", 1.0))
_COUNTED = {1.0: ("min", "h", "ml", "V"), 2.0: ("s", "min", "h", "ml", "mm"), 0.5: ("min", "h")}
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
        if low == 0.5:
            return Amount(30.0, "s" if unit[0] == "min" else "min"), size + unit[1]
        if tuple(words[after : after + 3]) == ("and", "a", "half"):
            return Amount(low + 0.5, unit[0]), size + unit[1] + 3
        return Amount(low, unit[0]), size + unit[1]
    return None


def _unit(words: Words, at: int) -> tuple[str, int] | None:
    for names, unit in _spoken("units"):
        if tuple(words[at : at + len(names)]) == names:
            return unit, len(names)
    return None


# ---------------------------------------------------------------- drives

_STUCK_DRIVE = re.compile(r"(t|tx|torx|ph|pz|jis|h|p|pl|y)(\d{1,3}(?:\.\d)?)(h|s|'s)?")


def drive_at(words: Words, at: int) -> tuple[str, int] | None:
    """A drive in the language's code: `t five` T5, `phillips double zero` PH00, `torx` T, `security torx ten`
    T10H."""
    start = at
    pin = words[at] in ("security", "tamper", "tamperproof") and at + 1 < len(words)
    if pin:
        at += 1 + (words[at + 1] in ("proof", "resistant"))
    if at >= len(words):
        return None
    found = _stuck(words, at) or _drive_words(words, at)
    if not found:
        return None
    code, taken = found
    if pin and not code.startswith("T"):
        return None
    return (code + "H" if pin and not code.endswith("H") else code), at - start + taken


def _stuck(words: Words, at: int) -> tuple[str, int] | None:
    match = _STUCK_DRIVE.fullmatch(words[at])
    if not match:
        return None
    family, size = match[1], match[2]
    code = {"tx": "T", "torx": "T", "pl": "5L", "p": "5L", "y": "3W"}.get(family, family.upper())
    if code in ("T", "PZ", "H") and not 0 < float(size) <= 60:
        return None
    if code == "PH" and size not in among("000 00 0 1 2 3 4"):
        return None
    if code == "5L":
        if words[at + 1 : at + 2] not in (["pentalobe"], ["pentalobes"], ("pentalobe",)) and family == "p":
            return None
        return _five(size), 1 + (tuple(words[at + 1 : at + 2]) in (("pentalobe",), ("pentalobes",)))
    if code == "3W":
        return (
            ("3W", 1 + 2 * (tuple(words[at + 1 : at + 3]) == ("tri", "wing")))
            if size in among("0 00 000 1")
            else None
        )
    return code + size + ("H" if match[3] == "h" else ""), 1


def _five(size: str) -> str:
    """Shop numbers of five-lobe bits as blade diameters, mm; from memory."""
    return "5L" + {"2": "0.8", "5": "1.2", "6": "1.5", "1": "0.8"}.get(size, "")


def _drive_words(words: Words, at: int) -> tuple[str, int] | None:
    for lead, code in _spoken("drives"):
        if tuple(words[at : at + len(lead)]) != lead:
            continue
        said = " ".join(lead)
        after = at + len(lead)
        if code == "T" and words[after : after + 1] and words[after] in ("t", "tx"):
            after += 1
        if (
            code == "T"
            and after < len(words)
            and (tail := _STUCK_DRIVE.fullmatch(words[after]))
            and tail[1] in ("t", "tx")
        ):
            return f"T{tail[2]}{'H' if tail[3] == 'h' else ''}", after + 1 - at
        if (
            code == "PH"
            and after < len(words)
            and (tail := _STUCK_DRIVE.fullmatch(words[after]))
            and tail[1] == "ph"
        ):
            return f"PH{tail[2]}", after + 1 - at
        while after < len(words) and words[after] in among("number size head type # no ph"):
            after += 1
        size, taken = _size_word(words, after, code)
        if size:
            return code + size, after + taken - at
        return (code, len(lead)) if said in _alone() else None
    return None


def _size_word(words: Words, at: int, code: str) -> tuple[str, int]:
    if at >= len(words):
        return "", 0
    if code in ("PH", "PZ", "JIS"):
        for names, size in _spoken("noughts"):
            if tuple(words[at : at + len(names)]) == names:
                return size, len(names)
    if code == "SL" or code == "3W":
        return "", 0
    plural = _PLURALS.get(words[at], words[at])
    number = number_at([plural, *words[at + 1 :]], 0)
    if not number:
        return "", 0
    value, taken = number
    follows = tuple(words[at + taken : at + taken + 1])
    if code == "T" and value == int(value) and 1 <= value <= 60 and words[at : at + 1] != ["a"]:
        return f"{int(value)}", taken
    if code in ("PH", "PZ", "JIS") and value in (0, 1, 2, 3, 4):
        if follows == ("of",):  # `phillips, two of them`
            return "", 0
        return f"{int(value)}", taken
    if (
        code in ("H", "5L", "NUT")
        and 0.4 <= value <= 12
        and (
            (follows and follows[0] in among("millimeter millimetre mm millimeters millimetres mil"))
            or value != int(value)
        )
    ):
        return f"{value:g}", taken + bool(
            follows and follows[0] in among("millimeter millimetre mm millimeters millimetres mil")
        )
    return "", 0


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
        return f"{'M' if metric else ''}{value:g}x{longer[0]}", after - at
    if metric and words[at] == "m" and 1 <= value <= 24:
        return f"M{value:g}", after - at
    return None


def _by(words: Words, at: int) -> tuple[str, int] | None:
    if at + 1 < len(words) and words[at] in _BY and (found := number_at(words, at + 1)):
        return f"{found[0]:g}", 1 + found[1]
    return None
