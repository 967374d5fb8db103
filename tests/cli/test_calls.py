"""Calls that cannot be carried out, and what is said to them; the rules explained."""

from __future__ import annotations

import json
import re
import subprocess
import sys
from pathlib import Path

import pytest

from guidec import __version__
from guidec.cli import COMMANDS, main
from guidec.rules.book import codes, page


def said(arguments: list[str], capsys: pytest.CaptureFixture[str]) -> str:
    assert main(arguments) == 2
    captured = capsys.readouterr()
    assert captured.out == ""
    return captured.err


def test_an_unknown_command_suggests_a_known_one(capsys: pytest.CaptureFixture[str]):
    assert said(["chekc"], capsys) == "error: no such command `chekc`\n  = help: did you mean `check`?\n"


def test_a_note_in_the_place_of_a_command_is_understood(capsys: pytest.CaptureFixture[str]):
    assert "write `guidec check radio.md`" in said(["radio.md"], capsys)


def test_an_unknown_option_suggests_a_known_one(capsys: pytest.CaptureFixture[str]):
    assert said(["check", "--fromat", "json", "x.md"], capsys) == (
        "error: no such option `--fromat`\n  = help: did you mean `--format`?\n"
    )


def test_an_unknown_format_names_those_there_are(capsys: pytest.CaptureFixture[str]):
    err = said(["check", "--format", "xml", "x.md"], capsys)
    assert err.startswith("error: invalid value for '--format': 'xml' is not one of")
    assert all(f"'{one}'" in err for one in ("text", "json", "sarif"))


@pytest.mark.parametrize("arguments", [["check"], ["compile", "-o", "out"]])
def test_a_missing_note_is_named_with_the_usage(arguments: list[str], capsys: pytest.CaptureFixture[str]):
    err = said(arguments, capsys)
    assert err.startswith("error: missing `NOTE...`\n")
    assert f"= help: guidec {arguments[0]}" in err


def test_a_missing_place_for_outputs_is_named(capsys: pytest.CaptureFixture[str]):
    assert said(["compile", "x.md"], capsys).startswith("error: missing option `--out`\n")


def test_without_a_command_the_help_is_shown(capsys: pytest.CaptureFixture[str]):
    assert "Usage: guidec" in said([], capsys)


def test_help_lists_the_commands_that_are_there(capsys: pytest.CaptureFixture[str]):
    assert main(["--help"]) == 0
    listed = re.findall(r"^  (\w+) {2,}\S", capsys.readouterr().out.partition("Commands:")[2], re.M)
    there = {path.stem for path in (Path(__file__).parents[2] / "guidec" / "commands").glob("*.py")}
    assert listed == [name for name in COMMANDS if name in there]
    assert {"check", "compile", "explain"} <= set(listed)


def test_version(capsys: pytest.CaptureFixture[str]):
    assert main(["--version"]) == 0
    assert capsys.readouterr().out == f"guidec {__version__}\n"


def test_a_reader_that_has_seen_enough_is_no_trouble(tmp_path: Path):
    call = f"{sys.executable} -m guidec explain | head -n 1"
    run = subprocess.run(call, shell=True, capture_output=True, text=True, check=True)
    assert run.stderr == ""
    assert run.stdout.startswith("D") or run.stdout[1:4].isdigit()


# ---------------------------------------------------------------- explain


def test_a_rule_is_explained_by_its_code(capsys: pytest.CaptureFixture[str]):
    assert main(["explain", "n003"]) == 0
    out = capsys.readouterr().out
    assert out.startswith("# N003 note empty\n\nerror:\n\n- the note is empty\n")
    assert page("N003").prose in out
    assert "Raises it:\n\n```\n" in out
    assert "Mended:\n\n```\n# Desk lamp\n" in out


def test_a_rule_is_explained_by_its_name(capsys: pytest.CaptureFixture[str]):
    assert main(["explain", "note-empty"]) == 0
    assert capsys.readouterr().out.startswith("# N003 ")


def test_all_rules_are_listed_with_their_severity(capsys: pytest.CaptureFixture[str]):
    assert main(["explain"]) == 0
    lines = capsys.readouterr().out.splitlines()
    assert [line.split()[0] for line in lines[: len(codes())]] == list(codes())
    assert "N003  error    the note is empty" in lines
    assert not [line for line in lines if "$" in line.replace("$5", "")]


def test_explanations_are_data_too(capsys: pytest.CaptureFixture[str]):
    assert main(["explain", "N003", "--format", "json"]) == 0
    data = json.loads(capsys.readouterr().out)
    assert data["code"] == "N003"
    assert data["severity"] == "error"
    assert data["messages"] == ["the note is empty"]
    assert main(["explain", "--format", "json"]) == 0
    assert [one["code"] for one in json.loads(capsys.readouterr().out)["rules"]] == list(codes())


def test_an_unknown_code_suggests_known_ones(capsys: pytest.CaptureFixture[str]):
    assert "did you mean `N003`" in said(["explain", "N0003"], capsys)
    assert "`guidec explain` lists all" in said(["explain", "zzzz"], capsys)


def test_a_terminal_gets_the_page_set_in_80_columns(
    capsys: pytest.CaptureFixture[str], monkeypatch: pytest.MonkeyPatch
):
    monkeypatch.setattr("sys.stdout.isatty", lambda: True, raising=False)
    monkeypatch.setenv("COLUMNS", "200")
    monkeypatch.setenv("NO_COLOR", "1")
    assert main(["explain", "N005"]) == 0
    out = re.sub(r"\x1b\[[\d;]*m", "", capsys.readouterr().out)
    assert max(len(line) for line in out.splitlines()) <= 80
    assert "N005 picture missing" in out
    assert "Raises it:" in out
