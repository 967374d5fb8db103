"""An entry -> the rows of the catalogue's tables for that guide, each a list of values in the columns' order.

Every row's first value is the guide's id, so that what is made for one guide stands for itself in every table.
"""

from __future__ import annotations

import json
import re
import zlib
from collections.abc import Callable, Iterable, Iterator, Mapping, Sequence
from typing import Any

from guidec.shelf.data.columns import TABLES, Column, Table
from guidec.shelf.entry import Entry

__all__ = ["Rows", "as_object", "rows"]

Source = Mapping[str, Any]
Rows = Mapping[str, list[list[Any]]]
_OTHERS = ("clip", "solder", "thermal", "fastening")
"""Kinds of fastenings besides screws and adhesives; they share a table with the screws."""
_HEAD = (
    "title",
    "maker",
    "model",
    "variant",
    "year",
    "kind",
    "author",
    "licence",
    "language",
    "revision",
    "date",
    "note",
    "clean",
    "draft",
    "errors",
    "warnings",
)
_HALF = re.compile(r"[\ud800-\udfff]")
_LARGEST = 2**53 - 1
"""The largest whole number that JSON is sure to carry (RFC 8259, section 6); what is larger is cut to it."""


def rows(entry: Entry) -> Rows:
    """All rows of a guide, by table, tables without rows too."""
    given = _unpacked(entry)
    found: dict[str, list[list[Any]]] = {}
    for table in TABLES:
        make = _MAKERS.get(table.name)
        sources = make(entry, given) if make else given.get(table.name, ())
        found[table.name] = _lists(table, entry.slug, sources)
    return found


def as_object(table: Table, row: Sequence[Any]) -> dict[str, Any]:
    """A row as an object, without the guide's id where that is not the row's own."""
    named = dict(zip(table.names, row, strict=True))
    named.pop("guide", None)
    return named


def _unpacked(entry: Entry) -> Mapping[str, list[dict[str, Any]]]:
    """The entry's own rows, halves of characters replaced, which no file could hold."""
    if not entry.tables:
        return {}
    data = zlib.decompress(entry.tables)
    try:
        text = data.decode()
    except UnicodeDecodeError:
        text = _whole_characters(data.decode("utf-8", "surrogatepass"))
    found: Mapping[str, list[dict[str, Any]]] = json.loads(text)
    return found


def _whole_characters(text: str) -> str:
    return _HALF.sub("\ufffd", text)


def _lists(table: Table, slug: str, sources: Iterable[Source]) -> list[list[Any]]:
    """Rows in the order of the columns; of two that the key does not tell apart the first counts."""
    own = table.columns[1:] if table.names[0] == "guide" else table.columns
    start = [slug] if len(own) < len(table.columns) else []
    readers = [(column.key, _missing(column)) for column in own]
    at = [table.names.index(name) for name in table.key]
    found: dict[tuple[Any, ...], list[Any]] = {}
    for source in sources:
        row = start + [_given(source.get(key), missing) for key, missing in readers]
        found.setdefault(tuple(row[one] for one in at), row)
    return list(found.values())


def _given(value: Any, missing: Any) -> Any:
    """A value as every format can hold it."""
    if value is None:
        return missing
    if value.__class__ is int and not -_LARGEST <= value <= _LARGEST:
        return _LARGEST if value > 0 else -_LARGEST
    return value


def _missing(column: Column) -> Any:
    """What stands where an entry says nothing."""
    if column.type == "list":
        return []
    return False if column.type == "yes" and column.needed else None


# ---------------------------------------------------------------- tables that need more than their columns


def _guides(entry: Entry, given: Mapping[str, Any]) -> Iterator[Source]:
    yield {"id": entry.slug, "was": list(entry.aliases), **{name: _own(entry, name) for name in _HEAD}}


def _own(entry: Entry, name: str) -> Any:
    value = getattr(entry, name)
    return _whole_characters(value) if isinstance(value, str) else value


def _operations(entry: Entry, given: Mapping[str, Any]) -> Iterator[Source]:
    known = {row["id"] for row in given.get("operations", ())}
    for row in given.get("operations", ()):
        yield row if row.get("instead_of") in known else {**row, "instead_of": None}


def _parts(entry: Entry, given: Mapping[str, Any]) -> Iterator[Source]:
    """Parts, with the rating of those that are batteries."""
    ratings = {row["part"]: row for row in given.get("batteries", ())}
    for row in given.get("parts", ()):
        rating = ratings.get(row["id"], {})
        yield {**row, **{key: rating.get(key) for key in ("capacity_mah", "voltage_v", "energy_wh")}}


def _fasteners(entry: Entry, given: Mapping[str, Any]) -> Iterator[Source]:
    for row in given.get("fasteners", ()):
        yield {**row, "kind": "screw"}
    yield from (row for row in given.get("fastenings", ()) if row.get("kind") in _OTHERS)


def _hazards(entry: Entry, given: Mapping[str, Any]) -> Iterator[Source]:
    for number, row in enumerate(given.get("hazards", ()), 1):
        yield {**row, "number": number}


def _routes(entry: Entry, given: Mapping[str, Any]) -> Iterator[Source]:
    """A row for each part of a route; other ways as their number."""
    for row in given.get("routes", ()):
        for part, reached in zip(row["parts"], row["reached"], strict=True):
            yield {**row, "part": part, "reached": reached, "alternatives": len(row["alternatives"])}


def _indices(entry: Entry, given: Mapping[str, Any]) -> Iterator[Source]:
    """One row a method: the index's range, and its class where the whole range lies in one."""
    for score in given.get("indices", ()):
        if score.get("low") is not None and score.get("high") is not None:
            yield {"scores": {}, **score}


_MAKERS: Mapping[str, Callable[[Entry, Mapping[str, Any]], Iterable[Source]]] = {
    "guides": _guides,
    "operations": _operations,
    "parts": _parts,
    "fasteners": _fasteners,
    "hazards": _hazards,
    "routes": _routes,
    "indices": _indices,
}
