"""A guide's things -> the rows of its lists: what to lay out, the bill of materials, the index of things."""

from __future__ import annotations

import unicodedata
from bisect import bisect_right
from collections.abc import Mapping

from markupsafe import Markup

from guidec.model import printed
from guidec.model.types import (
    Fastening,
    Guide,
    ScrewSet,
    Supply,
    Tool,
)
from guidec.outputs.inline import Pen, anchor
from guidec.outputs.viewmaterials import materials
from guidec.outputs.viewtables import Table, cell, links, of_kind, table
from guidec.quick import dataclass

__all__ = ["Entry", "Lists", "lists", "occurrences"]


@dataclass(frozen=True, slots=True)
class Entry:
    """One row of the index: a thing's anchor, how it prints, its kind in words, the operations that name it."""

    id: str
    name: str
    kind: str
    details: str
    operations: Markup
    draft: bool


@dataclass(frozen=True, slots=True)
class Lists:
    """`lay_out`: tools and supplies (either may have no rows); `materials`: tables with rows; `index`: by name."""

    lay_out: tuple[Table, ...]
    materials: tuple[Table, ...]
    index: tuple[Entry, ...]


def lists(pen: Pen) -> Lists:
    """All lists of a guide."""
    places = occurrences(pen.guide)
    return Lists(
        lay_out=(_tools(pen, places), _supplies(pen, places)),
        materials=materials(pen),
        index=_index(pen, places),
    )


def occurrences(guide: Guide) -> Mapping[str, tuple[int, ...]]:
    """The numbers of the operations in which each thing occurs: where it is named, or used by an action."""
    spans = sorted((operation.span, operation.number) for operation in guide.operations)
    starts = [span.start for span, _ in spans]
    found: dict[str, set[int]] = {name: set() for name in guide.things}
    for thing in guide.things.values():
        for place in thing.places:
            at = bisect_right(starts, place.start) - 1
            if at >= 0 and place.start < spans[at][0].end:
                found[thing.id].add(spans[at][1])
    for action in guide.actions.values():
        number = guide.operation[action.operation].number
        for use in (*action.objects, *action.mentions, *action.tools, *action.supplies):
            if use.id in found:
                found[use.id].add(number)
    return {name: tuple(sorted(numbers)) for name, numbers in found.items()}


def _graded(pen: Pen, tool: Tool) -> Markup:
    says = pen.words
    if tool.grade is None:
        return Markup("")
    grade = says.named("grade", tool.grade)
    return cell(f"{grade} ({says('proposed')})" if tool.grade_proposed else grade)


def _tools(pen: Pen, places: Mapping[str, tuple[int, ...]]) -> Table:
    rows = [
        (pen.thing(tool.id), cell(tool.size), _graded(pen, tool), links(pen, places[tool.id]))
        for tool in of_kind(pen, Tool)
        if isinstance(tool, Tool)
    ]
    return table(pen, "tools", "name size grade operations", rows)


def _supplies(pen: Pen, places: Mapping[str, tuple[int, ...]]) -> Table:
    """What is used up, and what has to be new on refit."""
    rows = []
    for thing in pen.guide.things.values():
        if isinstance(thing, Supply):
            amount, note = thing.amount, Markup("")
            strength = thing.strength
        elif getattr(thing, "renew", False):
            amount, note = getattr(thing, "amount", None), cell(pen.words("renew"))
            strength = thing.type if isinstance(thing, Fastening) else ""
        else:
            continue
        rows.append(
            (
                pen.thing(thing.id),
                cell(strength),
                cell(pen.words.figures(amount.text) if amount else ""),
                note,
                links(pen, places[thing.id]),
            )
        )
    return table(pen, "supplies", "name strength amount remarks operations", rows)


def _index(pen: Pen, places: Mapping[str, tuple[int, ...]]) -> tuple[Entry, ...]:
    says = pen.words
    return tuple(
        Entry(
            id=anchor(thing.id),
            name=thing.name,
            kind=says(f"thing.{thing.kind.value}"),
            details=pen.words.figures(printed.screw_notation(thing)) if isinstance(thing, ScrewSet) else "",
            operations=links(pen, places[thing.id]) or cell(says("index-none")),
            draft=thing.draft,
        )
        for thing in sorted(pen.guide.things.values(), key=lambda thing: _sort_key(thing.name))
    )


def _sort_key(name: str) -> tuple[str, str]:
    """Letters without their accents, any case; the name itself where that is the same."""
    plain = unicodedata.normalize("NFKD", name)
    return "".join(char for char in plain if not unicodedata.combining(char)).casefold(), name
