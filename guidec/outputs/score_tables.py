"""An assessment -> its tables in words: scores, parts, changes, classes, times, and the lines of regulations."""

from __future__ import annotations

from collections.abc import Iterable, Sequence

from guidec.outputs.score_words import Speech, change_text
from guidec.quick import dataclass
from guidec.scoring.en45554 import Grade
from guidec.scoring.ideas import Idea
from guidec.scoring.index import Index, Range
from guidec.scoring.limits import Line
from guidec.scoring.method import Method, Text
from guidec.trade.load import data

__all__ = [
    "TableView",
    "classes_table",
    "ideas_table",
    "limit_views",
    "operations_table",
    "parts_table",
    "scores_table",
    "ways_table",
]

MOST_IDEAS = 12


@dataclass(frozen=True, slots=True)
class TableView:
    """A table: (name of its style, label) of each column, and rows of text."""

    title: str
    columns: tuple[tuple[str, str], ...]
    rows: tuple[tuple[str, ...], ...]


def _table(speech: Speech, title: str, columns: Sequence[str], rows: Iterable[Sequence[str]]) -> TableView:
    heads = tuple(
        ("right" if one.startswith(">") else "", _label(speech, one.removeprefix(">"))) for one in columns
    )
    return TableView(speech.says(title), heads, tuple(tuple(row) for row in rows))


def _label(speech: Speech, key: str) -> str:
    return key.removeprefix("=") if key.startswith("=") else speech.says(f"score.col.{key}")


def scores_table(speech: Speech, method: Method, index: Index) -> TableView:
    """Each criterion: points, weight, product."""
    rows = []
    for one in method.criteria:
        score = index.scores[one.id]
        product = Range(one.weight * score.low, one.weight * score.high)
        name = one.name.said(speech.says.language)
        rows.append((one.id, name, speech.range(score), speech.number(one.weight), speech.range(product)))
    return _table(speech, "score.scores", ("score", "name", ">points", ">weight", ">product"), rows)


def parts_table(speech: Speech, method: Method, index: Index) -> TableView:
    """Each priority part: its steps, points by criterion, weight."""
    measured = [one for one in method.criteria if one.measure]
    evidence = speech.assessment.evidence
    rows = []
    for row in method.parts:
        score = index.parts[row.id]
        if not score.weight.high:
            continue
        absent = evidence is not None and row.id in evidence.absent
        name = (
            speech.thing(score.part) if score.part else speech.says("score.absent" if absent else "score.several")
        )
        if not score.part and evidence is not None and not evidence.parts[row.id] and not absent:
            name = speech.says("score.not-shown")
        steps = "" if score.steps is None else str(score.steps)
        points = [speech.range(score.points[one.id]) for one in measured]
        rows.append((row.id, name, speech.range(score.weight), steps, *points))
    heads = [f">={one.id}" for one in measured]
    return _table(speech, "score.by-part", ("id", "part", ">weight", ">steps", *heads), rows)


def ideas_table(speech: Speech, ideas: Sequence[Idea]) -> TableView:
    """The single changes that raise the index most."""
    rows = [
        (
            f"+{speech.number(one.gain)}",
            speech.range(one.total),
            one.cls or f"{one.classes[0] or '–'}..{one.classes[1] or '–'}",
            change_text(speech.guide, one.change),
        )
        for one in ideas[:MOST_IDEAS]
    ]
    return _table(speech, "score.ideas", (">gain", ">index", "class", "change"), rows)


def classes_table(speech: Speech) -> TableView:
    """The classes of EN 45554 by part."""
    rows = [
        (
            speech.thing(one.part),
            _grade(speech, one.fastenings),
            _grade(speech, one.tools),
            _grade(speech, one.environment),
            _grade(speech, one.skill),
        )
        for one in speech.assessment.classes
    ]
    return _table(speech, "score.classes", ("part", "fastenings", "tools", "environment", "skill"), rows)


def _grade(speech: Speech, grade: Grade | None) -> str:
    """A letter, and from B on what decides it."""
    if grade is None:
        return speech.says("score.not-said")
    if grade.letter is None:
        return "? (" + ", ".join(speech.thing(own) for own in grade.by) + ")"
    return grade.letter + ("*" if grade.assumed else "")


# ---------------------------------------------------------------- regulations


def limit_views(speech: Speech) -> Iterable[tuple[str, str, str, tuple[tuple[str, str, tuple[str, ...]], ...]]]:
    """For each regulation: title, citation, the words on derogations, and part, verdict, reasons of each line."""
    for rule in dict.fromkeys(line.rule for line in speech.assessment.limits):
        table = data("limits")[rule]
        rows = tuple(_rows(speech, [line for line in speech.assessment.limits if line.rule == rule]))
        language = speech.says.language
        title, caution = Text(table["title"]).said(language), Text(table["derogations"]).said(language)
        yield title, table["citation"], caution, rows


def _rows(speech: Speech, lines: Sequence[Line]) -> Iterable[tuple[str, str, tuple[str, ...]]]:
    """The lines, parts with the same verdict for the same reasons together."""
    alike: dict[tuple[str, str, tuple[str, ...]], list[str]] = {}
    for line in lines:
        rows = data("limits")[line.rule].get("lists")
        listed = f" ({Text(rows[line.place]['name']).said(speech.says.language)})" if rows else ""
        reasons = tuple(speech.reason(one) for one in line.reasons)
        verdict = speech.says(f"score.verdict.{line.verdict}")
        alike.setdefault((listed, verdict, reasons), []).append(speech.thing(line.part))
    for (listed, verdict, reasons), names in alike.items():
        yield ", ".join(names) + listed, verdict, reasons


# ---------------------------------------------------------------- times


def operations_table(speech: Speech) -> TableView:
    """Hand time and waiting of each operation, beside what the recording shows."""
    guide = speech.guide
    rows = [
        (
            str(guide.operation[one.operation].number),
            guide.operation[one.operation].title,
            speech.seconds(one.hand),
            speech.seconds(one.wait),
            speech.seconds(one.measured or 0),
        )
        for one in speech.assessment.times.operations
    ]
    return _table(speech, "score.times", (">number", "operation", ">hand", ">wait", ">recorded"), rows)


def ways_table(speech: Speech) -> TableView:
    """The times of the way with the fewest steps to each part that comes off."""
    assessment = speech.assessment
    rows = []
    for one in assessment.classes:
        way = assessment.ways.off(one.part)
        if way is None:
            continue
        time = assessment.times.route(speech.guide, way)
        recorded = speech.seconds(time.measured or 0)
        if recorded and time.covers < time.operations:
            recorded = speech.says("score.of", time=recorded, count=time.covers, all=time.operations)
        rows.append(
            (
                speech.thing(one.part),
                str(way.cost.steps),
                speech.seconds(time.hand),
                speech.seconds(time.wait),
                recorded,
            )
        )
    return _table(speech, "score.ways", ("part", ">steps", ">hand", ">wait", ">recorded"), rows)
