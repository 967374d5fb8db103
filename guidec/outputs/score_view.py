"""An assessment -> what is shown of it, in words: the same for the terminal, the page and the PDF."""

from __future__ import annotations

from collections.abc import Iterable, Sequence

from guidec.outputs.score_tables import (
    TableView,
    classes_table,
    ideas_table,
    limit_views,
    operations_table,
    parts_table,
    scores_table,
    ways_table,
)
from guidec.outputs.score_words import Speech
from guidec.outputs.words import Words
from guidec.quick import dataclass, replace
from guidec.scoring.assess import Assessment
from guidec.scoring.evidence import Instance, Met
from guidec.scoring.ideas import Idea
from guidec.scoring.index import Index
from guidec.scoring.method import Method, PriorityPart
from guidec.scoring.points import measured
from guidec.trade.work_times import own_table

__all__ = ["LimitView", "PartView", "ScoreView", "score_view"]


@dataclass(frozen=True, slots=True)
class PartView:
    """The workings of one priority part. `lines`: label and text."""

    title: str
    lines: tuple[tuple[str, str], ...]


@dataclass(frozen=True, slots=True)
class LimitView:
    """One regulation's lines: part, verdict, reasons."""

    title: str
    citation: str
    caution: str
    rows: tuple[tuple[str, str, tuple[str, ...]], ...]


@dataclass(frozen=True, slots=True)
class ScoreView:
    """All that is shown. Without a method there is no result, and what belongs to it is empty."""

    title: str
    result: str = ""
    meaning: str = ""
    outside: str = ""
    citation: str = ""
    sum: str = ""
    limits_of_classes: str = ""
    verdict: str = ""
    scores: TableView | None = None
    parts: TableView | None = None
    part_sums: tuple[str, ...] = ()
    workings: tuple[PartView, ...] = ()
    workings_note: str = ""
    unknowns: tuple[str, ...] = ()
    assumptions: tuple[str, ...] = ()
    ideas: TableView | None = None
    classes: TableView | None = None
    classes_note: str = ""
    limits: tuple[LimitView, ...] = ()
    operations: TableView | None = None
    ways: TableView | None = None
    times_note: str = ""


def _times_title(assessment: Assessment, words: Words) -> str:
    """The title of the table of work times; the program's own has one in each language."""
    title = assessment.times.table.title
    return words("score.times-own") if title == own_table().title else title


def score_view(assessment: Assessment, words: Words, ideas: Sequence[Idea] = ()) -> ScoreView:
    """What is shown of an assessment in a language."""
    speech = Speech(assessment, words)
    base = ScoreView(
        title=words("score.title"),
        meaning=words("score.no-method"),
        classes=classes_table(speech) if assessment.classes else None,
        classes_note=words("score.classes-note") if assessment.classes else "",
        limits=tuple(LimitView(*one) for one in limit_views(speech)),
        operations=operations_table(speech),
        ways=ways_table(speech),
        times_note=words("score.times-note", title=_times_title(assessment, words)),
        verdict=_verdict(speech),
    )
    method, index = assessment.method, assessment.index
    if method is None or index is None:
        return base
    return replace(
        base,
        title=method.title.said(words.language),
        result=speech.range(index.total),
        meaning=_meaning(speech, index),
        outside=words("score.outside") if assessment.choice.outside else "",
        citation=method.citation,
        sum=_sum(speech, method, index),
        limits_of_classes=_class_limits(speech, method),
        scores=scores_table(speech, method, index),
        parts=parts_table(speech, method, index),
        part_sums=tuple(_part_sums(speech, method, index)),
        workings=tuple(_workings(speech, method, index)),
        workings_note=words("score.workings-note"),
        unknowns=tuple(speech.unknown(one) for one in sorted(index.unknowns, key=lambda one: -one.moves)),
        assumptions=tuple(speech.assumptions(assessment.assumptions)),
        ideas=ideas_table(speech, ideas) if ideas else None,
    )


def _meaning(speech: Speech, index: Index) -> str:
    """The class, or that it is not settled."""
    if index.cls:
        return speech.says("score.class", cls=index.cls)
    low, high = index.classes
    if low is None and high is None:
        return ""
    return speech.says("score.no-class", low=low or "–", high=high or "–")


def _verdict(speech: Speech) -> str:
    """The author's own word, as theirs."""
    verdict = speech.guide.meta.verdict
    if verdict is None:
        return ""
    points = ""
    if verdict.points is not None:
        points = speech.number(verdict.points)
        if verdict.out_of is not None:
            points = speech.says("score.out-of", points=points, all=speech.number(verdict.out_of))
    said = ": ".join(piece for piece in (points, verdict.why or "") if piece)
    return speech.says("score.verdict", said=said, author=speech.guide.meta.author or speech.says("author"))


