"""Plain text with time stamps (`[1:02]`, `1:02`, `(0:01:02)`), at line starts or in mid-line -> cues.

JSON lines of `{start, end, text}` -> cues.
"""

from __future__ import annotations

import json
import re
from typing import Any

from guidec.draft.cue import Cue, seconds

__all__ = ["json_lines", "stamped"]

_CLOCK = r"\d{1,2}(?::\d{2}){1,2}(?:[.,]\d{1,3})?"
_INNER = re.compile(rf"\[({_CLOCK})\]|\(({_CLOCK})\)")
_HEAD = re.compile(rf"^\s*(?:\[({_CLOCK})\]|\(({_CLOCK})\)|({_CLOCK})(?=\s|$))\s*(?:[-–—:]\s+)?", re.M)
LAST = 5.0
"""Seconds that the last words are taken to last."""


def stamped(text: str) -> list[Cue]:
    """The cues of a text with stamps; what stands before the first stamp starts at 0. No stamp: no cues."""
    marks = sorted({match.start(): match for match in (*_INNER.finditer(text), *_HEAD.finditer(text))}.items())
    places = [(match.start(), match.end(), next(filter(None, match.groups()))) for _, match in marks]
    places = [place for number, place in enumerate(places) if number == 0 or place[0] >= places[number - 1][1]]
    if not places:
        return []
    if text[: places[0][0]].strip():
        places.insert(0, (0, 0, "0:00"))
    cues = []
    for number, (begin, after, stamp) in enumerate(places):
        start = seconds(stamp)
        stop, following = (
            (places[number + 1][0], places[number + 1][2]) if number + 1 < len(places) else (None, None)
        )
        end = seconds(following) if following else start + LAST
        words = " ".join(text[after:stop].split())
        cues.append(Cue(start, max(end, start), words, text.count("\n", 0, begin) + 1))
    return cues


def json_lines(text: str) -> list[Cue]:
    """The cues of JSON lines, or of one JSON array of such objects; lines without a start and a text are passed
    over."""
    stripped = text.strip()
    if stripped.startswith("["):
        try:
            rows = list(enumerate(json.loads(stripped), 1))
        except ValueError:
            return []
    else:
        rows = [(number, _row(line)) for number, line in enumerate(text.split("\n"), 1) if line.strip()]
    cues = []
    for number, row in rows:
        if (
            isinstance(row, dict)
            and isinstance(row.get("text"), str)
            and (start := _time(row.get("start"))) is not None
        ):
            end = _time(row.get("end"))
            speaker = row.get("speaker")
            words = " ".join(row["text"].split())
            cues.append(Cue(start, start + LAST if end is None else end, words, number, str(speaker or "")))
    return cues


def _row(line: str) -> Any:
    try:
        return json.loads(line)
    except ValueError:
        return None


def _time(value: Any) -> float | None:
    """Seconds from a number or a clock string; None where it is neither."""
    if isinstance(value, int | float) and not isinstance(value, bool):
        return float(value)
    if isinstance(value, str) and re.fullmatch(rf"{_CLOCK}|\d+(?:\.\d+)?", value.strip()):
        return seconds(value)
    return None
