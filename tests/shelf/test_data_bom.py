"""`bom.cdx.json` and `bom.xlsx`, read by the standard's own library and by another that reads workbooks."""

from __future__ import annotations

import io
import json
import re
import zipfile
from collections.abc import Iterator
from pathlib import Path
from typing import Any

import openpyxl
import pytest
from cyclonedx.model.bom import Bom
from cyclonedx.schema import SchemaVersion
from cyclonedx.validation.json import JsonStrictValidator

from bench.notes import note
from guidec import compile as compiler
from guidec.edge.load import of_bytes
from guidec.model.types import Guide
from guidec.outputs import bom, cyclonedx, xlsx
from guidec.plan.cautions import cautions
from tests.shelf.entries import REPOSITORY

NOTES = sorted([*REPOSITORY.glob("samples/*/*.md"), *REPOSITORY.glob("tests/shelf/workshop/*.md")])
HOSTILE = r"""---
title: "=1+1"
author: "@sum(a1)"
licence: cc-by-5.0
revision: "007"
date: 2026-02-30
---

# Radio

## Open

1. Undo {screw A: 4x PH1 M3x8; holds=lid}.
2. Lift off {part lid; number==cmd; in=frame; source=https://example.org/spare}.
3. Lift out {part frame; in=lid; qty=3}.
4. Lift out {part board; in=frame; number=-2+3; material=>PC+ABS<}.
5. Lift off {part lid}.
"""


def guide(text: str) -> Guide:
    checked = compiler.check(of_bytes("note.md", text.encode(), Path()))
    assert checked.model
    return checked.model.guide


def guides() -> Iterator[Any]:
    for path in NOTES:
        yield pytest.param(path.read_text(encoding="utf-8"), id=path.stem)
    for seed in range(4):
        yield pytest.param(note(60, seed), id=f"generated-{seed}")
    yield pytest.param(HOSTILE, id="hostile")
    yield pytest.param("# Nothing\n", id="nothing")


def components(data: dict[str, Any]) -> Iterator[dict[str, Any]]:
    for one in data.get("components", ()):
        yield one
        yield from components(one)


# ---------------------------------------------------------------- CycloneDX


@pytest.mark.parametrize("text", list(guides()))
def test_cyclonedx_is_valid_by_the_standards_library(text: str):
    """ECMA-424; the validator and its schemas are those of the CycloneDX project."""
    made = cyclonedx.encode(guide(text))
    assert JsonStrictValidator(SchemaVersion.V1_6).validate_str(made.decode()) is None
    assert cyclonedx.encode(guide(text)) == made


def test_the_validator_would_tell():
    data = cyclonedx.as_data(guide(HOSTILE))
    data["components"][0]["type"] = "screw"
    assert JsonStrictValidator(SchemaVersion.V1_6).validate_str(json.dumps(data)) is not None


@pytest.mark.parametrize("text", list(guides()))
def test_cyclonedx_holds_every_thing_of_the_device_once(text: str):
    made = guide(text)
    data, rows = cyclonedx.as_data(made), bom.as_data(made)
    found = [one["bom-ref"] for one in components(data)]
    wanted = [
        row["id"] for key in ("parts", "fasteners", "connectors", "adhesives", "fastenings") for row in rows[key]
    ]
    assert sorted(found) == sorted(f"{made.meta.slug}#{own}" for own in wanted)
    assert data["metadata"]["component"]["type"] == "device"
    assert {one["type"] for one in components(data)} <= {"device"}
    refs = {one["ref"] for one in data["dependencies"]}
    assert refs == {made.meta.slug, *found}
    assert {other for one in data["dependencies"] for other in one["dependsOn"]} == set(found)


def test_the_library_reads_the_document():
    made = guide((REPOSITORY / "samples/pocket-phone/pocket-phone.md").read_text())
    read = Bom.from_json(json.loads(cyclonedx.encode(made)))
    assert read.metadata.component
    assert read.metadata.component.name == "Leaf 2"
    assert read.metadata.component.manufacturer
    assert read.metadata.component.manufacturer.name == "Ambervale"
    assert read.metadata.timestamp
    assert read.metadata.timestamp.date().isoformat() == made.meta.date
    assert read.version == int(made.meta.revision or 0)
    battery = next(one for one in read.components if one.name == "battery")
    values = {one.name: one.value for one in battery.properties}
    assert values["cdx:device:quantity"] == "1"
    assert values["guidec:number"] == "L2-BA"
    assert values["guidec:energy_wh"] == "11.3575"


