"""An assessment -> `score.json`, and the data of `guidec score --format json`.

The form is described by `schema/score.schema.json`. Numbers that are not known are null, with their range beside.
"""

from __future__ import annotations

from collections.abc import Sequence
from fractions import Fraction
from typing import Any

from guidec.outputs.guide_json import dumped
from guidec.outputs.jsonable import number
from guidec.outputs.score_words import Speech, change_text
from guidec.outputs.words import words
from guidec.scoring.assess import Assessment
from guidec.scoring.change import Change
from guidec.scoring.en45554 import Grade
from guidec.scoring.evidence import Instance, Met
from guidec.scoring.ideas import Idea
from guidec.scoring.index import Index, Range
from guidec.scoring.limits import Line
from guidec.scoring.method import Criterion, Method
from guidec.scoring.work import RouteTime
from guidec.source import Span
from guidec.trade.load import data

__all__ = ["FORMAT", "VERSION", "as_data", "encode", "supposed_data"]

FORMAT = "guidec score"
VERSION = 1
ENGLISH = "en"
"""The language of the sentences in the data."""

Row = dict[str, Any]

POINTS = {"steps": "depth_points", "fastenings": "fastener_points", "tools": "tool_points"}


def encode(assessment: Assessment, ideas: Sequence[Idea], *, clean: bool = True) -> bytes:
    """The bytes of `score.json`. `clean`: whether the note has no error."""
    return dumped(as_data(assessment, ideas, clean=clean))


def as_data(assessment: Assessment, ideas: Sequence[Idea], *, clean: bool = True) -> Row:
    """An assessment as plain data."""
    speech = Speech(assessment, words(ENGLISH))
    verdict = assessment.guide.meta.verdict
    return {
        "format": FORMAT,
        "version": VERSION,
        "clean": clean,
        "guide": assessment.guide.meta.slug,
        **_result(assessment, speech),
        "ideas": [_idea(assessment, one) for one in ideas],
        "en_45554": {one.part: _classes(one) for one in assessment.classes},
        "regulations": [_line(speech, one) for one in assessment.limits],
        "times": _times(assessment),
        "verdict": {"points": verdict.points, "out_of": verdict.out_of, "why": verdict.why} if verdict else None,
    }


def _result(assessment: Assessment, speech: Speech) -> Row:
    """What the method gives; nulls where there is none."""
    method, index = assessment.method, assessment.index
    if method is None or index is None:
        none = dict.fromkeys(("method", "title", "citation", "scope", "index", "low", "high", "class"))
        return {**none, "scores": {}, "score_ranges": {}, "parts": {}, "unknowns": [], "assumptions": []}
    return {
        "method": method.id,
        "title": str(method.title),
        "citation": method.citation,
        "scope": "outside the Regulation's scope" if assessment.choice.outside else "inside",
        "scores": {key: _known(value) for key, value in index.scores.items()},
        "score_ranges": {key: _range(value) for key, value in index.scores.items()},
        "weights": {one.id: _number(one.weight) for one in method.criteria},
        "variant": index.variant or None,
        "parts": {row.id: _part(assessment, method, index, row.id) for row in method.parts},
        "index": _known(index.total),
        "low": _number(index.total.low),
        "high": _number(index.total.high),
        "class": index.cls,
        "classes": [{"class": name, "at_least": _number(least)} for name, least in method.classes],
        "unknowns": [
            {
                "key": one.key,
                "about": one.about or None,
                "why": one.why,
                "moves": _number(one.moves),
                "text": speech.unknown(one),
            }
            for one in sorted(index.unknowns, key=lambda one: -one.moves)
        ],
        "assumptions": [
            {
                "why": one.why,
                "about": one.about,
                "word": one.word or None,
                **_place(assessment, one.span),
                "text": speech.assumption(one),
            }
            for one in assessment.assumptions
        ],
    }


def _number(value: Fraction) -> float | None:
    return number(round(float(value), 9))


def _known(value: Range) -> float | None:
    return _number(value.low) if value.known else None


def _range(value: Range) -> Row:
    return {"low": _number(value.low), "high": _number(value.high)}


def _place(assessment: Assessment, span: Span | None) -> Row:
    if span is None:
        return {"line": None, "column": None}
    place = assessment.guide.source.place(span.start)
    return {"line": place.line, "column": place.column}


# ---------------------------------------------------------------- parts


