"""A method, evidence and a value for all that is unknown -> one working out, every number known."""

from __future__ import annotations

from collections.abc import Mapping
from fractions import Fraction

from guidec.quick import dataclass
from guidec.scoring.evidence import Evidence, Instance, Met
from guidec.scoring.method import Criterion, Method, PriorityPart
from guidec.scoring.points import answered, banded, measured, shown_rows, worst

__all__ = ["Assumed", "PartOne", "PartTrial", "Trial", "chosen_variant"]

Assumed = Mapping[tuple[str, str, str], Fraction]
"""What is unknown, taken at a value: (why, key, about) -> points."""


@dataclass(frozen=True, slots=True)
class PartOne:
    """One instance: its part (None for a class that is not there), its steps, its points by criterion."""

    part: str | None
    steps: int | None
    points: Mapping[str, Fraction]


@dataclass(frozen=True, slots=True)
class PartTrial:
    """All instances of a priority part. `mean`: their points in the mean."""

    each: tuple[PartOne, ...]
    mean: Mapping[str, Fraction]

    def __len__(self) -> int:
        return len(self.each)


def chosen_variant(method: Method, evidence: Evidence) -> str | None:
    """The variant that the answers choose; None where they do not say."""
    if method.variant_answer is None:
        return method.variant_names[0]
    answer = evidence.answers.get(method.variant_answer)
    if answer is None:
        return None
    word = ("yes" if answer else "no") if isinstance(answer, bool) else str(answer).casefold()
    return method.variants.get(word)


class Trial:
    """One working out, with everything that is unknown taken at a value."""

    def __init__(self, method: Method, evidence: Evidence, assumed: Assumed) -> None:
        self.method = method
        self.evidence = evidence
        self.assumed = assumed
        chosen = chosen_variant(method, evidence)
        self.variants = [chosen] if chosen is not None else list(method.variant_names)
        self.rows = shown_rows(method, evidence)
        self._criteria = [one for one in method.criteria if one.measure is not None]
        self._points = {row.id: self._part(row) for row in method.parts}
        self._shares: dict[str, dict[str, Fraction]] = {}

    def lowest(self) -> Fraction:
        """The index in the variant that scores least."""
        return min(self._index(variant) for variant in self.variants)

    def highest(self) -> Fraction:
        """The index in the variant that scores most."""
        return max(self._index(variant) for variant in self.variants)

    def score(self, criterion: Criterion, *, least: bool) -> Fraction:
        """One criterion's score, in the variant that scores least or most."""
        scores = [self._score(criterion, variant) for variant in self.variants]
        return min(scores) if least else max(scores)

    def of(self, row: PriorityPart) -> PartTrial:
        """What a priority part's instances score."""
        return self._points[row.id]

    def weighted(self, points: Mapping[str, Fraction]) -> Fraction:
        """The points of a part weighted as the criteria are: what says which instance scores least."""
        return sum((one.weight * points[one.id] for one in self._criteria), Fraction(0))

    def shares(self, variant: str) -> dict[str, Fraction]:
        """Each part's share in the criteria over parts; they add up to 1."""
        if variant not in self._shares:
            self._shares[variant] = self._shared_out(variant)
        return self._shares[variant]

    def _shared_out(self, variant: str) -> dict[str, Fraction]:
        weights = {row.id: row.weights.get(variant, Fraction(0)) for row in self.rows}
        total = sum(weights.values(), Fraction(0)) if self.method.leave_out else Fraction(1)
        return {own: weight / total for own, weight in weights.items()} if total else {}

    def _index(self, variant: str) -> Fraction:
        return sum((one.weight * self._score(one, variant) for one in self.method.criteria), Fraction(0))

    def _score(self, criterion: Criterion, variant: str) -> Fraction:
        if criterion.answer is not None:
            points = answered(criterion, self.method, self.evidence, variant)
            if points is not None:
                return points
            return self.assumed["answer", criterion.answer, criterion.id]
        if not self.rows:
            return self.assumed["parts", "", criterion.id]
        shares = self.shares(variant)
        return sum((shares[own] * self._counting(own)[criterion.id] for own in shares), Fraction(0))

    def _counting(self, own: str) -> Mapping[str, Fraction]:
        """The points that count for a part: the lowest-scoring instance's, or the mean."""
        found = self._points[own]
        if self.method.mean or len(found) == 1:
            return found.mean
        return min(found.each, key=lambda one: self.weighted(one.points)).points

    def _part(self, row: PriorityPart) -> PartTrial:
        found = self._instances(row)
        if len(found) == 1:
            return PartTrial(found, found[0].points)
        mean = {
            one.id: sum((each.points[one.id] for each in found), Fraction(0)) / len(found)
            for one in self._criteria
        }
        return PartTrial(found, mean)

    def _instances(self, row: PriorityPart) -> tuple[PartOne, ...]:
        if row.id in self.evidence.absent:
            return (PartOne(None, None, {one.id: self.method.high for one in self._criteria}),)
        found = self.evidence.parts[row.id]
        if not found:
            assumed = self.assumed.get(("class", row.cls, row.id), self.method.low)
            return (PartOne(None, None, {one.id: assumed for one in self._criteria}),)
        return tuple(self._instance(instance, row) for instance in found)

    def _instance(self, instance: Instance, row: PriorityPart) -> PartOne:
        if instance.steps is None:
            assumed = self.assumed.get(("removal", instance.part, row.id), self.method.low)
            return PartOne(instance.part, None, {one.id: assumed for one in self._criteria})
        points = {one.id: self._measured(instance, row, one) for one in self._criteria}
        steps = next((int(measured(instance, one)) for one in self._criteria if one.measure == "steps"), None)
        return PartOne(instance.part, len(instance.steps) if steps is None else steps, points)

    def _measured(self, instance: Instance, row: PriorityPart, criterion: Criterion) -> Fraction:
        if criterion.measure not in ("fastenings", "tools"):
            return banded(criterion, measured(instance, criterion))

        def unknown(one: Met) -> Fraction:
            return self.assumed.get((criterion.measure or "", one.thing, row.id), self.method.low)

        return worst(instance, criterion, self.method, unknown)
