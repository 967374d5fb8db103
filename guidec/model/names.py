"""Names in a heading's mark -> references to things and operations."""

from __future__ import annotations

from collections.abc import Iterable, Mapping

from guidec.model.context import Context
from guidec.model.types import Operation, Ref
from guidec.notes.syntax import Mark
from guidec.source import Source, Span

__all__ = ["fold", "named", "rest_of", "titles"]


def fold(name: str) -> str:
    """A name as it is compared: case and white space folded."""
    return " ".join(name.casefold().split())


def titles(operations: Iterable[Operation]) -> dict[str, str]:
    """Folded title or id -> operation id; the first of several that share a title."""
    found: dict[str, str] = {}
    for operation in operations:
        found.setdefault(fold(operation.title), operation.id)
    for operation in operations:
        found.setdefault(operation.id, operation.id)
    return found


def rest_of(mark: Mark, source: Source) -> tuple[str, int]:
    """What a mark says after its kind word, as typed, and the offset at which that starts."""
    end = mark.span.end - (1 if mark.text.endswith("}") else 0)
    return source.text[mark.kind_span.end : end], mark.kind_span.end


def named(typed: str, start: int, by_title: Mapping[str, str], context: Context) -> tuple[Ref, ...]:
    """The things and operations of a comma list. A title may hold commas: the longest that is known counts.

    Of a thing and an operation that share a name the thing is meant, unless `operation` stands before it.
    """
    parts: list[tuple[str, int]] = []
    at = start
    for part in typed.split(","):
        parts.append((part, at))
        at += len(part) + 1
    found: list[Ref] = []
    index = 0
    while index < len(parts):
        width, ref = _longest(parts[index:], by_title, context)
        index += width
        if ref is not None:
            found.append(ref)
    return tuple(found)


def _longest(
    parts: list[tuple[str, int]], by_title: Mapping[str, str], context: Context
) -> tuple[int, Ref | None]:
    for width in range(len(parts), 0, -1):
        typed = ",".join(part for part, _ in parts[:width])
        ref = _one(typed, parts[0][1], by_title, context)
        if ref is not None and (ref.id is not None or width == 1):
            return width, ref
    return 1, None


def _one(typed: str, start: int, by_title: Mapping[str, str], context: Context) -> Ref | None:
    name = typed.strip().strip("{}").strip()
    if not name:
        return None
    at = start + typed.index(name)
    span = Span(at, at + len(name))
    folded = fold(name)
    if folded.startswith("operation ") and folded.removeprefix("operation ") in by_title:
        return Ref(name, span, by_title[folded.removeprefix("operation ")], operation=True)
    thing = context.declared.find(name) or _with_kind(folded, context)
    if thing is None and folded in by_title:
        return Ref(name, span, by_title[folded], operation=True)
    return Ref(name, span, thing)


def _with_kind(folded: str, context: Context) -> str | None:
    """A thing named with its kind word before it ("screw A")."""
    kind, _, name = folded.partition(" ")
    thing = context.declared.find(name) if name else None
    return thing if thing is not None and context.declared.things[thing].kind.value == kind else None