def _part(assessment: Assessment, method: Method, index: Index, own: str) -> Row:
    evidence = assessment.evidence
    assert evidence is not None
    score = index.parts[own]
    measured = {one.measure: one for one in method.criteria if one.measure}
    points = {
        name: _known(score.points[measured[measure].id]) if measure in measured else None
        for measure, name in POINTS.items()
    }
    return {
        "part": score.part,
        "absent": own in evidence.absent,
        "weight": _range(score.weight),
        "steps": score.steps,
        **points,
        "points": {key: _range(value) for key, value in score.points.items()},
        "instances": [_instance(assessment, method, one) for one in evidence.parts[own]],
    }


def _instance(assessment: Assessment, method: Method, one: Instance) -> Row:
    scored = {each.measure: each for each in method.criteria if each.measure in ("fastenings", "tools")}
    return {
        "part": one.part,
        "steps": None
        if one.steps is None
        else [{**_action(assessment, own), "ends_by": by} for own, by in one.steps],
        "authorisations": one.authorisations,
        "after": one.after,
        "stretch": [_action(assessment, own) for own in one.stretch],
        "fastenings": [_met(assessment, each, scored.get("fastenings")) for each in one.fastenings],
        "tools": [_met(assessment, each, scored.get("tools")) for each in one.tools],
    }


def _action(assessment: Assessment, own: str) -> Row:
    action = assessment.guide.actions[own]
    return {"operation": action.operation, **_place(assessment, action.span), "text": action.text}


def _met(assessment: Assessment, one: Met, criterion: Criterion | None) -> Row:
    points = (criterion.points or {}).get(one.word or "") if criterion else None
    return {
        "thing": one.thing,
        "word": one.word,
        "assumed": one.assumed,
        "points": None if points is None else _number(points),
        "line": _place(assessment, assessment.guide.actions[one.action].span)["line"],
    }


# ---------------------------------------------------------------- the rest


def _idea(assessment: Assessment, one: Idea) -> Row:
    total = _range(one.total)
    return {
        "change": change_text(assessment.guide, one.change),
        "gain": _number(one.gain),
        **total,
        "class": one.cls,
    }


def _classes(one: Any) -> Row:
    found = {"fastenings": one.fastenings, "tools": one.tools, "environment": one.environment, "skill": one.skill}
    return {scale: _grade(grade) for scale, grade in found.items()}


def _grade(grade: Grade | None) -> Row | None:
    if grade is None:
        return None
    return {"class": grade.letter, "by": list(grade.by), "assumed": grade.assumed}


def _line(speech: Speech, one: Line) -> Row:
    table = data("limits")[one.rule]
    lists = table.get("lists")
    return {
        "citation": table["citation"],
        "list": lists[one.place]["name"]["en"] if lists else None,
        "part": one.part,
        "verdict": one.verdict,
        "reasons": [
            {"about": each.about, "ok": each.ok, "things": list(each.things), "text": speech.reason(each)}
            for each in one.reasons
        ],
        "operations": list(one.operations),
        "derogations": table["derogations"]["en"],
    }


def _times(assessment: Assessment) -> Row:
    times = assessment.times
    found = ((one.part, assessment.ways.off(one.part)) for one in assessment.classes)
    return {
        "table": {"title": times.table.title, "source": times.table.source, "status": times.table.status},
        "actions": [
            {
                **_action(assessment, own),
                "hand_s": _number(one.hand),
                "wait_s": _number(one.wait),
                "phases": {phase: _number(seconds) for phase, seconds in one.phases.items()},
            }
            for own, one in times.actions.items()
        ],
        "operations": [
            {
                "operation": one.operation,
                "hand_s": _number(one.hand),
                "wait_s": _number(one.wait),
                "recorded_s": number(one.measured),
            }
            for one in times.operations
        ],
        "routes": [_way(times.route(assessment.guide, way)) for _, way in found if way is not None],
    }


def _way(one: RouteTime) -> Row:
    return {
        "part": one.part,
        "hand_s": _number(one.hand),
        "wait_s": _number(one.wait),
        "tool_changes": one.changes,
        "turn_overs": one.turns,
        "recorded_s": number(one.measured),
        "recorded_operations": one.covers,
        "operations": one.operations,
    }


def supposed_data(before: Assessment, after: Assessment, changes: Sequence[Change]) -> Row:
    """What is supposed, and the result with it."""
    found = _result(after, Speech(after, words(ENGLISH)))
    moved = None
    if before.index is not None and after.index is not None:
        one, other = before.index.total, after.index.total
        moved = {"low": _number(other.low - one.low), "high": _number(other.high - one.high)}
    return {"changes": [change_text(before.guide, one) for one in changes], "moves": moved, **found}
