"""A guide -> `bom.cdx.json`: the device and what it is made of as a CycloneDX bill of materials (ECMA-424, 1.6).

The device is the component that the document describes. Its parts, and what holds and joins them, are components
of type `device`; a part that belongs to an assembly stands inside it. What the standard has no key for is kept as
properties: `cdx:device:…` of its own taxonomy, and `guidec:…`. Tools and supplies are no part of a device and are
left out. Nothing of it depends on the clock: the serial number follows from what the guide is about, the version
from its revision, the time from its date.
"""

from __future__ import annotations

import datetime
import json
import uuid
from collections.abc import Iterable, Iterator
from typing import Any

from guidec import __version__
from guidec.model.types import Guide
from guidec.outputs.guide_json import dumped
from guidec.outputs.materials import Row, Rows
from guidec.trade.licences import unknown_in

__all__ = ["as_data", "encode", "reference"]

SPEC = "1.6"
"""The version that ECMA-424, first edition, June 2024, publishes as a standard."""

_SCHEMA = f"http://cyclonedx.org/schema/bom-{SPEC}.schema.json"
_SERIALS = uuid.uuid5(uuid.NAMESPACE_URL, "urn:guidec:bill-of-materials")
_NAMED = {"qty": "cdx:device:quantity", "count": "cdx:device:quantity"}
_LEFT_OUT = frozenset({"id", "name", "in", "operation", "operations", "class_proposed", "column", "draft"})


def encode(guide: Guide) -> bytes:
    """The bytes of `bom.cdx.json`."""
    return dumped(as_data(guide))


def reference(guide: str, thing: str = "") -> str:
    """The `bom-ref` of a guide's device, or of a thing in it; stable as long as their ids are."""
    return f"{guide}#{thing}" if thing else guide


def as_data(guide: Guide) -> dict[str, Any]:
    """The bill of materials as plain data, as the standard's schema describes it."""
    slug = guide.meta.slug
    components = _components(guide)
    return {
        "$schema": _SCHEMA,
        "bomFormat": "CycloneDX",
        "specVersion": SPEC,
        "serialNumber": _serial(guide),
        "version": _version(guide.meta.revision),
        "metadata": _metadata(guide),
        "components": components,
        "dependencies": [
            {"ref": slug, "dependsOn": [one["bom-ref"] for one in components]},
            *_dependencies(components),
        ],
        "compositions": [{"aggregate": "incomplete", "assemblies": [slug]}],
    }


# ---------------------------------------------------------------- about the document and the device


def _serial(guide: Guide) -> str:
    """The same for every revision of a guide (RFC 9562, version 5)."""
    subject = guide.meta.subject
    about = [guide.meta.slug, subject.maker, subject.model, subject.variant]
    return f"urn:uuid:{uuid.uuid5(_SERIALS, json.dumps(about))}"


def _version(revision: str | None) -> int:
    """The revision where it is a whole number from 1, else 1."""
    plain = (revision or "").strip()
    return max(1, int(plain)) if plain.isascii() and plain.isdecimal() and len(plain) <= 15 else 1


def _metadata(guide: Guide) -> Row:
    meta = guide.meta
    found: Row = {
        "timestamp": _time(meta.date),
        "tools": {"components": [{"type": "application", "name": "guidec", "version": __version__}]},
        "authors": [{"name": meta.author}] if meta.author else None,
        "component": _device(guide),
        "licenses": _licences(meta.licence),
        "properties": _properties({"note": guide.source.name, "title": meta.title, "language": meta.language}),
    }
    return {key: value for key, value in found.items() if value}


def _time(date: str | None) -> str | None:
    """The note's date as a time (RFC 3339), midnight UTC; None where it is no whole date."""
    try:
        return f"{datetime.date.fromisoformat((date or '').strip()[:10]).isoformat()}T00:00:00Z"
    except ValueError:
        return None


def _licences(licence: str | None) -> list[Row]:
    if not licence:
        return []
    if unknown_in(licence):
        return [{"license": {"name": licence}}]
    return [{"expression": licence}]


def _device(guide: Guide) -> Row:
    subject = guide.meta.subject
    found: Row = {
        "type": "device",
        "bom-ref": reference(guide.meta.slug),
        "manufacturer": {"name": subject.maker} if subject.maker else None,
        "name": subject.model or guide.meta.title,
        "version": subject.variant,
        "description": guide.meta.title,
        "properties": _properties(
            {
                "cdx:device:deviceType": subject.kind,
                "year": subject.year,
                **{f"identifier:{key}": value for key, value in dict(subject.identifiers or {}).items()},
            }
        ),
    }
    return {key: value for key, value in found.items() if value}


# ---------------------------------------------------------------- what it is made of


def _components(guide: Guide) -> list[Row]:
    rows = Rows(guide)
    slug = guide.meta.slug
    ratings = {row["part"]: row for row in rows.batteries()}
    parts = rows.parts()
    for row in parts:
        rating = ratings.get(row["id"], {})
        row.update({key: rating.get(key) for key in ("capacity_mah", "voltage_v", "energy_wh")})
    found = list(_assemblies(slug, parts))
    for kind, others in (
        ("screw", rows.fasteners()),
        ("connector", rows.connectors()),
        ("adhesive", rows.adhesives()),
        ("", rows.fastenings()),
    ):
        found += [_component(slug, row, kind or row["kind"]) for row in others]
    return found


def _assemblies(slug: str, parts: list[Row]) -> Iterator[Row]:
    """The parts, those that belong to an assembly inside it; of assemblies in a circle the first is outermost."""
    inside: dict[str, list[Row]] = {}
    known = {row["id"] for row in parts}
    for row in parts:
        if row["in"] in known:
            inside.setdefault(row["in"], []).append(row)
    done: set[str] = set()

    def made(row: Row) -> Row:
        done.add(row["id"])
        one = _component(slug, row, "part")
        within = [made(other) for other in inside.get(row["id"], ()) if other["id"] not in done]
        return {**one, "components": within} if within else one

    yield from [made(row) for row in parts if row["in"] not in known]
    yield from (made(row) for row in parts if row["id"] not in done)


def _component(slug: str, row: Row, kind: str) -> Row:
    facts: Row = {"kind": kind, **{_NAMED.get(key, key): row[key] for key in row if key not in _LEFT_OUT}}
    if row.get("class"):
        facts["cdx:device:function"] = row["class"]
    found: Row = {
        "type": "device",
        "bom-ref": reference(slug, row["id"]),
        "name": row["name"],
        "description": row.get("notation") or row.get("type"),
        "properties": _properties(facts),
    }
    return {key: value for key, value in found.items() if value}


def _properties(facts: Row) -> list[Row]:
    """Name and value, in the order given; a list is one property for each item, what is not known is none."""
    found = []
    for key, value in facts.items():
        name = key if key.startswith("cdx:") else f"guidec:{key}"
        for one in value if isinstance(value, list) else [value]:
            if one is not None and one is not False:
                found.append({"name": name, "value": "yes" if one is True else str(one)})
    return found


def _dependencies(components: Iterable[Row]) -> Iterator[Row]:
    """An assembly depends on what is in it, all else on nothing."""
    for one in components:
        within = one.get("components", [])
        yield {"ref": one["bom-ref"], "dependsOn": [other["bom-ref"] for other in within]}
        yield from _dependencies(within)
