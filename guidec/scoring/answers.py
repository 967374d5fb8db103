"""The front matter's `scoring`, a method and a guide -> what is wrong with the answers, each at its place."""

from __future__ import annotations

from collections.abc import Iterator, Mapping
from typing import Any

from guidec.model.meta import names
from guidec.model.types import Guide, Part
from guidec.notes.syntax import Entry, Located
from guidec.rules.finding import Finding, Severity
from guidec.scoring.en45554 import level, levels
from guidec.scoring.library import Choice, known, method
from guidec.scoring.method import Criterion, Method
from guidec.scoring.names import all_names, classes_named
from guidec.trade.likeness import distance, fold, nearest

__all__ = ["about_answers", "typed_elsewhere"]

LISTS = ("spare_parts", "absent")
TYPED = frozenset(
    {"method", "foldable", "spare_parts", "update_years", "repair_information", "authorisations", "absent"}
)
"""Answers whose form the front matter's own schema looks after."""


def about_answers(guide: Guide, choice: Choice) -> Iterator[Finding]:
    """All that is wrong with the answers."""
    front = guide.meta.front
    scoring = front.get("scoring")
    yield from _method(guide, scoring, choice)
    yield from _kind(front, choice)
    if scoring is None or not isinstance(scoring.value, Mapping):
        return
    for key in LISTS:
        for name, span in names(scoring.get(key)):
            if classes_named(name, choice.method, guide) is None:
                near = nearest(name, dict.fromkeys(all_names(choice.method, guide)))
                yield Finding.at("S102", span, name=name, key=f"scoring.{key}", suggest=near)
    yield from _absent(guide, scoring, choice.method)
    yield from _authorisations(guide, scoring.get("authorisations"), choice.method)
    for scale in ("environment", "skill"):
        yield from _levels(guide, scoring.get(scale), scale, choice.method)
    for criterion in choice.method.criteria if choice.method else ():
        yield from _answer(criterion, scoring)


def typed_elsewhere(found: Finding, others: Mapping[tuple[int, int], str]) -> bool:
    """Whether a place already has a finding of the front matter's own schema."""
    return found.code.startswith("S") and others.get((found.span.start, found.span.end)) == "N021"


def _method(guide: Guide, scoring: Located | None, choice: Choice) -> Iterator[Finding]:
    named = scoring.get("method") if scoring else None
    if named is None or not isinstance(named.value, str):
        return
    if fold(named.value) not in known():
        near = nearest(named.value, known())
        have = ", ".join(f"`{own}`" for own in known())
        yield Finding.at("S101", named.span, suggest=near, name=named.value, known=have)
    elif choice.outside and choice.method is method(fold(named.value)):
        kinds = ", ".join(choice.method.kinds)
        kind = guide.meta.subject.kind or "not stated"
        yield Finding.at("S108", named.span, method=choice.method.id, kinds=kinds, kind=kind)


def _kind(front: Located, choice: Choice) -> Iterator[Finding]:
    """A kind of subject that is one slip away from one that a method is made for."""
    subject = front.get("subject")
    place = subject.get("kind") if subject else None
    if choice.method is not None or place is None or not isinstance(place.value, str):
        return
    typed = fold(place.value).replace("-", " ")
    for own in known():
        for kind in method(own).kinds:
            if distance(typed, kind, 2) <= 2:
                yield Finding.at("S107", place.span, kind=place.value, meant=kind, method=own, suggest=[kind])


def _absent(guide: Guide, scoring: Located, method_: Method | None) -> Iterator[Finding]:
    """Classes that the device is said not to have, and that the note shows."""
    for name, span in names(scoring.get("absent")):
        classes = classes_named(name, method_, guide) or ()
        shown = [one for one in guide.things.values() if isinstance(one, Part) and one.cls in classes]
        sure = [one for one in shown if not one.cls_proposed] or shown
        if sure:
            severity = Severity.WARNING if sure[0].cls_proposed else None
            places = {"shown": sure[0].span}
            facts: dict[str, Any] = {"name": name, "part": sure[0].name, "class": sure[0].cls or ""}
            yield Finding.at("S105", span, labels=places, severity=severity, **facts)


def _authorisations(guide: Guide, place: Located | None, method_: Method | None) -> Iterator[Finding]:
    if place is None or not isinstance(place.value, Mapping):
        return
    for name, entry in place.value.items():
        yield from _part_of(guide, name, entry, "scoring.authorisations", method_)


def _part_of(guide: Guide, name: str, entry: Entry, key: str, method_: Method | None) -> Iterator[Finding]:
    """Something said of a part that is not there, or of no part at all."""
    classes = classes_named(name, method_, guide)
    if classes is None:
        near = nearest(name, dict.fromkeys(all_names(method_, guide)))
        yield Finding.at("S102", entry.key_span, name=name, key=key, suggest=near)
    elif not any(isinstance(one, Part) and (one.cls or "other") in classes for one in guide.things.values()):
        yield Finding.at("S104", entry.key_span, name=name, key=key)


def _levels(guide: Guide, place: Located | None, scale: str, method_: Method | None) -> Iterator[Finding]:
    if place is None:
        return
    values = [place]
    if isinstance(place.value, Mapping):
        values = [entry.value for entry in place.value.values()]
        for name, entry in place.value.items():
            yield from _part_of(guide, name, entry, f"scoring.{scale}", method_)
    for value in values:
        if value.value is None or isinstance(value.value, Mapping | tuple) or level(scale, value.value) is None:
            known_ = ", ".join(f"`{word}`" for word in levels(scale) if len(word) > 1)
            near = nearest(value.typed, levels(scale)) if value.typed else ()
            typed = value.typed or "nothing that can be read"
            yield Finding.at("S106", value.span, typed=typed, key=f"scoring.{scale}", known=known_, suggest=near)


def _answer(criterion: Criterion, scoring: Located) -> Iterator[Finding]:
    """An answer that the method has no points for."""
    place = scoring.get(criterion.answer or "")
    if place is None or criterion.answer in TYPED or criterion.contains or criterion.shares:
        return
    if criterion.at_least:
        if isinstance(place.value, bool) or not isinstance(place.value, int | float):
            yield _misfit(criterion, place, "a number", ())
    elif place.typed not in (criterion.points or {}):
        words = tuple(criterion.points or {})
        yield _misfit(criterion, place, " or ".join(f"`{word}`" for word in words), nearest(place.typed, words))


def _misfit(criterion: Criterion, place: Located, expected: str, near: tuple[str, ...]) -> Finding:
    facts: dict[str, Any] = {"key": criterion.answer or "", "typed": place.typed or "a list", "expected": expected}
    return Finding.at("S103", place.span, suggest=near, **facts)
