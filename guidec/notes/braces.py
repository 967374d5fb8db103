"""Where a mark ends -> its closing brace and the marks inside it, or why it has none."""

from __future__ import annotations

import re
from typing import NamedTuple

__all__ = ["WHOLE_MARK", "Extent", "Fault", "extent"]

WHOLE_MARK = r"\{[^{}\\\s?][^{}\\]*\}"
"""A mark with nothing in it that asks for a closer look, as a regular expression."""

_BRACE = re.compile(r"\\.|[{}]", re.S)
_SIMPLE = re.compile(r"\{[^{}\\]*\}")
_NESTS = re.compile(r"\{\s*(?:\?\s*)?(?:refit(?!\s+only\s*\})|risk)\s", re.I)
_MOST_INSIDE = 100


class Fault(NamedTuple):
    """A mark inside another that is none: not closed, or too deep."""

    why: str
    start: int
    end: int


class Extent(NamedTuple):
    """A mark from `start` to `end` (after its `}`); `end` is -1 for one that is not closed.

    `until`: where the text of one that is not closed ends. `inner`: the ranges of the marks inside.
    """

    start: int
    end: int
    until: int
    inner: tuple[tuple[int, int], ...] = ()
    faults: tuple[Fault, ...] = ()

    def moved(self, by: int) -> Extent:
        """The same in a text that has `by` more characters before it."""
        inner = tuple((start + by, end + by) for start, end in self.inner)
        faults = tuple(Fault(why, start + by, end + by) for why, start, end in self.faults)
        return Extent(self.start + by, self.end + by, self.until + by, inner, faults)


def extent(text: str, start: int, limit: int) -> Extent:
    """The extent of the mark that opens at `start`, read no further than `limit`."""
    simple = _SIMPLE.match(text, start, limit)
    if simple:
        end = simple.end()
        return Extent(start, end, end)
    if _NESTS.match(text, start, limit):
        return _nesting(text, start, limit)
    found = _next(text, start + 1, limit)
    if found is not None and text[found] == "}":
        return Extent(start, found + 1, found + 1)
    return Extent(start, -1, _until(text, start, found, limit))


def _next(text: str, at: int, limit: int) -> int | None:
    """The next brace that is not escaped."""
    while found := _BRACE.search(text, at, limit):
        if found.end() - found.start() == 1:
            return found.start()
        at = found.end()
    return None


def _until(text: str, start: int, brace: int | None, limit: int) -> int:
    """Where a mark that is not closed ends: with its line's text, or at the next brace that opens one."""
    line = text.find("\n", start, limit)
    ends = [limit if line < 0 else line]
    if brace is not None and text[brace] == "{":
        ends.append(brace)
    until = min(ends)
    while until > start + 1 and text[until - 1].isspace():
        until -= 1
    return until


def _nesting(text: str, start: int, limit: int) -> Extent:
    """The extent of a `refit` or a `risk`, in which marks may stand, one level deep."""
    inner: list[tuple[int, int]] = []
    faults: list[Fault] = []
    first = at = _next(text, start + 1, limit)
    while at is not None and text[at] == "{" and len(inner) + len(faults) < _MOST_INSIDE:
        if _NESTS.match(text, at, limit):
            end = _too_deep(text, at, limit, faults)
        else:
            following = _next(text, at + 1, limit)
            end = following + 1 if following is not None and text[following] == "}" else -1
            if end < 0:
                faults.append(Fault("unclosed", at, _until(text, at, following, limit)))
        if end >= 0:
            inner.append((at, end))
        at = _next(text, end if end >= 0 else at + 1, limit)
    if at is None or text[at] == "{":
        return Extent(start, -1, _until(text, start, first, limit))
    return Extent(start, at + 1, at + 1, tuple(inner), tuple(faults))


def _too_deep(text: str, start: int, limit: int, faults: list[Fault]) -> int:
    """The end of a nesting mark inside another; what stands inside that one is a fault. -1: not closed."""
    deeper: list[Fault] = []
    at = _next(text, start + 1, limit)
    while at is not None and text[at] == "{" and len(deeper) < _MOST_INSIDE:
        following = _next(text, at + 1, limit)
        if following is None or text[following] == "{":
            break
        deeper.append(Fault("deep", at, following + 1))
        at = _next(text, following + 1, limit)
    if at is None or text[at] == "{":
        faults.append(Fault("unclosed", start, _until(text, start, at, limit)))
        return -1
    faults.extend(deeper)
    return at + 1
