"""What the inline rules met, in reading order: the raw stuff of words, marks, pictures and findings.

The inline rules write here while markdown-it makes its tokens. Positions are into the text of one block, those
inside a picture's alt text included.
"""

from __future__ import annotations

from enum import IntEnum
from typing import Any

__all__ = ["Event", "Met", "Trace"]


class Met(IntEnum):
    """What was met. In brackets, what the event holds besides."""

    TEXT = 0  # plain text as it stands (None)
    INSTEAD = 1  # an escape or entity (the text it stands for)
    DELIMITERS = 2  # `*` or `_` (their tokens: those still of type `text` at the end are plain)
    BREAK = 3  # a line end (None)
    CODE = 4  # a code span (its token), or raw HTML that is one (None)
    MARK = 5  # a mark (its token)
    PICTURE = 6  # a picture (its token)
    OPEN = 7  # a brace that is no mark's (why)
    REFUSED = 8  # a link that is not followed (its address)
    HTML = 9  # raw HTML that is shown as text (None)


Event = tuple[Met, int, int, Any]
"""What was met, its start and end, and what it holds."""


class Trace:
    """The events of the block that is being read, and where a nested text (alt) starts in it.

    `emphasis`: it holds delimiters. `odd`: it holds more than text, code and marks. `unclosed`: how many marks are
    open. `lenient`: an address is a picture's, whose path is looked at later.
    """

    __slots__ = ("base", "emphasis", "events", "lenient", "odd", "refused", "unclosed")

    def __init__(self) -> None:
        self.base = 0
        self.emphasis = self.odd = False
        self.unclosed = 0
        self.events: list[Event] = []
        self.refused: list[str] = []
        self.lenient = False

    def add(self, met: Met, start: int, end: int, what: Any = None) -> None:
        """Write down what was met between two positions of the text that is being read."""
        self.events.append((met, self.base + start, self.base + end, what))
        if met > Met.MARK:
            self.odd = True

    def take(self) -> list[Event]:
        """The events of the block that was read; the next block starts anew."""
        events, self.events, self.base = self.events, [], 0
        self.emphasis = self.odd = False
        self.unclosed = 0
        return events
