"""The bill of materials: field names that others rely on, right counts and places, what nobody typed but follows.

Outside: JSON Schema 2020-12 (`jsonschema` and its metaschema, `jsonschema_rs`); sums of amounts by `pint`;
watt-hours as rated ampere-hours times nominal volts (UN Model Regulations; 3000 mAh at 3.85 V is 11.55 Wh).
"""

from __future__ import annotations

import json
from collections.abc import Callable
from functools import cache
from pathlib import Path
from typing import Any

import jsonschema
import jsonschema_rs
import pint
import pytest
from hypothesis import given, settings
from hypothesis import strategies as st

from guidec.model.types import Guide, Part, ScrewSet, Supply, Tool
from guidec.outputs import bom
from guidec.plan.cautions import cautions
from tests.outputs.conftest import NOTES, REPOSITORY, SAMPLES, guide_at, guide_of

SCHEMA = json.loads((REPOSITORY / "schema" / "bom.schema.json").read_text(encoding="utf-8"))
FAST = jsonschema_rs.Draft202012Validator(SCHEMA)
ALL = (*SAMPLES, *sorted(NOTES.glob("*.md")))
every_note = pytest.mark.parametrize("path", ALL, ids=lambda path: path.stem)
TABLES = {
    "parts": "id name qty class number material operation removed",
    "fasteners": "id count drive thread length_mm torque_nm operation",
    "tools": "id name grade operations",
    "supplies": "id name amount operations",
    "connectors": "id name type renew operation",
    "adhesives": "id name type renew operation",
    "batteries": "part capacity_mah voltage_v energy_wh",
    "hazards": "signal text operation added",
}


@cache
def compiled(path: Path) -> tuple[Guide, Any]:
    guide = guide_at(path)
    return guide, json.loads(bom.encode(guide, cautions(guide)))


def data_of(guide: Guide) -> dict[str, dict[str, Any]]:
    """The tables by name, their rows by id."""
    data = bom.as_data(guide)
    return {
        name: {row.get("id") or row.get("part"): row for row in data[name]} for name in TABLES if name != "hazards"
    }


# ---------------------------------------------------------------- form


def test_schema_is_valid_2020_12() -> None:
    assert SCHEMA["$schema"] == "https://json-schema.org/draft/2020-12/schema"
    jsonschema.Draft202012Validator.check_schema(SCHEMA)


@every_note
def test_it_keeps_to_its_schema(path: Path) -> None:
    _, data = compiled(path)
    jsonschema.Draft202012Validator(SCHEMA).validate(data)
    FAST.validate(data)


@every_note
def test_the_names_that_others_rely_on_are_there(path: Path) -> None:
    _, data = compiled(path)
    for table, names in TABLES.items():
        for row in data[table]:
            assert set(names.split()) <= set(row), table


@every_note
def test_a_row_may_lack_nothing_and_have_nothing_more(path: Path) -> None:
    _, data = compiled(path)
    for name, rows in data.items():
        if not isinstance(rows, list) or not rows:
            continue
        row = rows[0]
        row["surplus"] = 1
        assert not FAST.is_valid(data), name
        del row["surplus"]
        for key in list(row):
            value = row.pop(key)
            assert not FAST.is_valid(data), (name, key)
            row[key] = value
    assert FAST.is_valid(data)


@every_note
def test_every_thing_has_one_row_in_an_operation_that_is_there(path: Path) -> None:
    guide, data = compiled(path)
    kinds = {"parts": Part, "fasteners": ScrewSet, "tools": Tool}
    for table, kind in kinds.items():
        ids = [row["id"] for row in data[table]]
        assert sorted(ids) == sorted(thing.id for thing in guide.things.values() if isinstance(thing, kind))
    supplies = [row["id"] for row in data["supplies"] if row["renewal"] is None]
    assert supplies == [thing.id for thing in guide.things.values() if isinstance(thing, Supply)]
    for table in TABLES:
        for row in data[table]:
            named = [row.get("operation"), *row.get("operations", ())]
            assert all(one is None or one in guide.operation for one in named)


