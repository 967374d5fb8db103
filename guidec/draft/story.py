"""What a transcript tells: things and actions, each with the words that carry it. Filled while it is read."""

from __future__ import annotations

from dataclasses import dataclass, field

from guidec.draft.hearing import Corrected
from guidec.draft.item import Amount

__all__ = ["Act", "Aside", "Named", "Quote", "Screws", "Story", "Things", "Trip", "Verdict"]


@dataclass(slots=True)
class Quote:
    """Words heard, from number `first` to `last`, spoken from `start`."""

    start: float
    first: int
    last: int

    def to(self, other: Quote) -> Quote:
        """Both, and what is between them."""
        return Quote(min(self.start, other.start), min(self.first, other.first), max(self.last, other.last))


@dataclass(slots=True, eq=False)
class Named:
    """A thing: `kind` as in a mark, its name, and where it was first named.

    `cls`: a part's class; `type`: a connector's or adhesive's; `count`, `strength`, `amount`, `values` as said.
    `gone`: it has been taken off, opened or undone; `shown`: pointed at; `used`: in some action.
    """

    kind: str
    name: str
    quote: Quote
    cls: str = ""
    type: str = ""
    count: int | None = None
    plural: bool = False
    values: list[Amount] = field(default_factory=list)
    gone: bool = False
    shown: bool = False
    heard: float = 0.0
    implied: bool = False
    head: str = ""
    certain: bool = True
    said: Quote | None = None
    """The words that say its values."""


@dataclass(slots=True, eq=False)
class Screws:
    """A set of screws: what the words say of it, and whether they say it came out."""

    quote: Quote
    count: int | None = None
    drive: str = ""
    size: str = ""
    gone: bool = False
    holds: Named | None = None
    torque: Amount | None = None
    heard: float = 0.0
    parent: Screws | None = None
    split: list[Screws] = field(default_factory=list)
    how: str = ""
    """How it was told without its noun: as the ellipsis of an item."""
    each: bool = False
    """It is told for each of several parts, and how many these are is not known yet."""
    word: str = "screw"
    captive: bool = False
    left_hand: bool = False
    name: str = ""
    kind: str = "screw"
    left: int | None = None
    said: Quote | None = None
    """The words that say its torque."""


Things = list[Named | Screws]


@dataclass(slots=True)
class Aside:
    """A remark that belongs to a thing or an action: what it is about, and its words."""

    quote: Quote
    text: str
    thing: Named | Screws | None = None
    signal: str = ""


@dataclass(slots=True, eq=False)
class Act:
    """One action. `do`: undo, remove, unplug, soften, move, turn, treat, check, look. `verb`: as a note says
    it."""

    do: str
    verb: str
    quote: Quote
    things: list[Named | Screws] = field(default_factory=list)
    plain: str = ""
    tools: list[Named] = field(default_factory=list)
    supplies: list[Named] = field(default_factory=list)
    heat: list[Amount] = field(default_factory=list)
    waits: list[Amount] = field(default_factory=list)
    measures: list[Amount] = field(default_factory=list)
    where: str = ""
    risks: list[Aside] = field(default_factory=list)
    refits: list[Aside] = field(default_factory=list)
    hazards: list[Aside] = field(default_factory=list)
    optional: bool = False
    planned: bool = False
    """Only told to come ("the battery has to come out"); what is told to be done later takes its place."""
    implied: bool = False
    sure: bool = True
    share: int | None = None
    any_order: bool = False
    topic: bool = False
    after: str = ""
    near: Named | None = None

    @property
    def start(self) -> float:
        """When it is told."""
        return self.quote.start


@dataclass(slots=True)
class Trip:
    """`If you only need the …`: what for, after what, and what would be done."""

    quote: Quote
    goal: Named | None
    after: Named | None = None
    acts: list[Act] = field(default_factory=list)


@dataclass(slots=True)
class Verdict:
    """`seven out of ten`."""

    quote: Quote
    points: float
    out_of: float


@dataclass(slots=True)
class Story:
    """The whole. `left_out`: numbers of the words heard that are talk; `device` as named; `topics`: where talk
    turns
    to a thing (time, thing)."""

    acts: list[Act] = field(default_factory=list)
    named: list[Named] = field(default_factory=list)
    screws: list[Screws] = field(default_factory=list)
    trips: list[Trip] = field(default_factory=list)
    refits: list[Aside] = field(default_factory=list)
    hazards: list[Aside] = field(default_factory=list)
    verdict: Verdict | None = None
    talk: list[Quote] = field(default_factory=list)
    topics: list[tuple[float, Named | None]] = field(default_factory=list)
    corrected: list[Corrected] = field(default_factory=list)
    remarks: list[Aside] = field(default_factory=list)
    device: str = ""
    isolate: Named | None = None
    dead: list[float] = field(default_factory=list)
    """When the words say that the device is without power now."""
    power: str = ""
    torques: list[tuple[Amount, Quote]] = field(default_factory=list)
