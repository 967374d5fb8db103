"""The text of a mark -> a `Mark`, with the place of every name, key and value, and what is wrong with it."""

from __future__ import annotations

import re
from collections.abc import Callable
from functools import lru_cache
from typing import Any, NamedTuple

from guidec.notes import kinds, pins
from guidec.notes.braces import Extent
from guidec.notes.chart import Chart
from guidec.notes.keys import keys
from guidec.notes.mark_body import Body
from guidec.notes.syntax import Mark
from guidec.rules.finding import Finding
from guidec.source import Source

__all__ = ["MarkReader"]

_TEXTS = (*kinds.VALUES, "refit", "after", "also", "instead of", "side")
_OPENS = frozenset((*_TEXTS, "risk", "pin"))
_SEPARATOR = re.compile("[:;]")
_DRAFT = re.compile(r"\s*\?\s*")
_split_kind = lru_cache(4096)(kinds.split_kind)


class _Head(NamedTuple):
    """What is known of a mark before it is read as its kind is: the fields they share, the rest of its text."""

    fields: dict[str, Any]
    body: Body
    start: int
    end: int


class MarkReader:
    """Reads the marks of one source; `findings` collects what is wrong."""

    __slots__ = ("findings", "source")

    def __init__(self, source: Source) -> None:
        self.source = source
        self.findings: list[Finding] = []

    def read(self, text: str, chart: Chart, found: Extent) -> Mark:
        """The mark of `found` in a block's `text`."""
        start, end = found.start + 1, found.end - 1
        draft = _DRAFT.match(text, start, end)
        if draft:
            start = draft.end()
        body = Body(text, chart, start, end, found.inner)
        start, end = body.trim(start, end)
        cut = _SEPARATOR.search(body.masked, start, end)
        first, last = body.trim(start, cut.start() if cut else end)
        whole = body.words(first, last)
        kind, length, name = _split_kind(text[first:last])
        if not kind and cut and cut[0] == ":" and whole.casefold() in _OPENS:
            kind, length, name = whole.casefold(), last - first, cut.end() - first
        span = body.span(found.start, found.end)
        fields = {
            "span": span,
            "kind": kind,
            "kind_span": body.span(first, first + length),
            "draft": draft is not None,
            "inner": self._inner(text, chart, found) if found.inner or found.faults else (),
            "whole": whole,
            "whole_span": body.span(first, last),
            "text": self.source.text[span.start : span.end],
        }
        read = _READERS.get(kind, MarkReader._thing)
        return read(self, _Head(fields, body, *body.trim(first + name, end)))

    def _inner(self, text: str, chart: Chart, found: Extent) -> tuple[Mark, ...]:
        """The marks inside a mark."""
        for why, start, end in found.faults:
            place = chart.span(start, end)
            typed = self.source.slice(place)
            self.findings.append(Finding.at("N107" if why == "deep" else "N101", place, mark=typed))
        return tuple(self.read(text, chart, Extent(start, end, end)) for start, end in found.inner)

    def _text(self, head: _Head) -> Mark:
        """A kind that takes a text."""
        words, span = head.body.words(head.start, head.end), head.body.span(head.start, head.end)
        return Mark(name=words, name_span=span, details=words, details_span=span, **head.fields)

    def _risk(self, head: _Head) -> Mark:
        """`risk THING: TEXT`; the thing may be a mark itself."""
        fields, body, start, end = head
        cut = body.find(":", start, end)
        thing = body.trim(start, cut if cut >= 0 else end)
        text = body.trim(cut + 1, end) if cut >= 0 else (end, end)
        span = body.span(*thing)
        name = next((inner.name for inner in fields["inner"] if inner.span == span), body.words(*thing))
        return Mark(name=name, name_span=span, details=body.words(*text), details_span=body.span(*text), **fields)

    def _pin(self, head: _Head) -> Mark:
        """`pin X,Y X,Y …: THING`."""
        points, where, thing, wrong = pins.read(head.body, head.start, head.end)
        self.findings.extend(wrong)
        body = head.body
        return Mark(
            name=body.words(*thing),
            name_span=body.span(*thing),
            details=body.words(*where),
            details_span=body.span(*where),
            points=points,
            **head.fields,
        )

    def _thing(self, head: _Head) -> Mark:
        """`kind name: details; key=value`, also without a kind."""
        fields, body, start, end = head
        cut = _SEPARATOR.search(body.masked, start, end)
        if cut is None:
            return Mark(name=body.words(start, end), name_span=body.span(start, end), **fields)
        name = body.trim(start, cut.start())
        details, at = (cut.start(), cut.start()), cut.start()
        if cut[0] == ":":
            semicolon = body.find(";", cut.end(), end)
            at = semicolon if semicolon >= 0 else end
            details = body.trim(cut.end(), at)
        read, wrong = keys(body, at + 1, end) if at < end else ((), ())
        self.findings.extend(wrong)
        mark = Mark(
            name=body.words(*name),
            name_span=body.span(*name),
            details=body.words(*details),
            details_span=body.span(*details),
            keys=read,
            **fields,
        )
        if not mark.kind:
            self._named(mark)
        return mark

    def _named(self, mark: Mark) -> None:
        """Details or keys need a name to belong to."""
        kind = mark.name.casefold()
        if kind in kinds.THINGS:
            self.findings.append(Finding.at("N109", mark.span, kind=kind, mark=mark.text))
        elif not mark.name:
            self.findings.append(Finding.at("N109", mark.span, variant="nothing", mark=mark.text))


_READERS: dict[str, Callable[[MarkReader, _Head], Mark]] = {
    **dict.fromkeys(_TEXTS, MarkReader._text),
    "risk": MarkReader._risk,
    "pin": MarkReader._pin,
}
