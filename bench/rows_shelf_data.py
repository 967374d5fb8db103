"""The catalogue of 1,000 guides: written, against its rows put in bare; renewed for one guide; asked."""

from __future__ import annotations

import json
import re
import sqlite3
import tempfile
from contextlib import closing
from functools import cache, partial
from pathlib import Path
from typing import Any

from bench import shelves
from bench.row import Figure, Ratio, timed

__all__ = ["ROWS"]

MANY = 1000
PAGE = Path(__file__).parent.parent / "docs" / "data.md"


@cache
def _entries() -> list[Any]:
    return shelves.entries(MANY)


@cache
def _folder() -> Path:
    return Path(tempfile.mkdtemp(prefix="guidec-bench-"))


def _write() -> None:
    from guidec.shelf.catalogue import write_data

    write_data(_entries(), _folder() / "new")


@cache
def _rows() -> list[Any]:
    from guidec.shelf.data.rows import rows

    return [rows(one) for one in _entries()]


def _bare() -> None:
    """The same rows as one JSON text and in a plain table each, without types, keys, views or CSV."""
    from guidec.shelf.data.columns import TABLES

    (_folder() / "bare.json").write_text(json.dumps(_rows()), encoding="utf-8")
    (_folder() / "bare.sqlite").unlink(missing_ok=True)
    with closing(sqlite3.connect(_folder() / "bare.sqlite")) as database:
        for table in TABLES:
            database.execute(
                f"CREATE TABLE {table.name} ({', '.join(map('c{}'.format, range(len(table.names))))})"
            )
            insert = f"INSERT INTO {table.name} VALUES ({', '.join('?' * len(table.names))})"
            for found in _rows():
                database.executemany(insert, [[_plain(value) for value in row] for row in found[table.name]])
        database.commit()


def _plain(value: Any) -> Any:
    return json.dumps(value) if isinstance(value, list | dict) else value


def _renewed() -> float:
    """Seconds to write the data anew where one guide of them has another title."""
    from guidec.shelf.catalogue import write_data

    _write()
    first, *others = _entries()
    found = []
    for turn in range(5):
        edited = [_titled(first, f"Another title {turn}"), *others]
        out = _folder() / f"renewed-{turn}"
        found.append(timed(partial(write_data, edited, out, before=_entries(), old=_folder() / "new")))
    return min(found)


def _titled(entry: Any, title: str) -> Any:
    from guidec.quick import replace

    return replace(entry, title=title)


def _slowest() -> float:
    """Milliseconds of the slowest of the ten questions of docs/data.md, in SQLite."""
    _write()
    asked = re.findall(r"```sql sqlite\n(.*?)^```", PAGE.read_text(encoding="utf-8"), re.M | re.S)
    assert len(asked) == 10
    with closing(sqlite3.connect(_folder() / "new" / "catalogue.sqlite")) as database:
        return 1000 * max(min(timed(partial(_ask, database, one)) for _ in range(3)) for one in asked)


def _ask(database: sqlite3.Connection, question: str) -> object:
    return database.execute(question).fetchall()


ROWS = (
    Ratio("shelf data: catalogue of 1,000 written / rows put in bare", _write, _bare, 3.0, runs=5),
    Figure("shelf data: catalogue of 1,000, one guide renewed", _renewed, "s", 0.5),
    Figure("shelf data: slowest of the ten questions at 1,000", _slowest, "ms", 200),
)
