"""What is done: actions, what each acts on, uses, changes and needs."""

from __future__ import annotations

from guidec.model.types.operations import Hazard
from guidec.model.types.said import Heat, Measure, Ref, Time, Wait
from guidec.model.types.words import Change, Family, Reason
from guidec.quick import dataclass
from guidec.source import Span
from guidec.trade.units import Quantity

__all__ = ["Action", "Effect", "Need", "RefitNote", "Risk", "Use"]


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
