"""The words of a fixed set that the model uses: kinds, families, changes, signal words, reasons."""

from __future__ import annotations

from enum import StrEnum

__all__ = ["Change", "Family", "Kind", "Reason", "Reuse", "Signal"]


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
