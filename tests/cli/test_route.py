"""`guidec route`: the table, one way, and calls that cannot be carried out."""

from __future__ import annotations

import json
from pathlib import Path

import jsonschema
import pytest

from guidec.cli import main

ROOT = Path(__file__).parent.parent.parent
SAMPLES = sorted(map(str, ROOT.glob("samples/*/*.md")))
SCHEMA = json.loads((ROOT / "schema/routes.schema.json").read_text())


LAMP = """\
# Lamp

## Open

1. Undo {screw A: 4x PH0 M2x6; holds=lid}.
2. Lift off {part lid} with {tool card}.
3. Note {part label} inside it.

## Board

1. Undo {screw B: 2x T6 M2x4; holds=main board}.
2. Lift out {part main board; class=board}.

## Foot {after nothing}

1. Pull off {part foot}.
"""


@pytest.fixture
def lamp(tmp_path: Path) -> str:
    note = tmp_path / "lamp.md"
    note.write_text(LAMP)
    return str(note)


def printed(arguments: list[str], capsys: pytest.CaptureFixture[str], status: int = 0) -> str:
    assert main(arguments) == status
    return capsys.readouterr().out


@pytest.mark.parametrize("note", SAMPLES)
@pytest.mark.parametrize("by", ["damage", "steps", "time"])
def test_the_table_fits_eighty_columns(note: str, by: str, capsys: pytest.CaptureFixture[str]):
    lines = printed(["route", note, "--by", by], capsys).splitlines()
    assert max(map(len, lines)) <= 80
    assert lines[0].split() == ["part", "steps", "changes", "screws", "hand", "wait", "risk", "tools"]


def test_a_set_that_nobody_counted_makes_the_screws_of_a_way_a_least_number(
    tmp_path: Path, capsys: pytest.CaptureFixture[str]
):
    note = tmp_path / "lamp.md"
    note.write_text(LAMP.replace("2x T6 M2x4", "T6 M2x4"))
    assert "at least 5 screws" in printed(["route", str(note), "main board"], capsys)
    assert "at least" not in printed(["route", str(note), "lid"], capsys)


def test_the_table_has_a_row_for_each_part(lamp: str, capsys: pytest.CaptureFixture[str]):
    out = printed(["route", lamp], capsys)
    rows = [line.split()[:-1] for line in out.splitlines()[1:6] if line]
    assert [" ".join(row[:-4]) for row in rows[:2]] == ["lid", "label (seen)"]
    (row,) = [line for line in out.splitlines() if line.startswith("main board ")]
    assert row.split()[2:5] == ["3", "2", "6"]
    assert "tools: a PH0 screwdriver, b card, c T6 driver" in out


def test_one_way_goes_action_by_action_and_says_why(lamp: str, capsys: pytest.CaptureFixture[str]):
    out = printed(["route", lamp, "main board", "--why"], capsys)
    assert max(map(len, out.splitlines())) <= 80
    assert "Undo 4 × PH0 M2×6 (A)." in out
    assert "= `A` holds what comes off in line 6" in out
    assert "= operation `Board` comes after `Open`" in out
    assert "= this is what the way is for" in out
    assert out.index("Lift off lid") < out.index("Lift out main board")


@pytest.mark.parametrize("name", ["Main  Board", "main-board", "MAIN BOARD"])
def test_a_part_may_be_named_by_its_id_or_in_any_case(name: str, lamp: str, capsys: pytest.CaptureFixture[str]):
    assert printed(["route", lamp, name], capsys).startswith("Way to main board,")


def test_several_parts_are_reached_in_one_visit(lamp: str, capsys: pytest.CaptureFixture[str]):
    data = json.loads(printed(["route", lamp, "foot", "lid", "--format", "json"], capsys))
    (route,) = data["routes"]
    assert route["parts"] == ["foot", "lid"]
    assert set(route["operations"]) == {"open", "foot"}


@pytest.mark.parametrize("note", SAMPLES)
def test_the_data_has_the_form_that_is_published(note: str, capsys: pytest.CaptureFixture[str]):
    data = json.loads(printed(["route", note, "--format", "json"], capsys))
    jsonschema.Draft202012Validator(SCHEMA).validate(data)
    assert {"part", "by", "operations", "actions", "steps", "tool_changes", "screws", "time_s", "tools"} <= set(
        data["routes"][0]
    )
    for route in data["routes"]:
        assert route["steps"] == len(route["step_ends"])
        assert route["time_s"] == pytest.approx(route["hand_s"] + route["wait_s"])
        lines = Path(note).read_text().splitlines()
        assert all(lines[action["line"] - 1].strip() for action in route["actions"])


