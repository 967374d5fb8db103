"""The text between a mark's braces -> ranges of it, their wording and their place.

A backslash makes the punctuation after it plain, and an entity stands for its character, as elsewhere in Markdown;
white space folds.
"""

from __future__ import annotations

import re
from html import unescape

from markdown_it.common.entities import entities

from guidec.notes.chart import Chart
from guidec.source import Span

__all__ = ["Body", "Range"]

Range = tuple[int, int]

_ESCAPE = r"\\([!-/:-@\[-`{-~])|\\(\n)"
_ENTITY = r"&(?:#(?:[xX][0-9a-fA-F]{1,6}|[0-9]{1,7})|[A-Za-z][A-Za-z0-9]{1,31});"
_HIDDEN = re.compile(f"{_ESCAPE}|{_ENTITY}")
_UNTIDY = re.compile(r"[\\&]|\s\s|[^\S ]")


class Body:
    """A range of a block's text. `masked` has blanks for what looks like a separator and is plain."""

    __slots__ = ("_tidy", "chart", "masked", "text")

    def __init__(self, text: str, chart: Chart, start: int, end: int, inner: tuple[Range, ...] = ()) -> None:
        self.text = self.masked = text
        self.chart = chart
        self._tidy = not _UNTIDY.search(text, start, end)
        if not self._tidy:
            self.masked = text[:start] + _HIDDEN.sub(_blank, text[start:end]) + text[end:]
        for first, last in inner:
            self.masked = self.masked[:first] + "\0" * (last - first) + self.masked[last:]

    def trim(self, start: int, end: int) -> Range:
        """The range without white space at its ends."""
        text = self.text
        while start < end and text[start].isspace():
            start += 1
        while start < end and text[end - 1].isspace():
            end -= 1
        return start, end

    def find(self, separator: str, start: int, end: int) -> int:
        """The position of a separator in a range, or -1."""
        return self.masked.find(separator, start, end)

    def words(self, start: int, end: int) -> str:
        """The wording of a range."""
        typed = self.text[start:end]
        return typed if self._tidy else " ".join(_HIDDEN.sub(_shown, typed).split())

    def span(self, start: int, end: int) -> Span:
        """The place of a range in the source."""
        return self.chart.span(start, end)


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
