"""One operation of a draft, and what weighs in it."""

from __future__ import annotations

from dataclasses import dataclass, field
from functools import cache

from guidec.draft.story import Act, Aside, Named, Trip
from guidec.trade.load import data

__all__ = ["Job", "is_minor", "is_slight", "is_small", "work_of"]


@dataclass(slots=True)
class Job:
    """One operation: its actions, its looks and remarks, what it is about. `trip`: a side trip's own."""

    acts: list[Act] = field(default_factory=list)
    title: str = ""
    about: list[str] = field(default_factory=list)
    hazards: list[Aside] = field(default_factory=list)
    trip: Trip | None = None
    asides: list[Trip] = field(default_factory=list)
    """Side trips that are told in it without a word on how."""
    isolates: bool = False
    free: bool = False
    after: str = ""

    @property
    def start(self) -> float:
        """When it begins."""
        return min((act.start for act in self.acts), default=0.0)


def work_of(job: Job | None) -> list[Act]:
    """What is done in an operation, without looks and tools taken up."""
    return [act for act in job.acts if act.do not in ("look", "hand")] if job is not None else []


def is_slight(job: Job) -> bool:
    """Whether no part of any weight comes off in it."""
    return not any(act.do in ("remove", "move") and not is_minor(act) for act in job.acts)


def is_minor(act: Act) -> bool:
    """Whether an action only takes off what lies on the way to another."""
    return all(isinstance(thing, Named) and is_small(thing) for thing in act.things)


def is_small(thing: Named) -> bool:
    """Whether a part comes off on the way to another."""
    return thing.cls in ("", "other", "shield") and thing.name.split()[-1] in _minor_heads()


@cache
def _minor_heads() -> frozenset[str]:
    return frozenset(data("draft/turns-en")["minor"].split())
