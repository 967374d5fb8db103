"""The data files of a shelf: the same rows in every format, read back by libraries that know nothing of ours."""

from __future__ import annotations

import csv
import io
import json
import random
import sqlite3
from collections.abc import Iterator
from contextlib import closing
from dataclasses import replace
from pathlib import Path
from typing import Any

import jsonschema
import pandas
import pytest
from hypothesis import given, settings
from hypothesis import strategies as st
from pyarrow import parquet

from guidec import compile as compiler
from guidec.outputs import csv_files
from guidec.schemas import schema
from guidec.shelf.catalogue import data_files, guides_of, names, write_data
from guidec.shelf.data import csv_rows, sqlite
from guidec.shelf.data.columns import TABLES, table
from guidec.shelf.data.rows import rows
from guidec.shelf.entry import pack, unpack
from tests.shelf.entries import REPOSITORY, of_text, workshop

EXACTLY = [
    "guides",
    "operations",
    "actions",
    "parts",
    "fasteners",
    "connectors",
    "adhesives",
    "tools",
    "supplies",
    "hazards",
    "routes",
    "indices",
]


@pytest.fixture(scope="module")
def files() -> dict[str, bytes]:
    return data_files(workshop(), parquet=True)


@pytest.fixture(scope="module")
def database(files: dict[str, bytes]) -> Iterator[sqlite3.Connection]:
    connection = sqlite3.connect(":memory:")
    connection.deserialize(files["catalogue.sqlite"])
    connection.row_factory = sqlite3.Row
    yield connection
    connection.close()


@pytest.fixture(scope="module")
def catalogue(files: dict[str, bytes]) -> dict[str, Any]:
    return json.loads(files["catalogue.json"])


def test_all_files_are_there_and_no_others(files: dict[str, bytes]):
    assert set(files) == set(names(parquet=True))
    assert set(data_files(workshop())) == set(names())
    assert [one.name for one in TABLES] == EXACTLY


# ---------------------------------------------------------------- JSON


@pytest.mark.parametrize("name", ["catalogue", "changes"])
def test_the_json_is_as_its_schema_says(files: dict[str, bytes], name: str):
    jsonschema.Draft202012Validator.check_schema(schema(f"{name}.schema.json"))
    jsonschema.Draft202012Validator(schema(f"{name}.schema.json")).validate(json.loads(files[f"{name}.json"]))


def test_the_schema_has_every_column_and_no_other():
    definitions = schema("catalogue.schema.json")["$defs"]
    for one in TABLES[1:]:
        assert tuple(definitions[one.name]["properties"]) == one.names[1:], one.name
        assert set(definitions[one.name]["required"]) == set(one.names[1:])
    assert tuple(definitions["guide"]["properties"]) == (*TABLES[0].names, *EXACTLY[1:])


def test_a_guide_is_a_line_of_the_catalogue(files: dict[str, bytes], catalogue: dict[str, Any]):
    lines = files["catalogue.json"].decode().splitlines()[1:-1]
    assert [json.loads(line.removesuffix(",")) for line in lines] == catalogue["guides"]


@pytest.mark.parametrize(
    "note", sorted((REPOSITORY / "tests/shelf/workshop").glob("*.md")), ids=lambda one: one.stem
)
def test_the_rows_are_those_of_the_guides_own_files(note: Path, catalogue: dict[str, Any]):
    """Against `bom.json` and `routes.json`, which the compiler writes for the guide alone."""
    built = compiler.build(compiler.load(note), compiler.Options(pdf=False))
    bom, routes = (json.loads(built.files[name]) for name in ("bom.json", "routes.json"))
    (guide,) = (one for one in catalogue["guides"] if one["id"] == built.slug)
    for name in ("parts", "connectors", "adhesives", "tools", "supplies", "hazards"):
        assert [one.get("id") for one in guide[name]] == [one.get("id") for one in bom[name]], name
    assert [(one["drive"], one["count"]) for one in guide["fasteners"] if one["kind"] == "screw"] == [
        (one["drive"], one["count"]) for one in bom["fasteners"]
    ]
    assert [one["kind"] for one in guide["fasteners"] if one["kind"] != "screw"] == [
        one["kind"] for one in bom["fastenings"]
    ]
    ratings = [(one["id"], one["energy_wh"]) for one in guide["parts"] if one["energy_wh"]]
    assert ratings == [(one["part"], one["energy_wh"]) for one in bom["batteries"]]
    assert [(one["part"], one["steps"], one["time_s"], one["operations"]) for one in guide["routes"]] == [
        (one["part"], one["steps"], one["time_s"], one["operations"]) for one in routes["routes"]
    ]


