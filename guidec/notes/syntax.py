"""The located syntax of a note: what was typed, and where, before anything is made of it.

Spans are offsets into the note's source. `tokens` are markdown-it's own, kept for rendering prose as it was
written; treat them as read only.
"""

from __future__ import annotations

from collections.abc import Mapping, Sequence
from dataclasses import field
from typing import Any, NamedTuple

from markdown_it.token import Token

from guidec.quick import dataclass, settle
from guidec.source import Source, Span

__all__ = [
    "Block",
    "Document",
    "Entry",
    "Heading",
    "Inline",
    "Item",
    "ItemList",
    "Key",
    "Located",
    "Mark",
    "Paragraph",
    "Picture",
    "Piece",
    "Quote",
    "Table",
    "TimeRange",
    "Verbatim",
    "Word",
]


@dataclass(frozen=True, slots=True)
class Key:
    """One `key=value` of a mark; a key that stands bare has no value."""

    name: str
    name_span: Span
    value: str | None
    value_span: Span


@dataclass(frozen=True, slots=True)
class Mark:
    """One `{…}`. Without a kind word that the language knows, `kind` is empty and `name` is all before the colon.

    For `refit` and `risk`, and for the values, `name` and `details` hold the text as typed (a `risk`'s thing is
    its name) and `inner` the marks inside. `points` are the `X,Y` of a pin, in percent.
    """

    span: Span
    kind: str
    kind_span: Span
    name: str
    name_span: Span
    details: str = ""
    details_span: Span = Span(0, 0)
    keys: tuple[Key, ...] = ()
    draft: bool = False
    inner: tuple[Mark, ...] = ()
    points: tuple[tuple[float, float], ...] = ()
    whole: str = ""
    """All before the first `:` or `;`, kind word too: a declared name of that wording wins over the kind."""
    whole_span: Span = Span(0, 0)
    text: str = ""
    """The mark as typed, braces included."""


class Word(NamedTuple):
    """A run of characters between white space, or one punctuation character. `code`: inside back-ticks."""

    text: str
    span: Span
    code: bool = False


Piece = Word | Mark


@dataclass(frozen=True, slots=True)
class Picture:
    """An `![alt](path "title")`. `path` is as typed (percent-decoded); `path_span` is its place."""

    span: Span
    alt: str
    alt_span: Span
    path: str
    path_span: Span
    title: str = ""


@dataclass(frozen=True, slots=True)
class TimeRange:
    """`@0:35-1:50`: seconds from the start of the recording; without an end, `end` is None."""

    start: float
    end: float | None
    span: Span


@dataclass(frozen=True, slots=True)
class Inline:
    """The text of one paragraph, heading or table cell.

    `pieces`: words and marks in reading order (what the action reader reads). `pictures`: images in it.
    `tokens`: markdown-it's inline children, marks as tokens of type `mark` with the Mark in `meta["mark"]`,
    the time range left out.
    """

    span: Span
    pieces: tuple[Piece, ...]
    tokens: tuple[Token, ...] = field(default=(), repr=False)
    pictures: tuple[Picture, ...] = ()
    time: TimeRange | None = None
    marks: tuple[Mark, ...] = field(default=(), repr=False)
    """The marks among the pieces, in order, not those inside other marks; worked out, never given."""

    def __post_init__(self) -> None:
        """Pick the marks once: every phase asks for them."""
        settle(self, "marks", tuple([piece for piece in self.pieces if not isinstance(piece, Word)]))


@dataclass(frozen=True, slots=True)
class Heading:
    """A heading of level 1 to 6."""

    span: Span
    level: int
    inline: Inline
    tokens: tuple[Token, ...] = field(default=(), repr=False)


@dataclass(frozen=True, slots=True)
class Paragraph:
    """A paragraph, also one inside a list item or a quote."""

    span: Span
    inline: Inline
    tokens: tuple[Token, ...] = field(default=(), repr=False)


@dataclass(frozen=True, slots=True)
class Item:
    """One item of a list, with whatever blocks stand in it. `marker` is the span of `-` or `1.`."""

    span: Span
    marker: Span
    blocks: tuple[Block, ...]


@dataclass(frozen=True, slots=True)
class ItemList:
    """A list."""

    span: Span
    ordered: bool
    items: tuple[Item, ...]
    start: int = 1
    tokens: tuple[Token, ...] = field(default=(), repr=False)


@dataclass(frozen=True, slots=True)
class Quote:
    """A block quote."""

    span: Span
    blocks: tuple[Block, ...]
    tokens: tuple[Token, ...] = field(default=(), repr=False)


@dataclass(frozen=True, slots=True)
class Table:
    """A table: its cells row by row, the first row its head."""

    span: Span
    rows: tuple[tuple[Inline, ...], ...]
    tokens: tuple[Token, ...] = field(default=(), repr=False)


@dataclass(frozen=True, slots=True)
class Verbatim:
    """A block without inline text: code, raw HTML, a thematic break."""

    span: Span
    tokens: tuple[Token, ...] = field(default=(), repr=False)


Block = Heading | Paragraph | ItemList | Quote | Table | Verbatim


@dataclass(frozen=True, slots=True)
class Located:
    """A value of the front matter with its place: a scalar, a tuple of Located, or a mapping to Entry."""

    value: bool | int | float | str | tuple[Located, ...] | Mapping[str, Entry] | None
    span: Span
    typed: str = ""
    """A scalar as it was typed (`0.10` keeps its nought)."""

    def plain(self) -> Any:
        """The value as plain Python data."""
        if isinstance(self.value, tuple):
            return [item.plain() for item in self.value]
        if isinstance(self.value, Mapping):
            return {key: entry.value.plain() for key, entry in self.value.items()}
        return self.value

    def get(self, key: str) -> Located | None:
        """The value under a key, or None; None too where this is no mapping."""
        if isinstance(self.value, Mapping) and key in self.value:
            return self.value[key].value
        return None

    def at(self, path: Sequence[str | int]) -> tuple[Located, Entry | None]:
        """The value at a path of keys and places, and the entry it is the value of, or the nearest around it."""
        value, entry = self, None
        for step in path:
            inside = value.value
            if isinstance(inside, Mapping) and step in inside:
                entry = inside[str(step)]
                value = entry.value
            elif isinstance(inside, tuple) and isinstance(step, int):
                value = inside[step]
        return value, entry


@dataclass(frozen=True, slots=True)
class Entry:
    """One key of a mapping in the front matter."""

    key: str
    key_span: Span
    value: Located


@dataclass(frozen=True, slots=True)
class Document:
    """A whole note: its front matter (an empty mapping where there is none) and its blocks.

    `inlines`: all stretches of text in the blocks, in reading order. `broken`: the spans of marks that were not
    closed or said nothing. They are plain text in the blocks; a name that stands in one may well be what a later
    phase misses.
    """

    source: Source
    front: Located
    blocks: tuple[Block, ...]
    inlines: tuple[Inline, ...]
    broken: tuple[Span, ...] = ()
