"""What the inline rules met in a block -> its words and marks in reading order, with places."""

from __future__ import annotations

import re
from bisect import bisect_right
from collections.abc import Sequence

from guidec.notes.chart import Chart
from guidec.notes.syntax import Piece, Word
from guidec.notes.trace import Event, Met
from guidec.source import Span

__all__ = ["pieces", "words"]

_new = tuple.__new__  # called for every word: a named tuple's own constructor takes twice as long
_TEXT, _INSTEAD, _DELIMITERS, _MARK, _CODE, _PICTURE = (
    *(Met.TEXT, Met.INSTEAD, Met.DELIMITERS, Met.MARK, Met.CODE, Met.PICTURE),
)
_IN = r"[^\s!-/:-@\[-`{-~…„“”‚‘’«»‹›–—·¿¡、。，；：？！（）「」]"
_WORD = re.compile(rf"{_IN}+(?:(?:[-'’‐‑./&_+]|(?<=\d)[,:](?=\d)){_IN}+)*|\S")
"""A word: hyphens, apostrophes and points inside it belong to it. Any other mark of punctuation stands alone."""


def words(text: str) -> list[tuple[str, int, int]]:
    """The words and punctuation of a text, each with where it starts and ends in it."""
    return [(found[0], *found.span()) for found in _WORD.finditer(text)]


def pieces(events: Sequence[Event], content: str, chart: Chart) -> tuple[Piece, ...]:
    """The pieces of a block whose text is `content`."""
    out: list[Piece] = []
    run: list[Event] = []
    last = len(events) - 1
    for at, event in enumerate(events):
        met, start, end, what = event
        if met is _MARK:
            if run:
                _add(run, content, chart, out)
                run.clear()
            out.append(what.meta["mark"])
        elif met is _TEXT and not run and (at == last or events[at + 1][0] > _DELIMITERS):
            _add_words(content, start, end, chart, out)  # no word goes on into what follows
        elif met is _TEXT or met is _INSTEAD or met is _DELIMITERS:
            if met is _DELIMITERS and any(token.type != "text" for token in what):
                continue
            if run and not _goes_on(run[-1], event, content):
                _add(run, content, chart, out)
                run.clear()
            run.append(event)
        elif met <= _PICTURE:
            if run:
                _add(run, content, chart, out)
                run.clear()
            if met is _CODE and what is not None:
                _code(start, end, len(what.markup), content, chart, out)
    if run:
        _add(run, content, chart, out)
    return tuple(out)


def _goes_on(last: Event, event: Event, content: str) -> bool:
    """Whether a word may go on from one event into the next."""
    before = last[3] if last[0] is _INSTEAD else content[last[2] - 1]
    after = event[3] if event[0] is _INSTEAD else content[event[1]]
    return not (before[-1:].isspace() or after[:1].isspace())


def _add(run: Sequence[Event], content: str, chart: Chart, out: list[Piece]) -> None:
    """Add the words of a run of text."""
    met, start, end, _ = run[0]
    if len(run) > 1 or met is not _TEXT:
        _joined(run, content, chart, out)
    else:
        _add_words(content, start, end, chart, out)


def _add_words(content: str, start: int, end: int, chart: Chart, out: list[Piece]) -> None:
    """Add the words of a stretch of plain text, which stands on one line."""
    shift = chart.only
    if shift is None:
        shift = chart.shift(start)
    find, end_of_last = content.find, start
    for word in _WORD.findall(content, start, end):
        at = find(word, end_of_last)  # nothing but white space stands between two
        end_of_last = at + len(word)
        out.append(_new(Word, (word, _new(Span, (at + shift, end_of_last + shift)), False)))


def _joined(run: Sequence[Event], content: str, chart: Chart, out: list[Piece]) -> None:
    """Words that may go on from one event into the next: `don\\'t`, `un**screw**`."""
    text: list[str] = []
    starts: list[int] = []
    events: list[Event] = []
    length = 0
    for event in run:
        met, first, last, what = event
        text.append(what if met is _INSTEAD else content[first:last])
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
    return (first, last) if met is _INSTEAD else (first + within, first + within + 1)


def _code(start: int, end: int, ticks: int, content: str, chart: Chart, out: list[Piece]) -> None:
    """The words of a code span that begins and ends with `ticks` back-ticks."""
    for found in re.finditer(r"\S+", content[start + ticks : end - ticks]):
        first = start + ticks + found.start()
        out.append(Word(found[0], chart.span(first, first + len(found[0])), True))
