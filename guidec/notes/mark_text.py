"""A stretch of a block's text -> its wording (escapes and entities resolved, white space folded) and its place."""

from __future__ import annotations

import re
from html import unescape
from typing import NamedTuple

from markdown_it.common.entities import entities

from guidec.notes.chart import Chart
from guidec.source import Span

__all__ = ["Stretch"]

_ESCAPE = re.compile(r"\\([!-/:-@\[-`{-~])|\\(\n)")
_ENTITY = re.compile(r"&(?:#(?:[xX][0-9a-fA-F]{1,6}|[0-9]{1,7})|[A-Za-z][A-Za-z0-9]{1,31});")
_HIDDEN = re.compile(rf"{_ESCAPE.pattern}|{_ENTITY.pattern}")


class Stretch(NamedTuple):
    """The range from `start` to `end` of a block's `text`.

    `masked` is the text with everything blanked out that is plain although it looks like a separator.
    """

    text: str
    masked: str
    chart: Chart
    start: int
    end: int

    @classmethod
    def of(cls, text: str, chart: Chart, start: int, end: int, plain: tuple[tuple[int, int], ...] = ()) -> Stretch:
        """A stretch of `text`; the ranges `plain` hold no separators (marks inside a mark)."""
        masked = text
        if text.find("\\", start, end) >= 0 or text.find("&", start, end) >= 0:
            masked = text[:start] + _HIDDEN.sub(_blank, text[start:end]) + text[end:]
        for first, last in plain:
            masked = masked[:first] + "\0" * (last - first) + masked[last:]
        return cls(text, masked, chart, start, end).trimmed()

    def trimmed(self) -> Stretch:
        """Without white space at its ends."""
        start, end, text = self.start, self.end, self.text
        while start < end and text[start].isspace():
            start += 1
        while end > start and text[end - 1].isspace():
            end -= 1
        return self._replace(start=start, end=end) if (start, end) != self[3:] else self

    def part(self, start: int, end: int) -> Stretch:
        """A shorter stretch, trimmed."""
        return self._replace(start=start, end=end).trimmed()

    def cut(self, separator: str) -> tuple[Stretch, Stretch | None]:
        """What stands before and after the first `separator`; None where there is none."""
        at = self.masked.find(separator, self.start, self.end)
        if at < 0:
            return self, None
        return self.part(self.start, at), self.part(at + 1, self.end)

    def find(self, separators: str) -> int:
        """The position of the first of several separators, or the end."""
        ends = [self.masked.find(each, self.start, self.end) for each in separators]
        return min([at for at in ends if at >= 0], default=self.end)

    @property
    def typed(self) -> str:
        """The text as typed."""
        return self.text[self.start : self.end]

    @property
    def words(self) -> str:
        """The text with escapes and entities resolved and white space folded."""
        typed = self.text[self.start : self.end]
        if "\\" in typed or "&" in typed:
            typed = _HIDDEN.sub(_shown, typed)
        return " ".join(typed.split())

    @property
    def span(self) -> Span:
        """Its place in the source."""
        return self.chart.span(self.start, self.end)


def _is_plain(found: re.Match[str]) -> bool:
    typed = found[0]
    return typed[0] == "&" and typed[1] != "#" and typed[1:-1] not in entities


def _blank(found: re.Match[str]) -> str:
    return found[0] if _is_plain(found) else "\0" * len(found[0])


def _shown(found: re.Match[str]) -> str:
    if _is_plain(found):
        return found[0]
    if found[1]:
        return str(found[1])
    return " " if found[2] else unescape(found[0])
