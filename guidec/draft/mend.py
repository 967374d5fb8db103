"""A drafted note -> one that checks without errors: what cannot stand is written with less, at worst as a
remark."""

from __future__ import annotations

from bisect import bisect_right
from pathlib import Path

from guidec import compile as compiler
from guidec.draft.note import Row, Writer
from guidec.edge.load import of_bytes
from guidec.rules.book import page
from guidec.rules.finding import Finding, Severity
from guidec.source import Source

__all__ = ["mended"]

TRIES = 12


def mended(writer: Writer) -> tuple[str, tuple[Finding, ...]]:
    """The text, and what was found in it last. Each try lowers the rows that an error points at by one level."""
    text = writer.text()
    for _ in range(TRIES):
        found, source = _check(text)
        errors = [one for one in found if _severity(one) is Severity.ERROR]
        if not errors:
            return text, found
        rows = _rows(writer, source, errors)
        lowered = [row for row in rows if row.level < 2]
        for row in lowered:
            row.level += 1
        if not lowered:
            _last_resort(writer, rows)
        if any(row.role == "front" for row in rows):
            writer.isolate = False
        text = writer.text()
    return text, _check(text)[0]


def _check(text: str) -> tuple[tuple[Finding, ...], Source]:
    bundle = of_bytes("draft.md", text.encode("utf-8"), Path())
    return compiler.check(bundle).findings, bundle.source


def _severity(finding: Finding) -> Severity:
    return finding.severity or page(finding.code).severity


def _rows(writer: Writer, source: Source, errors: list[Finding]) -> list[Row]:
    """The rows that errors stand in."""
    starts = [row.at for row in writer.rows]
    rows: list[Row] = []
    for error in errors:
        line = source.place(error.span.start).line
        row = writer.rows[max(bisect_right(starts, line) - 1, 0)]
        if row not in rows:
            rows.append(row)
    return rows


def _last_resort(writer: Writer, rows: list[Row]) -> None:
    """An error in a row that cannot be lowered: its neighbours of the same operation are."""
    for row in rows:
        at = writer.rows.index(row)
        for other in writer.rows[at : at + 3]:
            other.level = 2
