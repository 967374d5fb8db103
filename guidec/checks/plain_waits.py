"""List lines -> waits that stand there in plain words, which no time adds up."""

from __future__ import annotations

from collections.abc import Iterable, Iterator

from guidec.checks.unmarked import sentence_at, unmarked
from guidec.model.types import Content, Guide, Line, Lines
from guidec.plan import Graph
from guidec.rules.finding import Finding, Severity
from guidec.trade.deeds import patterns, words
from guidec.trade.phrases import may_speak
from guidec.trade.units import find_quantities

__all__ = ["check"]


def check(guide: Guide, graph: Graph) -> Iterator[Finding]:
    """M221, once a line. A line with a `wait`, or a `heat` of some length, has said how long."""
    may = may_speak(guide.source.text, words("waiting_heads", guide.meta.language))
    for operation in guide.operations:
        for line in _lines(operation.content):
            if may(*line.inline.span):
                yield from _line(guide, line)


def _lines(content: Iterable[Content]) -> Iterator[Line]:
    for one in content:
        if isinstance(one, Lines):
            for line in one.lines:
                yield line
                yield from _lines(line.content)


def _line(guide: Guide, line: Line) -> Iterator[Finding]:
    actions = [guide.actions[one] for one in line.actions]
    if any(action.waits or any(heat.duration for heat in action.heats) for action in actions):
        return
    text = unmarked(guide, line.inline.span)
    waiting = patterns("waiting", guide.meta.language)
    if waiting.search(text) is None or any(mark.kind == "wait" for mark in line.inline.marks):
        return
    offset = line.inline.span.start
    found = find_quantities(text, offset, ("temperature", "time"))
    if any(one.dimension == "temperature" for one in found):
        return
    for one in found:
        start, end = sentence_at(text, one.span.start - offset)
        if one.dimension == "time" and waiting.search(text, start, end):
            mark = f"{{wait {one.typed}}}"
            yield Finding.at(
                "M221",
                one.span,
                variant="" if actions else "remark",
                severity=None if actions else Severity.INFO,
                suggest=[mark] if actions else (),
                typed=one.typed,
                mark=mark,
            )
            return