@every_note
def test_lines_point_at_the_declaration(path: Path) -> None:
    guide, data = compiled(path)
    for table in ("parts", "fasteners", "tools", "supplies", "connectors", "adhesives", "fastenings"):
        for row in data[table]:
            if row["line"] is not None:
                typed = guide.source.text.split("\n")[row["line"] - 1 : row["line"] + 1]
                name = " ".join(row["name"].split()).casefold()
                assert name in " ".join(" ".join(typed)[row["column"] - 1 :].split()).casefold()


# ---------------------------------------------------------------- counts and places


def test_a_set_in_shares_is_one_row_where_it_first_comes_out(note: Callable[[str], Guide]) -> None:
    rows = data_of(
        note(
            "## One\n\n1. Undo 2 of {screw A: 5x PH1 M3x8; torque=0.6 N·m}.\n2. Lift off {part lid}.\n\n"
            "## Two\n\n1. Undo the rest of {A}.\n2. Lift out {part fan}.\n"
        )
    )["fasteners"]
    assert list(rows) == ["a"]
    row = rows["a"]
    assert (row["count"], row["operation"], row["operations"]) == (5, "one", ["one", "two"])
    assert (row["drive"], row["thread"], row["length_mm"], row["torque_nm"]) == ("PH1", "M3", 8, 0.6)


def test_sets_stand_in_the_order_in_which_they_come_out(note: Callable[[str], Guide]) -> None:
    rows = data_of(
        note(
            "{screw C: 1x T5} {screw B: 1x T6} {screw A: 1x T8} {connector y} {connector x}\n\n"
            "## One\n\n1. Undo {A}.\n2. Unplug {x}.\n\n## Two\n\n1. Undo {B}.\n2. Unplug {y}.\n"
        )
    )
    assert list(rows["fasteners"]) == ["a", "b", "c"]
    assert rows["fasteners"]["c"]["operation"] is None
    assert list(rows["connectors"]) == ["x", "y"]


@pytest.mark.parametrize(
    ("typed", "count", "drive", "thread", "length"),
    [
        ("4x PH0 M2x6", 4, "PH0", "M2", 6),
        ("six T10 M10x0.75x12", 6, "T10", "M10x0.75", 12),
        ("2x PZ2 ST2.9x9.5", 2, "PZ2", "ST2.9", 9.5),
        ("3x SL4|PZ1 2.5x8", 3, "SL4|PZ1", "2.5", 8),
        ("1x H2.5 M3", 1, "H2.5", "M3", None),
    ],
)
def test_a_notation_is_taken_apart(
    note: Callable[[str], Guide], typed: str, count: int, drive: str, thread: str, length: float | None
) -> None:
    row = data_of(note(f"## One\n\n1. Undo {{screw A: {typed}}}.\n"))["fasteners"]["a"]
    assert (row["count"], row["drive"], row["thread"], row["length_mm"]) == (count, drive, thread, length)


def test_parts_say_where_they_come_off_or_are_shown(note: Callable[[str], Guide]) -> None:
    rows = data_of(
        note(
            "Mind the {part seal}.\n\n## One\n\n1. Fold {part board; qty=2; class=board} aside.\n"
            "- Note {part label}.\n\n"
            "## Two\n\n1. Lift out {board}.\n"
        )
    )["parts"]
    assert (rows["board"]["operation"], rows["board"]["removed"], rows["board"]["qty"]) == ("two", True, 2)
    assert (rows["label"]["operation"], rows["label"]["removed"]) == ("one", False)
    assert (rows["seal"]["operation"], rows["seal"]["removed"]) == (None, False)


def test_the_notes_own_way_comes_first_and_others_after(note: Callable[[str], Guide]) -> None:
    rows = data_of(
        note(
            "## Pull it {instead of Cut it}\n\n1. Pull off {part lid} with {tool hook}.\n\n"
            "## Cut it\n\n1. Cut off {lid} with {tool saw}.\n\n## Next\n\n1. Clean it with {hook}.\n"
        )
    )
    assert rows["parts"]["lid"]["operation"] == "cut-it"
    assert rows["tools"]["hook"]["operations"] == ["next", "pull-it"]