def test_an_assembly_holds_its_parts_and_a_circle_loses_none():
    data = cyclonedx.as_data(guide(HOSTILE))
    lid = next(one for one in data["components"] if one["name"] == "lid")
    assert [one["name"] for one in lid["components"]] == ["frame"]
    assert [one["name"] for one in lid["components"][0]["components"]] == ["board"]


def test_the_serial_number_stays_over_revisions_and_tells_guides_apart():
    text = NOTES[0].read_text(encoding="utf-8")
    later = re.sub(r"^revision: .*$", "revision: 99", text, flags=re.M)
    first, second = (cyclonedx.as_data(guide(one)) for one in (text, later))
    assert first["serialNumber"] == second["serialNumber"]
    assert second["version"] == 99
    assert len({cyclonedx.as_data(guide(path.read_text()))["serialNumber"] for path in NOTES}) == len(NOTES)


def test_what_is_no_revision_licence_or_date_is_not_made_one():
    data = cyclonedx.as_data(guide(HOSTILE))
    assert data["version"] == 7
    assert data["metadata"]["licenses"] == [{"license": {"name": "cc-by-5.0"}}]
    assert "timestamp" not in data["metadata"]


# ---------------------------------------------------------------- workbook


@pytest.mark.parametrize("text", list(guides()))
def test_a_workbook_has_a_sheet_for_each_table_with_its_rows(text: str):
    made = guide(text)
    added = cautions(made)
    data = bom.as_data(made, added)
    book = openpyxl.load_workbook(io.BytesIO(xlsx.encode(made, added)))
    tables = [key for key, value in data.items() if isinstance(value, list)]
    assert sorted(book.sheetnames) == sorted(["guide", *tables])
    for name in tables:
        head, *rows = book[name].iter_rows(values_only=True)
        assert head == xlsx.SHEETS[name]
        assert len(rows) == len(data[name])
        for read, row in zip(rows, data[name], strict=True):
            assert read == tuple(_shown(row[key]) for key in head), name


def _shown(value: Any) -> Any:
    if isinstance(value, bool):
        return "yes" if value else "no"
    if isinstance(value, list):
        return "; ".join(value) or None
    return None if value == "" else value


def test_no_cell_is_a_formula_a_link_or_an_error():
    book = openpyxl.load_workbook(io.BytesIO(xlsx.encode(guide(HOSTILE))))
    cells = [cell for sheet in book for row in sheet.iter_rows() for cell in row if cell.value is not None]
    assert {cell.data_type for cell in cells} <= {"s", "n"}
    assert not [cell for cell in cells if cell.hyperlink]
    assert {"=cmd", "-2+3", "=1+1", "@sum(a1)"} <= {cell.value for cell in cells}


@pytest.mark.parametrize("text", list(guides()))
def test_the_same_guide_gives_the_same_workbook(text: str, monkeypatch: pytest.MonkeyPatch):
    first = xlsx.encode(guide(text))
    monkeypatch.setattr("time.time", lambda: 2_000_000_000.0)
    assert xlsx.encode(guide(text)) == first
    with zipfile.ZipFile(io.BytesIO(first)) as packed:
        assert packed.testzip() is None
        assert {one.date_time[0] for one in packed.infolist()} == {1980}


def test_a_text_longer_than_a_cell_is_cut_and_not_dropped():
    made = guide(f"# Radio\n\n## Open\n\n1. Lift off {{part lid; source={'long ' * 9000}}}.\n")
    book = openpyxl.load_workbook(io.BytesIO(xlsx.encode(made)))
    (cell,) = (cell.value for cell in book["parts"]["K"][1:])
    assert len(cell) == 32_767
    assert cell.endswith("…")
