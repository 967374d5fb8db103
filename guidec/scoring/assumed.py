"""A guide, its method and evidence -> what was taken for granted, each with its place in the note."""

from __future__ import annotations

from collections.abc import Iterable, Iterator
from typing import Literal

from guidec.model.types import Guide
from guidec.quick import dataclass
from guidec.scoring.evidence import Evidence, Instance, Met
from guidec.scoring.library import Choice
from guidec.scoring.method import Text
from guidec.source import Span

__all__ = ["Assumption", "assumptions"]

Why = Literal["method", "kind", "outside", "class", "tools", "fastenings", "inexact"]


@dataclass(frozen=True, slots=True)
class Assumption:
    """One thing taken for granted.

    `why`: `method`, the method's own reading of a silent text (`text`); `kind`, another word for a kind;
    `outside`, the method is not made for this subject; `class`, a proposed class; `tools`, a proposed grade;
    `fastenings`, a default of how one comes through; `inexact`, a way that may not have the fewest steps.
    `about`: the thing's id; `word`: the class, grade, kind or default taken.
    """

    why: Why
    about: str | None = None
    word: str = ""
    span: Span | None = None
    text: Text | None = None


def assumptions(guide: Guide, choice: Choice, evidence: Evidence | None) -> tuple[Assumption, ...]:
    """All assumptions behind an index; none without a method."""
    if choice.method is None or evidence is None:
        return ()
    found = [*_of_kind(guide, choice), *_of_parts(guide, evidence)]
    return (*found, *(Assumption("method", text=text) for text in choice.method.assumptions))


def _of_kind(guide: Guide, choice: Choice) -> Iterator[Assumption]:
    subject = guide.meta.front.get("subject")
    place = subject.get("kind") if subject else None
    span = place.span if place else None
    if choice.outside:
        yield Assumption("outside", word=guide.meta.subject.kind or "", span=span)
    elif choice.taken_as:
        yield Assumption("kind", word=choice.taken_as, span=span)


def _of_parts(guide: Guide, evidence: Evidence) -> Iterable[Assumption]:
    """Classes, grades and defaults that count somewhere, each once."""
    instances = [one for found in evidence.parts.values() for one in found]
    found: dict[tuple[str, str], Assumption] = {}
    for instance in instances:
        for one in _of_instance(guide, instance):
            found.setdefault((one.why, one.about or ""), one)
    order: list[Why] = ["class", "fastenings", "tools", "inexact"]
    return sorted(found.values(), key=lambda one: order.index(one.why))


def _of_instance(guide: Guide, instance: Instance) -> Iterator[Assumption]:
    part = guide.things[instance.part]
    if instance.proposed:
        yield Assumption("class", part.id, getattr(part, "cls", "") or "", part.span)
    if not instance.exact:
        yield Assumption("inexact", part.id, "", part.span)
    yield from _met(guide, "fastenings", instance.fastenings)
    yield from _met(guide, "tools", instance.tools)


def _met(guide: Guide, why: Why, met: Iterable[Met]) -> Iterator[Assumption]:
    for one in met:
        if one.assumed and one.word is not None:
            yield Assumption(why, one.thing, one.word, guide.things[one.thing].span)