def test_drivers_follow_from_screws_and_not_where_another_tool_is_named(note: Callable[[str], Guide]) -> None:
    tools = data_of(
        note("## One\n\n1. Undo {screw A: 2x T6 M2x4}.\n2. Undo {screw B: 1x H3 M4x8} with {tool ratchet}.\n")
    )["tools"]
    implied = [row for row in tools.values() if row["implied"]]
    assert [row["drive"] for row in implied] == ["T6"]
    assert implied[0]["operations"] == ["one"]
    assert implied[0]["line"] is None
    assert tools["ratchet"]["implied"] is False


def test_what_only_the_way_back_needs_is_listed_and_marked(note: Callable[[str], Guide]) -> None:
    rows = data_of(
        note(
            "## One\n\n1. Lift off {part lid} with {tool card}."
            " {refit set it with {supply grease: 2 g} and {tool press}}\n\n"
            "## Last {refit only}\n\n- Check it with {tool gauge}.\n- Clean it with {card}.\n"
        )
    )
    found = {
        name: (row["refit_only"], row["operations"]) for name, row in (rows["tools"] | rows["supplies"]).items()
    }
    assert found == {
        "card": (False, ["one", "last"]),
        "press": (True, ["one"]),
        "gauge": (True, ["last"]),
        "grease": (True, ["one"]),
    }


def test_renewals_are_supplies_too(note: Callable[[str], Guide]) -> None:
    rows = data_of(
        note(
            "## One\n\n1. Peel off {adhesive tape: foam; amount=60 mm} and {thermal pad: foil; renew=no}.\n"
            "2. Undo {screw A: 2x T6 M2x4; renew}.\n3. Cut {fastening tie: cable tie; renew}.\n"
            "4. Lift off {part lid}.\n"
        )
    )["supplies"]
    assert {name: (row["renewal"], row["amount"]) for name, row in rows.items()} == {
        "tape": ("adhesive", "60 mm"),
        "a": ("screw", "2"),
        "tie": ("fastening", None),
    }
    assert rows["a"]["strength"] == "2 × T6 M2×4"


# ---------------------------------------------------------------- sums


def test_amounts_of_one_stuff_are_put_together_where_units_allow(note: Callable[[str], Guide]) -> None:
    guide = note(
        "## One\n\n1. Peel off {adhesive a1: foam tape; amount=20 mm}, {adhesive a2: Foam  tape; amount=3 cm}"
        " and {adhesive a3: gel; amount=1 ml}.\n"
        "2. Wipe with {supply foam tape: 1 in} and {supply water: 99 %, 2 cl}.\n"
    )
    found = {(row["name"].casefold(), row["unit"]): row for row in bom.as_data(guide)["supply_totals"]}
    units = pint.UnitRegistry()
    long = (units("20 mm") + units("3 cm") + units("1 inch")).to("mm").magnitude
    row = found["foam tape", "mm"]
    assert row["low"] == pytest.approx(long)
    assert row["high"] == pytest.approx(long)
    assert sorted(row["supplies"]) == ["a1", "a2", "foam-tape"]
    assert found["water", "ml"]["low"] == pytest.approx(units("2 cl").to("ml").magnitude)
    assert found["gel", "ml"]["supplies"] == ["a3"]


def test_two_solvents_of_one_strength_are_not_one_stuff(note: Callable[[str], Guide]) -> None:
    guide = note("## One\n\n1. Clean it with {supply alcohol: 99 %, 2 ml} and {supply acetone: 99 %, 1 ml}.\n")
    assert [(row["name"], row["low"]) for row in bom.as_data(guide)["supply_totals"]] == [
        ("alcohol", 2),
        ("acetone", 1),
    ]


def test_masses_are_summed_by_material(note: Callable[[str], Guide]) -> None:
    guide = note(
        "## One\n\n1. Lift off {part lid; material=>ABS<; mass=20 g; qty=2}, "
        "{part tray; material=ABS; mass=0.03 kg} and {part cell; mass=44 g}.\n"
    )
    found = {row["material"]: (row["low_g"], row["parts"]) for row in bom.as_data(guide)["masses"]}
    assert found == {"ABS": (70, 3), None: (44, 1)}


