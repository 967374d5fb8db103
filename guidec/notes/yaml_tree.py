"""A stretch of YAML -> `Located` values, each key and value with its place, and what is wrong with it.

Read from the parser's events, so that depth, size and aliases are bounded before anything is built. Plain words
are those of YAML 1.2's core schema: `no` is a word, `1:30` is text, a date is text.
"""

from __future__ import annotations

import re
from collections.abc import Iterator
from dataclasses import field
from typing import Any

import yaml

from guidec.notes.syntax import Entry, Located
from guidec.quick import dataclass
from guidec.rules.finding import Finding
from guidec.source import Span

__all__ = ["BrokenError", "located"]

_LOADER: Any = getattr(yaml, "CSafeLoader", yaml.SafeLoader)
_DEEPEST = 12
_MOST_VALUES = 50_000
_NULL = re.compile(r"~|null|Null|NULL|")
_BOOL = re.compile(r"true|True|TRUE|false|False|FALSE")
_INT = re.compile(r"[-+]?[0-9]{1,300}")
_OTHER_INT = re.compile(r"0o[0-7]{1,300}|0x[0-9a-fA-F]{1,300}")
_FLOAT = re.compile(r"[-+]?(?:\.[0-9]+|[0-9]+(?:\.[0-9]*)?)(?:[eE][-+]?[0-9]+)?")


class BrokenError(Exception):
    """The YAML cannot be read past `offset` (into the stretch); `problem` in the library's words."""

    def __init__(self, problem: str, offset: int) -> None:
        super().__init__(problem)
        self.problem = problem
        self.offset = offset


@dataclass(slots=True)
class _Build:
    """What is being built: the offset of the stretch, the findings, how many values there are."""

    offset: int
    findings: list[Finding] = field(default_factory=list)
    values: int = 0
    full: bool = False

    def span(self, event: Any) -> Span:
        return Span(event.start_mark.index + self.offset, event.end_mark.index + self.offset)


def located(text: str, offset: int) -> tuple[Located, tuple[Finding, ...]]:
    """The value of a stretch of YAML that starts at `offset` of its source. Raises BrokenError."""
    build = _Build(offset)
    try:
        events = _events(text)
        value = _document(events, build)
    except yaml.MarkedYAMLError as error:
        mark: Any = error.problem_mark or error.context_mark
        at = mark.index if mark else 0
        raise BrokenError(error.problem or "", at) from None
    except yaml.reader.ReaderError as error:
        raise BrokenError("control character", error.position) from None
    except UnicodeError:
        raise BrokenError("control character", 0) from None
    return value or Located(None, Span(offset, offset)), tuple(build.findings)


def _events(text: str) -> Iterator[Any]:
    yield from yaml.parse(text, _LOADER)


def _document(events: Iterator[Any], build: _Build) -> Located | None:
    """The value of the first document; a second one is a finding."""
    value: Located | None = None
    for event in events:
        if isinstance(event, yaml.DocumentStartEvent):
            if value is not None:
                mark: Any = event.start_mark
                raise BrokenError("second document", mark.index)
        elif not isinstance(event, (yaml.StreamStartEvent, yaml.StreamEndEvent, yaml.DocumentEndEvent)):
            value = _value(event, events, build, 1)
    return value


def _value(event: Any, events: Iterator[Any], build: _Build, depth: int) -> Located:
    """The value that begins with an event."""
    span = build.span(event)
    build.values += 1
    if getattr(event, "anchor", None):
        alias = isinstance(event, yaml.AliasEvent)
        name = ("*" if alias else "&") + event.anchor
        where = Span(span.start, span.start + len(name))
        build.findings.append(Finding.at("N014", where, name=name))
        if alias:
            return Located(None, span)
    if isinstance(event, yaml.ScalarEvent):
        plain = event.style in (None, "") and event.tag in (None, "!")
        return Located(_scalar(event.value) if plain and not event.tag else event.value, span, event.value)
    if depth > _DEEPEST or build.values > _MOST_VALUES:
        return _passed(event, events, build)
    read = _mapping if isinstance(event, yaml.MappingStartEvent) else _sequence
    return read(event, events, build, depth)


def _sequence(opened: Any, events: Iterator[Any], build: _Build, depth: int) -> Located:
    items: list[Located] = []
    event = next(events)
    while not isinstance(event, yaml.SequenceEndEvent):
        items.append(_value(event, events, build, depth + 1))
        event = next(events)
    return Located(tuple(items), _around(opened, event, items, build))


def _mapping(opened: Any, events: Iterator[Any], build: _Build, depth: int) -> Located:
    entries: dict[str, Entry] = {}
    last: list[Located] = []
    event = next(events)
    while not isinstance(event, yaml.MappingEndEvent):
        key = _value(event, events, build, depth + 1)
        value = _value(next(events), events, build, depth + 1)
        event = next(events)
        last = [key, value]
        if isinstance(key.value, (tuple, dict)):
            build.findings.append(Finding.at("N013", key.span, variant="key"))
            continue
        entry = Entry(" ".join(key.typed.split()), key.span, value)
        known = entries.setdefault(entry.key, entry)
        if known is not entry:
            place = {"first": known.key_span}
            build.findings.append(Finding.at("N012", key.span, labels=place, key=entry.key))
    return Located(entries, _around(opened, event, last, build))


def _around(opened: Any, closed: Any, items: list[Located], build: _Build) -> Span:
    """The span of a collection: to its bracket, or where it has none to the end of its last value."""
    start = build.span(opened).start
    if opened.flow_style:
        return Span(start, build.span(closed).end)
    return Span(start, max([start, *(item.span.end for item in items)]))


def _passed(event: Any, events: Iterator[Any], build: _Build) -> Located:
    """Pass over a collection that is too deep or one too many."""
    span = build.span(event)
    if not build.full:
        build.full = True
        build.findings.append(Finding.at("N015", span, variant="" if build.values > _MOST_VALUES else "deep"))
    depth = 1
    for inner in events:
        if isinstance(inner, (yaml.SequenceStartEvent, yaml.MappingStartEvent)):
            depth += 1
        elif isinstance(inner, (yaml.SequenceEndEvent, yaml.MappingEndEvent)):
            depth -= 1
            if not depth:
                break
    return Located(None, span)


def _scalar(text: str) -> bool | int | float | str | None:
    """A plain word as YAML 1.2's core schema reads it (numbers without end stay words)."""
    if _NULL.fullmatch(text):
        return None
    if _BOOL.fullmatch(text):
        return text[0] in "tT"
    if _INT.fullmatch(text):
        return int(text)
    if _OTHER_INT.fullmatch(text):
        return int(text, 0)
    if _FLOAT.fullmatch(text) and len(text) < 300:
        number = float(text)
        return number if abs(number) != float("inf") else text
    return text
