"""The entries of a shelf -> its data: `catalogue.json`, `catalogue.sqlite`, CSV and Parquet, `changes.json`.

The guides are taken one after the other in the order of their ids, and each is let go before the next, so that ten
thousand fit. The same entries give the same bytes, whatever their order, and whether the build before was at hand.
"""

from __future__ import annotations

import json
import tempfile
from collections.abc import Iterable, Iterator, Mapping
from contextlib import closing
from itertools import pairwise
from pathlib import Path
from typing import Any

from guidec.outputs.guide_json import dumped
from guidec.shelf.data import csv_rows, previous
from guidec.shelf.data.changes import changes
from guidec.shelf.data.columns import TABLES, Table
from guidec.shelf.data.rows import Rows, as_object, rows
from guidec.shelf.data.sinks import Folder, folder
from guidec.shelf.data.sqlite import Database
from guidec.shelf.entry import Entry

__all__ = ["FORMAT", "VERSION", "data_files", "guide_object", "guides_of", "names", "write_data"]

FORMAT = "guidec catalogue"
VERSION = 1

Guide = Mapping[str, Any]
_encode = json.JSONEncoder(ensure_ascii=False, allow_nan=False, separators=(",", ":")).encode
_HEAD = f'{{"format":{_encode(FORMAT)},"version":{VERSION},"guides":[\n'.encode()
_TAIL = b"\n]}\n"
_FEW = 4
"""The old files are brought up to date, rather than made anew, where at most one guide in so many changed."""


def names(*, parquet: bool = False) -> tuple[str, ...]:
    """The names of all data files."""
    tables = [f"tables/{table.name}.{kind}" for kind in ("csv", "parquet")[: 1 + parquet] for table in TABLES]
    return ("catalogue.json", "catalogue.sqlite", "changes.json", *tables)


def data_files(
    entries: Iterable[Entry],
    *,
    before: Iterable[Entry | Guide] | None = None,
    old: Path | None = None,
    parquet: bool = False,
) -> dict[str, bytes]:
    """All data of a shelf as named bytes; arguments and errors as of `write_data`, which needs less memory."""
    with tempfile.TemporaryDirectory(prefix="guidec-") as name:
        made = write_data(entries, Path(name), before=before, old=old, parquet=parquet)
        return {one: (Path(name) / one).read_bytes() for one in made}


def write_data(
    entries: Iterable[Entry],
    out: Path,
    *,
    before: Iterable[Entry | Guide] | None = None,
    old: Path | None = None,
    parquet: bool = False,
) -> tuple[str, ...]:
    """Write all data of a shelf into a folder, whole or not at all. Gives the files' names.

    `before`: the entries of the build before, or the guides of its `catalogue.json` (`guides_of`), None where
    there was none. `old`: the folder of that build's data files, which saves time where few guides changed;
    `out` may be the same. `parquet`: also Parquet tables. Raises ImportError where `pyarrow` is missing,
    ValueError or sqlite3.IntegrityError for entries that contradict each other, OSError as files do.
    """
    new = _by_id(entries)
    known = None if before is None else {_id(one): one for one in before}
    with folder(out) as sink:
        touched = _touched(known, new) if known and old else frozenset(new)
        if old and known and len(touched) * _FEW <= len(new) and previous.holds(old, sorted(known), _HEAD):
            _renew(sink, old, known, touched, new)
        else:
            _anew(sink, new.values())
        if parquet:
            _parquet(sink, new.values())
        sink.open("changes.json").write(dumped(_changes(known, new)))
    return names(parquet=parquet)


def guide_object(found: Rows) -> dict[str, Any]:
    """A guide as an object of `catalogue.json`: its own row, and its rows in the other tables by table."""
    first, *others = TABLES
    return as_object(first, found[first.name][0]) | {
        table.name: [as_object(table, row) for row in found[table.name]] for table in others
    }


def guides_of(catalogue: bytes) -> list[Guide]:
    """The guides of a `catalogue.json`. Raises ValueError for what is none of this version."""
    data = json.loads(catalogue)
    if not isinstance(data, dict) or (data.get("format"), data.get("version")) != (FORMAT, VERSION):
        raise ValueError(f"no {FORMAT} of version {VERSION}")
    guides: list[Guide] = data["guides"]
    return guides