def test_energy_is_ampere_hours_times_volts(note: Callable[[str], Guide]) -> None:
    rows = data_of(note("## One\n\n1. Lift out {part pack: 3000 mAh, 3.85 V; class=battery}.\n"))["batteries"]
    assert rows["pack"]["energy_wh"] == pytest.approx(11.55)
    assert (rows["pack"]["capacity_mah"], rows["pack"]["voltage_v"]) == (3000, 3.85)


# ---------------------------------------------------------------- hazards and depollution


def test_hazards_stand_in_note_order_the_added_ones_last(note: Callable[[str], Guide]) -> None:
    guide = note(
        "> WARNING: Whole.\n\n## One\n\n> DANGER: Operation.\n\n"
        "1. Lift off {part lid} and take out {part fan}.\n\n"
        "   > NOTICE: Line.\n"
    )
    rows = bom.as_data(guide)["hazards"]
    assert [(row["signal"], row["text"], row["operation"], row["added"]) for row in rows] == [
        ("WARNING", "Whole.", None, False),
        ("DANGER", "Operation.", "one", False),
        ("NOTICE", "Line.", "one", False),
    ]
    assert [row["action"] is None for row in rows] == [True, True, False]


def test_a_hazard_keeps_all_its_paragraphs_and_lists(note: Callable[[str], Guide]) -> None:
    guide = note("> WARNING: One {part lid}.\n>\n> Two.\n>\n> - Three\n\n## A\n\n1. Lift off {lid}.\n")
    assert [row["text"] for row in bom.as_data(guide)["hazards"]] == ["One lid.\nTwo.\nThree"]


def test_added_cautions_are_marked(note: Callable[[str], Guide]) -> None:
    guide = note("## One\n\n1. Pry out {part pack: 3000 mAh, 3.85 V; class=battery} with {tool card}.\n")
    added = cautions(guide)
    assert added, "levering a cell calls for a caution"
    rows = [row for row in bom.as_data(guide, added)["hazards"] if row["added"]]
    assert [(row["rule"], row["text"], row["operation"], row["action"]) for row in rows] == [
        (one.hazard.rule, one.hazard.text, one.operation, one.action) for one in added
    ]


def test_parts_that_come_out_first_by_law_are_listed(note: Callable[[str], Guide]) -> None:
    guide = note(
        "## One\n\n1. Lift out {part pack; class=battery}, {part main board; class=board} and {part lid}.\n"
    )
    found = {row["part"]: row["condition"] for row in bom.as_data(guide)["depollution"]}
    assert set(found) == {"pack", "main-board"}
    assert found["pack"] is None
    assert "10 cm" in found["main-board"]


# ---------------------------------------------------------------- any note


NAMES = st.sampled_from(["lid", "A", "card", "Ö x", "glue 2"])
MARKS = st.tuples(
    st.sampled_from(["part", "screw", "tool", "supply", "adhesive", "connector", "clip", "thermal", "solder", ""]),
    NAMES,
    st.sampled_from(
        ["", ": 4x PH0 M2x6", ": 3 ml", "; renew", "; qty=2", ": foam; amount=1 m", "; mass=5 g", ": 99 %, 2-3 ml"]
    ),
)
LINES = st.tuples(
    st.sampled_from(["1. Undo", "- Lift off", "1. Warm", "- Check", "- Note", "- Clean", "Prose"]),
    st.lists(MARKS, max_size=3),
)


@settings(max_examples=120, deadline=None)
@given(st.lists(LINES, max_size=8), st.integers(1, 3))
def test_any_note_gives_a_bill_that_keeps_to_its_schema(lines: list[Any], operations: int) -> None:
    text = "# T\n\n"
    for k in range(operations):
        text += f"## Op {k}\n\n"
        for verb, marks in lines[k::operations]:
            named = " and ".join(f"{{{kind} {name}{rest}}}".replace("{ ", "{") for kind, name, rest in marks)
            text += f"{verb} {named}.\n\n"
    guide = guide_of(text)
    data = json.loads(bom.encode(guide))
    FAST.validate(data)
    screws = [thing.id for thing in guide.things.values() if isinstance(thing, ScrewSet)]
    assert sorted(row["id"] for row in data["fasteners"]) == sorted(screws)
