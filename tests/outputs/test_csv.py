"""The CSV files keep to RFC 4180 and start no formula in a spreadsheet.

Outside: the ABNF of RFC 4180, section 2, read here by a parser of its own, and Python's `csv` module. What starts
a formula: `=`, `+`, `-`, `@`, tab, carriage return (OWASP, "CSV Injection"; from memory), and the wide forms that
some spreadsheets fold to them.
"""

from __future__ import annotations

import csv
import io
import re
from collections.abc import Callable
from pathlib import Path
from typing import Any

import pytest
from hypothesis import given
from hypothesis import strategies as st

from guidec.model.types import Guide
from guidec.outputs import bom
from guidec.outputs.csv_files import COLUMNS, cell, csv_files, table
from tests.outputs.conftest import SAMPLES, guide_at

HOSTILE = (
    *(
        "=1+1",
        "+1",
        "-2+3",
        "@SUM(A1)",
        "\t=1",
        "\r=1",
        "\n=1",
        " =1",
        "  @x",
        '"=1"',
        "'=1",
        "\ufeff=1",
        "\u200b=1",
    ),
    *(
        "\u00a0=1",
        '=HYPERLINK("http://x.example","a")',
        "+cmd|' /C calc'!A0",
        "-cmd|'x'!A0",
        "＝1",
        "＋1",
        "－1",
        "＠x",
    ),
    *("\x00=1", "−1", "a;=1", "a; =1", "a;\t@x", ";=1", "\x1b=1", "\u2028=1"),
)


def strict(text: str) -> list[list[str]]:
    """RFC 4180, section 2: file = record *(CRLF record) [CRLF]; a field is plain text or escaped by quotes."""
    at, records, record = 0, list[list[str]](), list[str]()
    field = re.compile(r'"((?:[^"]|"")*)"|([^",\r\n]*)')
    while True:
        found = field.match(text, at)
        assert found
        at = found.end()
        record.append(found[2] if found[1] is None else found[1].replace('""', '"'))
        if at < len(text) and text[at] == ",":
            at += 1
            continue
        records.append(record)
        record = []
        if at == len(text):
            return records
        assert text.startswith("\r\n", at), text[at : at + 20]
        at += 2
        if at == len(text):
            return records


def rows(data: bytes) -> list[list[str]]:
    text = data.decode("utf-8")
    mine = strict(text)
    assert mine == list(csv.reader(io.StringIO(text, newline=""), strict=True))
    return mine


def starts_formula(text: str) -> bool:
    bare = text.lstrip(' \t\r\n\u00a0\ufeff\u200b"\u2028')
    return bool(bare) and bare[0] in "=+-@＝＋－＠−"


# ---------------------------------------------------------------- form


@pytest.mark.parametrize("path", SAMPLES, ids=lambda path: path.stem)
def test_the_four_files_keep_to_the_standard(path: Path) -> None:
    files = csv_files(guide_at(path))
    assert sorted(files) == ["fasteners.csv", "parts.csv", "supplies.csv", "tools.csv"]
    for name, data in files.items():
        read = rows(data)
        assert tuple(read[0]) == COLUMNS[name.removesuffix(".csv")]
        assert len(read) > 2
        assert {len(row) for row in read} == {len(read[0])}
        assert data.endswith(b"\r\n")
        assert not data.startswith(b"\xef\xbb\xbf")
        assert data.count(b"\n") == data.count(b"\r\n")


@pytest.mark.parametrize("path", SAMPLES, ids=lambda path: path.stem)
def test_they_say_what_bom_json_says(path: Path) -> None:
    guide = guide_at(path)
    data = bom.as_data(guide)
    for name, made in csv_files(guide).items():
        kind = name.removesuffix(".csv")
        head, *read = rows(made)
        assert len(read) == len(data[kind])
        for row, same in zip(read, data[kind], strict=True):
            for column, value in zip(head, row, strict=True):
                _same(value, same[column])


def _same(text: str, value: Any) -> None:
    if value is None:
        assert text == ""
    elif isinstance(value, bool):
        assert text == ("yes" if value else "no")
    elif isinstance(value, int | float):
        assert float(text) == value
    elif isinstance(value, list):
        assert text == "; ".join(value)
    else:
        assert text == value


def test_commas_quotes_and_wide_characters_come_through(note: Callable[[str], Guide]) -> None:
    guide = note('## One\n\n1. Lift off {part lid; number=A,1 "x"; material=>PC<; source=Löwe Ω ×}.\n')
    head, row = rows(csv_files(guide)["parts.csv"])
    found = dict(zip(head, row, strict=True))
    assert found["number"] == 'A,1 "x"'
    assert found["source"] == "Löwe Ω ×"
    assert found["material"] == ">PC<"


def test_a_guide_without_things_has_headers_alone(note: Callable[[str], Guide]) -> None:
    for name, data in csv_files(note("## One\n\nNothing.\n")).items():
        assert rows(data) == [list(COLUMNS[name.removesuffix(".csv")])]


# ---------------------------------------------------------------- formulas


@pytest.mark.parametrize("text", HOSTILE)
def test_no_cell_starts_a_formula(text: str) -> None:
    made = rows(table(("name", "x"), [{"name": text, "x": [text, "b"]}]))[1]
    for one in made:
        assert one.startswith("'") or not starts_formula(one), one
        for piece in one.split(";")[1:]:
            assert piece.strip().startswith("'") or not starts_formula(piece), one
        assert not re.search(r"[\x00-\x1f\x7f]", one)


def test_what_a_careful_name_looks_like_is_left_alone() -> None:
    for text in (
        "rear door",
        "A",
        "M2x6",
        ">PC+ABS<",
        "a-b",
        "2 x 24 mm",
        "a=b",
        "99 %",
        "x; y",
        "(+)",
        "#1",
        "'78 model",
    ):
        assert cell(text) == text
    assert [cell(-0.5), cell(12), cell(None), cell(True), cell(False), cell([])] == [
        "-0.5",
        "12",
        "",
        "yes",
        "no",
        "",
    ]


def test_a_hostile_note_makes_harmless_files(note: Callable[[str], Guide]) -> None:
    guide = note(
        "## One\n\n1. Lift off {part =cmd|' /C calc'!A0; number=+1; material=@x; source=-1+1} with {tool =2+5}.\n"
        "2. Wipe with {supply @SUM(1): =1}.\n"
    )
    names = set()
    for data in csv_files(guide).values():
        for row in rows(data)[1:]:
            names.update(row)
            assert all(one.startswith("'") or not starts_formula(one) for one in row)
    assert {"'=2+5", "'+1", "'@x", "'-1+1"} <= names


VALUES = st.one_of(st.none(), st.text(), st.booleans(), st.integers(), st.lists(st.text(), max_size=3))


@given(st.lists(st.lists(VALUES, min_size=3, max_size=3), max_size=5))
def test_any_value_comes_through_as_its_cell(values: list[list[Any]]) -> None:
    made = table(("a", "b", "c"), [dict(zip("abc", row, strict=True)) for row in values])
    text = made.decode("utf-8")
    head, *read = strict(text)
    assert head == ["a", "b", "c"]
    expected = [[cell(value).encode("utf-8", "backslashreplace").decode() for value in row] for row in values]
    assert read == expected
    assert list(csv.reader(io.StringIO(text, newline=""), strict=True)) == [head, *expected]
    for row, typed in zip(read, values, strict=True):
        for one, value in zip(row, typed, strict=True):
            if not isinstance(value, int):
                assert one.startswith("'") or not starts_formula(one)
