"""What the inline rules met in a block -> its words and marks in reading order, with places."""

from __future__ import annotations

import re
from collections.abc import Iterable, Sequence

from guidec.notes.chart import Chart
from guidec.notes.syntax import Piece, Word
from guidec.notes.trace import Event, Met

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
        met = event.met
        if met is Met.TEXT or met is Met.INSTEAD or met is Met.DELIMITERS:
            run.append(event)
        elif met <= Met.PICTURE and met is not Met.OPEN:
            _flush(run, content, chart, out)
            if met is Met.MARK:
                out.append(event.what.meta["mark"])
            elif met is Met.CODE:
                _code(event, content, chart, out)
    _flush(run, content, chart, out)
    return tuple(out)


def _flush(run: list[Event], content: str, chart: Chart, out: list[Piece]) -> None:
    """Add the words of a run of text, and empty it."""
    if len(run) == 1 and run[0].met is Met.TEXT:
        start = run[0].start
        span = chart.span
        for found in _WORD.finditer(content, start, run[0].end):
            out.append(Word(found[0], span(*found.span())))
    elif run:
        _joined(run, content, chart, out)
    run.clear()


def _joined(run: Sequence[Event], content: str, chart: Chart, out: list[Piece]) -> None:
    """Words that may go on from one event into the next: `don\\'t`, `un**screw**`."""
    text: list[str] = []
    places: list[tuple[int, int]] = []
    for event in run:
        if event.met is Met.INSTEAD:
            shown = event.what
            places.extend([(event.start, event.end)] * len(shown))
        elif event.met is Met.DELIMITERS and any(token.type != "text" for token in event.what):
            continue
        else:
            shown = content[event.start : event.end]
            places.extend((at, at + 1) for at in range(event.start, event.end))
        text.append(shown)
    for word, start, end in words("".join(text)):
        out.append(Word(word, chart.span(places[start][0], places[end - 1][1])))


def _code(event: Event, content: str, chart: Chart, out: list[Piece]) -> None:
    """The words of a code span; raw HTML has none."""
    if event.what is None:
        return
    ticks = len(event.what.markup)
    for found in re.finditer(r"\S+", content[event.start + ticks : event.end - ticks]):
        start = event.start + ticks + found.start()
        out.append(Word(found[0], chart.span(start, start + len(found[0])), True))
