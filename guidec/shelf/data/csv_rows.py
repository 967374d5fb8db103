"""Rows of one guide -> its lines in a CSV file: RFC 4180, and safe to open in a spreadsheet.

The same bytes as `guidec.outputs.csv_files.table` writes, which looks at each cell by itself. Nearly all rows hold
nothing that needs a second look, so a whole block of them is looked at in one search, and written by the standard
library; only a block in which something was found goes cell by cell.
"""

from __future__ import annotations

import csv
import io
import json
import re
from collections.abc import Sequence
from typing import Any

from guidec.outputs.csv_files import table as one_by_one
from guidec.shelf.data.columns import Table

__all__ = ["header", "lines"]

_CUT = "\x1f"
_SIGN = re.compile(r"[\x1f;][ \u00a0'\"]*[=+\-@\uff1d\uff0b\uff0d\uff20\u2212]")
"""A sign that begins a formula, at the start of a text or behind a semicolon."""
_ODD = re.compile("[\x00-\x1e\x7f\u0085\u1680\u2000-\u200f\u2028-\u202f\u205f\u2060\u3000\ufeff]")
"""Control and invisible characters, and blanks of other kinds."""
_EDGES = tuple(edge for blank in " \u00a0" for edge in (_CUT + blank, blank + _CUT))


def header(table: Table) -> bytes:
    """The first line."""
    return one_by_one(table.names, ())


def lines(table: Table, rows: Sequence[Sequence[Any]]) -> bytes:
    """The lines of these rows."""
    if not rows:
        return b""
    json_at = [at for at, column in enumerate(table.columns) if column.type == "json"]
    cells = [[_shown(value) for value in row] for row in rows]
    for at in json_at:
        for row, given in zip(cells, rows, strict=True):
            row[at] = _encode(given[at])
    texts = [value for row in cells for value in row if value.__class__ is str]
    if _look_again(texts):
        named = [dict(zip(table.names, row, strict=True)) for row in cells]
        return one_by_one(table.names, named).partition(b"\r\n")[2]
    out = io.StringIO()
    csv.writer(out, lineterminator="\r\n").writerows(cells)
    return out.getvalue().encode()


def _look_again(texts: Sequence[str]) -> bool:
    """Whether any of the texts may need more than its quotes: looked for in all of them at once."""
    joined = f"{_CUT}{_CUT.join(texts)}{_CUT}"
    return bool(
        joined.count(_CUT) != len(texts) + 1
        or _ODD.search(joined)
        or _SIGN.search(joined)
        or any(edge in joined for edge in _EDGES)
    )


_encode = json.JSONEncoder(ensure_ascii=False, separators=(",", ":")).encode


def _shown(value: Any) -> Any:
    """A value as `csv_files.cell` shows it, its text not yet looked at; numbers stay numbers."""
    if value.__class__ is bool:
        return "yes" if value else "no"
    if value.__class__ is list:
        return "; ".join(map(str, value))
    return value
