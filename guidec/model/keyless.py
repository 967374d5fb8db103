"""Marks that take no keys -> those in which something is written like one."""

from __future__ import annotations

import re
from collections.abc import Iterable, Iterator

from guidec.notes.kinds import NESTABLE, VALUES
from guidec.notes.syntax import Mark
from guidec.rules.finding import Finding
from guidec.source import Span

__all__ = ["keys_of_none"]

_TAKES_NONE = frozenset((*VALUES, *NESTABLE))
_KEY = re.compile(r";\s*(?P<key>[A-Za-z][\w-]*)\s*=")


def keys_of_none(marks: Iterable[Mark]) -> Iterator[Finding]:
    """A finding for what looks like a key in a value, a refit note or a risk: it would be printed as text."""
    for mark in marks:
        if mark.kind in _TAKES_NONE and ";" in mark.text:
            found = _KEY.search(_own(mark))
            if found and mark.text[found.start() - 1] != "\\":
                place = Span(mark.span.start + found.start("key"), mark.span.start + found.end("key"))
                variant = "text" if mark.kind in NESTABLE else "value"
                yield Finding.at("M110", place, variant=variant, kind=mark.kind, key=found["key"])


def _own(mark: Mark) -> str:
    """The text of a mark, what stands in marks inside it blanked."""
    text = mark.text
    for inner in mark.inner:
        start, end = inner.span.start - mark.span.start, inner.span.end - mark.span.start
        text = text[:start] + " " * (end - start) + text[end:]
    return text
