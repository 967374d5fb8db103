"""A tool's name -> its proposed grade, and the drive it turns; a drive -> its driver."""

from __future__ import annotations

import re
from functools import cache

from guidec.trade.drives import drive_family, driver_name, scan_drive
from guidec.trade.load import data

__all__ = ["driver_grade", "driver_name", "propose_grade", "turned_drives"]

_STOP = re.compile(r"\s+(?:of|for|with|from|on)\s+|\s*[(,]")
_DRIVER = re.compile(r"\s*\b(?:screw|nut)?drivers?\b|\b(?:key|wrench|bit|bits)\b(?=\s+[\d.,]+)", re.I)
_SPANNER = re.compile(
    r"^(?:([\d.,]+)\s?mm\s)?(?:combination |open-end(?:ed)? |open |ring )?"
    r"(?:spanner|wrench|maulschlüssel|ringschlüssel)"
    r"(?(1)$|\s([\d.,]+)\s?mm$)"
)
_WRENCH = re.compile(r"spanner|wrench|schlüssel$")
_GERMAN = re.compile(
    r"(innensechskant|schlitz)(?:schlüssel|schraubendreher)|(fünfrund|dreiflügel)-schraubendreher"
)
_PLAIN = {"fünfrund": "five-lobe", "dreiflügel": "three-wing"}
_WORD = re.compile(r"[^\W\d_]+(?:-[^\W\d_]+)*")


def propose_grade(name: str, drives: tuple[str, ...] = ()) -> str | None:
    """The grade to propose for a tool of that name, or None. `drives`: what it turns, where it is a driver."""
    if drives and not _WRENCH.search(name.casefold()):
        grades = [driver_grade(code) for code in drives]
        return "trade" if "trade" in grades else grades[0]
    words = _STOP.split(name.casefold().strip(), 1)[0].split()
    if words and words[-1] in ("driver", "screwdriver", "bit"):
        shape = scan_drive(" ".join(words[:-1]), 0)
        if shape:
            return driver_grade(shape.code or shape.family + "1")
    for start in range(max(0, len(words) - 3), len(words)):
        grade = _names().get(" ".join(words[start:]))
        if grade:
            return grade
    return None


def driver_grade(code: str) -> str | None:
    """The grade of the driver for a drive; None for a drive nobody knows."""
    family = drive_family(code)
    rows = data("tools")["drivers"]
    if family in rows["basic"].split():
        return "trade" if code.endswith("H") and family in ("T", "H") else "basic"
    return "trade" if family in rows["trade"].split() else None


def turned_drives(name: str, size: str = "") -> tuple[str, ...]:
    """The drives that a tool of that name (and size) plainly turns: `PH0 screwdriver`, `driver` of size `T5`.

    Empty where it is no driver, or nothing says of what size.
    """
    spanner = _SPANNER.search(f"{name} {size}".casefold().strip())
    if spanner:
        return (f"NUT{float((spanner[1] or spanner[2]).replace(',', '.')):g}",)
    plain = _GERMAN.sub(lambda word: word[1] or _PLAIN[word[2]], f"{name} {size}".casefold())
    plain = plain.replace("steckschlüssel", "mutter")
    found, words = _split(_DRIVER.sub(" ", plain).strip())
    turns = _turns()
    if not found or any(word not in turns for word in words):
        return ()
    return tuple(dict.fromkeys(found))


def _split(text: str) -> tuple[list[str], list[str]]:
    """The drives in a text, and its other words."""
    found: list[str] = []
    words: list[str] = []
    at = 0
    while at < len(text):
        code = scan_drive(text, at) if text[at].isalnum() else None
        if code and code.code:
            found.append(code.code)
            at = code.end
            continue
        word = _WORD.match(text, at)
        if word:
            words.append(word[0].casefold())
            at = word.end()
        else:
            words += [text[at]] if text[at].isalnum() else []
            at += 1
    return found, words


@cache
def _names() -> dict[str, str]:
    rows = data("tools")["grades"]
    return {name: grade for grade, row in reversed(rows.items()) for name in row["names"].split(", ")}


@cache
def _turns() -> frozenset[str]:
    return frozenset(data("tools")["turns"]["words"].split()) | frozenset(
        word for row in data("drives")["families"].values() for word in row["words"].split()
    )
