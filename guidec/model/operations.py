"""The sections of a note -> operations with their content and actions, bound to nothing yet.

What a heading says of order (`after`, `also`, `instead of`) is resolved once all operations are known.
"""

from __future__ import annotations

from collections.abc import Mapping, Sequence

from guidec.model.content import read_body
from guidec.model.context import Context
from guidec.model.names import named, rest_of, titles
from guidec.model.printed import text
from guidec.model.sections import Section
from guidec.model.sides import side_named
from guidec.model.slugs import earlier, slug, unique
from guidec.model.types import Action, After, Operation, Time
from guidec.notes.syntax import Mark, Piece, Word
from guidec.quick import dataclass, replace
from guidec.rules.finding import Finding

__all__ = ["ReadOperations", "read_operations"]


@dataclass(frozen=True, slots=True)
class ReadOperations:
    """Operations in note order, and all actions by id."""

    operations: tuple[Operation, ...]
    actions: Mapping[str, Action]


def read_operations(parts: Sequence[Section], context: Context) -> ReadOperations:
    """Read every section; then resolve what their headings say of each other."""
    operations: list[Operation] = []
    actions: dict[str, Action] = {}
    taken: set[str] = set()
    for at, part in enumerate(parts):
        operation, own = _operation(part, (at + 1) * 10, taken, context)
        operations.append(operation)
        actions.update(own)
    _check_titles(operations, context)
    by_title = titles(operations)
    shown = {operation.id: operation.title for operation in operations}
    context.titles.update({name: shown[own] for name, own in by_title.items()})
    bound = tuple(
        _bound(operation, part.marks, by_title, context) for operation, part in zip(operations, parts, strict=True)
    )
    return ReadOperations(bound, actions)


def _operation(
    part: Section, number: int, taken: set[str], context: Context
) -> tuple[Operation, dict[str, Action]]:
    heading = part.heading.inline
    words = [piece for piece in heading.pieces if piece not in part.marks] if part.marks else heading.pieces
    title = text(words, context.source, context.printed)
    if not title:
        title = f"Operation {number}"
        context.report(Finding.at("M208", part.heading.span, variant="empty", title=title, number=number))
    own = unique(_slug(words, title, context), taken)
    taken.add(own)
    body = read_body(own, part.blocks, context)
    hazards = body.place_hazards()
    kinds = {mark.kind for mark in part.marks}
    time = heading.time
    operation = Operation(
        id=own,
        number=number,
        title=title,
        span=part.span,
        heading=heading,
        heading_span=part.heading.span,
        actions=tuple(body.actions),
        content=body.content,
        live="live" in kinds,
        optional="optional" in kinds,
        refit_only="refit only" in kinds,
        time=Time(time.start, time.end, time.span) if time else None,
        hazards=hazards,
        draft=any(mark.draft for mark in part.marks),
    )
    return operation, body.actions


def _slug(words: Sequence[Piece], title: str, context: Context) -> str:
    """The id: the slug of the title, its marks left out; of all of it where nothing else is left."""
    plain = [piece for piece in words if isinstance(piece, Word)]
    bare = title if len(plain) == len(words) else text(plain, context.source, context.printed)
    return slug(bare) or slug(title) or "operation"


def _check_titles(operations: Sequence[Operation], context: Context) -> None:
    first: dict[str, Operation] = {}
    for operation in operations:
        key = " ".join(operation.title.casefold().split())
        if key in first:
            context.report(
                Finding.at(
                    "M208",
                    operation.heading_span,
                    labels={"first": first[key].heading_span},
                    title=operation.title,
                    number=operation.number,
                    id=operation.id,
                )
            )
        first.setdefault(key, operation)


def _bound(
    operation: Operation, marks: Sequence[Mark], by_title: Mapping[str, str], context: Context
) -> Operation:
    """The operation with what its heading says of order and side."""
    if not marks:
        return operation
    after = tuple(_after(mark, by_title, context) for mark in marks if mark.kind in ("after", "also"))
    instead = next((mark for mark in marks if mark.kind == "instead of"), None)
    side = next((mark for mark in marks if mark.kind == "side"), None)
    return replace(
        operation,
        after=after,
        instead_of=_instead(operation, instead, by_title, context) if instead else None,
        instead_span=instead.span if instead else None,
        side=side_named(side, context) if side else None,
        side_stated=side is not None,
        was=earlier(rest_of(mark, context.source)[0] for mark in marks if mark.kind == "was"),
    )


def _after(mark: Mark, by_title: Mapping[str, str], context: Context) -> After:
    typed, start = rest_of(mark, context.source)
    also = mark.kind == "also"
    if typed.strip().casefold() in ("nothing", "{nothing}") and not also:
        return After(mark.span, (), nothing=True)
    refs = named(typed, start, by_title, context)
    for ref in refs:
        if ref.id is None:
            context.report(
                Finding.at(
                    "M301",
                    ref.span,
                    name=ref.name,
                    suggest=context.nearest(ref.name, by_title),
                    word=mark.kind,
                )
            )
    return After(mark.span, refs, also=also)


def _instead(operation: Operation, mark: Mark, by_title: Mapping[str, str], context: Context) -> str | None:
    typed, _ = rest_of(mark, context.source)
    name = " ".join(typed.casefold().split()).removeprefix("operation ")
    found = by_title.get(name) or by_title.get(" ".join(typed.casefold().split()))
    if found is None:
        suggest = context.nearest(typed, by_title, things=False)
        context.report(Finding.at("M303", mark.span, name=typed.strip(), suggest=suggest))
    elif found == operation.id:
        context.report(Finding.at("M303", mark.span, variant="itself", name=typed.strip()))
        return None
    return found
