"""A criterion and what was found or answered -> points."""

from __future__ import annotations

from collections.abc import Callable
from fractions import Fraction

from guidec.scoring.evidence import Evidence, Instance, Met
from guidec.scoring.method import Criterion, Method, PriorityPart, exact

__all__ = ["answered", "banded", "measured", "met", "shown_rows"]


def met(instance: Instance, criterion: Criterion) -> tuple[Met, ...]:
    """The fastenings or tools that a criterion looks at on the way to a part."""
    return {"fastenings": instance.fastenings, "tools": instance.tools}.get(criterion.measure or "", ())


def banded(criterion: Criterion, value: Fraction | int) -> Fraction:
    """The points of the band that a number lies in; bands include their upper end."""
    return next(points for to, points in criterion.bands if to is None or value <= to)


def measured(instance: Instance, criterion: Criterion) -> Fraction:
    """The number that a criterion measures of a part that comes off; steps with the authorisations added."""
    if criterion.measure == "steps":
        return Fraction(len(instance.steps or ()) + criterion.authorisation * instance.authorisations)
    return instance.numbers[criterion.measure or ""]


def worst(
    instance: Instance, criterion: Criterion, method: Method, unknown: Callable[[Met], Fraction]
) -> Fraction:
    """The lowest points among what was met; `unknown` gives those of what has no score."""
    scored = criterion.points or {}
    found = [
        unknown(one) if one.word is None or one.word not in scored else scored[one.word]
        for one in met(instance, criterion)
    ]
    return min(found, default=method.high if criterion.empty is None else criterion.empty)


def shown_rows(method: Method, evidence: Evidence) -> tuple[PriorityPart, ...]:
    """The parts that count: all of them, or with `leave_out` those that the note shows."""
    if not method.leave_out:
        return method.parts
    return tuple(row for row in method.parts if evidence.parts[row.id])


def answered(criterion: Criterion, method: Method, evidence: Evidence, variant: str) -> Fraction | None:
    """The points of an answer; None where it is missing or the text has no score for it."""
    value = evidence.answers.get(criterion.answer or "")
    if value is None:
        return None
    if criterion.contains:
        return _contained(criterion, method, evidence, variant, value)
    if criterion.shares:
        shown = [row.cls for row in shown_rows(method, evidence)]
        share = Fraction(sum(cls in value for cls in shown), len(shown) or 1)
        return next((points for least, points in criterion.shares if share >= least), criterion.below)
    if criterion.at_least:
        if isinstance(value, bool) or not isinstance(value, int | float):
            return None
        return next((points for least, points in criterion.at_least if exact(value) >= least), criterion.below)
    word = {True: "yes", False: "no"}.get(value, str(value)) if isinstance(value, bool) else str(value)
    return (criterion.points or {}).get(word)


def _contained(
    criterion: Criterion, method: Method, evidence: Evidence, variant: str, given: frozenset[str]
) -> Fraction | None:
    """The points of the first row whose classes are all given; what the product has not is not asked for."""
    asked = {row.cls for row in method.parts if row.weights.get(variant) and row.id not in evidence.absent}
    gone = {row.cls for row in method.parts if row.id in evidence.absent}
    for wanted, points in criterion.contains:
        if (asked if wanted is None else wanted - gone) <= given:
            return points
    return criterion.below
