"""What somebody supposes, as typed -> changes, and what cannot be understood, each at its place.

Changes are set off by semicolons:

    update_years = 7                    an answer under `scoring`; lists take commas
    spare_parts + hinge, speaker        names added to a list; `-` takes them away
    cell tape: reuse = reusable         how a fastening comes through; `cell tape: reusable` says the same
    heat gun: grade = basic             a tool's grade; `heat gun: basic` too
    rear lid: class = cover             a part's class
    battery: authorisations = 1         remote authorisations a part asks for (also `environment`, `skill`)
    battery: not after back cover       the part could be had without touching that
    pull tabs: absent                   not there at all; of a class of part: the device has none
"""

from __future__ import annotations

import re
from collections.abc import Iterator
from dataclasses import dataclass, field
from typing import Any

from guidec.model.types import Change as Does
from guidec.model.types import Connector, Fastening, Guide, Operation, Part, Reuse, ScrewSet, Thing, Tool
from guidec.rules.finding import Finding
from guidec.scoring.change import Answer, Change, Edge, Gone, Grade, OfClass, Through
from guidec.scoring.en45554 import level, levels
from guidec.scoring.method import Criterion, Method
from guidec.scoring.names import all_names, classes_named, listed
from guidec.source import Source, Span
from guidec.trade.classes import part_classes
from guidec.trade.likeness import fold, nearest

__all__ = ["read"]

REUSES = ("reusable", "resupplied", "removable", "neither")
GRADES = ("basic", "with-part", "with-product", "group", "trade", "maker")
PROPERTIES = ("reuse", "grade", "class", "authorisations", "environment", "skill")
OPEN_LISTS = ("spare_parts", "absent")
_PIECE = re.compile(r"[^;\n]+")
_AFTER = re.compile(r"not\s+after\b", re.I)
_NUMBER = re.compile(r"[0-9]+(?:\.[0-9]+)?")


@dataclass(slots=True)
class _Reading:
    """What is being read: the text, the guide and method, findings."""

    source: Source
    guide: Guide
    method: Method | None
    findings: list[Finding] = field(default_factory=list)

    def wrong(self, code: str, span: Span, variant: str = "", near: Any = (), **facts: Any) -> None:
        self.findings.append(Finding(code, span, facts, (), tuple(near)[:4], variant, None, self.source))

    def trimmed(self, start: int, end: int) -> Span:
        """A stretch without the white space and quotation marks at its ends."""
        text = self.source.text[start:end]
        left = len(text) - len(text.lstrip(" \t\"'"))
        return Span(start + left, max(start + left, start + len(text.rstrip(" \t\"'"))))


def read(source: Source, guide: Guide, method: Method | None) -> tuple[tuple[Change, ...], tuple[Finding, ...]]:
    """The changes in a text. `guide`: the one that names refer to; `method`: its answers can be changed."""
    reading = _Reading(source, guide, method)
    changes: list[Change] = []
    pieces = [found for found in _PIECE.finditer(source.text) if found[0].strip()]
    for found in pieces:
        changes += _piece(reading, found.start(), found.end())
    if not pieces:
        reading.wrong("S120", Span(0, len(source.text)), "nothing")
    return tuple(changes), tuple(reading.findings)


def _piece(reading: _Reading, start: int, end: int) -> Iterator[Change]:
    text = reading.source.text
    colon, equals = text.find(":", start, end), text.find("=", start, end)
    if colon >= 0 and (equals < 0 or colon < equals):
        yield from _of_thing(reading, reading.trimmed(start, colon), colon + 1, end)
        return
    sign = re.compile(r"=|(?<=\s)[+-](?=\s)").search(text, start, end)
    if sign is None:
        reading.wrong("S120", reading.trimmed(start, end), typed=text[start:end].strip())
        return
    key = reading.trimmed(start, sign.start())
    yield from _answer(reading, key, sign[0], reading.trimmed(sign.end(), end))


# ---------------------------------------------------------------- answers


