"""A document -> everything it says of things: each mark in reading order, and the rows of its front matter."""

from __future__ import annotations

import re
from collections.abc import Iterable, Mapping
from typing import NamedTuple

from guidec.notes.kinds import THINGS
from guidec.notes.syntax import Document, Inline, Key, Located, Mark
from guidec.source import Span

__all__ = ["Said", "front_rows", "marks_in", "said_by"]

_TABLES = {
    "parts": "part",
    "fasteners": "screw",
    "tools": "tool",
    "supplies": "supply",
    "connectors": "connector",
    "adhesives": "adhesive",
}


_UNTIDY = re.compile(r"\n[ \t>]*|\\(?=[!-/:-@\[-`{-~])")


class Said(NamedTuple):
    """One place that names a thing. `kind` is empty where it only refers; `mark` is None for the front matter."""

    span: Span
    kind: str
    name: str
    name_span: Span
    details: str
    details_span: Span
    keys: tuple[Key, ...]
    draft: bool
    mark: Mark | None = None

    @property
    def raw(self) -> str:
        """The details as typed, character for character, so that offsets in them hold."""
        return self.details if self.mark is None else raw_text(self.mark, self.details_span)

    @property
    def bare(self) -> bool:
        """Whether it says nothing but the name."""
        return not self.details and not self.keys


def raw_text(mark: Mark, span: Span) -> str:
    """The typed text of a range of a mark; line ends with what a quote or list puts after them, and the
    backslash before a plain character, are blanks."""
    text = mark.text[span.start - mark.span.start : span.end - mark.span.start]
    return _UNTIDY.sub(lambda found: " " * len(found[0]), text) if "\n" in text or "\\" in text else text


def said_by(mark: Mark, whole: bool = False) -> Said:
    """What a mark says; `whole`: its kind word is part of the name."""
    if not whole:
        kind = mark.kind if mark.kind in THINGS else ""
        return Said(
            mark.span,
            kind,
            mark.name,
            mark.name_span,
            mark.details,
            mark.details_span,
            mark.keys,
            mark.draft,
            mark,
        )
    details, span = (mark.details, mark.details_span) if mark.kind in ("", *THINGS) else _after_colon(mark)
    return Said(mark.span, "", mark.whole, mark.whole_span, details, span, mark.keys, mark.draft, mark)


def _after_colon(mark: Mark) -> tuple[str, Span]:
    """What stands between the first colon and the first semicolon of a mark, which may be nothing."""
    start = mark.whole_span.end - mark.span.start
    head, colon, rest = mark.text[start:].partition(":")
    if not colon or head.strip():
        return "", Span(mark.whole_span.end, mark.whole_span.end)
    text = rest.partition(";")[0].removesuffix("}")
    begin = mark.whole_span.end + len(head) + 1 + len(text) - len(text.lstrip())
    return text.strip(), Span(begin, begin + len(text.strip()))


def marks_in(stretches: Iterable[Inline]) -> tuple[Mark, ...]:
    """All marks of some stretches of text in reading order, each followed by those inside it."""
    found: list[Mark] = []
    for inline in stretches:
        for mark in inline.marks:
            found.append(mark)
            found.extend(mark.inner)
    return tuple(found)


def front_rows(document: Document) -> tuple[Said, ...]:
    """The things that the front matter's tables name, as marks would."""
    found: list[Said] = []
    for table, kind in _TABLES.items():
        rows = document.front.get(table)
        if rows is None:
            continue
        if isinstance(rows.value, Mapping):
            found += [_row(kind, entry.key, entry.key_span, entry.value) for entry in rows.value.values()]
        elif isinstance(rows.value, tuple):
            found += [
                _row(kind, one.typed or str(one.value), one.span, None) for one in rows.value if _scalar(one)
            ]
    return tuple(sorted(found, key=lambda said: said.span))


def _scalar(value: Located) -> bool:
    return isinstance(value.value, str | int | float) and not isinstance(value.value, bool)


def _row(kind: str, name: str, span: Span, value: Located | None) -> Said:
    """One row of a table: a mapping of keys, or its details alone."""
    details, at, keys = "", Span(0, 0), []
    if value is not None and isinstance(value.value, Mapping):
        for entry in value.value.values():
            if entry.key == "details":
                details, at = _typed(entry.value) or "", _unquoted(entry.value)
            else:
                keys.append(Key(entry.key, entry.key_span, _typed(entry.value), _unquoted(entry.value)))
    elif value is not None and value.value is not None:
        details, at = _typed(value) or "", _unquoted(value)
    return Said(span, kind, str(name), span, details, at, tuple(keys), False)


def _unquoted(value: Located) -> Span:
    """The span of a value's text: of a scalar in quotes without escapes, what stands between them."""
    start, end = value.span
    quoted = isinstance(value.value, str) and end - start == len(value.value) + 2
    return Span(start + 1, end - 1) if quoted else value.span


def _typed(value: Located) -> str | None:
    """A value of the front matter as it would stand in a mark; None for an empty one."""
    if value.value is None:
        return None
    if isinstance(value.value, bool):
        return "yes" if value.value else "no"
    if isinstance(value.value, tuple):
        return ", ".join(filter(None, (_typed(item) for item in value.value)))
    if isinstance(value.value, Mapping):
        return ", ".join(value.value)
    return value.value if isinstance(value.value, str) else (value.typed or str(value.value))
