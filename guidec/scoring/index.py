"""A method and evidence -> scores, the index, and the range that is left by what is not known.

Everything is worked out twice, with whatever is unknown at its worst and at its best. A better answer never lowers
a score, so these two are the ends of the range. All arithmetic is exact (fractions), so that a class limit is
met or not.
"""

from __future__ import annotations

from collections.abc import Iterable, Mapping
from dataclasses import dataclass
from fractions import Fraction
from typing import Any

from guidec.scoring.evidence import Evidence, Instance, Met
from guidec.scoring.method import Criterion, Method, PriorityPart

__all__ = ["Index", "PartScore", "Range", "Unknown", "index"]


@dataclass(frozen=True, slots=True)
class Range:
    """From the lowest to the highest value that is possible; one value where all is known."""

    low: Fraction
    high: Fraction

    @property
    def known(self) -> bool:
        """Whether both ends are one."""
        return self.low == self.high


@dataclass(frozen=True, slots=True)
class PartScore:
    """The points of a priority part: criterion id -> range. `part`: the instance that counts, if there is one."""

    part: str | None
    steps: int | None
    points: Mapping[str, Range]


@dataclass(frozen=True, slots=True)
class Unknown:
    """Something that is not known. `key`: an answer's key or a thing's id; `about`: the criterion or part id.

    `why`: `answer`, `class`, `removal`, `fastening`, `tool`. `moves`: by how much it can move the index at most.
    """

    key: str
    about: str
    why: str
    moves: Fraction = Fraction(0)


@dataclass(frozen=True, slots=True)
class Index:
    """The result. `scores`: criterion id -> range. `cls`: a class only where the whole range lies in one."""

    scores: Mapping[str, Range]
    parts: Mapping[str, PartScore]
    total: Range
    cls: str | None
    classes: tuple[str | None, str | None]
    unknowns: tuple[Unknown, ...]


Assumed = Mapping[tuple[str, str, str], Fraction]
"""What is unknown, taken at a value: (why, key, about) -> points."""


def index(method: Method, evidence: Evidence) -> Index:
    """Score the evidence by the method."""
    unknowns = _unknowns(method, evidence)
    worst = dict.fromkeys(unknowns, method.low)
    best = dict.fromkeys(unknowns, method.high)
    low, high = _Trial(method, evidence, worst), _Trial(method, evidence, best)
    total = Range(low.lowest(), high.highest())
    classes = (_class(method, total.low), _class(method, total.high))
    return Index(
        scores={
            one.id: _span(low.score(one, least=True), high.score(one, least=False)) for one in method.criteria
        },
        parts={row.id: _part_score(row, method, low, high) for row in method.parts},
        total=total,
        cls=classes[0] if classes[0] == classes[1] else None,
        classes=classes,
        unknowns=tuple(
            Unknown(one[1], one[2], one[0], _moves(method, evidence, one, worst, best)) for one in unknowns
        ),
    )


def _span(one: Fraction, other: Fraction) -> Range:
    return Range(min(one, other), max(one, other))


def _class(method: Method, value: Fraction) -> str | None:
    return next((name for name, least in method.classes if value >= least), None)


def _moves(
    method: Method, evidence: Evidence, one: tuple[str, str, str], worst: Assumed, best: Assumed
) -> Fraction:
    """The most by which one unknown can move the index, the others all at their worst or all at their best."""
    found = []
    for others in (worst, best):
        low = _Trial(method, evidence, {**others, one: method.low})
        high = _Trial(method, evidence, {**others, one: method.high})
        found += [high.lowest() - low.lowest(), high.highest() - low.highest()]
    if one[0] == "answer" and one[1] == method.variant_answer:
        trial = _Trial(method, evidence, worst), _Trial(method, evidence, best)
        found += [each.highest() - each.lowest() for each in trial]
    return max(found)


def _unknowns(method: Method, evidence: Evidence) -> tuple[tuple[str, str, str], ...]:
    """All that is not known, in the method's order, each once: (why, key, about)."""
    found: dict[tuple[str, str, str], None] = {}
    if method.variant_answer and _variant(method, evidence) is None:
        found["answer", method.variant_answer, ""] = None
    for criterion in method.criteria:
        if criterion.answer and answered(criterion, evidence.answers) is None:
            found["answer", criterion.answer, criterion.id] = None
    for row in method.parts:
        if row.id in evidence.absent or not any(row.weights.values()):
            continue
        if not evidence.parts[row.id]:
            found["class", row.cls, row.id] = None
        for instance in evidence.parts[row.id]:
            found.update(dict.fromkeys(_open(instance, row, method)))
    return tuple(found)


def _open(instance: Instance, row: PriorityPart, method: Method) -> Iterable[tuple[str, str, str]]:
    """What is not known of one part: that it comes off at all, or how a fastening or tool counts."""
    if instance.steps is None:
        yield "removal", instance.part, row.id
        return
    for criterion in method.criteria:
        met = _met(instance, criterion)
        scored = criterion.points or {}
        for one in met:
            if one.word is None or one.word not in scored:
                yield criterion.measure or "", one.thing, row.id


