"""A guide -> `bom.xlsx`: its bill of materials as a workbook, one sheet a table of `bom.json`.

Texts are written as texts, never as formulas, links or numbers. The same guide gives the same bytes.
"""

from __future__ import annotations

import datetime
import io
from collections.abc import Mapping, Sequence
from typing import Any

from xlsxwriter import Workbook  # type: ignore[import-untyped]
from xlsxwriter.format import Format  # type: ignore[import-untyped]
from xlsxwriter.worksheet import Worksheet  # type: ignore[import-untyped]

from guidec.model.types import Guide
from guidec.outputs import bom
from guidec.plan.cautions import Placed

__all__ = ["SHEETS", "encode", "workbook"]

Row = Mapping[str, Any]

SHEETS: Mapping[str, tuple[str, ...]] = {
    name: tuple(columns.split())
    for name, columns in {
        "parts": "id name qty class class_proposed number material mass_g in sold_with source operation removed "
        "line",
        "fasteners": "id name count drive thread length_mm head colour grade torque_nm left_hand locked captive "
        "renew reuse holds operation operations line",
        "connectors": "id name type qty from to renew reuse operation operations line",
        "adhesives": "id name type count amount renew reuse holds operation operations line",
        "fastenings": "id name kind type count amount renew reuse holds operation operations line",
        "tools": "id name size grade grade_proposed drive implied refit_only link operations line",
        "supplies": "id name strength amount amount_low amount_high amount_unit renewal refit_only link "
        "operations line",
        "supply_totals": "name low high unit supplies",
        "batteries": "part name qty capacity_mah voltage_v energy_wh",
        "hazards": "signal text operation action added rule line",
        "masses": "material function low_g high_g parts",
        "depollution": "part name item condition",
    }.items()
}
"""The sheets after the guide's own, and their columns."""

_OPTIONS = {"in_memory": True, "strings_to_formulas": False, "strings_to_urls": False, "strings_to_numbers": False}
_LONGEST = 32_767
"""Characters that a cell of a workbook can hold."""
_WIDEST = 60
_NO_DATE = datetime.datetime(2000, 1, 1)
"""Stands in the file as the time it was made where the note has no date: the format wants one."""


def encode(guide: Guide, cautions: Sequence[Placed] = (), *, clean: bool = True) -> bytes:
    """The bytes of `bom.xlsx`. `cautions`: what the compiler adds; `clean`: whether the note has no error."""
    return workbook(bom.as_data(guide, cautions, clean=clean))


def workbook(data: Row) -> bytes:
    """A bill of materials as the data of `bom.json` -> the bytes of the workbook."""
    out = io.BytesIO()
    with Workbook(out, _OPTIONS) as book:
        head = data["guide"]
        about = {"title": head["title"], "author": head["author"], "created": _made(head["date"])}
        book.set_properties({key: value for key, value in about.items() if value})
        bold = book.add_format({"bold": True})
        facts = [{"fact": key, "value": value} for key, value in ({"clean": data["clean"]} | head).items()]
        _sheet(book.add_worksheet("guide"), ("fact", "value"), facts, bold)
        for name, columns in SHEETS.items():
            _sheet(book.add_worksheet(name), columns, data[name], bold)
    return out.getvalue()


def _made(date: str | None) -> datetime.datetime:
    try:
        made = datetime.datetime.fromisoformat((date or "").strip()[:10])
    except ValueError:
        return _NO_DATE
    return made if made.year >= 1900 else _NO_DATE


def _sheet(sheet: Worksheet, columns: Sequence[str], rows: Sequence[Row], bold: Format) -> None:
    """A table with its head, which stays in sight, and a filter."""
    sheet.write_row(0, 0, columns, bold)
    widths = [len(column) for column in columns]
    for at, row in enumerate(rows, 1):
        for column, key in enumerate(columns):
            widths[column] = max(widths[column], _cell(sheet, at, column, row[key]))
    for column, width in enumerate(widths):
        sheet.set_column(column, column, min(width, _WIDEST) + 2)
    sheet.freeze_panes(1, 0)
    if rows:
        sheet.autofilter(0, 0, len(rows), len(columns) - 1)


def _cell(sheet: Worksheet, at: int, column: int, value: Any) -> int:
    """Write a value; gives about how wide it is in characters."""
    if value is None:
        return 0
    if isinstance(value, int | float) and not isinstance(value, bool):
        sheet.write_number(at, column, value)
        return len(str(value))
    text = _text(value)
    if text:
        sheet.write_string(at, column, text)
    return len(text)


def _text(value: Any) -> str:
    if isinstance(value, bool):
        return "yes" if value else "no"
    text = "; ".join(map(str, value)) if isinstance(value, list | tuple) else str(value)
    whole = text.encode("utf-8", "replace").decode()
    return whole if len(whole) <= _LONGEST else f"{whole[: _LONGEST - 1]}…"
