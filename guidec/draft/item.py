"""What a transcript is made of once its words are understood: items in reading order."""

from __future__ import annotations

from collections.abc import Mapping
from dataclasses import field

from guidec.quick import dataclass

__all__ = ["Amount", "Item"]


@dataclass(frozen=True, slots=True)
class Amount:
    """A number with a unit as spoken: `unit` a symbol of the notes language, `high` where a range was given,
    `bound` one of ``, `<`, `>`, `~`."""

    low: float
    unit: str
    high: float | None = None
    bound: str = ""

    @property
    def text(self) -> str:
        """As a mark takes it: `70 °C`, `30-60 s`, `<5 V`."""
        numbers = f"{self.low:g}" if self.high is None else f"{self.low:g}-{self.high:g}"
        bound = self.bound if self.bound in "<>" else ""
        return (
            f"{bound}{numbers}{'' if self.unit == '%' else ' '}{self.unit}" if self.unit != "%" else f"{numbers} %"
        )


@dataclass(frozen=True, slots=True)
class Item:
    """One item.

    `kind`: `word`, `num`, `value`, `drive`, `size`, `thing` (a name of the trade), `noun` (a name that is none),
    `verb`. `text`: the word; the code of a drive (`PH00`) or size (`M2x6`); the name of a thing, without what
    stands before it. `first`/`last`: words heard. `det`: the determiner before a name; `count` before it; `more`:
    "two more"; `kinds` of a thing as in the lexicon; `drive`, `size`, `length` said within a screws' name.
    """

    kind: str
    text: str
    start: float
    first: int
    last: int
    stop: int = 0
    number: float | None = None
    amount: Amount | None = None
    det: str = ""
    count: int | None = None
    more: bool = False
    plural: bool = False
    same: bool = False
    head: str = ""
    fresh: str = ""
    kinds: Mapping[str, str] = field(default_factory=dict)
    drive: str = ""
    size: str = ""
    value: Amount | None = None
    ellipsis: str = ""
    """How screws are told without their noun: `drive`, `ones`, `of`, `more`, `place`."""
    leads: bool = False
    """It starts with the first word of a cue."""
    words: tuple[str, ...] = ()
    """The words of it as understood, determiner and all."""

    def is_a(self, *kinds: str) -> bool:
        """Whether it is a thing that can be one of these kinds."""
        return self.kind == "thing" and any(kind in self.kinds for kind in kinds)
