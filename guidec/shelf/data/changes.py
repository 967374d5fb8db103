"""Guides of one build and of the next -> `changes.json`: what came, went, was renamed, and what changed in it.

A guide is here as an object of `catalogue.json`. The form of the result is `schema/changes.schema.json`.
"""

from __future__ import annotations

from collections.abc import Iterable, Mapping
from typing import Any

__all__ = ["FORMAT", "VERSION", "changes"]

FORMAT = "guidec changes"
VERSION = 1

Guide = Mapping[str, Any]
Row = dict[str, Any]
_UNTOLD = frozenset({"line", "col", "draft", "was", "name", "title", "id"})
_NAMING = ("operation", "operations", "instead_of", "holds", "inside", "sold_with", "from_end", "to_end")
_ALSO_NAMING = ("tools", "supplies", "renewals", "part")
_HEAD = ("title", "maker", "model", "variant", "year", "kind", "author", "licence", "revision", "date", "clean")
SECTIONS = ("operations", "parts", "screws", "fastenings", "connectors", "adhesives", "tools", "supplies")
"""What is compared by id; `screws` and `fastenings` are the two halves of the table `fasteners`."""


def changes(before: Iterable[Guide] | None, after: Iterable[Guide]) -> Row:
    """What differs between two builds. `before` is None where there was none: then nothing has changed.

    A guide that says that it was another one is that one renamed, if the other is gone; so with things in it.
    """
    old = {guide["id"]: guide for guide in before or ()}
    new = {guide["id"]: guide for guide in after}
    renamed = _renames(old, new)
    back = {name: was for was, name in renamed.items()}
    pairs = [(old[back.get(own, own)], guide) for own, guide in new.items() if back.get(own, own) in old]
    return {
        "format": FORMAT,
        "version": VERSION,
        "first": before is None,
        "added": [_titled(new[own]) for own in new if own not in old and own not in back],
        "removed": [_titled(old[own]) for own in old if own not in new and own not in renamed],
        "renamed": [{"from": was, "to": own} for was, own in renamed.items()],
        "changed": [one for one in (_guide(was, now) for was, now in pairs) if one],
    }


def _titled(guide: Guide) -> Row:
    return {"id": guide["id"], "title": guide["title"]}


def _renames(old: Mapping[str, Any], new: Mapping[str, Mapping[str, Any]]) -> dict[str, str]:
    """Old id -> new one, of what is gone under its old id and is named by the new one as what it was."""
    found: dict[str, str] = {}
    for own, row in new.items():
        was = next((one for one in row["was"] if one in old and one not in new and one not in found), None)
        if was is not None and own not in old:
            found[was] = own
    return found


# ---------------------------------------------------------------- one guide


def _guide(old: Guide, new: Guide) -> Row | None:
    """What changed in a guide; None where nothing did."""
    before, after = _sections(old), _sections(new)
    renamed = {name: _renames(before[name], after[name]) for name in SECTIONS}
    things = {was: own for name in SECTIONS[1:] for was, own in renamed[name].items()}
    found: Row = {"guide": _fields(old, new, _HEAD)}
    for name in SECTIONS:
        found[name] = _section(before[name], after[name], renamed[name], renamed["operations"], things)
    found["routes"] = _section(
        {things.get(own, own): row for own, row in before["routes"].items()},
        after["routes"],
        {},
        renamed["operations"],
        things,
    )
    del found["routes"]["renamed"]
    found["index"] = _index(before["indices"], after["indices"])
    empty = all(not any(one.values()) if isinstance(one, dict) else not one for one in found.values())
    return None if empty else {**_titled(new), **found}


def _sections(guide: Guide) -> dict[str, dict[str, Row]]:
    by_id = {name: {row["id"]: row for row in guide[name]} for name in SECTIONS if name in guide}
    fasteners = guide["fasteners"]
    return {
        **by_id,
        "screws": {row["id"]: row for row in fasteners if row["kind"] == "screw"},
        "fastenings": {row["id"]: row for row in fasteners if row["kind"] != "screw"},
        "routes": {row["part"]: row for row in guide["routes"]},
        "indices": {row["method"]: row for row in guide["indices"]},
    }


def _section(
    old: Mapping[str, Row],
    new: Mapping[str, Row],
    renamed: Mapping[str, str],
    operations: Mapping[str, str],
    things: Mapping[str, str],
) -> Row:
    back = {own: was for was, own in renamed.items()}
    changed = []
    for own, row in new.items():
        was = old.get(back.get(own, own))
        if was is None:
            continue
        keys = [key for key in row if key not in _UNTOLD and not (key == "number" and "title" in row)]
        fields = _fields(_translated(was, operations, things), row, keys)
        changed += [{"id": own, **field} for field in fields]
    return {
        "added": [own for own in new if own not in old and own not in back],
        "removed": [own for own in old if own not in new and own not in renamed],
        "renamed": [{"from": was, "to": own} for was, own in renamed.items()],
        "changed": changed,
    }


def _translated(row: Row, operations: Mapping[str, str], things: Mapping[str, str]) -> Row:
    """An old row with the new ids of what it names, so that a renaming is told once and not at every mention."""
    if not operations and not things:
        return row
    names = {key: operations if key.startswith("operation") or key == "instead_of" else things for key in _NAMING}
    names |= dict.fromkeys(_ALSO_NAMING, things)
    return {key: _renamed(value, names[key]) if key in names else value for key, value in row.items()}


def _renamed(value: Any, names: Mapping[str, str]) -> Any:
    if isinstance(value, list):
        return [names.get(one, one) for one in value]
    return names.get(value, value)


def _fields(old: Guide, new: Guide, keys: Iterable[str]) -> list[Row]:
    return [
        {"field": key, "before": old.get(key), "after": new.get(key)}
        for key in keys
        if old.get(key) != new.get(key)
    ]


def _index(old: Mapping[str, Row], new: Mapping[str, Row]) -> list[Row]:
    """By method: the ends of the range and the class, before and after; null where there was or is none."""
    found = []
    for method in dict.fromkeys([*old, *new]):
        before, after = _ends(old.get(method)), _ends(new.get(method))
        if before != after:
            found.append({"method": method, "before": before, "after": after})
    return found


def _ends(row: Row | None) -> Row | None:
    return {key: row[key] for key in ("low", "high", "class")} if row else None