def test_every_row_has_the_line_that_it_comes_from(catalogue: dict[str, Any]):
    texts = {}
    for path in (REPOSITORY / "tests/shelf/workshop").glob("*.md"):
        texts[path.name] = path.read_text().splitlines()
    for guide in catalogue["guides"]:
        lines = texts[guide["note"]]
        for part in guide["parts"]:
            assert lines[part["line"] - 1][part["col"] - 1 :].startswith(f"{{part {part['name']}")
        for action in guide["actions"]:
            assert action["verb"] in lines[action["line"] - 1].casefold()


# ---------------------------------------------------------------- SQLite


def test_the_database_has_just_these_tables(database: sqlite3.Connection):
    found = database.execute("SELECT name FROM sqlite_schema WHERE type = 'table' ORDER BY rowid").fetchall()
    assert [row[0] for row in found] == EXACTLY
    assert database.execute("PRAGMA integrity_check").fetchall()[0][0] == "ok"


def test_every_reference_leads_somewhere_and_stays_so(files: dict[str, bytes]):
    with closing(sqlite3.connect(":memory:")) as database:
        database.deserialize(files["catalogue.sqlite"])
        assert database.execute("PRAGMA foreign_key_check").fetchall() == []
        references = {one: len(database.execute(f"PRAGMA foreign_key_list({one})").fetchall()) for one in EXACTLY}
        assert all(references[one] for one in EXACTLY[1:])
        database.execute("PRAGMA foreign_keys = ON")
        with pytest.raises(sqlite3.IntegrityError, match="FOREIGN KEY"), database:
            database.execute("DELETE FROM guides")
        with pytest.raises(sqlite3.IntegrityError, match="FOREIGN KEY"), database:
            database.execute("UPDATE parts SET operation = 'nowhere' WHERE operation IS NOT NULL")


def test_the_database_takes_no_wrong_values(files: dict[str, bytes]):
    with closing(sqlite3.connect(":memory:")) as database:
        database.deserialize(files["catalogue.sqlite"])
        for wrong in ("qty = 'two'", "removed = 3", "name = NULL", "was = 'lid'", "was = '{}'"):
            with pytest.raises(sqlite3.Error), database:
                database.execute(f"UPDATE parts SET {wrong}")


def test_the_database_holds_the_rows_of_the_catalogue(database: sqlite3.Connection, catalogue: dict[str, Any]):
    for one in TABLES[1:]:
        found = {tuple(row[key] for key in one.key): row for row in database.execute(f"SELECT * FROM {one.name}")}
        wanted = [(guide["id"], row) for guide in catalogue["guides"] for row in guide[one.name]]
        assert len(found) == len(wanted), one.name
        for guide, row in wanted:
            stored = found[tuple(guide if key == "guide" else row[key] for key in one.key)]
            for column in one.columns[1:]:
                value = stored[column.name]
                value = json.loads(value) if column.type in ("list", "json") else value
                assert value == row[column.name], (one.name, column.name)


def test_a_reference_that_leads_nowhere_stops_the_build_and_leaves_what_was(tmp_path: Path):
    write_data(workshop(), tmp_path)
    before = {path: path.read_bytes() for path in tmp_path.rglob("*") if path.is_file()}
    wrong = of_text("# Radio\n\n## Open\n\n1. Lift off {part lid}.\n")
    from guidec.shelf.entry import pack, unpack

    given = {name: list(found) for name, found in unpack(wrong).items()}
    given["parts"] = [{**given["parts"][0], "operation": "nowhere"}]
    with pytest.raises(sqlite3.IntegrityError, match="parts"):
        write_data([*workshop(), replace(wrong, tables=pack(given))], tmp_path)
    assert {path: path.read_bytes() for path in tmp_path.rglob("*") if path.is_file()} == before
    assert not list(tmp_path.glob(".data-*"))


