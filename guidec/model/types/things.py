"""The things of a note: parts, fastenings, tools, supplies."""

from __future__ import annotations

from guidec.model.types.said import Ref
from guidec.model.types.words import Kind, Reuse
from guidec.quick import dataclass
from guidec.source import Span
from guidec.trade.units import Quantity

__all__ = [
    "Adhesive",
    "Amount",
    "Battery",
    "Clip",
    "Connector",
    "FastenerNotation",
    "Fastening",
    "Part",
    "ScrewSet",
    "Solder",
    "Supply",
    "Thermal",
    "Thing",
    "Thread",
    "Tool",
]


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
