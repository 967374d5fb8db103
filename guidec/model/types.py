"""The model of a note: frozen typed values, each with the span it comes from.

Things, operations and actions refer to each other by id. Everything that a later phase wants to know of a note
is here: roles in an action, what it changes, and each need as the ways in which it can be served. What costs
least among the ways is not decided here (see `guidec.plan`).
"""

from __future__ import annotations

from collections.abc import Mapping
from enum import StrEnum
from functools import cached_property
from typing import Any

from guidec.notes.syntax import Block, Inline, Located
from guidec.quick import dataclass
from guidec.source import Source, Span
from guidec.trade.units import Quantity

__all__ = [
    "Action",
    "Adhesive",
    "After",
    "Amount",
    "Battery",
    "Change",
    "Clip",
    "Connector",
    "Content",
    "Crop",
    "Drawn",
    "Effect",
    "Family",
    "FastenerNotation",
    "Fastening",
    "Group",
    "Guide",
    "Hazard",
    "Heat",
    "Kind",
    "Line",
    "Lines",
    "Measure",
    "Meta",
    "Need",
    "Operation",
    "Part",
    "Pin",
    "Prose",
    "Quantity",
    "Reason",
    "Recording",
    "Ref",
    "RefitNote",
    "Reuse",
    "Risk",
    "ScrewSet",
    "Shown",
    "Signal",
    "Solder",
    "Subject",
    "Supply",
    "Supposed",
    "Thermal",
    "Thing",
    "Thread",
    "Time",
    "Tool",
    "Use",
    "Verdict",
    "Wait",
]


class Kind(StrEnum):
    """The kinds of things."""

    PART = "part"
    SCREW = "screw"
    CLIP = "clip"
    ADHESIVE = "adhesive"
    CONNECTOR = "connector"
    SOLDER = "solder"
    THERMAL = "thermal"
    FASTENING = "fastening"
    TOOL = "tool"
    SUPPLY = "supply"


class Reuse(StrEnum):
    """How a fastening comes through (Reg. (EU) 2023/1669); `unknown` where nobody says."""

    REUSABLE = "reusable"
    RESUPPLIED = "resupplied"
    REMOVABLE = "removable"
    NEITHER = "neither"
    UNKNOWN = "unknown"


class Family(StrEnum):
    """What a verb does."""

    UNDO = "undo"
    SOFTEN = "soften"
    MOVE = "move"
    TURN = "turn"
    TREAT = "treat"
    CHECK = "check"
    LOOK = "look"


class Change(StrEnum):
    """What an action does to one of its objects."""

    OFF = "off"
    MOVED = "moved"
    UNDONE = "undone"
    OPEN = "open"
    EXPOSED = "exposed"


class Signal(StrEnum):
    """Signal words, gravest first (ANSI Z535.6)."""

    DANGER = "DANGER"
    WARNING = "WARNING"
    CAUTION = "CAUTION"
    NOTICE = "NOTICE"


@dataclass(frozen=True, slots=True)
class Ref:
    """A name that refers to a thing (or an operation); `id` is None where nothing of that name is declared."""

    name: str
    span: Span
    id: str | None
    operation: bool = False


@dataclass(frozen=True, slots=True)
class Heat:
    """A `{heat …}`: a temperature, a time, or both."""

    span: Span
    text: str
    temperature: Quantity | None
    duration: Quantity | None


@dataclass(frozen=True, slots=True)
class Wait:
    """A `{wait …}`."""

    span: Span
    text: str
    duration: Quantity | None


@dataclass(frozen=True, slots=True)
class Measure:
    """A `{measure …}`: the value to find, and where."""

    span: Span
    text: str
    value: Quantity | None
    where: str


@dataclass(frozen=True, slots=True)
class Time:
    """Seconds from the start of the recording."""

    start: float
    end: float | None
    span: Span


# ---------------------------------------------------------------- things


@dataclass(frozen=True, slots=True, kw_only=True)
class Thing:
    """What every declared thing has. `places` are all marks that name it, in note order, the declaration too."""

    id: str
    name: str
    span: Span
    places: tuple[Span, ...]
    kind: Kind
    details: str = ""
    was: tuple[str, ...] = ()
    """The ids that it had in earlier revisions, as its `was` says."""
    draft: bool = False
    implied: bool = False
    """Entered by the compiler (a screw set's driver), not marked by the author."""


@dataclass(frozen=True, slots=True)
class Battery:
    """Rated capacity, nominal voltage, and energy = mAh / 1000 x V, in Wh; each None where not given."""

    capacity_mah: float | None
    voltage_v: float | None
    energy_wh: float | None


@dataclass(frozen=True, slots=True, kw_only=True)
class Part(Thing):
    """A part. `inside`: the assembly it belongs to (`in`). `cls` is a class of the table, or None."""

    qty: int = 1
    number: str | None = None
    cls: str | None = None
    cls_proposed: bool = False
    cls_span: Span | None = None
    material: str | None = None
    mass: Quantity | None = None
    under: tuple[Ref, ...] = ()
    inside: Ref | None = None
    sold_with: tuple[Ref, ...] = ()
    source: str | None = None
    battery: Battery | None = None


