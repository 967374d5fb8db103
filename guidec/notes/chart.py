"""Positions in the text of one paragraph, heading or cell -> offsets into the source.

Markdown takes prefixes (`> `, indents) off a block's lines before it reads their text. A chart remembers where
each stretch of that text stood.
"""

from __future__ import annotations

from bisect import bisect_right
from collections.abc import Sequence

from guidec.source import Span

__all__ = ["Chart"]

_new = tuple.__new__  # called for every word: a named tuple's own constructor takes twice as long


class Chart:
    """A map that goes up by stretches: from `starts[k]` on, a position p stands at `p + shifts[k]`.

    `only`: what to add to every position, where there is one stretch.
    """

    __slots__ = ("_shifts", "_starts", "only")

    def __init__(self, starts: Sequence[int], shifts: Sequence[int]) -> None:
        self._starts = starts
        self._shifts = shifts
        self.only = shifts[0] if len(shifts) == 1 else None

    @classmethod
    def of_lines(cls, lines: Sequence[str], ends: Sequence[int], offset: int) -> Chart:
        """The chart of a text that is `lines` joined by line ends; line k ends at `ends[k] + offset`."""
        starts, shifts, at = [], [], 0
        for line, end in zip(lines, ends, strict=True):
            starts.append(at)
            at += len(line) + 1
            shifts.append(end - at + 1 + offset)
        return cls(starts, shifts)

    def at(self, position: int) -> int:
        """The offset of a position."""
        return position + self.shift(position)

    def shift(self, position: int) -> int:
        """What to add to a position, and to those after it on its line."""
        if self.only is not None:
            return self.only
        return self._shifts[max(bisect_right(self._starts, position) - 1, 0)]

    def spans(self, *ranges: tuple[int, int]) -> list[Span]:
        """The spans of several ranges."""
        shift = self.only
        if shift is not None:
            return [_new(Span, (start + shift, end + shift)) for start, end in ranges]
        return [self.span(start, end) for start, end in ranges]

    def span(self, start: int, end: int) -> Span:
        """The span of a range of positions: from its first to the end of its last character."""
        shift = self.only
        if shift is not None:
            return _new(Span, (start + shift, end + shift))
        first = self.at(start)
        return Span(first, self.at(end - 1) + 1 if end > start else first)
