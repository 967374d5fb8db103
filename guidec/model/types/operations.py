"""The operations of a note, and what stands in them."""

from __future__ import annotations

from guidec.model.types.said import Ref, Time
from guidec.model.types.words import Signal
from guidec.notes.syntax import Block, Inline
from guidec.quick import dataclass
from guidec.source import Span

__all__ = [
    "After",
    "Content",
    "Crop",
    "Drawn",
    "Group",
    "Hazard",
    "Line",
    "Lines",
    "Operation",
    "Pin",
    "Prose",
    "Shown",
    "Supposed",
]


@dataclass(frozen=True, slots=True)
class Hazard:
    """A hazard in the author's words (`added` False) or one the compiler adds."""

    span: Span
    signal: Signal
    text: str
    inline: Inline | None = None
    added: bool = False
    rule: str = ""
    """For an added one: the id of the hazard text in the trade's data."""
    blocks: tuple[Block, ...] = ()
    """Further paragraphs of the quote."""


@dataclass(frozen=True, slots=True)
class Pin:
    """Points on a picture, in percent from the top left, and the thing they show."""

    span: Span
    points: tuple[tuple[float, float], ...]
    thing: Ref


@dataclass(frozen=True, slots=True)
class Drawn:
    """An outline or an arrow on a picture. `points` as of a pin: of an `outline` two opposite corners of a box or
    the corners of a closed line, of an `arrow` the way from tail to head. `text`: its words, maybe none; `thing`:
    where they are the name of one."""

    span: Span
    shape: str
    points: tuple[tuple[float, float], ...]
    text: str = ""
    thing: Ref | None = None


@dataclass(frozen=True, slots=True)
class Crop:
    """The part of a picture that is shown, in percent of the whole one."""

    span: Span
    left: float
    top: float
    right: float
    bottom: float


@dataclass(frozen=True, slots=True)
class Shown:
    """A picture where it stands in the note, with its pins, what is drawn on it, and the part that is shown.

    All points are percent of the whole picture, cropped or not.
    """

    span: Span
    alt: str
    path: str
    path_span: Span
    title: str = ""
    pins: tuple[Pin, ...] = ()
    drawn: tuple[Drawn, ...] = ()
    crop: Crop | None = None


@dataclass(frozen=True, slots=True)
class Prose:
    """Markdown that is kept as it is: a paragraph, a table, code, a `###` heading, a plain quote."""

    span: Span
    block: Block


@dataclass(frozen=True, slots=True)
class Line:
    """A list line: the actions in it (none: a remark), and what stands below it in the item."""

    span: Span
    inline: Inline
    actions: tuple[str, ...]
    content: tuple[Content, ...] = ()
    number: int | None = None


@dataclass(frozen=True, slots=True)
class Lines:
    """A list of lines."""

    span: Span
    ordered: bool
    lines: tuple[Line, ...]


@dataclass(frozen=True, slots=True)
class Group:
    """A `###` heading that groups text within an operation."""

    span: Span
    level: int
    inline: Inline


Content = Lines | Hazard | Shown | Prose | Group


@dataclass(frozen=True, slots=True)
class After:
    """An operation's own word on what comes before it.

    `refs`: things and operations it names. `nothing`: `{after nothing}`. `also`: besides the operation before it.
    """

    span: Span
    refs: tuple[Ref, ...]
    nothing: bool = False
    also: bool = False


@dataclass(frozen=True, slots=True)
class Supposed:
    """A fastening that is taken to hold a part, for want of a word, in one operation."""

    fastening: str
    part: str
    action: str


@dataclass(frozen=True, slots=True)
class Operation:
    """One operation. `number` is 10, 20, 30 … in note order.

    `actions`: its actions' ids in note order. `hazards`: those that belong to the whole operation (each also
    stands in `content` at its place). `side`: where it starts; `ends_side`: where it ends, turns counted.
    """

    id: str
    number: int
    title: str
    span: Span
    heading: Inline
    heading_span: Span
    actions: tuple[str, ...]
    content: tuple[Content, ...]
    after: tuple[After, ...] = ()
    instead_of: str | None = None
    instead_span: Span | None = None
    side: str | None = None
    side_stated: bool = False
    ends_side: str | None = None
    live: bool = False
    optional: bool = False
    refit_only: bool = False
    time: Time | None = None
    hazards: tuple[Hazard, ...] = ()
    supposed: tuple[Supposed, ...] = ()
    was: tuple[str, ...] = ()
    """The ids that it had in earlier revisions, as `was` on its heading says."""
    draft: bool = False
