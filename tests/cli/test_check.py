"""`guidec check`: what it prints and how it ends."""

from __future__ import annotations

import io
import json
import sys
from pathlib import Path

import pytest

from guidec.cli import main

CLEAN = "# Lamp\n\n## Open\n\n1. Undo {screw A: 2x PH1 M3x8}.\n2. Lift off {part lid; class=cover}.\n"
BROKEN = "# Lamp\n\n## Open\n\n1. Lift off {part lid; class=cover}.\n\n![base](base.jpg)\n"
QUIET = "---\nquiet: {N999: none}\n---\n\n" + CLEAN


@pytest.fixture
def folder(tmp_path: Path, monkeypatch: pytest.MonkeyPatch) -> Path:
    monkeypatch.chdir(tmp_path)
    for name, text in {"clean.md": CLEAN, "broken.md": BROKEN, "quiet.md": QUIET}.items():
        (tmp_path / name).write_text(text, encoding="utf-8")
    return tmp_path


def test_a_clean_note_says_so_and_ends_with_0(folder: Path, capsys: pytest.CaptureFixture[str]):
    assert main(["check", "clean.md"]) == 0
    assert capsys.readouterr().out == "clean\n"


def test_errors_are_shown_counted_and_end_with_1(folder: Path, capsys: pytest.CaptureFixture[str]):
    assert main(["check", "broken.md"]) == 1
    assert capsys.readouterr().out == (
        "error[N005]: picture `base.jpg` is not in the note's folder\n"
        " --> broken.md:7:9\n"
        "  |\n"
        "7 | ![base](base.jpg)\n"
        "  |         ^^^^^^^^ no such file\n"
        "  = help: paths are read from the folder that the note is in\n"
        "\n"
        "1 error\n"
    )


def test_warnings_alone_end_with_0(folder: Path, capsys: pytest.CaptureFixture[str]):
    assert main(["check", "quiet.md"]) == 0
    assert capsys.readouterr().out.endswith("\n1 warning\n")


def test_several_notes_are_counted_together(folder: Path, capsys: pytest.CaptureFixture[str]):
    assert main(["check", "clean.md", "broken.md", "quiet.md"]) == 1
    out = capsys.readouterr().out
    assert out.endswith("\n3 notes: 1 error, 1 warning\n")
    assert "--> broken.md:7:9" in out
    assert "--> quiet.md:2:9" in out


def test_a_missing_note_ends_with_2_and_the_others_are_checked(folder: Path, capsys: pytest.CaptureFixture[str]):
    assert main(["check", "claen.md", "broken.md"]) == 2
    out = capsys.readouterr().out
    assert "error[N001]: there is no file `claen.md`\n --> claen.md\n  = help: did you mean `clean.md`?" in out
    assert "error[N005]" in out


def test_a_folder_is_not_a_note(folder: Path, capsys: pytest.CaptureFixture[str]):
    assert main(["check", "."]) == 2
    out = capsys.readouterr().out
    assert "`.` is a folder, and a note is one file" in out
    assert "did you mean `broken.md`, `clean.md` or `quiet.md`?" in out


def test_standard_input_is_a_note_in_the_current_folder(
    folder: Path, capsys: pytest.CaptureFixture[str], monkeypatch: pytest.MonkeyPatch
):
    monkeypatch.setattr(sys, "stdin", io.TextIOWrapper(io.BytesIO(BROKEN.encode())))
    assert main(["check", "-"]) == 1
    assert " --> <stdin>:7:9" in capsys.readouterr().out


def test_json_is_one_document_for_all_notes(folder: Path, capsys: pytest.CaptureFixture[str]):
    assert main(["check", "broken.md", "quiet.md", "gone.md", "--format", "json"]) == 2
    data = json.loads(capsys.readouterr().out)
    found = [
        (one["code"], one["severity"], one["file"], one["line"], one["column"]) for one in data["diagnostics"]
    ]
    assert found == [
        ("N005", "error", "broken.md", 7, 9),
        ("N091", "warning", "quiet.md", 2, 9),
        ("N001", "error", "gone.md", 1, 1),
    ]


def test_sarif_has_the_places_of_the_json(folder: Path, capsys: pytest.CaptureFixture[str]):
    assert main(["check", "--format", "sarif", "broken.md"]) == 1
    (result,) = json.loads(capsys.readouterr().out)["runs"][0]["results"]
    assert result["ruleId"] == "N005"
    assert result["locations"][0]["physicalLocation"]["region"]["startLine"] == 7