def _answer(reading: _Reading, key_span: Span, sign: str, value_span: Span) -> Iterator[Change]:
    key, value = reading.source.slice(key_span), reading.source.slice(value_span)
    criteria = {one.answer: one for one in reading.method.criteria if one.answer} if reading.method else {}
    variant = reading.method.variant_answer if reading.method else None
    known = [*dict.fromkeys([*criteria, *([variant] if variant else []), *OPEN_LISTS, "environment", "skill"])]
    if key not in known:
        reading.wrong("S121", key_span, "answer", nearest(key, known), name=key, known=_quoted(known))
        return
    if not value:
        reading.wrong("S122", value_span if value else key_span, "nothing", key=key)
    elif sign != "=" and not _is_list(key, criteria.get(key)):
        reading.wrong("S122", key_span, "no-list", key=key)
    elif _is_list(key, criteria.get(key)):
        yield from _listed(reading, key, sign, value_span)
    elif key in ("environment", "skill"):
        yield from _levelled(reading, key, value_span, None)
    else:
        yield from _plain(reading, key, value, value_span, criteria.get(key))


def _is_list(key: str, criterion: Criterion | None) -> bool:
    return key in OPEN_LISTS or bool(criterion and (criterion.contains or criterion.shares))


def _listed(reading: _Reading, key: str, sign: str, value_span: Span) -> Iterator[Change]:
    names, at, good = [], value_span.start, True
    for part in reading.source.slice(value_span).split(","):
        span = reading.trimmed(at, at + len(part))
        at += len(part) + 1
        name = reading.source.slice(span)
        if name and classes_named(name, reading.method, reading.guide) is None:
            near = nearest(name, dict.fromkeys(all_names(reading.method, reading.guide)))
            reading.wrong("S121", span, "part", near, name=name)
            good = False
        names += [name] if name else []
    if not good:
        return
    before = listed(reading.guide.meta.scoring.get(key))
    if sign == "+":
        names = [*before, *names]
    elif sign == "-":
        gone = frozenset().union(*(classes_named(one, reading.method, reading.guide) or () for one in names))
        had = (classes_named(one, reading.method, reading.guide) or frozenset() for one in before)
        names = sorted(frozenset().union(*had) - gone)
    yield Answer(key, names)


def _plain(reading: _Reading, key: str, value: str, span: Span, criterion: Criterion | None) -> Iterator[Change]:
    if criterion is None:
        if fold(value) not in ("yes", "no", "true", "false"):
            near = nearest(value, ("yes", "no"))
            reading.wrong("S122", span, "word", near, typed=value, known="`yes` or `no`")
            return
        yield Answer(key, fold(value) in ("yes", "true"))
    elif criterion.at_least:
        if not _NUMBER.fullmatch(value):
            reading.wrong("S122", span, "word", typed=value, known="a number")
            return
        yield Answer(key, float(value) if "." in value else int(value))
    else:
        words = tuple(criterion.points or {})
        if value not in words:
            reading.wrong("S122", span, "word", nearest(value, words), typed=value, known=_quoted(words))
            return
        yield Answer(key, value)


def _levelled(reading: _Reading, scale: str, span: Span, part: str | None) -> Iterator[Change]:
    value = reading.source.slice(span)
    if level(scale, value) is None:
        words = [word for word in levels(scale) if len(word) > 1]
        reading.wrong("S122", span, "word", nearest(value, words), typed=value, known=_quoted(words))
        return
    yield Answer(scale, value, part)


# ---------------------------------------------------------------- things


def _of_thing(reading: _Reading, name_span: Span, start: int, end: int) -> Iterator[Change]:
    rest = reading.trimmed(start, end)
    said = reading.source.slice(rest)
    name = reading.source.slice(name_span)
    thing = _thing(reading, name)
    if thing is None:
        classes = classes_named(name, reading.method, reading.guide)
        if fold(said) == "absent" and classes:
            yield Answer("absent", [*listed(reading.guide.meta.scoring.get("absent")), name])
        else:
            near = nearest(name, [one.name for one in reading.guide.things.values()])
            reading.wrong("S121", name_span, "", near, name=name)
        return
    after = _AFTER.match(said)
    if after:
        yield from _edge(reading, thing, name_span, rest.start + after.end(), rest.end)
    elif "=" in said:
        at = rest.start + said.index("=")
        key, value = reading.trimmed(rest.start, at), reading.trimmed(at + 1, rest.end)
        yield from _property(reading, thing, key, value)
    elif fold(said) == "absent" and not isinstance(thing, Tool):
        yield Gone(thing.id)
    else:
        yield from _word(reading, thing, rest)


