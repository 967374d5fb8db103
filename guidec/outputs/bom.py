"""A guide -> `bom.json`: parts, fasteners, tools, supplies, connectors, adhesives, batteries, hazards as tables.

The form is described by `schema/bom.schema.json`.
"""

from __future__ import annotations

from collections.abc import Iterator, Sequence
from typing import Any

from guidec.model.types import Guide, Hazard, Part
from guidec.notes.syntax import Paragraph
from guidec.outputs.guide_json import dumped
from guidec.outputs.jsonable import Encoder, number
from guidec.outputs.materials import Row, Rows
from guidec.plan.cautions import Placed
from guidec.source import Span
from guidec.trade.depollution import depollution, depollution_source
from guidec.trade.plastics import totals

__all__ = ["FORMAT", "VERSION", "as_data", "encode"]

FORMAT = "guidec bill of materials"
VERSION = 1


def encode(
    guide: Guide, cautions: Sequence[Placed] = (), *, clean: bool = True, rows: Rows | None = None
) -> bytes:
    """The bytes of `bom.json`. `cautions`: what the compiler adds; `clean`: whether the note has no error.

    `rows`: the guide's, where they are at hand.
    """
    return dumped(as_data(guide, cautions, clean=clean, rows=rows))


def as_data(
    guide: Guide, cautions: Sequence[Placed] = (), *, clean: bool = True, rows: Rows | None = None
) -> dict[str, Any]:
    """The bill of materials as plain data, as the schema describes it."""
    rows = rows or Rows(guide)
    supplies = rows.supplies()
    return {
        "format": FORMAT,
        "version": VERSION,
        "clean": clean,
        "guide": _head(guide),
        "parts": rows.parts(),
        "fasteners": rows.fasteners(),
        "tools": rows.tools(),
        "supplies": supplies,
        "supply_totals": _supply_totals(supplies),
        "connectors": rows.connectors(),
        "adhesives": rows.adhesives(),
        "fastenings": rows.fastenings(),
        "batteries": rows.batteries(),
        "hazards": list(_hazards(guide, cautions)),
        "masses": _masses(guide),
        "depollution": list(_depollution(guide)),
        "depollution_source": depollution_source(),
    }


def _head(guide: Guide) -> Row:
    meta, subject = guide.meta, guide.meta.subject
    return {
        "title": meta.title,
        "slug": meta.slug,
        "maker": subject.maker,
        "model": subject.model,
        "variant": subject.variant,
        "year": subject.year,
        "kind": subject.kind,
        "author": meta.author,
        "licence": meta.licence,
        "language": meta.language,
        "revision": meta.revision,
        "date": meta.date,
        "note": guide.source.name,
    }


# ---------------------------------------------------------------- amounts and masses


def _supply_totals(supplies: Sequence[Row]) -> list[Row]:
    """Amounts of one stuff put together: renewals of one type and the supply of that name, unit by unit."""
    found: dict[tuple[str, str], list[Row]] = {}
    for row in supplies:
        if row["amount_unit"] is not None:
            found.setdefault((_stuff(row).casefold(), row["amount_unit"]), []).append(row)
    return [
        {
            "name": _stuff(same[0]),
            "low": _sum(same, "amount_low"),
            "high": _sum(same, "amount_high"),
            "unit": unit,
            "supplies": [row["id"] for row in same],
        }
        for (_, unit), same in found.items()
    ]


def _stuff(row: Row) -> str:
    """What a row of the supplies is made of: a supply's name is that, a renewal's is only its place."""
    return " ".join(str((row["renewal"] and row["strength"]) or row["name"]).split())


def _sum(rows: Sequence[Row], key: str) -> float | None:
    return number(round(sum(row[key] for row in rows if row[key] is not None), 9))


def _masses(guide: Guide) -> list[Row]:
    """Mass by material of the parts that have one; an assembly and what is in it count each for itself."""
    weighed = [part for part in guide.things.values() if isinstance(part, Part) and part.mass]
    rows = [(part.material, part.mass.low, part.mass.high, part.qty) for part in weighed if part.mass]
    return [
        {
            "material": total.material or None,
            "function": total.function or None,
            "low_g": number(round(total.low_g, 6)),
            "high_g": number(round(total.high_g, 6)),
            "parts": total.parts,
        }
        for total in totals(rows, guide.meta.language)
    ]


# ---------------------------------------------------------------- hazards and depollution


def _hazards(guide: Guide, cautions: Sequence[Placed]) -> Iterator[Row]:
    """The author's hazards, each once, in note order, then those that the compiler adds."""
    own: dict[Span, tuple[Hazard, str | None, str | None]] = {
        hazard.span: (hazard, None, None) for hazard in guide.hazards
    }
    for operation in guide.operations:
        for hazard in operation.hazards:
            own.setdefault(hazard.span, (hazard, operation.id, None))
        for action in operation.actions:
            for hazard in guide.actions[action].hazards:
                own.setdefault(hazard.span, (hazard, operation.id, action))
    for span in sorted(own):
        yield _hazard(guide, *own[span])
    for placed in cautions:
        yield _hazard(guide, placed.hazard, placed.operation, placed.action)


def _hazard(guide: Guide, hazard: Hazard, operation: str | None, action: str | None) -> Row:
    place = guide.source.place(hazard.span.start)
    return {
        "signal": hazard.signal.value,
        "text": _whole(guide, hazard),
        "operation": operation,
        "action": action,
        "added": hazard.added,
        "rule": hazard.rule or None,
        "line": place.line,
        "column": place.column,
    }


def _whole(guide: Guide, hazard: Hazard) -> str:
    """A hazard's text, and that of the lists and tables in it, which the text alone leaves out."""
    rest = [block for block in hazard.blocks if not isinstance(block, Paragraph)]
    return "\n".join((hazard.text, *map(Encoder(guide).plain, rest))) if rest else hazard.text


def _depollution(guide: Guide) -> Iterator[Row]:
    """The parts that Annex VII of Directive 2012/19/EU wants out first; `condition`: what has to be so as well."""
    for part in guide.things.values():
        if not isinstance(part, Part):
            continue
        listed = depollution(
            part.name,
            part.cls,
            material=part.material,
            details=part.details,
            subject_kind=guide.meta.subject.kind or "",
            language=guide.meta.language,
        )
        for item in listed:
            yield {
                "part": part.id,
                "name": part.name,
                "rule": item.id,
                "item": item.item,
                "condition": item.condition or None,
            }
