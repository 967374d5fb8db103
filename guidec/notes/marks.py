"""The text of a mark -> a `Mark`, with the place of every name, key and value, and what is wrong with it."""

from __future__ import annotations

import re
from collections.abc import Callable
from functools import lru_cache
from typing import NamedTuple

from guidec.notes import kinds, pins
from guidec.notes.braces import Extent, Fault
from guidec.notes.chart import Chart
from guidec.notes.keys import keys
from guidec.notes.mark_body import Body, Range
from guidec.notes.shown import short
from guidec.notes.syntax import Key, Mark
from guidec.quick import replace
from guidec.rules.finding import Finding
from guidec.source import Source

__all__ = ["MarkReader"]

_TEXTS = (*kinds.VALUES, "refit", "after", "also", "instead of", "side", "was")
_OPENS = frozenset((*_TEXTS, "risk", *kinds.PICTURE))
_SEPARATOR = re.compile("[:;]")
_LONGEST = 40
_DRAFT = re.compile(r"\s*\?\s*")
_split_kind = lru_cache(4096)(kinds.split_kind)


class _Said(NamedTuple):
    """What a mark says beside its kind."""

    name: Range
    details: Range
    keys: tuple[Key, ...] = ()
    points: tuple[tuple[float, float], ...] = ()
    findings: tuple[Finding, ...] = ()


class MarkReader:
    """Reads the marks of one source; `findings` collects what is wrong."""

    __slots__ = ("findings", "source")

    def __init__(self, source: Source) -> None:
        self.source = source
        self.findings: list[Finding] = []

    def read(self, text: str, chart: Chart, found: Extent) -> Mark:
        """The mark of `found` in a block's `text`."""
        opened, closed, _, within, faults = found
        start, end, draft = opened + 1, closed - 1, False
        if text[start] in " \t\n?":
            question = _DRAFT.match(text, start, end)
            draft, start = (True, question.end()) if question else (False, start)
        body = Body(text, chart, start, end, within)
        start, end = body.trim(start, end)
        cut = _SEPARATOR.search(body.masked, start, end)
        first, last = body.trim(start, cut.start() if cut else end)
        whole = body.words(first, last)
        kind, length, after = _split_kind(text[first:last])
        if not kind and cut and cut[0] == ":" and whole.casefold() in _OPENS:
            kind, length, after = whole.casefold(), last - first, cut.end() - first
        name, details, keys, points, wrong = _READERS.get(kind, _thing)(body, *body.trim(first + after, end))
        span, kind_span, name_span, details_span, whole_span = chart.spans(
            (opened, closed), (first, first + length), name, details, (first, last)
        )
        inner = self._inner(text, chart, within, faults) if within or faults else ()
        mark = Mark(
            span,
            kind,
            kind_span,
            body.words(*name),
            name_span,
            body.words(*details),
            details_span,
            keys,
            draft,
            inner,
            points,
            whole,
            whole_span,
            self.source.text[span.start : span.end],
        )
        if wrong:
            self.findings.extend(wrong)
        if cut and not kind:
            self._named(mark)
        return self._at_risk(mark) if inner and kind == "risk" else mark

    def _inner(
        self, text: str, chart: Chart, within: tuple[Range, ...], faults: tuple[Fault, ...]
    ) -> tuple[Mark, ...]:
        """The marks inside a mark."""
        for why, start, end in faults:
            place = chart.span(start, end)
            typed = self.source.slice(place)
            self.findings.append(Finding.at("N107" if why == "deep" else "N101", place, mark=short(typed)))
        return tuple(self.read(text, chart, Extent(start, end, end)) for start, end in within)

    def _at_risk(self, mark: Mark) -> Mark:
        """A risk whose thing is a mark itself has that mark's name."""
        name = next((inner.name for inner in mark.inner if inner.span == mark.name_span), mark.name)
        return replace(mark, name=name)

    def _named(self, mark: Mark) -> None:
        """Details or keys need a name to belong to."""
        kind = mark.name.casefold()
        if kind in kinds.THINGS:
            name = f"{{{kind} {mark.details}}}" if mark.details and not mark.details[0].isdigit() else ""
            suggest = [name] if name and len(name) <= _LONGEST else []
            self.findings.append(Finding.at("N109", mark.span, suggest=suggest, kind=kind, mark=short(mark.text)))
        elif not mark.name:
            self.findings.append(Finding.at("N109", mark.span, variant="nothing", mark=short(mark.text)))


def _text(body: Body, start: int, end: int) -> _Said:
    """A kind that takes a text."""
    return _Said((start, end), (start, end))


def _risk(body: Body, start: int, end: int) -> _Said:
    """`risk THING: TEXT`."""
    cut = body.find(":", start, end)
    if cut < 0:
        return _Said((start, end), (end, end))
    return _Said(body.trim(start, cut), body.trim(cut + 1, end))


def _on_picture(kind: str) -> Callable[[Body, int, int], _Said]:
    """`pin X,Y X,Y …: THING`, and the other marks that give points on a picture."""

    def read(body: Body, start: int, end: int) -> _Said:
        pinned = pins.read(kind, body, start, end)
        return _Said(pinned.thing, pinned.where, (), pinned.points, pinned.findings)

    return read


def _thing(body: Body, start: int, end: int) -> _Said:
    """`kind name: details; key=value`, also without a kind."""
    cut = _SEPARATOR.search(body.masked, start, end)
    if cut is None:
        return _Said((start, end), (end, end))
    at = cut.start()
    name, details = body.trim(start, at), (at, at)
    if cut[0] == ":":
        semicolon = body.find(";", at, end)
        at = semicolon if semicolon >= 0 else end
        details = body.trim(cut.end(), at)
    if at >= end:
        return _Said(name, details)
    read, wrong = keys(body, at + 1, end)
    return _Said(name, details, read, (), wrong)


_READERS: dict[str, Callable[[Body, int, int], _Said]] = {
    **dict.fromkeys(_TEXTS, _text),
    "risk": _risk,
    **{kind: _on_picture(kind) for kind in kinds.PICTURE},
}
