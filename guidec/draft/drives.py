"""Words -> drives in the notes language's codes as spoken: `t five` T5, `phillips double zero` PH00, `number two
phillips` PH2, `security torx ten` T10H.

A size without its drive (`double zeros`) is `?00`: `completed` puts it to the drive that is known.
"""

from __future__ import annotations

import re
from collections.abc import Sequence
from functools import cache

from guidec.draft.counting import number_at
from guidec.draft.measures import spoken
from guidec.draft.wordset import among
from guidec.trade.load import data

__all__ = ["completed", "drive_at"]

Words = Sequence[str]
_STUCK = re.compile(r"(t|tx|torx|ph|pz|jis|h|p|pl|y)(\d{1,3}(?:\.\d)?)(h|s|'s)?")
_FAMILY = {"tx": "T", "torx": "T", "pl": "5L", "p": "5L", "y": "3W"}
_PLURALS = {
    "zeros": "zero", "ones": "one", "one's": "one", "twos": "two", "threes": "three", "fours": "four",
    "fives": "five", "sixes": "six", "sevens": "seven", "eights": "eight", "nines": "nine", "tens": "ten",
    "fifteens": "fifteen", "twenties": "twenty",
}  # fmt: skip
_MM = among("millimeter millimetre mm millimeters millimetres mil mils mill")
_FOR_SCREWS = among(
    "screw screws one ones bolt bolts head heads headed jobs fasteners jobbies type types number size"
)


@cache
def _alone() -> frozenset[str]:
    """What is a drive without a size behind it."""
    names = [name.strip() for name in data("draft/spoken-en")["alone"].split(",")]
    return frozenset(names) | frozenset(f"{name}s" for name in names)


def completed(known: str, said: str) -> str:
    """A drive that is known with what is said of it later; the known one where the two do not go together."""
    if said.startswith("?") and known == "TH":
        return f"T{said[1:]}H"
    if said.startswith("?"):
        if known in ("PH", "PZ", "JIS", "T") or (known == "" and said[1:2] == "0"):
            return (known or "PH") + said[1:]
        return known
    if known[:1] == "T" and known.endswith("H") and said.startswith(known[:-1]):
        return said if said.endswith("H") else said + "H"
    return said if said.startswith(known) or known == "NUT" else known


def drive_at(words: Words, at: int) -> tuple[str, int] | None:
    """A drive and how many words it takes; None where there is none."""
    start = at
    pin = words[at] in among("security tamper tamperproof") and at + 1 < len(words)
    if pin:
        at += 1 + (words[at + 1] in ("proof", "resistant"))
    if at >= len(words):
        return None
    found = _stuck(words, at) or _sized_before(words, at) or _drive_words(words, at) or _noughts(words, at)
    if not found or (pin and not found[0].startswith("T")):
        return None
    code, taken = found
    return (code + "H" if pin and not code.endswith("H") else code), at - start + taken


def _stuck(words: Words, at: int) -> tuple[str, int] | None:
    """`t5`, `ph00`, `p2 pentalobe`, `y000 tri wing`."""
    match = _STUCK.fullmatch(words[at])
    if not match:
        return None
    family, size = match[1], match[2]
    code = _FAMILY.get(family, family.upper())
    if code in ("T", "PZ", "H") and not 0 < float(size) <= 60:
        return None
    if code == "PH" and size not in among("000 00 0 1 2 3 4"):
        return None
    follows = words[at + 1] if at + 1 < len(words) else ""
    if code == "5L":
        named = follows in ("pentalobe", "pentalobes")
        if family == "p" and not named and follows not in among("screw screws bit bits driver screwdriver"):
            return None
        return _five(size), 1 + named
    if code == "3W":
        taken = 1 + 2 * (tuple(words[at + 1 : at + 3]) == ("tri", "wing"))
        return ("3W", taken) if size in among("0 00 000 1") else None
    return code + size + ("H" if match[3] == "h" else ""), 1


def _five(size: str) -> str:
    """Shop numbers of five-lobe bits as blade diameters, mm; from memory."""
    return "5L" + {"2": "0.8", "5": "1.2", "6": "1.5", "1": "0.8"}.get(size, "")


