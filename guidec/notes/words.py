"""What the inline rules met in a block -> its words and marks in reading order, with places."""

from __future__ import annotations

import re
from collections.abc import Iterable, Sequence

from guidec.notes.chart import Chart
from guidec.notes.syntax import Piece, Word
from guidec.notes.trace import Event, Met
from guidec.source import Span

__all__ = ["pieces", "words"]

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
    for found in _WORD.finditer(content, start, end):
        first, last = found.span()
        out.append(Word(found[0], Span(first + shift, last + shift)))


def _joined(run: Sequence[Event], content: str, chart: Chart, out: list[Piece]) -> None:
    """Words that may go on from one event into the next: `don\\'t`, `un**screw**`."""
    text: list[str] = []
    places: list[tuple[int, int]] = []
    for met, first, last, what in run:
        if met is Met.INSTEAD:
            shown = what
            places.extend([(first, last)] * len(shown))
        elif met is Met.DELIMITERS and any(token.type != "text" for token in what):
            continue
        else:
            shown = content[first:last]
            places.extend((at, at + 1) for at in range(first, last))
        text.append(shown)
    for word, start, end in words("".join(text)):
        out.append(Word(word, chart.span(places[start][0], places[end - 1][1])))


def _code(event: Event, content: str, chart: Chart, out: list[Piece]) -> None:
    """The words of a code span; raw HTML has none."""
    _, start, end, token = event
    if token is None:
        return
    ticks = len(token.markup)
    for found in re.finditer(r"\S+", content[start + ticks : end - ticks]):
        first = start + ticks + found.start()
        out.append(Word(found[0], chart.span(first, first + len(found[0])), True))
