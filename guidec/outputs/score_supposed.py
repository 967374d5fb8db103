"""An assessment and the one with changes -> what moves, as text for a terminal."""

from __future__ import annotations

from collections.abc import Iterator, Sequence

from guidec.outputs.score_words import Speech, change_text
from guidec.outputs.words import Words
from guidec.scoring.assess import Assessment
from guidec.scoring.change import Change
from guidec.scoring.index import Index, Range

__all__ = ["moved_text"]


def moved_text(before: Assessment, after: Assessment, changes: Sequence[Change], words: Words) -> str:
    """What is supposed, the index before and after, and every score and part that moves."""
    return "\n".join(_lines(before, after, changes, words)) + "\n"


def _lines(before: Assessment, after: Assessment, changes: Sequence[Change], words: Words) -> Iterator[str]:
    yield words("score.supposed")
    for change in changes:
        yield f"  {change_text(before.guide, change)}"
    one, other = before.index, after.index
    if one is None or other is None or before.method is None:
        yield words("score.no-method")
        return
    was, now = Speech(before, words), Speech(after, words)
    yield ""
    yield f"{words('score.col.index')}: {_arrow(was, one.total, other.total)}, {_classes(words, one, other)}"
    moved = [
        f"  {row.id} {row.name.said(words.language)}: {_arrow(was, one.scores[row.id], other.scores[row.id])}"
        for row in before.method.criteria
        if one.scores[row.id] != other.scores[row.id]
    ]
    moved += list(_parts(was, one, other))
    yield from moved or [f"  {words('score.nothing-moves')}"]
    for unknown in other.unknowns:
        if unknown not in one.unknowns and unknown.moves:
            yield f"  {now.unknown(unknown)}"


def _arrow(speech: Speech, one: Range, other: Range) -> str:
    if one == other:
        return speech.range(one)
    return f"{speech.range(one)} → {speech.range(other)}"


def _classes(words: Words, one: Index, other: Index) -> str:
    was, now = (each.cls or f"{each.classes[0] or '–'}..{each.classes[1] or '–'}" for each in (one, other))
    return words("score.class", cls=was if was == now else f"{was} → {now}")


def _parts(was: Speech, one: Index, other: Index) -> Iterator[str]:
    """The parts whose steps or points move."""
    method = was.assessment.method
    for row in method.parts if method else ():
        first, second = one.parts[row.id], other.parts[row.id]
        points = [
            f"{key} {_arrow(was, first.points[key], second.points[key])}"
            for key in first.points
            if first.points[key] != second.points[key]
        ]
        if first.steps != second.steps:
            points.insert(0, f"{was.says('score.col.steps')} {first.steps or '–'} → {second.steps or '–'}")
        if points:
            yield f"  {row.id} {row.name.said(was.says.language)}: {', '.join(points)}"
