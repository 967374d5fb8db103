"""One block's text as markdown-it read it -> `Inline`, and what is wrong in it."""

from __future__ import annotations

from collections.abc import Sequence

from markdown_it.helpers import parseLinkDestination
from markdown_it.token import Token

from guidec.notes import times
from guidec.notes.chart import Chart
from guidec.notes.guesses import closed
from guidec.notes.pictures import picture
from guidec.notes.shown import short
from guidec.notes.syntax import Inline, Picture
from guidec.notes.trace import Event, Met
from guidec.notes.words import pieces
from guidec.rules.finding import Finding

__all__ = ["InlineReader"]


_LONGEST_GUESS = 200


class InlineReader:
    """Makes `Inline` values, kept in `done`; `findings` collects what is wrong."""

    __slots__ = ("done", "findings")

    def __init__(self, findings: list[Finding]) -> None:
        self.findings = findings
        self.done: list[Inline] = []

    def read(self, token: Token, *, timed: bool = False, cell: bool = False) -> Inline:
        """The text of an inline token. `timed`: a time may stand at a line's end (headings, list lines)."""
        meta = token.meta
        content, chart, events, odd = token.content, meta.pop("chart"), meta.pop("events"), meta.pop("odd")
        time = None
        if timed and "@" in content:
            taken = times.take(events, content, chart)
            events, time = taken.events, taken.time
            self.findings.extend(taken.findings)
            if taken.cuts:
                _cut(token.children or [], taken.cuts)
        shown = self._extras(events, content, chart, cell) if odd else ()
        read = Inline(
            chart.span(0, len(content)), pieces(events, content, chart), tuple(token.children or ()), shown, time
        )
        self.done.append(read)
        return read

    def _extras(self, events: list[Event], content: str, chart: Chart, cell: bool) -> tuple[Picture, ...]:
        """The pictures, and findings for what is neither word nor mark."""
        pictures: list[Picture] = []
        for event in events:
            if event[0] is Met.PICTURE:
                found, wrong = picture(event, content, chart)
                pictures.append(found)
                event[3].meta["picture"] = found
                self.findings.extend(wrong)
            elif event[0] > Met.PICTURE:
                self._odd(event, content, chart, cell)
        return tuple(pictures)

    def _odd(self, event: Event, content: str, chart: Chart, cell: bool) -> None:
        met, first, last, what = event
        span = chart.span(first, last)
        typed = content[first:last]
        if met is Met.OPEN:
            if what == "unclosed":
                guess = [closed(typed)] if len(typed) <= _LONGEST_GUESS else []
                variant = "cell" if cell and last == len(content) else ""
                self.findings.append(Finding.at("N101", span, variant=variant, mark=short(typed), suggest=guess))
            elif what == "picture":
                alt, _, path = typed[:-1].partition("](")
                self.findings.append(
                    Finding.at("N214", span, suggest=[f"{alt}](<{path.strip()}>)"], path=short(path))
                )
            else:
                self.findings.append(Finding.at("N102" if what == "stray" else "N103", span))
        elif met is Met.REFUSED:
            start, end = _destination(content, first)
            self.findings.append(Finding.at("N210", chart.span(start, end), address=short(what)))
        else:
            self.findings.append(Finding.at("N213", span, html=short(typed)))


def _destination(content: str, start: int) -> tuple[int, int]:
    """Where the address of a link stands that starts at `start`."""
    opened = content.find("](", start)
    if content[start] == "<":
        end = content.find(">", start)
        return start + 1, end if end > start else len(content)
    if opened < 0:
        return start, start + 1
    at = opened + 2
    while content[at : at + 1].isspace():
        at += 1
    found = parseLinkDestination(content, at, len(content))
    return (at, found.pos) if found.ok and found.pos > at else (start, start + 1)


def _cut(tokens: list[Token], cuts: Sequence[tuple[int, str]]) -> None:
    """Take texts from the ends of lines (each with the line's number) out of the tokens that print them."""
    wanted = dict(cuts)
    line = 0
    last: dict[int, Token] = {}
    for token in tokens:
        if token.type in ("softbreak", "hardbreak"):
            line += 1
        elif token.type == "text" and line in wanted and wanted[line].strip() in token.content:
            last[line] = token
    for line, token in last.items():
        head, _, tail = token.content.rpartition(wanted[line].strip())
        token.content = head.rstrip() + (" " if tail.strip() else "") + tail.lstrip()