# ---------------------------------------------------------------- CSV and Parquet


@pytest.mark.parametrize("one", TABLES, ids=lambda one: one.name)
def test_csv_and_parquet_hold_the_rows_of_the_catalogue(
    one: Any, files: dict[str, bytes], catalogue: dict[str, Any]
):
    wanted = [
        {"guide": guide["id"], **row}
        for guide in catalogue["guides"]
        for row in ([{key: guide[key] for key in one.names}] if one.name == "guides" else guide[one.name])
    ]
    wanted = [{key: row[key] for key in one.names} for row in wanted]
    text = files[f"tables/{one.name}.csv"].decode()
    assert text.count("\r\n") == text.count("\n") == len(wanted) + 1
    read = list(csv.DictReader(io.StringIO(text, newline="")))
    compact = (",", ":")
    assert read == [
        {
            column.name: json.dumps(row[column.name], ensure_ascii=False, separators=compact)
            if column.type == "json"
            else csv_files.cell(row[column.name])
            for column in one.columns
        }
        for row in wanted
    ]
    assert len(pandas.read_csv(io.BytesIO(files[f"tables/{one.name}.csv"]))) == len(wanted)
    held = parquet.read_table(io.BytesIO(files[f"tables/{one.name}.parquet"]))
    for column in one.columns:
        values = held.column(column.name).to_pylist()
        values = [json.loads(value) for value in values] if column.type == "json" else values
        assert values == [row[column.name] for row in wanted], column.name


FORMULAS = ["=1+1", "@sum(a1)", "-2+3", "+cmd|' /c calc'!a0", "\t=1", "；=1", "a;=1", "'=1", "\u200b=1", "＝1"]


def test_no_cell_of_a_table_is_a_formula():
    text = "# Radio\n\n## Open\n\n" + "".join(
        f"{at}. Lift off {{part x{at}; number={one.replace(';', chr(92) + ';')}}}.\n"
        for at, one in enumerate(FORMULAS, 1)
    )
    made = data_files([of_text(text)])["tables/parts.csv"].decode()
    cells = [cell for row in csv.reader(io.StringIO(made, newline="")) for cell in row]
    numbers = [row["number"] for row in csv.DictReader(io.StringIO(made, newline=""))]
    assert sum(bool(one) for one in numbers) == len(FORMULAS)
    assert not [cell for cell in cells if cell.strip(" \t\r\n\u200b")[:1] in ("=", "+", "-", "@", "＝")]


_TEXTS = st.text(
    st.sampled_from([*"ab=+-@;',\"\\ \t\r\n\x00\x1f\x7f", "\u00a0", "\u200b", "\u2028", "−", "＝", "é", "\u3000"]),
    max_size=6,
)


@settings(max_examples=300, deadline=None)
@given(st.lists(st.tuples(_TEXTS, st.lists(_TEXTS, max_size=3), _TEXTS), min_size=1, max_size=4))
def test_a_block_of_lines_is_what_cell_by_cell_gives(given_rows: list[tuple[str, list[str], str]]):
    one = table("parts")
    blank = dict.fromkeys(one.names)
    found = [
        blank | {"guide": "g", "name": name, "was": was, "number": number} for name, was, number in given_rows
    ]
    lines = csv_rows.lines(one, [list(row.values()) for row in found])
    assert csv_rows.header(one) + lines == csv_files.table(one.names, found)


# ---------------------------------------------------------------- the same, whatever the way there


def test_the_same_guides_give_the_same_bytes_in_any_order(files: dict[str, bytes]):
    assert data_files(reversed(workshop()), parquet=True) == files


def test_a_build_on_the_one_before_gives_the_bytes_of_a_fresh_one(tmp_path: Path):
    """Twelve rounds of guides that come, go and change, a few at a time among many."""
    chance = random.Random(11)
    pool = workshop()
    now = {f"g{at:02}": replace(chance.choice(pool), slug=f"g{at:02}") for at in range(40)}
    write_data(now.values(), tmp_path)
    for turn in range(12):
        before = list(now.values())
        for _ in range(chance.randint(1, 5)):
            slug = f"g{chance.randint(0, 60):02}"
            if slug in now and chance.random() < 0.4:
                del now[slug]
            else:
                now[slug] = replace(chance.choice(pool), slug=slug, title=f"Title {turn}")
        write_data(now.values(), tmp_path, before=before, old=tmp_path)
        fresh = data_files(now.values(), before=before)
        assert {name: (tmp_path / name).read_bytes() for name in names()} == fresh


