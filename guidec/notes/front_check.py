"""Front matter -> what is wrong with it by its published schema, in our words, each at its key or value."""

from __future__ import annotations

import datetime
from collections.abc import Iterator, Mapping, Sequence
from functools import cache
from typing import Any

import jsonschema_rs

from guidec.notes.front_restated import restated
from guidec.notes.syntax import Entry, Located
from guidec.rules.finding import Finding, Severity
from guidec.schemas import schema
from guidec.trade.licences import meant, unknown_in
from guidec.trade.likeness import nearest

__all__ = ["check"]

SCHEMA = "front-matter.schema.json"
TABLES = ("parts", "fasteners", "tools", "supplies", "connectors", "adhesives")
_LONGEST = 60
Path = tuple[str | int, ...]


def check(front: Located) -> tuple[Finding, ...]:
    """All faults of a front matter, in the order of its text."""
    if not isinstance(front.value, Mapping) or not front.value:
        return ()
    findings = [finding for error in _errors(front) for finding in _translated(front, error)]
    findings += _scoring(front)
    findings += _licence(front.get("licence"))
    findings += _date(front.get("date"))
    once = {(finding.code, finding.span): finding for finding in reversed(findings)}
    return tuple(once[key] for key in sorted(once, key=lambda key: key[1]))


@cache
def _validator() -> Any:
    return jsonschema_rs.Draft202012Validator(schema(SCHEMA))


def _errors(front: Located) -> Iterator[Any]:
    yield from _validator().iter_errors(front.plain())


def _translated(front: Located, error: Any) -> Iterator[Finding]:
    """The findings for one error of the validator; its own words are not used."""
    path: Path = tuple(error.instance_path)
    place, entry = front.at(path)
    unexpected = getattr(error.kind, "unexpected", None)
    if unexpected is not None:
        if path[:1] and path[0] in TABLES:
            return  # what a kind takes is checked where marks are
        for key in unexpected:
            yield _unknown_key(place, path, key, _expected(path).get("properties", {}))
    elif error.kind.name == "anyOf":
        yield Finding.at("N021", entry.key_span if entry else place.span, variant="recording")
    elif not _checked_later(path, place):
        yield _wrong_value(place, entry, path)


def _checked_later(path: Path, place: Located) -> bool:
    """Whether a value is one in a row of a table: those are read as in marks, with the same words."""
    return len(path) == 3 and path[0] in TABLES and not isinstance(place.value, (Mapping, tuple))


def _expected(path: Path) -> Mapping[str, Any]:
    """The part of the schema that a value at a path has to fit."""
    whole = schema(SCHEMA)
    part: Mapping[str, Any] = whole
    for step in path:
        below = part.get("items", {}) if isinstance(step, int) else part.get("properties", {}).get(step)
        part = below if below is not None else part.get("additionalProperties", {})
        if not isinstance(part, Mapping):
            return {}
        if "$ref" in part:
            part = whole["$defs"][part["$ref"].rpartition("/")[2]]
    return part


def _wrong_value(place: Located, entry: Entry | None, path: Path) -> Finding:
    """A value that does not fit: what stands there, and what should."""
    part = _expected(path)
    key = ".".join(str(step) for step in path if isinstance(step, str)) or "front matter"
    options = part.get("enum", part.get("items", {}).get("enum", ())) if part else ()
    words = [option for option in options if isinstance(option, str)]
    suggest = nearest(place.typed, words) if place.typed else ()
    facts: dict[str, Any] = {"key": key, "expected": part.get("description", "something else")}
    facts["how"] = _how(key, part)
    suggest = suggest or restated(key, place.typed)
    if place.value is None:
        return Finding.at("N021", entry.key_span if entry else place.span, variant="nothing", **facts)
    if isinstance(place.value, (Mapping, tuple)):
        shown = "a list" if isinstance(place.value, tuple) else "a mapping"
        return Finding.at("N021", entry.key_span if entry else place.span, variant="kind", shown=shown, **facts)
    typed = place.typed if len(place.typed) <= _LONGEST else place.typed[: _LONGEST - 1] + "…"
    return Finding.at("N021", place.span, suggest=suggest, typed=typed, **facts)


def _how(key: str, part: Mapping[str, Any]) -> str:
    """What to do: a value that fits, after its key."""
    known = part.get("examples")
    return f"write it like this: `{key.rpartition('.')[2]}: {known[0]}`" if known else "correct the value"


def _unknown_key(place: Located, path: Path, key: str, known: Mapping[str, Any]) -> Finding:
    entries = place.value if isinstance(place.value, Mapping) else {}
    span = entries[key].key_span if key in entries else place.span
    near = nearest(key.replace("_", "-"), [*known]) or _elsewhere(key, path)
    where = ".".join(map(str, path))
    names = ", ".join(f"`{name}`" for name in known)
    facts: dict[str, Any] = {"key": key, "where": where, "known": names}
    return Finding.at("N020", span, suggest=near, variant="inside" if path else "", **facts)


def _elsewhere(key: str, path: Path) -> tuple[str, ...]:
    """Keys of the schema that people call by another name, and the key that holds one written a level too high."""
    word = key.casefold().replace(" ", "_")
    within = [
        f"{outer}: {{{word}: …}}"
        for outer in _HOLDING
        if word in schema(SCHEMA)["properties"][outer]["properties"]
    ]
    return () if path else tuple(filter(None, [_SYNONYMS.get(word), *within]))


_HOLDING = ("subject", "recording", "verdict")
_SYNONYMS = {
    "license": "licence",
    "lang": "language",
    "device": "subject",
    "product": "subject",
    "name": "title",
    "authors": "author",
    "by": "author",
    "version": "revision",
    "rev": "revision",
    "video": "recording",
    "url": "address",
    "link": "address",
    "website": "address",
    "screws": "fasteners",
    "glue": "adhesives",
    "consumables": "supplies",
    "score": "scoring",
    "ignore": "quiet",
}


def _scoring(front: Located) -> Iterator[Finding]:
    """Keys under `scoring` are open, since methods bring their own; a near miss of a known one is pointed out."""
    place = front.get("scoring")
    known = schema(SCHEMA)["properties"]["scoring"]["properties"]
    if place is None or not isinstance(place.value, Mapping):
        return
    for key, entry in place.value.items():
        near = [one for one in nearest(key, known) if one not in place.value] if key not in known else []
        if near:
            facts: dict[str, Any] = {
                "key": key,
                "where": "scoring",
                "known": ", ".join(f"`{name}`" for name in known),
            }
            yield Finding.at(
                "N020", entry.key_span, suggest=near, variant="inside", severity=Severity.WARNING, **facts
            )


def _licence(place: Located | None) -> Iterator[Finding]:
    if place is None or not isinstance(place.value, str):
        return
    for unknown in unknown_in(place.value):
        yield Finding.at("N022", place.span, suggest=meant(unknown), licence=unknown)


def _date(place: Located | None) -> Iterator[Finding]:
    """A date of the right shape that no calendar has."""
    if place is None or not isinstance(place.value, str) or not _looks_like_day(place.value):
        return
    try:
        datetime.date.fromisoformat(place.value[:10])
    except ValueError:
        expected = schema(SCHEMA)["properties"]["date"]["description"]
        facts = {"key": "date", "typed": place.typed[:_LONGEST], "expected": expected}
        yield Finding.at("N021", place.span, how="correct the day", **facts)


def _looks_like_day(typed: str) -> bool:
    parts: Sequence[str] = typed[:10].split("-")
    return [len(part) for part in parts] == [4, 2, 2] and all(part.isdecimal() for part in parts)
