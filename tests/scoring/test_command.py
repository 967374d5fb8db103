"""`guidec score` and `score.json`: what is printed, written and refused."""

from __future__ import annotations

import json
from pathlib import Path
from typing import Any

import jsonschema
import pytest
from wcwidth import wcswidth

from guidec import compile as compiler
from guidec.cli import main
from guidec.outputs.score_section import scored
from guidec.outputs.score_text import text
from guidec.outputs.score_view import score_view
from guidec.outputs.words import words
from guidec.trade.load import DATA
from tests.scoring.helpers import graph_of
from tests.scoring.test_notes import PHONE
from tests.scoring.test_work_times import RECORDER

REPOSITORY = Path(__file__).parents[2]
SCHEMA = json.loads((REPOSITORY / "schema" / "score.schema.json").read_text(encoding="utf-8"))
SAMPLES = sorted((REPOSITORY / "samples").glob("*/*-*.md"))


@pytest.fixture
def note(tmp_path: Path) -> Path:
    path = tmp_path / "phone.md"
    path.write_text(PHONE.lstrip(), encoding="utf-8")
    return path


def run(capsys: pytest.CaptureFixture[str], *arguments: str | Path) -> tuple[int, str, str]:
    status = main(["score", *map(str, arguments)])
    out, err = capsys.readouterr()
    return status, out, err


def data(capsys: pytest.CaptureFixture[str], *arguments: str | Path) -> dict[str, Any]:
    status, out, err = run(capsys, *arguments, "--format", "json")
    assert status == 0, err
    found: dict[str, Any] = json.loads(out)
    jsonschema.Draft202012Validator.check_schema(SCHEMA)
    jsonschema.validate(found, SCHEMA)
    return found


def test_the_text_fits_80_columns_and_shows_the_way(note: Path, capsys: pytest.CaptureFixture[str]):
    status, out, _ = run(capsys, note)
    assert status == 0
    assert max(wcswidth(line) for line in out.splitlines()) <= 80
    for said in (
        "2023/1669",
        "Workings",
        "since back cover came off",
        "What is not known",
        "EN 45554",
        "2023/1542",
    ):
        assert said in out


@pytest.mark.parametrize("sample", SAMPLES, ids=lambda path: path.stem)
@pytest.mark.parametrize("language", ["en", "de"])
def test_every_sample_fits_80_columns_in_every_language(sample: Path, language: str):
    checked = compiler.check(compiler.load(sample))
    assert checked.model is not None
    found = scored(checked.model.graph)
    says = words(language)
    lines = text(score_view(found.assessment, says, found.ideas), says).splitlines()
    assert max(wcswidth(line) for line in lines) <= 80
    assert "{" not in "".join(lines).replace("{method: own-neutral}", "")


def test_the_data_has_the_fields_that_others_rely_on(note: Path, capsys: pytest.CaptureFixture[str]):
    found = data(capsys, note)
    assert found["method"] == "eu-2023-1669"
    assert set(found["scores"]) == {"SDD", "SF", "ST", "SSP", "SSU", "SRI"}
    battery = found["parts"]["BAT"]
    assert (battery["part"], battery["steps"]) == ("battery", 3)
    assert (battery["depth_points"], battery["fastener_points"], battery["tool_points"]) == (4, 1, 5)
    assert found["index"] is None
    assert found["low"] < found["high"]
    assert {one["key"] for one in found["unknowns"]} == {"camera-front", "button", "card-x"}
    assert all(one["text"] for one in (*found["unknowns"], *found["assumptions"]))
    assert "derogations" in found["regulations"][-1]["derogations"]


def test_a_whole_range_in_one_class_has_the_class(tmp_path: Path, capsys: pytest.CaptureFixture[str]):
    path = tmp_path / "known.md"
    text_ = PHONE.replace("absent: [microphone, rear camera]", "absent: [microphone, cameras, button]")
    path.write_text(text_.replace("; grade=maker", "; grade=trade").lstrip(), encoding="utf-8")
    found = data(capsys, path)
    assert found["unknowns"] == []
    assert found["index"] == found["low"] == found["high"]
    # by hand: SDD 0.3 x 4 + 0.3 x 5 + 0.1 x 5 + 0.05 x (5 x 4 + 4 x 2); the port and speaker take four steps
    assert found["scores"]["SDD"] == pytest.approx(1.2 + 1.5 + 0.5 + 0.05 * (5 * 4 + 2 * 4))
    assert found["class"] == "B"