@pytest.mark.parametrize("name", ["catalogue.json", "catalogue.sqlite", "tables/parts.csv"])
@pytest.mark.parametrize("how", ["gone", "other"])
def test_old_files_that_are_not_ours_are_made_anew(name: str, how: str, tmp_path: Path):
    many = [replace(one, slug=f"{one.slug}-{at}") for one in workshop() for at in range(3)]
    write_data(many, tmp_path)
    (tmp_path / name).unlink() if how == "gone" else (tmp_path / name).write_bytes(b"something else\n")
    edited = [replace(many[0], title="Another"), *many[1:]]
    write_data(edited, tmp_path, before=many, old=tmp_path)
    assert {one: (tmp_path / one).read_bytes() for one in names()} == data_files(edited, before=many)


def test_old_files_of_other_guides_are_made_anew(tmp_path: Path):
    many = [replace(one, slug=f"{one.slug}-{at}") for one in workshop() for at in range(3)]
    write_data(many[1:], tmp_path)
    edited = [replace(many[0], title="Another"), *many[1:]]
    write_data(edited, tmp_path, before=many, old=tmp_path)
    assert {one: (tmp_path / one).read_bytes() for one in names()} == data_files(edited, before=many)


def test_nothing_is_left_of_a_build_that_fails(tmp_path: Path, monkeypatch: pytest.MonkeyPatch):
    def full(self: object) -> None:
        raise OSError(28, "No space left on device")

    monkeypatch.setattr(sqlite.Database, "finish", full)
    with pytest.raises(OSError, match="space"):
        write_data(workshop(), tmp_path / "out")
    assert list((tmp_path / "out").rglob("*")) == []


def test_an_empty_shelf_has_all_files():
    files = data_files([], before=workshop())
    assert json.loads(files["catalogue.json"])["guides"] == []
    assert len(json.loads(files["changes.json"])["removed"]) == len(workshop())
    with closing(sqlite3.connect(":memory:")) as database:
        database.deserialize(files["catalogue.sqlite"])
        assert database.execute("SELECT count(*) FROM guides").fetchone() == (0,)


def test_two_guides_of_one_id_are_refused():
    one = workshop()[0]
    with pytest.raises(ValueError, match=one.slug):
        data_files([one, one])


def test_another_programs_catalogue_is_refused():
    with pytest.raises(ValueError, match="guidec catalogue"):
        guides_of(b'{"format": "other", "version": 1, "guides": []}')


def test_a_note_in_any_state_can_be_held():
    """Errors, names of other scripts, halves of characters, numbers past any bound, no operations at all."""
    far = "9" * 20
    notes = [
        f"# Radio\n\n## Open\n\n1. Undo 9 of {{screw A: 4x PH0 M2x6}}.\n2. Lift off {{part lid; qty={far}}}.\n",
        "# Приёмник\n\n## Открыть\n\n1. Lift off {part крышка}.\n2. Lift out {part 电池; class=battery}.\n",
        "# Nothing\n",
        "Only text.\n",
    ]
    entries = [of_text(text, f"note-{at}.md") for at, text in enumerate(notes)]
    tables = {name: [dict(row) for row in found] for name, found in unpack(entries[0]).items()}
    tables["parts"][0] |= {"name": "half \ud800", "number": "\udfff", "qty": 10**30}
    entries[0] = replace(entries[0], tables=pack(tables), title="half \ud800")
    files = data_files(entries, parquet=True)
    catalogue = json.loads(files["catalogue.json"])
    jsonschema.Draft202012Validator(schema("catalogue.schema.json")).validate(catalogue)
    assert len(catalogue["guides"]) == len(notes)
    (part,) = rows(entries[0])["parts"]
    assert "half \ufffd" in part
    assert 2**53 - 1 in part
