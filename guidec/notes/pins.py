"""The text of a mark on a picture, `X,Y X,Y …: thing` -> its points and its thing, and what is wrong with them."""

from __future__ import annotations

import re
from typing import NamedTuple

from guidec.notes.mark_body import Body, Range
from guidec.rules.finding import Finding

__all__ = ["Pinned", "read"]

_POINT = re.compile(r"([+-]?\d+(?:\.\d+)?),([+-]?\d+(?:\.\d+)?)")
_BLANKS = re.compile(r"\d+(?:\.\d+)?\s+\d+(?:\.\d+)?")
_WORD = re.compile(r"\S+")
_LEAST = {"pin": 1, "crop": 2, "outline": 2, "arrow": 2}
Points = tuple[tuple[float, float], ...]


class Pinned(NamedTuple):
    """The points in percent, the range that holds them, the range of the thing's name."""

    points: Points
    where: Range
    thing: Range
    findings: tuple[Finding, ...]


def read(kind: str, body: Body, start: int, end: int) -> Pinned:
    """The text of a mark of that kind. Without a colon, the thing is what follows the last point."""
    colon = body.find(":", start, end)
    where = body.trim(start, colon if colon >= 0 else end)
    points: list[tuple[float, float]] = []
    blank = _BLANKS.fullmatch(body.text, *where) if colon >= 0 else None
    if blank:
        return Pinned(
            (), where, body.trim(colon + 1, end), (_fault(kind, "shape", body, where, _paired(blank[0])),)
        )
    findings: list[Finding] = []
    after = where[1]
    for word in _WORD.finditer(body.text, *where):
        found = _POINT.fullmatch(word[0].rstrip(","))
        if found is None and colon < 0:
            after = word.start()
            break
        if found is None:
            findings.append(_fault(kind, "shape", body, word.span()))
        elif not all(0 <= float(number) <= 100 for number in found.groups()):
            findings.append(_fault(kind, "range", body, word.span()))
        else:
            points.append((float(found[1]), float(found[2])))
    thing = body.trim(colon + 1 if colon >= 0 else after, end)
    why = "" if findings else _wrong(kind, tuple(points), colon >= 0, thing[0] < thing[1])
    if why:
        findings.append(_fault(kind, why, body, thing if why in ("colon", "words") else (start, end)))
    return Pinned(tuple(points), body.trim(where[0], after), thing, tuple(findings))


def _wrong(kind: str, points: Points, colon: bool, named: bool) -> str:
    """What is wrong with a mark whose points can be read, as a variant of its rule; nothing where all is well."""
    if len(points) < _LEAST[kind]:
        return "points"
    if kind == "crop":
        return _wrong_crop(points, named)
    if named and not colon:
        return "colon"
    if kind == "pin" and not named:
        return "thing"
    return "same" if kind != "pin" and len(set(points)) < 2 else ""


def _wrong_crop(points: Points, named: bool) -> str:
    if named:
        return "words"
    if len(points) > 2:
        return "corners"
    (left, top), (right, bottom) = points
    return "thin" if abs(left - right) < 1 or abs(top - bottom) < 1 else ""


def _paired(typed: str) -> str:
    """The two numbers of a point, parted by a blank, as a point is written."""
    return ",".join(typed.split())


def _fault(kind: str, variant: str, body: Body, place: Range, suggest: str = "") -> Finding:
    typed = body.words(*place)
    near = (suggest,) if suggest else ()
    if kind == "pin":
        return Finding.at("N106", body.span(*place), variant=variant, suggest=near, typed=typed)
    return Finding.at("N110", body.span(*place), variant=variant, suggest=near, kind=kind, typed=typed)
