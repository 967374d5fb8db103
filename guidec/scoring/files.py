"""The text of a method or times file -> the method or table, or what is wrong with it, each at its place."""

from __future__ import annotations

from collections.abc import Iterator, Mapping
from functools import cache
from typing import Any

import jsonschema_rs

from guidec.notes import yaml_faults
from guidec.notes.syntax import Entry, Located
from guidec.notes.yaml_tree import BrokenError, located
from guidec.quick import dataclass
from guidec.rules.finding import Finding
from guidec.schemas import schema
from guidec.scoring.method import Method, method_of
from guidec.scoring.soundness import about_method
from guidec.source import Source, Span
from guidec.trade.likeness import nearest
from guidec.trade.work_times import Table, seconds, table_of

__all__ = ["read_method", "read_times"]

Path = tuple[str | int, ...]
_LONGEST = 60


@dataclass(frozen=True, slots=True)
class _Place:
    """A value in a file, and the entry that it is the value of, or the nearest one around it."""

    value: Located
    entry: Entry | None

    @property
    def key_span(self) -> Span:
        return self.entry.key_span if self.entry else self.value.span


def read_method(source: Source) -> tuple[Method | None, tuple[Finding, ...]]:
    """A method file. None where anything is wrong with it."""
    tree, findings = _read(source, "method.schema.json", "a scoring method")
    if tree is None:
        return None, findings
    wrong = tuple(about_method(tree, source))
    return (None, wrong) if wrong else (method_of(tree.plain()), ())


def read_times(source: Source) -> tuple[Table | None, tuple[Finding, ...]]:
    """A file of work times. None where anything is wrong with it."""
    tree, findings = _read(source, "times.schema.json", "a table of times")
    if tree is None:
        return None, findings
    wrong = tuple(Finding.at("S115", one.span, source=source, typed=one.typed) for one in _untimed(tree))
    return (None, wrong) if wrong else (table_of(tree.plain()), ())


def _untimed(tree: Located) -> Iterator[Located]:
    """The times of a table that are neither seconds nor a sequence."""
    rows = tree.get("rows")
    values = [tree.get("change"), tree.get("turn")]
    for row in rows.value if rows and isinstance(rows.value, tuple) else ():
        for key in ("once", "each"):
            phases = row.get(key)
            if phases is not None and isinstance(phases.value, Mapping):
                values += [entry.value for entry in phases.value.values()]
    for value in values:
        try:
            seconds(value.typed if value else "0")
        except ValueError:
            if value is not None:
                yield value


# ---------------------------------------------------------------- form


def _read(source: Source, name: str, what: str) -> tuple[Located | None, tuple[Finding, ...]]:
    """The file's content where its form is right."""
    try:
        tree, odd = located(source.text, 0)
    except BrokenError as broken:
        found = yaml_faults.finding(broken, source.text, 0)
        facts: dict[str, Any] = {"what": what, **found.facts}
        return None, (Finding.at("S110", found.span, variant=found.variant, source=source, **facts),)
    if odd:
        facts = {"what": what, "key": ""}
        return None, tuple(
            Finding.at(
                "S110",
                one.span,
                variant="twice" if one.code == "N012" else "",
                source=source,
                **{**facts, **one.facts},
            )
            for one in odd
        )
    if not isinstance(tree.value, Mapping):
        return None, (Finding.at("S110", tree.span, variant="shape", source=source, what=what),)
    errors = sorted(_validator(name).iter_errors(tree.plain()), key=lambda one: one.instance_path != [])
    findings = [one for error in errors for one in _translated(source, tree, name, error)]
    once = {(one.code, one.span, one.variant, str(one.facts)): one for one in findings}
    return (None if findings else tree), tuple(once.values())


@cache
def _validator(name: str) -> Any:
    return jsonschema_rs.Draft202012Validator(schema(name))


def _translated(source: Source, tree: Located, name: str, error: Any) -> Iterator[Finding]:
    """The findings for one error of the validator; its own words are not used."""
    path: Path = tuple(error.instance_path)
    place = _Place(*tree.at(path))
    part = _expected(schema(name), path)
    where = _where(path)
    unexpected = getattr(error.kind, "unexpected", None)
    if unexpected is not None:
        known = list(part.get("properties", {}))
        for key in unexpected:
            span = place.value.value[key].key_span if isinstance(place.value.value, Mapping) else place.key_span
            listed = ", ".join(f"`{one}`" for one in known)
            facts: dict[str, Any] = {"key": key, "where": where, "known": listed}
            yield Finding.at("S111", span, suggest=nearest(key, known), source=source, **facts)
    elif error.kind.name == "required":
        key = error.kind.property
        expected = part.get("properties", {}).get(key, {}).get("description", "a value")
        yield Finding.at("S113", place.key_span, source=source, key=key, where=where, expected=expected)
    else:
        yield _misfit(source, place, part, where)


def _misfit(source: Source, place: _Place, part: Mapping[str, Any], where: str) -> Finding:
    expected = part.get("description", "something else")
    facts: dict[str, Any] = {"where": where, "expected": expected}
    if isinstance(place.value.value, Mapping | tuple):
        shown = "a list" if isinstance(place.value.value, tuple) else "a mapping"
        return Finding.at("S112", place.key_span, variant="kind", source=source, shown=shown, **facts)
    typed = place.value.typed
    if not typed:
        return Finding.at("S112", place.key_span, variant="nothing", source=source, **facts)
    words = [one for one in part.get("enum", ()) if isinstance(one, str)]
    typed = typed if len(typed) <= _LONGEST else typed[: _LONGEST - 1] + "…"
    return Finding.at("S112", place.value.span, suggest=nearest(typed, words), source=source, typed=typed, **facts)


def _expected(whole: Mapping[str, Any], path: Path) -> Mapping[str, Any]:
    """The part of the schema that a value at a path has to fit, of several shapes the one that has the step."""
    part = whole
    for step in path:
        shapes = [part, *part.get("anyOf", ())]
        found = (_below(shape, step) for shape in shapes)
        part = next((one for one in found if one is not None), {})
    return part


def _below(shape: Mapping[str, Any], step: str | int) -> Mapping[str, Any] | None:
    found = shape.get("items") if isinstance(step, int) else shape.get("properties", {}).get(step)
    found = shape.get("additionalProperties") if found is None and isinstance(step, str) else found
    return found if isinstance(found, Mapping) else None


def _where(path: Path) -> str:
    """`criteria 2 points`, counted from 1; `the file` at its top."""
    return " ".join(str(step + 1) if isinstance(step, int) else step for step in path) or "the file"
