"""A method and evidence -> scores, the index, and the range that is left by what is not known.

Everything is worked out twice, with whatever is unknown at its worst and at its best. A better answer never lowers
a score, so these two are the ends of the range. All arithmetic is exact (fractions), so that a class limit is
met or not.
"""

from __future__ import annotations

from collections.abc import Iterable, Mapping
from fractions import Fraction

from guidec.quick import dataclass
from guidec.scoring.evidence import Evidence, Instance
from guidec.scoring.method import Criterion, Method, PriorityPart
from guidec.scoring.points import answered, met, shown_rows
from guidec.scoring.trial import Assumed, PartTrial, Trial, chosen_variant

__all__ = ["Index", "PartScore", "Range", "Unknown", "class_of", "index"]


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
    """The points of a priority part: criterion id -> range.

    `part`: the instance that counts, if one is sure to; `steps`: its steps, authorisations included. `weight`:
    its share, by variant (the same for all where there is one).
    """

    part: str | None
    steps: int | None
    points: Mapping[str, Range]
    weight: Range


@dataclass(frozen=True, slots=True)
class Unknown:
    """Something that is not known. `key`: an answer's key or a thing's id; `about`: the criterion or part id.

    `why`: `answer`, `class`, `removal`, `fastenings`, `tools`, `parts`. `moves`: by how much it can move the
    index at most.
    """

    key: str
    about: str
    why: str
    moves: Fraction = Fraction(0)


@dataclass(frozen=True, slots=True)
class Index:
    """The result. `scores`: criterion id -> range. `cls`: a class only where the whole range lies in one.

    `variant`: the one that the answers choose, None where they do not say.
    """

    scores: Mapping[str, Range]
    parts: Mapping[str, PartScore]
    total: Range
    cls: str | None
    classes: tuple[str | None, str | None]
    unknowns: tuple[Unknown, ...]
    variant: str | None = None


def index(method: Method, evidence: Evidence, *, moves: bool = True) -> Index:
    """Score the evidence by the method. `moves`: also work out what each unknown can move."""
    unknowns = _unknowns(method, evidence)
    worst = dict.fromkeys(unknowns, method.low)
    best = dict.fromkeys(unknowns, method.high)
    low, high = Trial(method, evidence, worst), Trial(method, evidence, best)
    total = Range(low.lowest(), high.highest())
    classes = (class_of(method, total.low), class_of(method, total.high))
    parts = {row.id: _part_score(row, method, low, high) for row in method.parts}
    return Index(
        scores={one.id: _score(one, parts, low, high) for one in method.criteria},
        parts=parts,
        total=total,
        cls=classes[0] if classes[0] == classes[1] else None,
        classes=classes,
        unknowns=tuple(
            Unknown(one[1], one[2], one[0], _moves(method, evidence, one, worst, best) if moves else Fraction(0))
            for one in unknowns
        ),
        variant=chosen_variant(method, evidence),
    )


def class_of(method: Method, value: Fraction) -> str | None:
    """The class of an index; None below all of them, or where the method has none."""
    return next((name for name, least in method.classes if value >= least), None)


def _moves(
    method: Method, evidence: Evidence, one: tuple[str, str, str], worst: Assumed, best: Assumed
) -> Fraction:
    """The most by which one unknown can move the index, the others all at their worst or all at their best."""
    found = []
    for others in (worst, best):
        low = Trial(method, evidence, {**others, one: method.low})
        high = Trial(method, evidence, {**others, one: method.high})
        found += [high.lowest() - low.lowest(), high.highest() - low.highest()]
    if one[0] == "answer" and one[1] == method.variant_answer:
        trial = Trial(method, evidence, worst), Trial(method, evidence, best)
        found += [each.highest() - each.lowest() for each in trial]
    return max(found)


# ---------------------------------------------------------------- what is not known


def _unknowns(method: Method, evidence: Evidence) -> tuple[tuple[str, str, str], ...]:
    """All that is not known, in the method's order, each once: (why, key, about)."""
    found: dict[tuple[str, str, str], None] = {}
    variant = chosen_variant(method, evidence)
    if method.variant_answer and variant is None:
        found["answer", method.variant_answer, ""] = None
    for criterion in method.criteria:
        if criterion.answer and any(
            answered(criterion, method, evidence, each) is None for each in method.variant_names
        ):
            found["answer", criterion.answer, criterion.id] = None
        elif criterion.measure and not shown_rows(method, evidence):
            found["parts", "", criterion.id] = None
    for row in method.parts:
        weights = row.weights if variant is None else {variant: row.weights.get(variant, Fraction(0))}
        if row.id in evidence.absent or not any(weights.values()):
            continue
        if not evidence.parts[row.id] and not method.leave_out:
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
        scored = criterion.points or {}
        for one in met(instance, criterion):
            if one.word is None or one.word not in scored:
                yield criterion.measure or "", one.thing, row.id


# ---------------------------------------------------------------- ranges


def _score(criterion: Criterion, parts: Mapping[str, PartScore], low: Trial, high: Trial) -> Range:
    """One criterion's range. Over parts it is summed from theirs, since another instance may count at each end."""
    if criterion.measure is None or not low.rows:
        values = [each.score(criterion, least=least) for each in (low, high) for least in (True, False)]
        return Range(min(values), max(values))
    ends = []
    for variant in low.variants:
        shares = low.shares(variant)
        ends.append(sum((shares[own] * parts[own].points[criterion.id].low for own in shares), Fraction(0)))
        ends.append(sum((shares[own] * parts[own].points[criterion.id].high for own in shares), Fraction(0)))
    return Range(min(ends), max(ends))


def _part_score(row: PriorityPart, method: Method, low: Trial, high: Trial) -> PartScore:
    """The points of a part: those of every instance that may turn out to be the one that counts."""
    worst, best = low.of(row), high.of(row)
    weights = [low.shares(variant).get(row.id, Fraction(0)) for variant in low.variants]
    weight = Range(min(weights), max(weights))
    if method.mean or len(worst) == 1:
        ranges = {key: Range(worst.mean[key], best.mean[key]) for key in worst.mean}
        only = worst.each[0] if len(worst) == 1 else None
        return PartScore(only.part if only else None, only.steps if only else None, ranges, weight)
    may = _candidates(worst, best, low)
    sure = worst.each[may[0]] if len(may) == 1 else None
    ranges = {
        key: Range(min(worst.each[at].points[key] for at in may), max(best.each[at].points[key] for at in may))
        for key in worst.mean
    }
    return PartScore(sure.part if sure else None, sure.steps if sure else None, ranges, weight)


def _candidates(worst: PartTrial, best: PartTrial, trial: Trial) -> list[int]:
    """The instances of which one may turn out to score least; the first of those that surely score alike."""
    lows = [trial.weighted(one.points) for one in worst.each]
    highs = [trial.weighted(one.points) for one in best.each]
    may = [at for at, least in enumerate(lows) if least <= min(highs)]
    alike = {value for at in may for value in (lows[at], highs[at])}
    return may[:1] if len(alike) == 1 else may