@dataclass(frozen=True, slots=True)
class Thread:
    """A thread as typed, in mm: `system` is `M`, `ST` or `` (by diameter); a pitch only where it is not coarse
    or was typed."""

    text: str
    system: str
    diameter_mm: float
    pitch_mm: float | None
    length_mm: float | None


@dataclass(frozen=True, slots=True)
class FastenerNotation:
    """`4x PH0 M2x6` taken apart. Spans point at each piece; a piece not typed is None."""

    count: int | None
    count_span: Span | None
    drives: tuple[str, ...]
    drive_span: Span | None
    unknown_drives: tuple[str, ...]
    thread: Thread | None
    thread_span: Span | None
    rest: str
    """What could not be read as count, drive or thread."""
    rest_span: Span | None


@dataclass(frozen=True, slots=True, kw_only=True)
class ScrewSet(Thing):
    """A set of like screws, nuts or standoffs."""

    notation: FastenerNotation | None = None
    head: str | None = None
    colour: str | None = None
    torque: Quantity | None = None
    grade: str | None = None
    left_hand: bool = False
    locked: str | None = None
    """None: not locked; else what locks it as typed (`` for a bare key)."""
    captive: bool = False
    renew: bool = False
    holds: tuple[Ref, ...] = ()
    reuse: Reuse = Reuse.REUSABLE
    reuse_stated: bool = False

    @property
    def count(self) -> int | None:
        """How many there are, where known."""
        return self.notation.count if self.notation else None

    @property
    def drives(self) -> tuple[str, ...]:
        """The drives that fit, canonical (`PH0`, `SL4`), or as typed where unknown."""
        return self.notation.drives if self.notation else ()

    @property
    def thread(self) -> Thread | None:
        """The thread, where known."""
        return self.notation.thread if self.notation else None


@dataclass(frozen=True, slots=True, kw_only=True)
class Connector(Thing):
    """A connector. `from_` and `to` are what its two ends belong to."""

    type: str = ""
    from_: Ref | None = None
    to: Ref | None = None
    qty: int = 1
    reuse: Reuse = Reuse.REUSABLE
    reuse_stated: bool = False


@dataclass(frozen=True, slots=True, kw_only=True)
class Fastening(Thing):
    """A `fastening`: anything that holds and has no kind of its own. The base of the other plain fastenings.

    `count` where the details start with one; `renew`: a new one goes in on refit.
    """

    type: str = ""
    count: int | None = None
    holds: tuple[Ref, ...] = ()
    renew: bool = False
    reuse: Reuse = Reuse.UNKNOWN
    reuse_stated: bool = False
    amount: Amount | None = None


@dataclass(frozen=True, slots=True, kw_only=True)
class Adhesive(Fastening):
    """Glue or tape."""


@dataclass(frozen=True, slots=True, kw_only=True)
class Thermal(Fastening):
    """Paste, pad or foil."""


@dataclass(frozen=True, slots=True, kw_only=True)
class Clip(Fastening):
    """Clips or catches."""


@dataclass(frozen=True, slots=True, kw_only=True)
class Solder(Fastening):
    """A solder joint or several."""


@dataclass(frozen=True, slots=True, kw_only=True)
class Tool(Thing):
    """A tool. `grade` is one of the language's, `grade_proposed` where it follows from the name.

    `drive`: the drive it turns, where it is a driver.
    """

    size: str = ""
    grade: str | None = None
    grade_proposed: bool = False
    link: str | None = None
    drive: str | None = None


@dataclass(frozen=True, slots=True)
class Amount:
    """How much of a supply: as typed, and as a quantity where it can be read."""

    text: str
    quantity: Quantity | None


@dataclass(frozen=True, slots=True, kw_only=True)
class Supply(Thing):
    """Something that is used up."""

    strength: str = ""
    amount: Amount | None = None
    link: str | None = None


# ---------------------------------------------------------------- actions


@dataclass(frozen=True, slots=True)
class Use:
    """A thing in an action. `count` of a set taken in shares, None for all of it or where it is unknown."""

    id: str
    span: Span
    count: int | None = None


@dataclass(frozen=True, slots=True)
class Effect:
    """What an action does to a thing; `count` of how many of a set (None: all there are, or unknown)."""

    id: str
    change: Change
    span: Span
    count: int | None = None


class Reason(StrEnum):
    """Why an action needs another."""

    LINE = "line"  # the second action of a line needs the first
    LIST = "list"  # the one before in a `1.` list
    EARLIER_LIST = "earlier-list"  # a list needs the lists before it in its operation
    NESTED = "nested"  # children are how the parent is done
    OPERATION = "operation"  # the operation before it in the note
    AFTER = "after"  # `after` or `also` on the heading
    HOLDS = "holds"  # what holds a part must be undone
    SUPPOSED = "supposed"  # nobody says what holds it: what the operation undoes before the removal
    UNDER = "under"  # the part it lies under must be off
    CONNECTOR = "connector"  # a connector that ends on the part must be open
    ISOLATION = "isolation"  # dead before it is touched