def _by_id(entries: Iterable[Entry]) -> dict[str, Entry]:
    ordered = sorted(entries, key=lambda entry: entry.slug)
    found = {entry.slug: entry for entry in ordered}
    if len(found) < len(ordered):
        twice = next(one.slug for one, other in pairwise(ordered) if one.slug == other.slug)
        raise ValueError(f"two guides have the id {twice}")
    return found


def _id(one: Entry | Guide) -> str:
    return one.slug if isinstance(one, Entry) else str(one["id"])


def _touched(old: Mapping[str, Entry | Guide], new: Mapping[str, Entry]) -> frozenset[str]:
    """The ids of the guides that came, went or changed."""
    return frozenset(own for own in {*old, *new} if old.get(own) != new.get(own))


# ---------------------------------------------------------------- the files


def _anew(sink: Folder, entries: Iterable[Entry]) -> None:
    """All files in one pass over the guides."""
    tables = {table.name: sink.open(f"tables/{table.name}.csv") for table in TABLES}
    for table in TABLES:
        tables[table.name].write(csv_rows.header(table))
    with closing(Database(sink.path("catalogue.sqlite"))) as database:

        def lines() -> Iterator[bytes]:
            for entry in entries:
                found = rows(entry)
                database.add(found)
                for table in TABLES:
                    tables[table.name].write(csv_rows.lines(table, found[table.name]))
                yield _line(found)

        _catalogue(sink, lines())
        database.finish()


def _renew(
    sink: Folder, old: Path, known: Mapping[str, Entry | Guide], touched: frozenset[str], new: Mapping[str, Entry]
) -> None:
    """The old files with the rows of some guides put in, left out or replaced; those without such are taken over.

    `known`: the guides that they hold, `touched`: the ids of those that may be others now.
    """
    made = {own: rows(new[own]) for own in sorted(touched) if own in new}
    was = {own: rows(one) for own, one in known.items() if own in touched and isinstance(one, Entry)}
    told = was.keys() == touched & known.keys()
    for table in TABLES:
        name = f"tables/{table.name}.csv"
        if told and _of(table, was) == _of(table, made):
            sink.take(name, old)
            continue
        blocks = {own: csv_rows.lines(table, found) for own, found in _of(table, made).items()}
        file = sink.open(name)
        file.write(csv_rows.header(table))
        file.writelines(block for _, block in previous.merged(previous.table_blocks(old, table), touched, blocks))
    if told and was == made:
        sink.take("catalogue.json", old)
        sink.take("catalogue.sqlite", old)
        return
    lines = {own: _line(found) for own, found in made.items()}
    _catalogue(
        sink, (line for _, line in previous.merged(previous.catalogue_lines(old, sorted(known)), touched, lines))
    )
    with closing(Database(sink.path("catalogue.sqlite"), old / "catalogue.sqlite")) as database:
        database.remove(touched & known.keys())
        for found in made.values():
            database.add(found)
        database.finish()


def _of(table: Table, made: Mapping[str, Rows]) -> dict[str, list[list[Any]]]:
    """The rows of one table by guide, of the guides that have any."""
    return {own: found[table.name] for own, found in made.items() if found[table.name]}


def _catalogue(sink: Folder, lines: Iterable[bytes]) -> None:
    file = sink.open("catalogue.json")
    file.write(_HEAD)
    for at, line in enumerate(lines):
        file.write((b",\n" if at else b"") + line)
    file.write(_TAIL)


def _line(found: Rows) -> bytes:
    return _encode(guide_object(found)).encode()


def _parquet(sink: Folder, entries: Iterable[Entry]) -> None:
    from guidec.shelf.data.parquet import Sheet  # here, not above: an extra, and heavy

    sheets = [(table, Sheet(table, sink.open(f"tables/{table.name}.parquet"))) for table in TABLES]
    for entry in entries:
        found = rows(entry)
        for table, sheet in sheets:
            sheet.add(found[table.name])
    for _, sheet in sheets:
        sheet.finish()


def _changes(before: Mapping[str, Entry | Guide] | None, after: Mapping[str, Entry]) -> dict[str, Any]:
    """What changed; guides that are the same in both builds are not looked into."""
    if before is None:
        return changes(None, ())
    touched = _touched(before, after)
    old, new = ({own: one for own, one in guides.items() if own in touched} for guides in (before, after))
    return changes(map(_object, old.values()), map(_object, new.values()))


def _object(one: Entry | Guide) -> Guide:
    return guide_object(rows(one)) if isinstance(one, Entry) else one
