"""Rows of guides -> an SQLite database: tables, keys, foreign keys, views. Written whole, or not at all.

The same guides give the same bytes (with the same SQLite), whether the database was filled from nothing or an
older one was brought up to date: both are copied out in the order of their keys in the end.
"""

from __future__ import annotations

import json
import shutil
import sqlite3
from collections.abc import Iterable, Sequence
from contextlib import closing
from pathlib import Path
from typing import Any

from guidec.shelf.data.columns import TABLES, TYPES, Table
from guidec.shelf.data.rows import Rows
from guidec.shelf.data.views import VIEWS

__all__ = ["APPLICATION", "Database", "is_current", "statements"]

APPLICATION = 0x67756964
"""SQLite's application id of the file: `guid` in ASCII."""

VERSION = 1
_COOKIE = 1
"""SQLite counts changes of the schema in the file; ours start here, so that the count says nothing of its past."""


class Database:
    """A database being filled, in a file beside the one that it becomes. Nothing of it counts before `finish`.

    `start`: a finished database to go on from; it is read alone. Large shelves are why it is not held in memory.
    """

    def __init__(self, out: Path, start: Path | None = None) -> None:
        self._out = out
        self._work = out.with_name(f"{out.name}.work")
        if start:
            shutil.copyfile(start, self._work)
        self._connection = sqlite3.connect(self._work, isolation_level=None)
        self._run("PRAGMA page_size = 4096", "PRAGMA journal_mode = OFF", "PRAGMA synchronous = OFF")
        self._run("PRAGMA foreign_keys = ON", "BEGIN", *(() if start else statements()))
        self._inserts = [(table, _insert(table), _json_at(table)) for table in TABLES]

    def _run(self, *commands: str) -> None:
        for command in commands:
            self._connection.execute(command)

    def add(self, rows: Rows) -> None:
        """Put the rows of one guide in. Raises sqlite3.IntegrityError for rows that break a rule of a table."""
        for table, insert, at in self._inserts:
            found = rows[table.name]
            if found:
                self._connection.executemany(insert, [_stored(row, at) for row in found])

    def remove(self, guides: Iterable[str]) -> None:
        """Take out all rows of these guides; nothing of another guide refers to them."""
        for guide in guides:
            for table in reversed(TABLES):
                self._connection.execute(f"DELETE FROM {table.name} WHERE {table.key[0]} = ?", (guide,))

    def finish(self) -> None:
        """Check every reference, and write the file. Raises sqlite3.IntegrityError for one that leads nowhere."""
        wrong = self._connection.execute("PRAGMA foreign_key_check").fetchone()
        if wrong:
            raise sqlite3.IntegrityError(f"a row of {wrong[0]} refers to none of {wrong[2]}")
        self._run("COMMIT", f"PRAGMA schema_version = {_COOKIE}")
        self._connection.execute("VACUUM INTO ?", (str(self._out),))

    def close(self) -> None:
        """Let go of the file that it was filled in."""
        self._connection.close()
        self._work.unlink(missing_ok=True)


def is_current(path: Path, guides: Sequence[str]) -> bool:
    """Whether a file is a database of this version that holds just these guides."""
    try:
        with closing(sqlite3.connect(f"{path.resolve().as_uri()}?mode=ro", uri=True)) as found:
            made = [row[0] for row in found.execute("SELECT sql FROM sqlite_schema WHERE sql IS NOT NULL")]
            held = [row[0] for row in found.execute("SELECT id FROM guides ORDER BY id")]
    except sqlite3.Error:
        return False
    wanted = [one for one in statements() if one.startswith("CREATE")]
    return sorted(made) == sorted(wanted) and held == list(guides)


def statements() -> list[str]:
    """What makes the empty database."""
    return [
        f"PRAGMA application_id = {APPLICATION}",
        f"PRAGMA user_version = {VERSION}",
        *(_create(table) for table in TABLES),
        *(
            f'CREATE INDEX "{table.name}_{column}" ON "{table.name}" ("{column}")'
            for table in TABLES
            for column in table.indexed
        ),
        *(f'CREATE VIEW "{name}" AS {query}' for name, _, query in VIEWS),
    ]


def _create(table: Table) -> str:
    lines = [_definition(column.name, column.type, column.needed) for column in table.columns]
    lines.append(f"PRIMARY KEY ({_listed(table.key)})")
    lines += [
        f"FOREIGN KEY ({_listed(one.columns)}) REFERENCES {one.table} ({_listed(one.to)}) "
        "DEFERRABLE INITIALLY DEFERRED"
        for one in table.references
    ]
    return f"CREATE TABLE {table.name} (\n  " + ",\n  ".join(lines) + "\n) STRICT, WITHOUT ROWID"


def _definition(name: str, kind: str, needed: bool) -> str:
    checks = {
        "yes": f' CHECK ("{name}" IN (0, 1))',
        "list": f" CHECK (json_type(\"{name}\") = 'array')",
        "json": f' CHECK (json_valid("{name}"))',
    }
    return f'"{name}" {TYPES[kind]}{" NOT NULL" if needed else ""}{checks.get(kind, "")}'


def _listed(names: Sequence[str]) -> str:
    return ", ".join(f'"{name}"' for name in names)


def _insert(table: Table) -> str:
    return f"INSERT INTO {table.name} VALUES ({', '.join('?' * len(table.columns))})"


def _json_at(table: Table) -> list[int]:
    return [at for at, column in enumerate(table.columns) if column.type in ("list", "json")]


_encode = json.JSONEncoder(ensure_ascii=False, separators=(",", ":")).encode


def _stored(row: list[Any], at: Sequence[int]) -> list[Any]:
    """A row with its lists as JSON text."""
    if not at:
        return row
    stored = list(row)
    for one in at:
        stored[one] = _listed_text(row[one]) if row[one].__class__ is list else _encode(row[one])
    return stored


def _listed_text(items: list[Any]) -> str:
    """A list as JSON text; of plain words it is put together faster than the library does."""
    try:
        text = "".join(items)
    except TypeError:
        return _encode(items)
    if not items or '"' in text or "\\" in text or not text.isprintable():
        return _encode(items)
    return '["' + '","'.join(items) + '"]'