def test_a_program_gets_no_colour_and_a_terminal_that_asks_for_none_gets_none(
    folder: Path, capsys: pytest.CaptureFixture[str], monkeypatch: pytest.MonkeyPatch
):
    main(["check", "broken.md"])
    assert "\x1b" not in capsys.readouterr().out
    monkeypatch.setattr("guidec.commands.common.sys.stdout.isatty", lambda: True, raising=False)
    monkeypatch.setenv("TERM", "xterm-256color")
    monkeypatch.delenv("NO_COLOR", raising=False)
    main(["check", "broken.md"])
    assert "\x1b[1;31merror[N005]" in capsys.readouterr().out
    monkeypatch.setenv("NO_COLOR", "1")
    main(["check", "broken.md"])
    assert "\x1b" not in capsys.readouterr().out


# ---------------------------------------------------------------- pictures


@pytest.mark.parametrize(
    ("path", "code"),
    [
        ("in/ok.png", None),
        ("in/../in/ok.png", None),
        ("in/gone.png", "N005"),
        ("../outside.png", "N006"),
        ("in/../../outside.png", "N006"),
        ("/etc/hostname", "N006"),
        ("link.png", "N006"),
        ("linked/outside.png", "N006"),
        ("in", "N007"),
        ("in/empty.png", "N007"),
        ("in/pipe.png", "N007"),
        ("inner.png", None),
        ("in/with%20blank.png", None),
        ("<in/with blank.png>", None),
    ],
)
def test_only_plain_files_inside_the_folder_are_pictures(
    tmp_path: Path, capsys: pytest.CaptureFixture[str], path: str, code: str | None
):
    import os

    home = tmp_path / "home"
    (home / "in").mkdir(parents=True)
    for at in (tmp_path / "outside.png", home / "in" / "ok.png", home / "in" / "with blank.png"):
        at.write_bytes(b"x")
    (home / "in" / "empty.png").touch()
    os.mkfifo(home / "in" / "pipe.png")
    (home / "link.png").symlink_to("../outside.png")
    (home / "linked").symlink_to("..")
    (home / "inner.png").symlink_to("in/ok.png")
    (home / "note.md").write_text(f"{CLEAN}\n![seen from above]({path})\n", encoding="utf-8")
    status = main(["check", str(home / "note.md"), "--format", "json"])
    errors = [one for one in json.loads(capsys.readouterr().out)["diagnostics"] if one["severity"] == "error"]
    if code is None:
        assert errors == []
        assert status == 0
    else:
        assert (errors[0]["line"], status) == (8, 1)
        assert [one["code"] for one in errors] == [code]


# ---------------------------------------------------------------- quiet


def quiet(entry: str, body: str) -> str:
    return f"---\nquiet: {{{entry}}}\n---\n\n{body}"


def codes(folder: Path, text: str, capsys: pytest.CaptureFixture[str]) -> list[str]:
    (folder / "q.md").write_text(text, encoding="utf-8")
    main(["check", "q.md", "--format", "json"])
    return [one["code"] for one in json.loads(capsys.readouterr().out)["diagnostics"]]


def test_a_warning_is_silenced_by_its_code_and_a_reason(folder: Path, capsys: pytest.CaptureFixture[str]):
    body = "# Lamp\n\n## Open\n\n1. Note {screw A: 2x PH1 M3x8}.\n2. Lift off {part lid; class=cover}.\n"
    assert codes(folder, body, capsys) == ["M204"], "a set that nobody undoes is a warning"
    assert codes(folder, quiet('M204: "rusted in, left as it is"', body), capsys) == []


def test_an_error_cannot_be_silenced(folder: Path, capsys: pytest.CaptureFixture[str]):
    assert codes(folder, quiet("N005: the picture will come", BROKEN), capsys) == ["N092", "N005"]


def test_a_reason_is_asked_for(folder: Path, capsys: pytest.CaptureFixture[str]):
    assert codes(folder, quiet('M204: ""', CLEAN), capsys) == ["N093"]


def test_a_reason_with_a_comma_and_no_quotes_is_understood(folder: Path, capsys: pytest.CaptureFixture[str]):
    (folder / "q.md").write_text(quiet("M204: rusted in, left as it is", CLEAN), encoding="utf-8")
    main(["check", "q.md"])
    assert "`quiet` names `left as it is`, which looks like the rest of a reason" in capsys.readouterr().out


def test_an_unknown_code_suggests_known_ones(folder: Path, capsys: pytest.CaptureFixture[str]):
    (folder / "q.md").write_text(quiet("n005: hm", CLEAN), encoding="utf-8")
    main(["check", "q.md", "--format", "json"])
    (found,) = json.loads(capsys.readouterr().out)["diagnostics"]
    assert found["code"] == "N091"
    assert found["suggestions"][0] == "N005"
