"""An assessment -> what the maker could have done: single changes, the one that raises the index most first."""

from __future__ import annotations

from collections.abc import Iterator
from fractions import Fraction

from guidec.model.types import Change as Does
from guidec.model.types import Part, Reuse
from guidec.quick import dataclass
from guidec.scoring.assess import Assessment
from guidec.scoring.change import Answer, Change, Edge, Grade, Through, indexed
from guidec.scoring.evidence import Evidence, Instance, Met
from guidec.scoring.index import Range
from guidec.scoring.method import Criterion, Method

__all__ = ["Idea", "ideas"]

MOST = 400
"""So many changes are weighed at most; a note of the usual size has far fewer."""


@dataclass(frozen=True, slots=True)
class Idea:
    """One change, the index with it, and the classes of its ends. `gain`: the larger of what the two ends gain."""

    change: Change
    total: Range
    cls: str | None
    gain: Fraction
    classes: tuple[str | None, str | None]


def ideas(assessment: Assessment) -> tuple[Idea, ...]:
    """All single changes that raise the index, the best first."""
    method, evidence, now = assessment.method, assessment.evidence, assessment.index
    if method is None or evidence is None or now is None:
        return ()
    found = []
    for change in list(_changes(assessment, method, evidence))[:MOST]:
        then = indexed(assessment.graph, method, [change], assessment.ways)
        gains = (then.total.low - now.total.low, then.total.high - now.total.high)
        if max(gains) > 0:
            found.append(Idea(change, then.total, then.cls, max(gains), then.classes))
    return tuple(sorted(found, key=lambda one: (-one.gain, -one.total.low, -one.total.high)))


def _changes(assessment: Assessment, method: Method, evidence: Evidence) -> Iterator[Change]:
    for criterion in method.criteria:
        if criterion.answer:
            yield from _best_answer(criterion)
    instances = [one for found in evidence.parts.values() for one in found if one.steps is not None]
    yield from _fastenings(method, instances)
    yield from _tools(method, instances)
    for instance in instances:
        if instance.authorisations:
            yield Answer("authorisations", 0, instance.part)
        for thing in _before(assessment, instance):
            yield Edge(instance.part, (thing,))


def _best_answer(criterion: Criterion) -> Iterator[Change]:
    """The answer with the most points."""
    if criterion.contains or criterion.shares:
        yield Answer(criterion.answer or "", "all")
    elif criterion.at_least:
        least, _ = max(criterion.at_least, key=lambda row: row[1])
        yield Answer(criterion.answer or "", float(least) if least.denominator > 1 else int(least))
    elif criterion.points:
        yield Answer(
            criterion.answer or "", max(criterion.points, key=lambda word: (criterion.points or {})[word])
        )


def _fastenings(method: Method, instances: list[Instance]) -> Iterator[Change]:
    met = {one.thing: one for instance in instances for one in instance.fastenings}
    scored = _points(method, "fastenings")
    for one in met.values():
        for word in ("reusable", "resupplied"):
            if word in scored and _below(one, scored, word):
                yield Through(one.thing, Reuse(word))


def _tools(method: Method, instances: list[Instance]) -> Iterator[Change]:
    met = {one.thing: one for instance in instances for one in instance.tools}
    scored = _points(method, "tools")
    best = max(scored, key=lambda word: scored[word], default="")
    for one in met.values():
        if best and _below(one, scored, best):
            yield Grade(one.thing, best)


def _points(method: Method, measure: str) -> dict[str, Fraction]:
    return next((dict(one.points or {}) for one in method.criteria if one.measure == measure), {})


def _below(one: Met, scored: dict[str, Fraction], word: str) -> bool:
    return one.word not in scored or scored[one.word or ""] < scored[word]


def _before(assessment: Assessment, instance: Instance) -> list[str]:
    """The parts that come off or are moved on the way to a part."""
    route = assessment.ways.to(instance.part)
    guide = assessment.guide
    found: dict[str, None] = {}
    for action in route.actions if route else ():
        for effect in guide.actions[action].effects:
            off = effect.change in (Does.OFF, Does.MOVED) and isinstance(guide.things[effect.id], Part)
            if off and effect.id != instance.part:
                found[effect.id] = None
    return list(found)
