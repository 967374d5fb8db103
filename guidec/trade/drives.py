"""The words for a drive -> its code (`PH0`, `T10H`, `SL4`), and the driver that turns it."""

from __future__ import annotations

import re
from functools import cache
from string import Template
from typing import Any, NamedTuple

from guidec.trade.likeness import nearest
from guidec.trade.load import data

__all__ = [
    "Drive",
    "drive",
    "drive_family",
    "driver_name",
    "family_words",
    "likely_drives",
    "scan_drive",
    "sizeless_drives",
]

_CODE = re.compile(
    r"(?P<family>PH|PZ|JIS|TX|TR|T|HX|H|SL|5L|3W|NUT)[ \-]?(?P<size>\d+(?:[.,]\d+)?)(?P<pin>H(?![a-z]))?"
    r"(?:\s?mm\b)?(?:(?![\w.])|(?=M\d))",
    re.I,
)
_WORDS = re.compile(r"(?:[^\W\d_]|\d(?=-))[^\W\d_]*(?:-[^\W\d_]+)*", re.I)
_SIZE = re.compile(
    r"\s*(?:head\s+|drive\s+|recess\s+|socket\s+|no\.?\s*|size\s+|#)*(?P<size>#?(?:[A-Z]{1,2})?\d+(?:[.,]\d+)?)(?P<pin>H(?![a-z]))?(?:\s?mm\b)?(?![\w.,]\S|\w)",
    re.I,
)
_SIZE_FIRST = re.compile(r"(?P<size>\d+(?:[.,]\d+)?)\s?(?:mm\s+|-\s?mm\s+)", re.I)
_PINNED = re.compile(r"(?:security|tamper(?:-|\s)?(?:proof|resistant)|pinned)\s+", re.I)


class Drive(NamedTuple):
    """A drive read. `code` is canonical, or empty where only the family could be read (`typed` then stands)."""

    code: str
    family: str
    typed: str
    end: int


def drive(text: str) -> str | None:
    """The canonical code of a drive in any of its spellings (`ph 0`, `Torx T5`, `2 mm hex`), or None."""
    found = scan_drive(text.strip(), 0)
    return found.code if found and found.code and found.end == len(text.strip()) else None


def drive_family(code: str) -> str:
    """The family of a canonical code (`T` of `T10H`), or empty for an unknown one."""
    found = _CODE.fullmatch(code)
    return found["family"].upper() if found and found["family"].upper() in _families() else ""


def scan_drive(text: str, at: int) -> Drive | None:
    """The drive that starts at an offset, or None. A family's word without a size gives a Drive without a code."""
    pinned = _PINNED.match(text, at)
    start = pinned.end() if pinned else at
    found = _by_code(text, start, bool(pinned)) or _by_word(text, start, bool(pinned)) or _size_first(text, start)
    return Drive(found.code, found.family, text[at : found.end], found.end) if found else None


def _by_code(text: str, at: int, pinned: bool) -> Drive | None:
    found = _CODE.match(text, at)
    if not found:
        return None
    family = found["family"].upper()
    pin = bool(found["pin"]) or pinned or family == "TR"
    family = {"TX": "T", "TR": "T", "HX": "H"}.get(family, family)
    code = _code(family, found["size"], pin)
    return Drive(code, family, found[0], found.end()) if code else None


def _by_word(text: str, at: int, pinned: bool) -> Drive | None:
    """`Phillips 0`, `Phillips PH0`, `Torx T5`, `hex 2 mm`, `Phillips`."""
    word = _WORDS.match(text, at)
    if not word:
        return None
    two = re.compile(r"[^\W\d_]+ [^\W\d_]+").match(text, at)
    for found in (two, word):
        family = family_words().get(found[0].casefold().replace(" ", "-")) if found else None
        if found and family:
            return _sized(text, found.end(), family, at, pinned)
    return None


def _sized(text: str, end: int, family: str, at: int, pinned: bool) -> Drive:
    size = _SIZE.match(text, end)
    if size:
        number = size["size"].lstrip("#")
        letters = number.rstrip("0123456789.,").upper()
        if letters in ("", family, *({"TX", "TR"} if family == "T" else ())):
            code = _code(family, number[len(letters) :], bool(size["pin"]) or pinned)
            if code:
                return Drive(code, family, text[at : size.end()], size.end())
    tail = re.compile(r"\s+(?:head|drive|recess|socket)\b", re.I).match(text, end)
    end = tail.end() if tail else end
    return Drive("", family, text[at:end], end)


def _size_first(text: str, at: int) -> Drive | None:
    """`2 mm hex`, `5.5 mm nut`."""
    size = _SIZE_FIRST.match(text, at)
    word = _by_word(text, size.end(), False) if size else None
    if not size or not word or word.code or "range" not in _families()[word.family] or word.family == "T":
        return None
    code = _code(word.family, size["size"], False)
    return Drive(code, word.family, text[at : word.end], word.end) if code else None


def _code(family: str, size: str, pin: bool) -> str:
    """The canonical code, or empty where the family has no such size."""
    row = _families()[family]
    if "sizes" in row:
        return f"{family}{size}" if size in row["sizes"].split() and not pin else ""
    value = float(size.replace(",", "."))
    low, high = row["range"]
    if (
        not low <= value <= high
        or (family == "T" and value != int(value))
        or (pin and "pin" not in row and family != "H")
    ):
        return ""
    return f"{family}{value:g}{'H' if pin else ''}"


def _families() -> dict[str, Any]:
    rows: dict[str, Any] = data("drives")["families"]
    return rows


@cache
def family_words() -> dict[str, str]:
    """What people call a family (`phillips`), and its code."""
    return {word: code for code, row in _families().items() for word in row["words"].split()}


def sizeless_drives(typed: str) -> tuple[str, ...]:
    """For a family's word without a size (`Phillips`): the family's name, then codes of it; else empty."""
    found = scan_drive(typed, 0)
    if not found or found.code:
        return ()
    codes = [code for code in _codes() if drive_family(code) == found.family]
    return (str(_families()[found.family]["name"]), *codes)


def likely_drives(typed: str) -> tuple[str, ...]:
    """Up to four codes that a drive nobody knows may have been meant for."""
    shop = data("drives")["likely"].get(typed.upper().replace(" ", ""))
    return tuple(dict.fromkeys(([shop] if shop else []) + list(nearest(typed.upper(), _codes(), 4))))[:4]


@cache
def _codes() -> tuple[str, ...]:
    """The codes worth suggesting."""
    some = {"T": "1 2 3 4 5 6 7 8 9 10 15 20 25 27 30 40 45 50", "H": "0.7 0.9 1.3 1.5 2 2.5 3 4 5 6 8 10"}
    some |= {"SL": "1.5 2 2.5 3 4 5.5", "5L": "0.8 1.2", "3W": "0.6", "NUT": "4 5 5.5 7 8 10"}
    return tuple(
        f"{code}{size}"
        for code, row in _families().items()
        for size in row.get("sizes", some.get(code, "")).split()
    )


@cache
def driver_name(code: str, language: str = "en") -> str:
    """What the driver is called: `PH0 screwdriver`, `5.5 mm nut driver`; `XY driver` for an unknown one.

    In German `Schraubendreher PH0`; in a language without words of its own as in English.
    """
    family, german = drive_family(code), language.casefold().split("-")[0] == "de"
    if not family:
        return f"Schraubendreher {code}" if german else f"{code} driver"
    words = _families()[family]["driver_de" if german else "driver"]
    return Template(words).substitute(drive=code, size=code[len(family) :])
