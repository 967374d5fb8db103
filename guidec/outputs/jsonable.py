"""Values of the model -> plain JSON data: the same keys for every value of a type, spans as places.

Most types need no word: their fields become keys in the order of the type. What reads badly that way (syntax,
names that Python reserves, a screw set's notation) has an encoder of its own in `_OWN`, and so have the small
values that a guide has most of.
"""

from __future__ import annotations

import math
from bisect import bisect_right
from collections.abc import Callable, Mapping
from enum import Enum
from functools import cache
from typing import Any, NamedTuple

from msgspec import Struct
from msgspec.structs import astuple, fields

from guidec.model import printed
from guidec.model.types import (
    Amount,
    Change,
    Drawn,
    Effect,
    Family,
    Group,
    Guide,
    Hazard,
    Kind,
    Line,
    Lines,
    Need,
    Pin,
    Prose,
    Reason,
    Reuse,
    ScrewSet,
    Shown,
    Signal,
    Thing,
    Use,
)
from guidec.notes.syntax import (
    Block,
    Heading,
    Inline,
    ItemList,
    Located,
    Paragraph,
    Quote,
    Table,
    Verbatim,
)
from guidec.outputs.json_line import exact
from guidec.source import Span

__all__ = ["Encoder", "number"]

_RENAMED = {"span": "place", "cls": "class", "from_": "from", "inside": "in", "cls_proposed": "class_proposed"}
_TYPES: Mapping[type, str] = {Lines: "list", Hazard: "hazard", Shown: "picture", Prose: "prose", Group: "heading"}
_PLAIN = frozenset((str, int, bool, type(None)))
_ALL: frozenset[str] = frozenset()
_VERBATIM = {"fence": "code", "code_block": "code", "html_block": "html", "hr": "rule"}


def number(value: float | None) -> float | None:
    """A number as JSON should have it: whole ones without a fraction, None for what is no number."""
    if value is None or not math.isfinite(value):
        return None
    return int(value) if value == int(value) else exact(value)


def _key(name: str) -> str:
    if name in _RENAMED:
        return _RENAMED[name]
    return f"{_RENAMED.get(name[:-5], name[:-5])}_place" if name.endswith("_span") else name


class _Plan(NamedTuple):
    """How values of a type become an object: the key of each field (None: left out), the value that it usually
    has, and the object that a value with all the usual ones becomes."""

    keys: tuple[str | None, ...]
    usual: tuple[Any, ...]
    made: dict[str, Any]


@cache
def _plan(kind: type, without: frozenset[str]) -> _Plan:
    keys = tuple(None if one.name in without else _key(one.name) for one in fields(kind))
    usual = tuple(one.default if _is_plain(one.default) else ... for one in fields(kind))
    made: dict[str, Any] = {"type": _TYPES[kind]} if kind in _TYPES else {}
    made |= {key: [] if default == () else default for key, default in zip(keys, usual, strict=True) if key}
    return _Plan(keys, usual, made)


def _is_plain(value: Any) -> bool:
    return value.__class__ in _PLAIN or value == ()


class Encoder:
    """Encodes the values of one guide."""

    def __init__(self, guide: Guide) -> None:
        self._source = guide.source
        self._starts = guide.source.line_starts
        self._printed = guide.printed
        self._places: dict[Span, dict[str, int]] = {}

    def __call__(self, value: Any) -> Any:
        """Any value of the model as JSON data. Raises TypeError for a type that is none of the model's."""
        kind = value.__class__
        own = _OWN.get(kind)
        if own is not None:
            return own(self, value)
        if kind is tuple or kind is list:
            return [self(one) for one in value]
        if isinstance(value, Struct):
            return self.fields(value)
        return {str(key): self(one) for key, one in value.items()}

    def fields(self, value: Any, *, without: frozenset[str] = _ALL) -> dict[str, Any]:
        """A value of the model, field by field, with a `type` first where it is one of several in a list."""
        plan = _plan(value.__class__, without)
        data, places = plan.made.copy(), self._places
        for key, one, usual in zip(plan.keys, astuple(value), plan.usual, strict=True):
            if one is usual or key is None:
                continue
            of = one.__class__
            if of in _PLAIN:
                data[key] = one
            elif of is Span:
                data[key] = places.get(one) or self.place(one)
            elif of is tuple:
                data[key] = [self(item) for item in one]
            else:
                data[key] = self(one)
        return data

    def place(self, span: Span) -> dict[str, int]:
        """Line and column of a span's first character, and of the place after its last, all from 1."""
        found = self._places.get(span)
        if found is None:
            starts, (start, end) = self._starts, span
            line = bisect_right(starts, start)
            column = start - starts[line - 1] + 1
            end_line = (
                line if start <= end and (line == len(starts) or end < starts[line]) else bisect_right(starts, end)
            )
            end_column = end - starts[end_line - 1] + 1
            found = self._places[span] = {
                "line": line,
                "column": column,
                "end_line": end_line,
                "end_column": end_column,
            }
        return found

    def words(self, inline: Inline) -> dict[str, str]:
        """Running text as it prints, and as it was typed."""
        return {
            "text": printed.text(inline.pieces, self._source, self._printed),
            "markdown": self._source.slice(inline.span),
        }

    def block(self, block: Block) -> dict[str, Any]:
        """A block that is kept as prose."""
        return {
            "block": _block_kind(block),
            "text": self.plain(block),
            "markdown": self._source.slice(block.span),
            "place": self.place(block.span),
        }

    def plain(self, block: Block) -> str:
        """A block's text, marks as names: a line for each paragraph, item and row; cells parted by tabs."""
        if isinstance(block, Paragraph | Heading):
            return self.words(block.inline)["text"]
        if isinstance(block, Table):
            rows = ("\t".join(self.words(cell)["text"] for cell in row) for row in block.rows)
            return "\n".join(rows)
        if isinstance(block, ItemList):
            return "\n".join(self.plain(one) for item in block.items for one in item.blocks)
        if isinstance(block, Quote):
            return "\n".join(self.plain(one) for one in block.blocks)
        return "".join(token.content for token in block.tokens)


