"""What the inline rules met in a block -> its words and marks in reading order, with places."""

from __future__ import annotations

import re
from bisect import bisect_right
from collections.abc import Iterable, Sequence

from guidec.notes.chart import Chart
from guidec.notes.syntax import Piece, Word
from guidec.notes.trace import Event, Met
from guidec.source import Span

__all__ = ["pieces", "words"]

_new = tuple.__new__  # called for every word: a named tuple's own constructor takes twice as long
_IN = r"[^\s!-/:-@\[-`{-~…„“”‚‘’«»‹›–—·¿¡、。，；：？！（）「」]"
_WORD = re.compile(rf"{_IN}+(?:(?:[-'’‐‑./&_+]|(?<=\d)[,:](?=\d)){_IN}+)*|\S")
"""A word: hyphens, apostrophes and points inside it belong to it. Any other mark of punctuation stands alone."""


def words(text: str) -> list[tuple[str, int, int]]:
    """The words and punctuation of a text, each with where it starts and ends in it."""
    return [(found[0], *found.span()) for found in _WORD.finditer(text)]


def pieces(events: Iterable[Event], content: str, chart: Chart) -> tuple[Piece, ...]:
    """The pieces of a block whose text is `content`."""
    out: list[Piece] = []
    run: list[Event] = []
    for event in events:
        met = event[0]
        if met <= Met.DELIMITERS:
            run.append(event)
        elif met <= Met.PICTURE:
            if run:
                _add(run, content, chart, out)
                run = []
            if met is Met.MARK:
                out.append(event[3].meta["mark"])
            elif met is Met.CODE:
                _code(event, content, chart, out)
    if run:
        _add(run, content, chart, out)
    return tuple(out)


def _add(run: Sequence[Event], content: str, chart: Chart, out: list[Piece]) -> None:
    """Add the words of a run of text."""
    if len(run) > 1 or run[0][0] is not Met.TEXT:
        _joined(run, content, chart, out)
        return
    _, start, end, _ = run[0]
    shift = chart.shift(start)
    out += [
        _new(Word, (found[0], _new(Span, (found.start() + shift, found.end() + shift)), False))
        for found in _WORD.finditer(content, start, end)
    ]


def _joined(run: Sequence[Event], content: str, chart: Chart, out: list[Piece]) -> None:
    """Words that may go on from one event into the next: `don\\'t`, `un**screw**`."""
    text: list[str] = []
    starts: list[int] = []
    events: list[Event] = []
    length = 0
    for event in run:
        met, first, last, what = event
        if met is Met.DELIMITERS and any(token.type != "text" for token in what):
            continue
        text.append(what if met is Met.INSTEAD else content[first:last])
        starts.append(length)
        events.append(event)
        length += len(text[-1])
    for word, start, end in words("".join(text)):
        here = bisect_right(starts, start) - 1
        there = bisect_right(starts, end - 1, here) - 1
        last = _place(events[there], end - 1 - starts[there])[1]
        out.append(Word(word, chart.span(_place(events[here], start - starts[here])[0], last)))


def _place(event: Event, within: int) -> tuple[int, int]:
    """Where a character of an event stands; one that an escape or entity stands for, all of that."""
    met, first, last, _ = event
    return (first, last) if met is Met.INSTEAD else (first + within, first + within + 1)


def _code(event: Event, content: str, chart: Chart, out: list[Piece]) -> None:
    """The words of a code span; raw HTML has none."""
    _, start, end, token = event
    if token is None:
        return
    ticks = len(token.markup)
    for found in re.finditer(r"\S+", content[start + ticks : end - ticks]):
        first = start + ticks + found.start()
        out.append(Word(found[0], chart.span(first, first + len(found[0])), True))
