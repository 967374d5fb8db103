"""The CSV tables of the package bd_warehouse (Apache-2.0, open data), read without importing it.

The package drags in a CAD kernel when it is imported, so its files are found through its metadata and read with
the csv module. Some of its headers have trailing spaces.
"""

from __future__ import annotations

import csv
from importlib.metadata import PackageNotFoundError, files
from pathlib import Path

import pytest


def table(name: str) -> dict[float, dict[str, str]]:
    """A table of metric screws: nominal diameter in mm -> column -> value, coarse pitch only (the first row)."""
    try:
        found = [path for path in files("bd_warehouse") or () if path.name == f"{name}_parameters.csv"]
    except PackageNotFoundError:
        pytest.fail("the open tables are missing: pip install --no-deps bd_warehouse==0.4.0")
    with Path(str(found[0].locate())).open(encoding="utf-8", newline="") as file:
        rows = [[cell.strip() for cell in row] for row in csv.reader(file)]
    head = rows[0]
    sizes: dict[float, dict[str, str]] = {}
    for row in rows[1:]:
        if row and row[0].startswith("M"):
            size, pitch = row[0][1:].split("-")
            if COARSE.get(float(size)) == float(pitch):
                sizes[float(size)] = dict(zip(head, row, strict=False))
    return sizes


COARSE = {
    1: 0.25, 1.2: 0.25, 1.4: 0.3, 1.6: 0.35, 2: 0.4, 2.5: 0.45, 3: 0.5, 3.5: 0.6, 4: 0.7, 5: 0.8, 6: 1.0, 8: 1.25,
    10: 1.5, 12: 1.75,
}  # fmt: skip
"""Coarse pitches in mm, ISO 261 and ISO 262 (published)."""


def column(name: str, key: str) -> dict[float, str]:
    """One column of a table, without its empty cells."""
    return {size: row[key] for size, row in table(name).items() if row.get(key)}