def _sized_before(words: Words, at: int) -> tuple[str, int] | None:
    """`number two phillips`, `double zero phillips`, `size one cross`."""
    start = at
    if (number := number_at(words, at)) and number[0] != int(number[0]) and number[0] < 12:
        after = at + number[1]
        if words[after : after + 1] and words[after] in among("hex allen"):
            return f"H{number[0]:g}", after + 1 - at
    lead = words[at] in among("number size no")
    at += lead
    if at >= len(words):
        return None
    nought = _nought(words, at)
    if nought and (lead or nought[0] != "0"):
        size, at = nought[0], at + nought[1]
    elif lead and (number := number_at(words, at)) and number[0] in (0, 1, 2, 3, 4):
        size, at = f"{number[0]:g}", at + number[1]
    else:
        return None
    for names, code in spoken("drives"):
        cross = code == "PH" or names == ("cross",)
        if tuple(words[at : at + len(names)]) == names and (cross or code in ("PZ", "JIS")):
            return code + size, at + len(names) - start
    if words[at : at + 1] and words[at] in ("cross", "plus"):
        return "PH" + size, at + 1 - start
    return None


def _nought(words: Words, at: int) -> tuple[str, int] | None:
    for names, size in spoken("noughts"):
        if tuple(words[at : at + len(names)]) == names:
            return size, len(names)
    return None


def _noughts(words: Words, at: int) -> tuple[str, int] | None:
    """`double zeros`: the size of a drive that is not said."""
    found = _nought(words, at)
    if found is None or found[0] not in ("00", "000") or words[at] not in among("double triple zero 00 000"):
        return None
    return "?" + found[0], found[1]


def _drive_words(words: Words, at: int) -> tuple[str, int] | None:
    for lead, code in spoken("drives"):
        if tuple(words[at : at + len(lead)]) != lead:
            continue
        after = at + len(lead)
        if code in ("T", "PH") and (tail := _said_twice(words, after, code)):
            return tail, after + 1 - at
        while after < len(words) and words[after] in among("number size head heads type # no ph t tx"):
            after += 1
        size, taken = _size_word(words, after, code)
        if size:
            return code + size, after + taken - at
        return (code, len(lead)) if " ".join(lead) in _alone() else None
    if words[at] in among("cross plus") and words[at + 1 : at + 2] and words[at + 1] in _FOR_SCREWS:
        size, taken = _size_word(words, at + 2, "PH") if words[at + 1] in ("number", "size") else ("", 0)
        return "PH" + size, 1 + (1 + taken if size else 0)
    return None


def _said_twice(words: Words, at: int, code: str) -> str:
    """`torx t5`, `phillips ph1`."""
    tail = _STUCK.fullmatch(words[at]) if at < len(words) else None
    if tail is None or _FAMILY.get(tail[1], tail[1].upper()) != code:
        return ""
    return f"{code}{tail[2]}{'H' if tail[3] == 'h' else ''}"


def _size_word(words: Words, at: int, code: str) -> tuple[str, int]:
    """The size behind a drive's name, and how many words it takes."""
    if at >= len(words) or code in ("SL", "3W"):
        return "", 0
    if code in ("PH", "PZ", "JIS") and (nought := _nought(words, at)):
        return nought
    number = number_at([_PLURALS.get(words[at], words[at]), *words[at + 1 :]], 0)
    if not number:
        return "", 0
    value, taken = number
    follows = words[at + taken] if at + taken < len(words) else ""
    if code == "T" and value == int(value) and 1 <= value <= 60 and words[at] != "a" and follows != "of":
        return f"{int(value)}", taken
    if code in ("PH", "PZ", "JIS") and value in (0, 1, 2, 3, 4):
        return ("", 0) if follows == "of" else (f"{int(value)}", taken)  # `phillips, two of them`
    if code in ("H", "5L", "NUT") and 0.4 <= value <= 24 and (follows in _MM or value != int(value)):
        return f"{value:g}", taken + (follows in _MM)
    return "", 0