@dataclass(frozen=True, slots=True)
class Need:
    """Something that must be done before an action.

    `ways`: each way is a set of action ids that must all be done; any one way serves. The first is the note's
    own. An empty way is served by nothing at all. `thing`: the thing or operation id that it is about, if any.
    `span`: the words of the note that make the need.
    """

    reason: Reason
    ways: tuple[tuple[str, ...], ...]
    span: Span
    thing: str | None = None


@dataclass(frozen=True, slots=True)
class Risk:
    """`{risk THING: TEXT}`: what the action can damage."""

    span: Span
    thing: Ref | None
    text: str


@dataclass(frozen=True, slots=True)
class RefitNote:
    """`{refit TEXT}`: how it goes back, in the author's words, with the things and values named in it."""

    span: Span
    text: str
    uses: tuple[Use, ...] = ()
    torque: Quantity | None = None


@dataclass(frozen=True, slots=True)
class Action:
    """One thing that is done.

    `id`: the operation's id, a slash, the number within the operation from 1. `text`: the action as a sentence,
    marks as names. `step`: needed by what follows it (false for looks, plain checks and `{optional}` ones).
    `objects`: what it acts on; `mentions`: other things in its line; `tools`, `supplies`: what it uses (the
    driver of a screw set it undoes is in `tools`).
    """

    id: str
    operation: str
    span: Span
    line_span: Span
    verb: str
    verb_span: Span
    family: Family
    text: str
    objects: tuple[Use, ...] = ()
    mentions: tuple[Use, ...] = ()
    tools: tuple[Use, ...] = ()
    supplies: tuple[Use, ...] = ()
    effects: tuple[Effect, ...] = ()
    needs: tuple[Need, ...] = ()
    heats: tuple[Heat, ...] = ()
    waits: tuple[Wait, ...] = ()
    measures: tuple[Measure, ...] = ()
    torques: tuple[Quantity, ...] = ()
    risks: tuple[Risk, ...] = ()
    refits: tuple[RefitNote, ...] = ()
    optional: bool = False
    partly: bool = False
    step: bool = True
    free: bool = False
    """Its place among its list's other lines is free (a `-` list)."""
    turn: str | None = None
    """For a turn: the side that is up after it, where it can be known."""
    hazards: tuple[Hazard, ...] = ()
    """The author's hazards that belong to this action; those of its operation are not repeated here."""
    side: str | None = None
    """The side that is up while it is done, where it can be known."""
    draft: bool = False
    time: Time | None = None


# ---------------------------------------------------------------- operations and what stands in them


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


# ---------------------------------------------------------------- the guide


@dataclass(frozen=True, slots=True)
class Subject:
    """The device. `identifiers`: such as a GTIN, by their name."""

    maker: str | None = None
    model: str | None = None
    variant: str | None = None
    year: int | None = None
    kind: str | None = None
    identifiers: Mapping[str, str] = ()  # type: ignore[assignment]


@dataclass(frozen=True, slots=True)
class Recording:
    """The recording: a file in the note's folder or an address; length and offset in seconds."""

    file: str | None = None
    url: str | None = None
    length: float | None = None
    offset: float = 0.0


@dataclass(frozen=True, slots=True)
class Verdict:
    """The author's own word on repair."""

    points: float | None
    out_of: float | None
    why: str | None


@dataclass(frozen=True, slots=True)
class Meta:
    """The front matter, typed. `front` keeps the whole of it with places, for what other phases read."""

    title: str
    slug: str
    subject: Subject
    author: str | None
    licence: str | None
    language: str
    revision: str | None
    date: str | None
    recording: Recording | None
    power: tuple[str, ...]
    isolate: tuple[Ref, ...]
    verdict: Verdict | None
    quiet: Mapping[str, str]
    scoring: Mapping[str, Any]
    front: Located
    was: tuple[str, ...] = ()
    """The slugs that the guide had under earlier titles."""
    address: str | None = None
    """Where the guide can be read."""


@dataclass(frozen=True)
class Guide:
    """A whole note as a model. `intro`: what stands between the title and the first operation."""

    source: Source
    meta: Meta
    things: Mapping[str, Thing]
    operations: tuple[Operation, ...]
    actions: Mapping[str, Action]
    hazards: tuple[Hazard, ...]
    intro: tuple[Content, ...]
    resolved: Mapping[Span, str]
    """The span of every mark that names a thing (those inside other marks too) -> the thing's id."""
    printed: Mapping[Span, str]
    """The span of every mark -> how it reads in a sentence; nothing for those that only say more."""
    isolating: tuple[str, ...] = ()
    """The actions that make the device dead."""
    doubted: tuple[str, ...] = ()
    """The things in lines that may be meant otherwise than they were read, which has been said."""

    @cached_property
    def operation(self) -> Mapping[str, Operation]:
        """Operations by id."""
        return {operation.id: operation for operation in self.operations}