def test_the_schema_is_a_schema():
    jsonschema.Draft202012Validator.check_schema(SCHEMA)


def test_an_unknown_part_suggests_the_nearest(lamp: str, capsys: pytest.CaptureFixture[str]):
    assert main(["route", lamp, "main bord"]) == 2
    err = capsys.readouterr().err
    assert err == "error: the note has no part `main bord`\n  = help: did you mean `main board`?\n"


def test_what_is_no_part_is_named_for_what_it_is(lamp: str, capsys: pytest.CaptureFixture[str]):
    assert main(["route", lamp, "card"]) == 2
    assert "`card` is no part, but a tool" in capsys.readouterr().err


def test_a_part_that_no_way_leads_to(tmp_path: Path, capsys: pytest.CaptureFixture[str]):
    note = tmp_path / "radio.md"
    note.write_text("# R\n\n## A\n\n1. Pull {part dial} off the shaft beside {part lamp}.\n")
    assert main(["route", str(note), "lamp"]) == 2
    assert "no route leads to `lamp`" in capsys.readouterr().err


def test_a_note_with_errors_still_gives_its_ways_and_status_one(
    tmp_path: Path, capsys: pytest.CaptureFixture[str]
):
    note = tmp_path / "radio.md"
    note.write_text("# R\n\n## A {after nonsense}\n\n1. Lift off {part lid}.\n")
    assert main(["route", str(note)]) == 1
    captured = capsys.readouterr()
    assert captured.out.splitlines()[1].startswith("lid ")
    assert "has errors" in captured.err


def test_a_part_behind_a_ring_is_said_to_be_so(tmp_path: Path, capsys: pytest.CaptureFixture[str]):
    note = tmp_path / "radio.md"
    note.write_text("# R\n\n## A {after b}\n\n1. Lift off {part a}.\n\n## B {after a}\n\n1. Lift off {part b}.\n")
    assert main(["route", str(note), "a"]) == 1
    assert "goes round in a circle before `a`" in capsys.readouterr().err


def test_a_note_that_is_not_there_is_a_wrong_call(capsys: pytest.CaptureFixture[str]):
    assert main(["route", "nowhere.md"]) == 2
    assert "cannot be read" in capsys.readouterr().err


def test_a_note_without_parts_says_so(tmp_path: Path, capsys: pytest.CaptureFixture[str]):
    note = tmp_path / "radio.md"
    note.write_text("# R\n\n## A\n\n1. Wait.\n")
    assert "no part comes off" in printed(["route", str(note)], capsys)


PIECES = "".join(f"{at}. Lift out {{part piece {at}; under=lid}}.\n" for at in range(2, 15))
BOARD = (
    "\n## Board {after lid}\n\n1. Lift {part board; under=piece 3}.\n\n## Fan {also lid}\n\n1. Lift {part fan}.\n"
)


def test_every_reason_for_an_action_is_given_once(tmp_path: Path, capsys: pytest.CaptureFixture[str]):
    note = tmp_path / "lamp.md"
    note.write_text(f"# Lamp\n\n## Open\n\n1. Lift off {{part lid}}.\n{PIECES}{BOARD}")
    main(["route", str(note), "fan", "piece 14", "--why"])
    told = capsys.readouterr().out.splitlines()
    first = told.index("         5  Lift off lid.")
    assert told[first + 1 : first + 6] == [
        "            = `lid` lies over what comes off in lines 6, 7, 8, 9, 10, 11 and 7",
        "              more",
        "            = operation `Board` comes after `lid`",
        "            = operation `Fan` comes after `lid`",
        "            = the next line needs it",
    ]


@pytest.mark.parametrize("part", ["bord", "nothing like it"])
def test_an_unknown_part_is_an_object_with_the_error_for_who_asked_for_json(
    part: str, lamp: str, capsys: pytest.CaptureFixture[str]
):
    assert main(["route", lamp, part, "--format", "json"]) == 2
    told = json.loads(capsys.readouterr().out)
    assert told["error"] == f"the note has no part `{part}`"
    assert "`guidec route NOTE`" in told["help"] or "did you mean" in told["help"]


def test_a_note_that_cannot_be_read_is_an_object_too(tmp_path: Path, capsys: pytest.CaptureFixture[str]):
    assert main(["route", str(tmp_path / "none.md"), "--format=json"]) == 2
    assert "cannot be read" in json.loads(capsys.readouterr().out)["error"]
