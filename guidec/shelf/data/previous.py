"""The data files of the build before -> what of them still holds, guide by guide.

In every file a guide's rows stand together, and the guides in the order of their ids. So the files of a build in
which few guides changed are the old ones with those guides' rows put in, left out or replaced.
"""

from __future__ import annotations

from collections.abc import Iterable, Iterator, Mapping, Sequence
from heapq import merge
from itertools import groupby
from pathlib import Path

from guidec.shelf.data import csv_rows
from guidec.shelf.data.columns import TABLES, Table
from guidec.shelf.data.sqlite import is_current

__all__ = ["Block", "catalogue_lines", "holds", "merged", "table_blocks"]

Block = tuple[str, bytes]
"""A guide's id and its bytes in a file."""


def holds(at: Path, guides: Sequence[str], head: bytes) -> bool:
    """Whether a folder has data files of this version, of just these guides. `head`: the first line of JSON."""
    try:
        with (at / "catalogue.json").open("rb") as file:
            same = file.readline() == head
        for table in TABLES if same else ():
            with (at / f"tables/{table.name}.csv").open("rb") as file:
                same = same and file.readline() == csv_rows.header(table)
    except OSError:
        return False
    return same and is_current(at / "catalogue.sqlite", guides)


def catalogue_lines(at: Path, guides: Iterable[str]) -> Iterator[Block]:
    """Each guide's line of `catalogue.json`, without what parts it from the next."""
    with (at / "catalogue.json").open("rb") as file:
        next(file)
        for guide, line in zip(guides, file, strict=False):
            yield guide, line.rstrip(b"\n").removesuffix(b",")


def table_blocks(at: Path, table: Table) -> Iterator[Block]:
    """Each guide's lines of a CSV table, for the guides that have any."""
    with (at / f"tables/{table.name}.csv").open("rb") as file:
        next(file)
        for guide, lines in groupby(file, key=lambda line: line.partition(b",")[0]):
            yield guide.decode(), b"".join(lines)


def merged(old: Iterable[Block], gone: frozenset[str], made: Mapping[str, bytes]) -> Iterator[Block]:
    """The blocks of a new file: the old ones of guides that are not gone, and those newly made, in order."""
    kept = (block for block in old if block[0] not in gone)
    return merge(kept, sorted(made.items()), key=lambda block: block[0])
