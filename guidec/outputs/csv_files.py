"""A guide -> the four CSV files of its bill of materials, by name.

RFC 4180: a header, CRLF, double quotes only where needed. UTF-8 without a byte-order mark, which other programs
would read as part of the first column's name. A cell that a spreadsheet would take for a formula gets an
apostrophe in front, the sign by which spreadsheets themselves mark text; numbers of our own stay numbers.
"""

from __future__ import annotations

import re
from collections.abc import Iterable, Mapping, Sequence
from typing import Any

from guidec.model.types import Guide
from guidec.outputs.materials import Row, Rows

__all__ = ["COLUMNS", "cell", "csv_files", "table"]

COLUMNS: Mapping[str, tuple[str, ...]] = {
    name: tuple(columns.split())
    for name, columns in {
        "parts": "id name qty class class_proposed number material mass_g in sold_with source operation "
        "removed line",
        "fasteners": "id name count drive thread length_mm head colour grade torque_nm left_hand locked captive "
        "renew reuse holds operation operations line",
        "tools": "id name size grade grade_proposed drive implied refit_only link operations line",
        "supplies": "id name strength amount amount_low amount_high amount_unit renewal refit_only link "
        "operations line",
    }.items()
}
_SIGNS = r"[=+\-@\uff1d\uff0b\uff0d\uff20\u2212]"
_TRIMMED = r"[\s\x00-\x1f\x7f\u200b-\u200f\u2028-\u202e\u2060\ufeff'\"]*"
"""What some spreadsheets drop before they look for a sign."""
_FORMULA = re.compile(f"{_TRIMMED}{_SIGNS}")
_LATER_FORMULA = re.compile(f";(?={_TRIMMED}{_SIGNS})")
_CONTROL = re.compile(r"[\x00-\x08\x0b\x0c\x0e-\x1f\x7f]")
_NEEDS_QUOTES = re.compile(r'[,"\r\n]')
_HARMLESS = re.compile(r"(?:[^\W_](?:[\w .×/()-]*[\w)])?)?").fullmatch
_LINE_ENDS = re.compile(r"[\t\r\n\u0085\u2028\u2029]+")


def csv_files(guide: Guide, rows: Rows | None = None) -> dict[str, bytes]:
    """`parts.csv`, `fasteners.csv`, `tools.csv`, `supplies.csv`. `rows`: the guide's, where they are at hand."""
    rows = rows or Rows(guide)
    made = {
        "parts": rows.parts(),
        "fasteners": rows.fasteners(),
        "tools": rows.tools(),
        "supplies": rows.supplies(),
    }
    return {f"{name}.csv": table(COLUMNS[name], made[name]) for name in COLUMNS}


def table(columns: Sequence[str], rows: Iterable[Row]) -> bytes:
    """Rows as CSV, these columns of them, the names of the columns first."""
    lines = [",".join(_quoted(name) for name in columns)]
    lines += [",".join([_written(row[name]) for name in columns]) for row in rows]
    return "".join(f"{line}\r\n" for line in lines).encode("utf-8", "backslashreplace")


def _written(value: Any) -> str:
    """A value as it stands in the file. Most are nothing, or a few plain words."""
    if value is None or (value.__class__ is str and _HARMLESS(value)):
        return value or ""
    if value.__class__ is int:
        return str(value)
    return _quoted(cell(value))


def cell(value: Any) -> str:
    """A value as the text of a cell: nothing for None, `yes` or `no`, a list's items parted by `; `."""
    if value is None:
        return ""
    if isinstance(value, bool):
        return "yes" if value else "no"
    if isinstance(value, int | float):
        return str(value)
    text = "; ".join(map(str, value)) if isinstance(value, list | tuple) else str(value)
    return _harmless(text)


def _harmless(text: str) -> str:
    """A text that no spreadsheet takes for a formula, on one line and without control characters.

    A leading blank or quote does not save it: some trim those before they look. A tab or line end becomes a blank,
    since it would start a new cell where the file is pasted rather than opened. Where the semicolon parts cells,
    as in much of Europe, what follows one starts a cell too.
    """
    flat = _CONTROL.sub("", _LINE_ENDS.sub(" ", text)).strip()
    flat = _LATER_FORMULA.sub("; '", flat)
    return f"'{flat}" if _FORMULA.match(flat) else flat


def _quoted(text: str) -> str:
    if _NEEDS_QUOTES.search(text) or text != text.strip():
        return '"' + text.replace('"', '""') + '"'
    return text