def test_supposing_shows_what_moves(note: Path, capsys: pytest.CaptureFixture[str]):
    _, out, _ = run(capsys, note, "--what-if", "update_years = 7; cell tape: reusable")
    assert "→" in out
    found = data(capsys, note, "--what-if", "update_years = 7", "--what-if", "cell tape: reusable")
    assert found["what_if"]["changes"] == ["update_years = 7", "cell tape: reuse = reusable"]
    assert found["what_if"]["moves"]["low"] == pytest.approx(0.3 + 0.18)


def test_a_supposition_that_cannot_be_read_is_shown_with_carets(note: Path, capsys: pytest.CaptureFixture[str]):
    status, _, err = run(capsys, note, "--what-if", "cell tepe: reusable")
    assert status == 2
    assert "S121" in err
    assert "^^^^^^^^^" in err
    assert "cell tape" in err


def test_a_method_of_one_s_own(note: Path, tmp_path: Path, capsys: pytest.CaptureFixture[str]):
    own = (DATA / "methods" / "eu-2023-1669.yaml").read_text(encoding="utf-8")
    path = tmp_path / "mine.yaml"
    path.write_text(own.replace("id: eu-2023-1669", "id: mine").replace("{class: A", "{class: best"), "utf-8")
    found = data(capsys, note, "--method", path)
    assert found["method"] == "mine"
    path.write_text(own.replace("weight: 0.25", "weight: 0.5"), "utf-8")
    status, _, err = run(capsys, note, "--method", path)
    assert (status, "S114" in err, "mine.yaml:" in err) == (2, True, True)


@pytest.mark.parametrize("given", ["own-neutrl", "eu", "nowhere/mine.yaml"])
def test_a_method_that_is_not_there(note: Path, given: str, capsys: pytest.CaptureFixture[str]):
    status, _, err = run(capsys, note, "--method", given)
    assert status == 2
    assert "Traceback" not in err
    assert given.split("/")[-1] in err


def test_a_table_of_one_s_own(note: Path, tmp_path: Path, capsys: pytest.CaptureFixture[str]):
    path = tmp_path / "times.yaml"
    path.write_text(RECORDER, encoding="utf-8")
    assert data(capsys, note, "--times", path)["times"]["table"]["title"] == "Pressure recorder"
    path.write_text(RECORDER.replace("4.5 s", "quick"), encoding="utf-8")
    assert run(capsys, note, "--times", path)[0] == 2


def test_score_json_is_written_where_there_is_a_method(note: Path):
    built = compiler.build(compiler.load(note), compiler.Options(pdf=False))
    found = json.loads(built.files["score.json"])
    jsonschema.validate(found, SCHEMA)
    assert "Repairability index" in built.files["index.html"].decode()


def test_without_a_method_the_page_has_the_classes_and_there_is_no_file(tmp_path: Path):
    path = tmp_path / "fan.md"
    path.write_text(PHONE.replace("kind: smartphone", "kind: desk fan").lstrip(), encoding="utf-8")
    built = compiler.build(compiler.load(path), compiler.Options(pdf=False))
    assert "score.json" not in built.files
    assert "EN 45554" in built.files["index.html"].decode()


def test_the_author_s_word_stands_beside_and_counts_for_nothing():
    with_it = PHONE.replace("power: battery", 'verdict: {points: 9, out_of: 10, why: "fine"}\npower: battery')
    one, other = scored(graph_of(with_it)).assessment, scored(graph_of(PHONE)).assessment
    assert one.index == other.index
    assert "9 out of 10: fine" in score_view(one, words("en")).verdict


def test_a_wrong_answer_is_an_error_of_the_note(tmp_path: Path, capsys: pytest.CaptureFixture[str]):
    path = tmp_path / "phone.md"
    path.write_text(PHONE.replace("absent: [", "absent: [battery, ").lstrip(), encoding="utf-8")
    status, out, _ = run(capsys, path)
    assert (status, "S105" in out) == (1, True)
    built = compiler.build(compiler.load(path), compiler.Options(pdf=False))
    assert "S105" in {one.code for one in built.findings}
    assert json.loads(built.files["score.json"])["clean"] is False


def test_a_typed_fault_is_told_once(tmp_path: Path):
    path = tmp_path / "phone.md"
    path.write_text(PHONE.replace("repair_information: public", "repair_information: publik").lstrip(), "utf-8")
    built = compiler.build(compiler.load(path), compiler.Options(pdf=False))
    assert [one.code for one in built.findings if one.code in ("N021", "S103")] == ["N021"]
