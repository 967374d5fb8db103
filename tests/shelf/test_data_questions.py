"""The ten questions of docs/data.md: run with SQLite and with DuckDB, which know nothing of each other."""

from __future__ import annotations

import re
import sqlite3
from collections.abc import Iterator
from pathlib import Path
from statistics import median
from typing import Any

import duckdb
import pytest

from guidec.shelf.catalogue import write_data
from guidec.shelf.data.columns import TABLES
from guidec.shelf.data.views import VIEWS
from guidec.shelf.entry import unpack
from tests.shelf.entries import REPOSITORY, entry, workshop

PAGE = (REPOSITORY / "docs" / "data.md").read_text(encoding="utf-8")
QUESTION = re.compile(
    r"^### (?P<title>\d+\. .*?)\n\n```sql sqlite\n(?P<sqlite>.*?)^```\n\n```sql duckdb\n(?P<duckdb>.*?)^```\n\n"
    r"```answer\n(?P<answer>.*?)^```",
    re.M | re.S,
)
QUESTIONS = list(QUESTION.finditer(PAGE))


@pytest.fixture(scope="module")
def data(tmp_path_factory: pytest.TempPathFactory) -> Path:
    folder = tmp_path_factory.mktemp("data")
    write_data(workshop(), folder, parquet=True)
    return folder


@pytest.fixture(scope="module")
def lite(data: Path) -> Iterator[sqlite3.Connection]:
    connection = sqlite3.connect(f"{(data / 'catalogue.sqlite').as_uri()}?mode=ro", uri=True)
    yield connection
    connection.close()


@pytest.fixture(scope="module")
def duck(data: Path) -> Iterator[duckdb.DuckDBPyConnection]:
    connection = duckdb.connect()
    for table in TABLES:
        connection.execute(f"CREATE VIEW {table.name} AS FROM '{data}/tables/{table.name}.csv'")
    yield connection
    connection.close()


def shown(rows: list[Any]) -> str:
    return "".join(" | ".join(_cell(value) for value in row) + "\n" for row in rows)


def _cell(value: Any) -> str:
    if value is None:
        return ""
    return f"{float(value):g}" if isinstance(value, int | float) or hasattr(value, "as_tuple") else str(value)


def test_there_are_ten_questions():
    assert [int(found["title"].split(".")[0]) for found in QUESTIONS] == list(range(1, 11))


@pytest.mark.parametrize("found", QUESTIONS, ids=lambda found: found["title"])
def test_sqlite_and_duckdb_answer_as_the_page_says(
    found: re.Match[str], lite: sqlite3.Connection, duck: duckdb.DuckDBPyConnection
):
    assert found["answer"], "a question of the page has an answer"
    assert shown(lite.execute(found["sqlite"]).fetchall()) == found["answer"]
    assert shown(duck.execute(found["duckdb"]).fetchall()) == found["answer"]


def test_the_answers_are_what_the_notes_say(lite: sqlite3.Connection):
    """Counted without either database, from the notes' text and from the entries."""
    texts = {path.stem: path.read_text() for path in (REPOSITORY / "tests/shelf/workshop").glob("*.md")}
    lobed = {name for name, text in texts.items() if "5L0.8" in text}
    assert lobed == {"pocket-recorder", "music-player"}
    (answer,) = (found["answer"] for found in QUESTIONS if found["title"].startswith("1."))
    assert len(answer.splitlines()) == len(lobed)
    by_year: dict[int, list[int]] = {}
    for one in workshop():
        for part in one.parts:
            if part.cls == "battery" and part.reached == "removed":
                by_year.setdefault(one.year or 0, []).append(part.steps or 0)
    (answer,) = (found["answer"] for found in QUESTIONS if found["title"].startswith("2."))
    assert answer == shown([(year, median(steps)) for year, steps in sorted(by_year.items())])
    assert len(by_year[2021]) == len(by_year[2023]) == 2, "years with several devices, or a median says nothing"
    count = sum(int(found) for text in texts.values() for found in re.findall(r"\{screw \w+: (\d+)x", text))
    assert lite.execute("SELECT sum(count) FROM screws").fetchone()[0] == count


def test_every_view_answers_and_is_on_the_page(lite: sqlite3.Connection):
    for name, _, _ in VIEWS:
        assert lite.execute(f"SELECT count(*) FROM {name}").fetchone()[0] > 0, name
        assert f"| `{name}` |" in PAGE


def test_every_table_is_on_the_page_with_its_key():
    for table in TABLES:
        keys = ", ".join(f"`{name}`" for name in table.key)
        assert re.search(rf"^\| `{table.name}` \|.*\| {re.escape(keys)} \|$", PAGE, re.M), table.name


def test_duckdb_reads_the_parquet_tables_as_it_reads_the_csv(data: Path, duck: duckdb.DuckDBPyConnection):
    for table in TABLES:
        parquet = duck.execute(f"SELECT count(*) FROM '{data}/tables/{table.name}.parquet'").fetchall()
        assert parquet == duck.execute(f"SELECT count(*) FROM {table.name}").fetchall(), table.name
    tools = duck.execute(
        f"SELECT DISTINCT unnest(operations) FROM '{data}/tables/tools.parquet' WHERE name = 'plastic card'"
    ).fetchall()
    assert tools == [("open-the-back",)]


def test_the_questions_hold_on_a_shelf_of_other_devices(tmp_path: Path):
    """Both engines agree on notes that the page was not written for."""
    samples = sorted((REPOSITORY / "samples").glob("*/*.md"))
    entries = [entry(path) for path in samples]
    assert all(unpack(one) for one in entries)
    write_data(entries, tmp_path)
    connection = duckdb.connect()
    for table in TABLES:
        connection.execute(f"CREATE VIEW {table.name} AS FROM '{tmp_path}/tables/{table.name}.csv'")
    lite = sqlite3.connect(tmp_path / "catalogue.sqlite")
    for found in QUESTIONS[1:]:
        if found["title"].startswith("10."):
            continue
        assert shown(lite.execute(found["sqlite"]).fetchall()) == shown(
            connection.execute(found["duckdb"]).fetchall()
        ), found["title"]
    lite.close()
