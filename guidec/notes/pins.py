"""The text of a pin, `X,Y X,Y …: thing` -> its points and its thing, and what is wrong with them."""

from __future__ import annotations

import re
from typing import NamedTuple

from guidec.notes.mark_body import Body, Range
from guidec.notes.shown import short
from guidec.rules.finding import Finding

__all__ = ["Pinned", "read"]

_POINT = re.compile(r"([+-]?\d+(?:\.\d+)?),([+-]?\d+(?:\.\d+)?)")
_WORD = re.compile(r"\S+")


class Pinned(NamedTuple):
    """The points in percent, the range that holds them, the range of the thing's name."""

    points: tuple[tuple[float, float], ...]
    where: Range
    thing: Range
    findings: tuple[Finding, ...]


def read(body: Body, start: int, end: int) -> Pinned:
    """A pin's text. Without a colon, the thing is what follows the last point."""
    colon = body.find(":", start, end)
    where = body.trim(start, colon if colon >= 0 else end)
    points: list[tuple[float, float]] = []
    findings: list[Finding] = []
    after = where[1]
    for word in _WORD.finditer(body.text, *where):
        found = _POINT.fullmatch(word[0].rstrip(","))
        if found is None and colon < 0:
            after = word.start()
            break
        if found is None:
            findings.append(_fault("shape", body, word.span()))
        elif not all(0 <= float(number) <= 100 for number in found.groups()):
            findings.append(_fault("range", body, word.span()))
        else:
            points.append((float(found[1]), float(found[2])))
    thing = body.trim(colon + 1 if colon >= 0 else after, end)
    if not points and not findings:
        findings.append(_fault("points", body, (start, end)))
    elif colon < 0 and thing[0] < thing[1]:
        findings.append(_fault("colon", body, thing))
    elif thing[0] == thing[1]:
        findings.append(_fault("thing", body, (start, end)))
    return Pinned(tuple(points), body.trim(where[0], after), thing, tuple(findings))


def _fault(variant: str, body: Body, place: Range) -> Finding:
    return Finding.at("N106", body.span(*place), variant=variant, typed=short(body.words(*place)))
