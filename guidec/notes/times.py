"""Times in a recording: `9:40`, `1:02:03` -> seconds; `@0:35-1:50` at the end of a line -> a `TimeRange`."""

from __future__ import annotations

import re
from typing import NamedTuple

from guidec.notes.chart import Chart
from guidec.notes.shown import short
from guidec.notes.syntax import TimeRange
from guidec.notes.trace import Event, Met
from guidec.rules.finding import Finding

__all__ = ["Taken", "seconds", "take"]

_TIME = re.compile(r"(?:(\d{1,3}):)?(\d{1,3}):(\d{2})(\.\d+)?")
_AT_END = re.compile(r"(?<!\S)@\s?(?P<times>\d[\d:.,]*(?:\s?[-–—](?:\s?\d[\d:.,]*)?)?)[;]?\s*$")
_INSIDE = re.compile(r"(?<!\S)@\d+:\d\d(?![\w:])")
_TO = re.compile(r"\s?[-–—]\s?")


def seconds(text: str) -> float | None:
    """The seconds of `M:SS`, `H:MM:SS` or either with a decimal fraction; None for anything else.

    Minutes past an hour (`75:10`) are allowed where no hours are given.
    """
    found = _TIME.fullmatch(text.strip())
    if not found:
        return None
    hours, minutes, rest = int(found[1] or 0), int(found[2]), float(found[3] + (found[4] or ""))
    if rest >= 60 or (found[1] and minutes >= 60):
        return None
    return hours * 3600 + minutes * 60 + rest


class Taken(NamedTuple):
    """A time at the end of a line: the events without it, its text, and the line's number among the block's."""

    events: list[Event]
    time: TimeRange | None
    cuts: tuple[tuple[int, str], ...]
    findings: tuple[Finding, ...]


def take(events: list[Event], content: str, chart: Chart) -> Taken:
    """Take the time from the end of a line of a heading or list item (marks may stand after it)."""
    kept = list(events)
    time: TimeRange | None = None
    cuts: list[tuple[int, str]] = []
    findings: list[Finding] = []
    for line, at in enumerate(_last_texts(events, content)):
        found = _AT_END.search(content, events[at][1], events[at][2]) if at is not None else None
        if found is None or at is None:
            continue
        typed = found["times"].rstrip(".,")
        end = found.start("times") + len(typed)
        span = chart.span(found.start(), end)
        cuts.append((line, found[0]))
        kept[at] = (Met.TEXT, kept[at][1], found.start(), None)
        read = _range(typed)
        if read is None:
            findings.append(Finding.at("N201", span, time=short(content[found.start() : end])))
        elif time is not None:
            findings.append(Finding.at("N203", span, labels={"first": time.span}))
        else:
            time = TimeRange(*read, span)
    findings += _astray(kept, content, chart)
    return Taken(kept, time, tuple(cuts), tuple(findings))


def _last_texts(events: list[Event], content: str) -> list[int | None]:
    """For each line of a block, the index of its last event of text that is not blank, if only marks follow."""
    lines: list[int | None] = [None]
    for index, (met, start, end, _) in enumerate(events):
        if met is Met.BREAK:
            lines.append(None)
        elif met is Met.TEXT and not content[start:end].isspace():
            lines[-1] = index
        elif met in (Met.CODE, Met.PICTURE, Met.INSTEAD):
            lines[-1] = None
    return lines


def _range(times: str) -> tuple[float, float | None] | None:
    parts = [seconds(part) for part in _TO.split(times, maxsplit=1)]
    start = parts[0]
    if start is None:
        return None
    if len(parts) == 1:
        return start, None
    end = parts[1]
    return (start, end) if end is not None and end > start else None


def _astray(events: list[Event], content: str, chart: Chart) -> list[Finding]:
    """Times that stand inside a line."""
    return [
        Finding.at("N202", chart.span(*found.span()), time=found[0])
        for met, start, end, _ in events
        if met is Met.TEXT
        for found in _INSIDE.finditer(content, start, end)
    ]