def _sum(speech: Speech, method: Method, index: Index) -> str:
    """The sum that gives the index, at both ends where they differ."""

    def written(end: str) -> str:
        terms = (
            f"{speech.number(one.weight)} × {speech.number(getattr(index.scores[one.id], end))}"
            for one in method.criteria
        )
        return f"{' + '.join(terms)} = {speech.number(getattr(index.total, end))}"

    return written("low") if index.total.known else f"{written('low')}; {written('high')}"


def _part_sums(speech: Speech, method: Method, index: Index) -> Iterable[str]:
    """For each criterion over parts the sum of weights times points, at both ends where they differ."""
    counted = [one for one in index.parts.values() if one.weight.high]
    if not all(one.weight.known for one in counted):
        return
    for criterion in method.criteria:
        if criterion.measure and counted:
            score, sums = index.scores[criterion.id], []
            for end in ("low",) if score.known else ("low", "high"):
                terms = (
                    f"{speech.number(one.weight.low)} × {speech.number(getattr(one.points[criterion.id], end))}"
                    for one in counted
                )
                sums.append(f"{' + '.join(terms)} = {speech.number(getattr(score, end))}")
            yield f"{criterion.id}: {'; '.join(sums)}"


def _class_limits(speech: Speech, method: Method) -> str:
    limits = ", ".join(f"{name} ≥ {speech.number(least)}" for name, least in method.classes)
    return speech.says("score.class-limits", limits=limits) if limits else ""


# ---------------------------------------------------------------- workings


def _workings(speech: Speech, method: Method, index: Index) -> Iterable[PartView]:
    evidence = speech.assessment.evidence
    assert evidence is not None
    for row in method.parts:
        instances = evidence.parts[row.id]
        weight = index.parts[row.id].weight
        if not instances or not weight.high:
            continue
        for instance in instances:
            counts = index.parts[row.id].part
            other = len(instances) > 1 and not method.mean and counts not in (None, instance.part)
            yield PartView(_title(speech, row, instance, other), tuple(_lines(speech, method, instance)))


def _title(speech: Speech, row: PriorityPart, instance: Instance, other: bool) -> str:
    name = row.name.said(speech.says.language)
    said = f"{row.id} {name}: {speech.thing(instance.part)}"
    return said + (speech.says("score.not-counted") if other else "")


def _lines(speech: Speech, method: Method, instance: Instance) -> Iterable[tuple[str, str]]:
    says = speech.says
    if instance.steps is None:
        yield says("score.steps"), says("score.never-off")
        return
    for number, (action, by) in enumerate(instance.steps, 1):
        label = says("score.steps") if number == 1 else ""
        yield label, f"{number}. {speech.action(action)}: {says(f'score.ends.{by}')}"
    yield from _sums(speech, method, instance)
    after = says("score.since", name=speech.thing(instance.after)) if instance.after else says("score.from-start")
    lines = _stretch_lines(speech, instance)
    stretch = says("score.lines", count=len(lines), lines=says.joined(str(line) for line in lines))
    yield says("score.stretch"), f"{after}: {stretch}" if instance.stretch else says("score.empty-stretch")
    for criterion in method.criteria:
        if criterion.measure in ("fastenings", "tools"):
            found = instance.fastenings if criterion.measure == "fastenings" else instance.tools
            group = "reuse" if criterion.measure == "fastenings" else "grade"
            points = criterion.points or {}
            said = [_met(speech, one, group, points.get(one.word or "")) for one in found]
            key = "score.none-fastenings" if criterion.measure == "fastenings" else "score.none-tools"
            none = says(key, points=speech.number(method.high if criterion.empty is None else criterion.empty))
            yield criterion.name.said(says.language), "; ".join(said) or none


def _sums(speech: Speech, method: Method, instance: Instance) -> Iterable[tuple[str, str]]:
    """Steps with the authorisations on top, and the other numbers that the method measures."""
    for criterion in method.criteria:
        if criterion.measure in (None, "fastenings", "tools"):
            continue
        value = measured(instance, criterion)
        if criterion.measure == "steps" and instance.authorisations:
            yield (
                "",
                speech.says(
                    "score.authorised",
                    count=instance.authorisations,
                    each=criterion.authorisation,
                    steps=int(value),
                ),
            )
        elif criterion.measure != "steps":
            yield criterion.name.said(speech.says.language), speech.number(value)


def _stretch_lines(speech: Speech, instance: Instance) -> list[int]:
    return sorted({speech.line(own) for own in instance.stretch})


def _met(speech: Speech, one: Met, group: str, points: object) -> str:
    says = speech.says
    word = speech.word(group, one.word or "")
    scored = speech.number(points) if points is not None else says("score.no-points")  # type: ignore[arg-type]
    mark = says("score.assumed-mark") if one.assumed and one.word else ""
    return f"{speech.thing(one.thing)} {word}{mark} {scored}"