def _thing(reading: _Reading, name: str) -> Thing | None:
    folded = fold(name)
    things = reading.guide.things
    return things.get(folded) or next((one for one in things.values() if fold(one.name) == folded), None)


def _word(reading: _Reading, thing: Thing, span: Span) -> Iterator[Change]:
    """A word alone: how a fastening comes through, or a tool's grade."""
    word = reading.source.slice(span)
    if word in REUSES and isinstance(thing, ScrewSet | Connector | Fastening):
        yield Through(thing.id, Reuse(word))
    elif word in GRADES and isinstance(thing, Tool):
        yield Grade(thing.id, word)
    else:
        can = _can(thing)
        reading.wrong("S122", span, "thing", nearest(word, can), typed=word, name=thing.name, known=_quoted(can))


def _can(thing: Thing) -> tuple[str, ...]:
    """What can be said of a thing in one word."""
    if isinstance(thing, Tool):
        return GRADES
    if isinstance(thing, ScrewSet | Connector | Fastening):
        return (*REUSES, "absent")
    return ("not after NAME", "absent", "class = CLASS", "authorisations = NUMBER")


def _property(reading: _Reading, thing: Thing, key_span: Span, value_span: Span) -> Iterator[Change]:
    key, value = fold(reading.source.slice(key_span)), reading.source.slice(value_span)
    fits: dict[str, type | tuple[type, ...]] = {
        "reuse": (ScrewSet, Connector, Fastening),
        "grade": Tool,
        **dict.fromkeys(("class", "authorisations", "environment", "skill"), Part),
    }
    if key not in fits:
        reading.wrong("S121", key_span, "property", nearest(key, PROPERTIES), name=key, known=_quoted(PROPERTIES))
        return
    if not isinstance(thing, fits[key]):
        facts = {"name": thing.name, "kind": thing.kind.value, "key": key}
        reading.wrong("S122", key_span, "kind", **facts)
        return
    words = {"reuse": REUSES, "grade": GRADES, "class": part_classes()}.get(key)
    if words is not None and value not in words:
        reading.wrong("S122", value_span, "word", nearest(value, words), typed=value, known=_quoted(words))
    elif key == "reuse":
        yield Through(thing.id, Reuse(value))
    elif key == "grade":
        yield Grade(thing.id, value)
    elif key == "class":
        yield OfClass(thing.id, value)
    elif key == "authorisations":
        if not value.isdecimal():
            reading.wrong("S122", value_span, "word", typed=value, known="a whole number")
            return
        yield Answer(key, int(value), thing.id)
    else:
        yield from _levelled(reading, key, value_span, thing.id)


def _edge(reading: _Reading, thing: Thing, name_span: Span, start: int, end: int) -> Iterator[Change]:
    """`not after NAME, NAME`: parts and fastenings, or all that an operation takes off."""
    if not isinstance(thing, Part):
        reading.wrong("S122", name_span, "kind", name=thing.name, kind=thing.kind.value, key="not after")
        return
    found: list[str] = []
    at = start
    for part in reading.source.text[start:end].split(","):
        span = reading.trimmed(at, at + len(part))
        at += len(part) + 1
        name = reading.source.slice(span)
        things = _spared(reading, name)
        if not things:
            titles = [one.title for one in reading.guide.operations]
            near = nearest(name, [*(one.name for one in reading.guide.things.values()), *titles]) if name else ()
            reading.wrong("S121", span if name else name_span, "", near, name=name)
        found += [one for one in things if one != thing.id]
    if found:
        yield Edge(thing.id, tuple(dict.fromkeys(found)))


def _spared(reading: _Reading, name: str) -> list[str]:
    thing = _thing(reading, name)
    if thing is not None and not isinstance(thing, Tool):
        return [thing.id]
    titled = fold(name.removeprefix("operation "))
    for operation in reading.guide.operations:
        if titled in (operation.id, fold(operation.title)):
            return _touched(reading.guide, operation)
    return []


def _touched(guide: Guide, operation: Operation) -> list[str]:
    effects = (effect for own in operation.actions for effect in guide.actions[own].effects)
    return list(dict.fromkeys(effect.id for effect in effects if effect.change is not Does.EXPOSED))


def _quoted(words: Any) -> str:
    return ", ".join(f"`{word}`" for word in words)
