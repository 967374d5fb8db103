"""The text of a mark -> a `Mark`, with the place of every name, key and value, and what is wrong with it."""

from __future__ import annotations

import re
from collections.abc import Callable
from dataclasses import replace

from guidec.notes import kinds
from guidec.notes.braces import Extent
from guidec.notes.chart import Chart
from guidec.notes.mark_text import Stretch
from guidec.notes.syntax import Key, Mark
from guidec.rules.finding import Finding
from guidec.source import Source

__all__ = ["MarkReader"]

_POINT = re.compile(r"([+-]?\d+(?:\.\d+)?),([+-]?\d+(?:\.\d+)?)")
_TEXTS = (*kinds.VALUES, "refit", "after", "also", "instead of", "side")
_OPENS = (*_TEXTS, "risk", "pin")
_DRAFT = re.compile(r"\s*\?\s*")
_THINGS = frozenset(kinds.THINGS)


class MarkReader:
    """Reads the marks of one source; `findings` collects what is wrong."""

    __slots__ = ("findings", "source")

    def __init__(self, source: Source) -> None:
        self.source = source
        self.findings: list[Finding] = []

    def read(self, text: str, chart: Chart, found: Extent) -> Mark:
        """The mark of `found` in a block's `text`."""
        start = found.start + 1
        draft = _DRAFT.match(text, start, found.end - 1)
        if draft:
            start = draft.end()
        body = Stretch.of(text, chart, start, found.end - 1, found.inner)
        span = chart.span(found.start, found.end)
        blank = Mark(
            span=span,
            kind="",
            kind_span=body.span._replace(end=body.span.start),
            name="",
            name_span=body.span,
            draft=draft is not None,
            inner=self._inner(text, chart, found),
            text=self.source.slice(span),
        )
        return self._worded(blank, body)

    def _inner(self, text: str, chart: Chart, found: Extent) -> tuple[Mark, ...]:
        for why, start, end in found.faults:
            place = chart.span(start, end)
            typed = self.source.slice(place)
            self.findings.append(Finding.at("N107" if why == "deep" else "N101", place, mark=typed))
        return tuple(self.read(text, chart, Extent(start, end, end)) for start, end in found.inner)

    def _worded(self, blank: Mark, body: Stretch) -> Mark:
        """The mark with its kind found out, and read as that kind is."""
        at = body.find(":;")
        whole = body.part(body.start, at)
        kind, length, name = kinds.split_kind(whole.typed)
        name += whole.start
        alone = whole.words.casefold()
        if not kind and at < body.end and body.text[at] == ":" and alone in _OPENS:
            kind, length, name = alone, whole.end - whole.start, at + 1
        mark = replace(blank, whole=whole.words, whole_span=whole.span)
        if kind:
            mark = replace(mark, kind=kind, kind_span=body.chart.span(whole.start, whole.start + length))
        read = _READERS.get(kind, MarkReader._thing)
        return read(self, mark, body.part(name, body.end) if kind else body)

    def _text(self, mark: Mark, rest: Stretch) -> Mark:
        """A kind that takes a text."""
        words, span = rest.words, rest.span
        return replace(mark, name=words, name_span=span, details=words, details_span=span)

    def _risk(self, mark: Mark, rest: Stretch) -> Mark:
        """`risk THING: TEXT`; the thing may be a mark itself."""
        thing, text = rest.cut(":")
        span = thing.span
        name = next((inner.name for inner in mark.inner if inner.span == span), thing.words)
        mark = replace(mark, name=name, name_span=span)
        return replace(mark, details=text.words, details_span=text.span) if text else mark

    def _pin(self, mark: Mark, rest: Stretch) -> Mark:
        """`pin X,Y X,Y …: THING`."""
        where, thing = rest.cut(":")
        points, end = self._points(where, thing is None)
        if thing is None:
            thing = rest.part(end, rest.end)
            self._fault("N106", mark, rest, "colon" if points else "points")
        elif not points and not where.typed:
            self._fault("N106", mark, where, "points")
        if not thing.typed:
            self._fault("N106", mark, rest, "thing")
        return replace(
            mark,
            name=thing.words,
            name_span=thing.span,
            details=where.words,
            details_span=where.span,
            points=points,
        )

    def _points(self, where: Stretch, open_end: bool) -> tuple[tuple[tuple[float, float], ...], int]:
        """The points, and where they end (with an open end: before the first word that is none)."""
        points: list[tuple[float, float]] = []
        for word in re.finditer(r"\S+", where.typed):
            place = where.part(where.start + word.start(), where.start + word.end())
            found = _POINT.fullmatch(word[0].rstrip(","))
            if found is None and open_end:
                return tuple(points), place.start
            if found is None:
                self._fault("N106", None, place, "shape")
            elif not all(0 <= float(number) <= 100 for number in found.groups()):
                self._fault("N106", None, place, "range")
            else:
                points.append((float(found[1]), float(found[2])))
        return tuple(points), where.end

    def _thing(self, mark: Mark, rest: Stretch) -> Mark:
        """`kind name: details; key=value`, also without a kind."""
        at = rest.find(":;")
        name = rest.part(rest.start, at)
        mark = replace(mark, name=name.words, name_span=name.span)
        if at == rest.end:
            return mark
        self._named(mark)
        keys: Stretch | None = rest.part(at + 1, rest.end)
        if rest.text[at] == ":":
            details, keys = rest.part(at + 1, rest.end).cut(";")
            mark = replace(mark, details=details.words, details_span=details.span)
        return replace(mark, keys=self._keys(mark, keys)) if keys else mark

    def _named(self, mark: Mark) -> None:
        """Details or keys need a name to belong to."""
        if mark.kind:
            return
        kind = mark.name.casefold()
        if kind in _THINGS:
            self.findings.append(Finding.at("N109", mark.span, kind=kind, mark=mark.text))
        elif not mark.name:
            self.findings.append(Finding.at("N109", mark.span, variant="nothing", mark=mark.text))

    def _keys(self, mark: Mark, rest: Stretch) -> tuple[Key, ...]:
        keys: dict[str, Key] = {}
        following: Stretch | None = rest
        while following is not None:
            segment, following = following.cut(";")
            key = self._key(mark, segment)
            if key is None:
                continue
            known = keys.setdefault(key.name, key)
            if known is not key:
                place = {"first": known.name_span}
                self.findings.append(Finding.at("N105", key.name_span, labels=place, key=key.name))
        return tuple(keys.values())

    def _key(self, mark: Mark, segment: Stretch) -> Key | None:
        """One `key=value` or bare key; None, with a finding, where it is neither."""
        if segment.start == segment.end:
            return None
        name, value = segment.cut("=")
        words = name.words
        why = ""
        if not words:
            why = "name"
        elif value is not None and not value.words:
            why = "value"
        elif " " in words or ":" in words:
            why = "colon" if ":" in words else "spaces"
        if why:
            guess = "=".join(part.strip() for part in re.split(r"[:\s=]", segment.words, maxsplit=1))
            suggest = [guess] if why in ("colon", "spaces") else []
            self._fault("N104", mark, segment, why, suggest, key=words, typed=segment.words)
            return None
        if value is None:
            return Key(words.casefold(), name.span, None, name.span._replace(start=name.span.end))
        return Key(words.casefold(), name.span, value.words, value.span)

    def _fault(
        self,
        code: str,
        mark: Mark | None,
        place: Stretch,
        variant: str,
        suggest: list[str] | None = None,
        **facts: str,
    ) -> None:
        span = place.span if place.end > place.start or mark is None else mark.span
        facts.setdefault("typed", place.typed)
        self.findings.append(Finding.at(code, span, variant=variant, suggest=suggest or [], **facts))


_READERS: dict[str, Callable[[MarkReader, Mark, Stretch], Mark]] = {
    **dict.fromkeys(_TEXTS, MarkReader._text),
    "risk": MarkReader._risk,
    "pin": MarkReader._pin,
}