def _met(instance: Instance, criterion: Criterion) -> tuple[Met, ...]:
    return {"fastenings": instance.fastenings, "tools": instance.tools}.get(criterion.measure or "", ())


def _variant(method: Method, evidence: Evidence) -> str | None:
    """The variant that the answers choose; None where they do not say."""
    if method.variant_answer is None:
        return next(iter(method.parts[0].weights), "") if method.parts else ""
    answer = evidence.answers.get(method.variant_answer)
    word = {True: "yes", False: "no"}.get(answer, str(answer).casefold()) if answer is not None else ""
    return method.variants.get(word)


def answered(criterion: Criterion, answers: Mapping[str, Any]) -> Fraction | None:
    """The points of an answer; None where it is missing or the text has no score for it."""
    value = answers.get(criterion.answer or "")
    if value is None:
        return None
    if criterion.contains:
        listed = value.split(",") if isinstance(value, str) else value if isinstance(value, list) else []
        given = {" ".join(str(item).casefold().split()) for item in listed}
        return next((points for wanted, points in criterion.contains if wanted <= given), criterion.below)
    if criterion.at_least:
        if isinstance(value, bool) or not isinstance(value, int | float):
            return None
        return next((points for least, points in criterion.at_least if value >= least), criterion.below)
    return (criterion.points or {}).get(str(value))


class _Trial:
    """One working out, with everything that is unknown taken at a value."""

    def __init__(self, method: Method, evidence: Evidence, assumed: Assumed) -> None:
        self.method = method
        self.evidence = evidence
        self.assumed = assumed
        chosen = _variant(method, evidence)
        self.variants = [chosen] if chosen is not None else sorted(set(method.variants.values()))
        self._points = {row.id: self._part(row) for row in method.parts}

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

    def of(self, row: PriorityPart) -> tuple[str | None, int | None, Mapping[str, Fraction]]:
        """The instance that counts for a priority part, its steps and its points by criterion."""
        return self._points[row.id]

    def _index(self, variant: str) -> Fraction:
        return sum((one.weight * self._score(one, variant) for one in self.method.criteria), Fraction(0))

    def _score(self, criterion: Criterion, variant: str) -> Fraction:
        if criterion.answer is not None:
            points = answered(criterion, self.evidence.answers)
            return self.assumed["answer", criterion.answer, criterion.id] if points is None else points
        return sum(
            (row.weights[variant] * self._points[row.id][2][criterion.id] for row in self.method.parts),
            Fraction(0),
        )

    def _part(self, row: PriorityPart) -> tuple[str | None, int | None, Mapping[str, Fraction]]:
        """The lowest-scoring instance of a priority part."""
        measured = [one for one in self.method.criteria if one.measure is not None]
        if row.id in self.evidence.absent:
            return None, None, {one.id: self.method.high for one in measured}
        found = [self._instance(instance, row, measured) for instance in self.evidence.parts[row.id]]
        if not found:
            assumed = self.assumed.get(("class", row.cls, row.id), self.method.low)
            return None, None, {one.id: assumed for one in measured}
        weights = {one.id: one.weight for one in measured}
        return min(found, key=lambda one: sum(weights[key] * points for key, points in one[2].items()))

    def _instance(
        self, instance: Instance, row: PriorityPart, measured: list[Criterion]
    ) -> tuple[str | None, int | None, Mapping[str, Fraction]]:
        if instance.steps is None:
            assumed = self.assumed.get(("removal", instance.part, row.id), self.method.low)
            return instance.part, None, {one.id: assumed for one in measured}
        steps = len(instance.steps)
        points = {}
        for one in measured:
            if one.measure == "steps":
                points[one.id] = _banded(one, steps + one.authorisation * instance.authorisations)
            else:
                points[one.id] = self._worst(instance, row, one)
        return instance.part, steps, points

    def _worst(self, instance: Instance, row: PriorityPart, criterion: Criterion) -> Fraction:
        """The lowest points among what was met."""
        scored = criterion.points or {}
        found = [
            scored[one.word]
            if one.word is not None and one.word in scored
            else self.assumed.get((criterion.measure or "", one.thing, row.id), self.method.low)
            for one in _met(instance, criterion)
        ]
        return min(found, default=self.method.high if criterion.empty is None else criterion.empty)


def _banded(criterion: Criterion, value: int) -> Fraction:
    return next(points for to, points in criterion.bands if to is None or value <= to)


def _part_score(row: PriorityPart, method: Method, low: _Trial, high: _Trial) -> PartScore:
    part, steps, worst = low.of(row)
    _, _, best = high.of(row)
    return PartScore(part, steps, {key: _span(points, best[key]) for key, points in worst.items()})
