"""`python -m bench [WORD…] [--json]`: measure the rows whose names hold a word; status 1 if any is over."""

from __future__ import annotations

import json
import sys
from collections.abc import Iterator, Sequence
from dataclasses import asdict
from importlib import import_module
from pathlib import Path

from bench.row import Figure, Ratio, Row

HEAD = ("row", "measured", "floor", "ratio", "bound", "")


def rows(words: Sequence[str]) -> Iterator[Row]:
    """All rows asked for, each measured when it is reached."""
    for path in sorted(Path(__file__).parent.glob("rows_*.py")):
        group: tuple[Ratio | Figure, ...] = import_module(f"bench.{path.stem}").ROWS
        for one in group:
            if not words or any(word in one.name for word in words):
                yield one.row()


def main(arguments: Sequence[str]) -> int:
    """Print the rows as they come."""
    words = [word for word in arguments if not word.startswith("-")]
    measured = []
    if "--json" not in arguments:
        print(_line(HEAD))
    for row in rows(words):
        measured.append(row)
        if "--json" not in arguments:
            print(_line(_cells(row)), flush=True)
    if "--json" in arguments:
        print(json.dumps([{**asdict(row), "verdict": row.verdict} for row in measured], indent=2))
    return int(any(row.verdict == "OVER" for row in measured))


def _cells(row: Row) -> tuple[str, ...]:
    floor = f"{row.floor:,.1f} {row.unit}" if row.floor is not None else ""
    ratio = f"{row.ratio:.2f}" if row.ratio is not None else ""
    bound = f"{row.bound:g}" if row.bound is not None else ""
    return row.name, f"{row.measured:,.4g} {row.unit}", floor, ratio, bound, row.verdict


def _line(cells: Sequence[str]) -> str:
    name, *rest = cells
    return (f"{name:<58}" + "".join(f"{cell:>14}" for cell in rest[:-1]) + f"  {rest[-1]}").rstrip()


if __name__ == "__main__":
    sys.exit(main(sys.argv[1:]))
