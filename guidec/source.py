"""Text with a name -> lines and columns. The one door from offsets to places.

Every phase speaks in offsets into `Source.text` (code points, after line ends were made `\\n`); only what is
shown to a person or written for a program goes through `Source.place`.
"""

from __future__ import annotations

from bisect import bisect_right
from dataclasses import field
from functools import cached_property
from typing import NamedTuple

from guidec.quick import dataclass

__all__ = ["Place", "Source", "Span"]


_new = tuple.__new__  # called for every place: a named tuple's own constructor takes twice as long


class Span(NamedTuple):
    """A half-open range of offsets, in code points, into the text of one source."""

    start: int
    end: int

    def to(self, other: Span) -> Span:
        """The span from the start of this one to the end of `other`."""
        return Span(self.start, other.end)


class Place(NamedTuple):
    """A line and a column, both counted from 1, the column in code points."""

    line: int
    column: int


@dataclass(frozen=True)
class Source:
    """A text and the name to show for it. Line ends must be `\\n`: use `Source.of` for raw text."""

    name: str
    text: str = field(repr=False)

    @classmethod
    def of(cls, name: str, text: str) -> Source:
        """A source of raw text: a byte-order mark is dropped, `\\r\\n` and `\\r` become `\\n`."""
        return cls(name, text.removeprefix("\ufeff").replace("\r\n", "\n").replace("\r", "\n"))

    @cached_property
    def line_starts(self) -> tuple[int, ...]:
        """The offset at which each line starts; the first is 0."""
        starts = [0]
        find = self.text.find
        at = find("\n")
        while at >= 0:
            starts.append(at + 1)
            at = find("\n", at + 1)
        return tuple(starts)

    def place(self, offset: int) -> Place:
        """The line and column of an offset; one past the end is the place after the last character."""
        starts = self.line_starts
        line = bisect_right(starts, offset)
        return _new(Place, (line, offset - starts[line - 1] + 1))

    def line_span(self, line: int) -> Span:
        """The span of line `line` (from 1), without its line end."""
        start = self.line_starts[line - 1]
        end = self.line_starts[line] - 1 if line < len(self.line_starts) else len(self.text)
        return Span(start, end)

    def line(self, line: int) -> str:
        """The text of line `line` (from 1), without its line end."""
        return self.slice(self.line_span(line))

    def slice(self, span: Span) -> str:
        """The text of a span."""
        return self.text[span.start : span.end]