def _block_kind(block: Block) -> str:
    if isinstance(block, Verbatim):
        return _VERBATIM.get(block.tokens[0].type, "code") if block.tokens else "code"
    return {Paragraph: "paragraph", Heading: "heading", Table: "table", ItemList: "list", Quote: "quote"}[
        type(block)
    ]


def _inline(encoder: Encoder, inline: Inline) -> dict[str, Any]:
    return {**encoder.words(inline), "place": encoder.place(inline.span)}


def _prose(encoder: Encoder, prose: Prose) -> dict[str, Any]:
    return {"type": "prose", **encoder.block(prose.block)}


def _group(encoder: Encoder, group: Group) -> dict[str, Any]:
    words = encoder.words(group.inline)
    places = {"place": encoder.place(group.span), "text_place": encoder.place(group.inline.span)}
    return {"type": "heading", "level": group.level, **words, **places}


def _line(encoder: Encoder, line: Line) -> dict[str, Any]:
    data = {**encoder.words(line.inline), **encoder.fields(line, without=frozenset({"inline"}))}
    data["text_place"] = encoder.place(line.inline.span)
    return data


def _hazard(encoder: Encoder, hazard: Hazard) -> dict[str, Any]:
    data = encoder.fields(hazard, without=frozenset({"inline", "blocks"}))
    data["markdown"] = encoder.words(hazard.inline)["markdown"] if hazard.inline else hazard.text
    data["text_place"] = encoder.place(hazard.inline.span) if hazard.inline else None
    data["blocks"] = [encoder.block(block) for block in hazard.blocks]
    return data


def _thing(encoder: Encoder, thing: Thing) -> dict[str, Any]:
    return {"id": thing.id, "kind": thing.kind.value, "name": thing.name, **encoder.fields(thing)}


def _screws(encoder: Encoder, screws: ScrewSet) -> dict[str, Any]:
    head = {
        "id": screws.id,
        "kind": screws.kind.value,
        "name": screws.name,
        "count": screws.count,
        "drives": list(screws.drives),
        "thread": encoder(screws.thread),
    }
    data = {**head, **encoder.fields(screws, without=frozenset({"notation"}))}
    taken = frozenset({"count", "drives", "thread"})
    data["notation"] = encoder.fields(screws.notation, without=taken) if screws.notation else None
    return data


def _use(encoder: Encoder, use: Use) -> dict[str, Any]:
    return {"id": use.id, "place": encoder.place(use.span), "count": use.count}


def _effect(encoder: Encoder, effect: Effect) -> dict[str, Any]:
    return {
        "id": effect.id,
        "change": effect.change.value,
        "place": encoder.place(effect.span),
        "count": effect.count,
    }


def _need(encoder: Encoder, need: Need) -> dict[str, Any]:
    return {
        "reason": need.reason.value,
        "ways": [list(way) for way in need.ways],
        "place": encoder.place(need.span),
        "thing": need.thing,
    }


def _amount(encoder: Encoder, amount: Amount) -> dict[str, Any]:
    return {"text": amount.text, "quantity": encoder(amount.quantity)}


def _pin(encoder: Encoder, pin: Pin | Drawn) -> dict[str, Any]:
    data = encoder.fields(pin)
    data["points"] = [{"x": number(x), "y": number(y)} for x, y in pin.points]
    return data


def _located(encoder: Encoder, located: Located) -> Any:
    return located.plain()


def _same(encoder: Encoder, value: Any) -> Any:
    return value


def _word(encoder: Encoder, value: Enum) -> Any:
    return value.value


_OWN: dict[type, Callable[[Encoder, Any], Any]] = {
    str: _same,
    int: _same,
    bool: _same,
    type(None): _same,
    float: lambda encoder, value: number(value),
    Span: lambda encoder, span: encoder.place(span),
    Inline: _inline,
    Prose: _prose,
    Group: _group,
    Line: _line,
    Hazard: _hazard,
    ScrewSet: _screws,
    Use: _use,
    Effect: _effect,
    Need: _need,
    Amount: _amount,
    Pin: _pin,
    Drawn: _pin,
    Located: _located,
    **dict.fromkeys((Change, Family, Kind, Reason, Reuse, Signal), _word),
    **{kind: _thing for kind in Thing.__subclasses__() if kind is not ScrewSet},
}
_OWN.update({kind: _thing for base in Thing.__subclasses__() for kind in base.__subclasses__()})
