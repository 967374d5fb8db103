"""`guidec compile`: folders of outputs, whole or not at all, and marked where the note is not clean."""

from __future__ import annotations

import json
from pathlib import Path

import pytest

from guidec.cli import main
from tests.cli.test_check import BROKEN, CLEAN, QUIET


@pytest.fixture
def folder(tmp_path: Path, monkeypatch: pytest.MonkeyPatch) -> Path:
    monkeypatch.chdir(tmp_path)
    for name, text in {"clean.md": CLEAN, "broken.md": BROKEN, "quiet.md": QUIET}.items():
        (tmp_path / name).write_text(text, encoding="utf-8")
    return tmp_path


def compile_(*arguments: str) -> int:
    return main(["compile", *arguments, "-o", "out", "--no-pdf"])


def files(folder: Path) -> dict[str, bytes]:
    return {at.relative_to(folder).as_posix(): at.read_bytes() for at in folder.rglob("*") if at.is_file()}


def test_a_guide_goes_to_a_folder_named_after_its_title(folder: Path, capsys: pytest.CaptureFixture[str]):
    assert compile_("clean.md") == 0
    assert [at.name for at in (folder / "out").iterdir()] == ["lamp"]
    assert (folder / "out" / "lamp" / "index.html").read_bytes().startswith(b"<!")
    assert capsys.readouterr().out.startswith("clean\nout/lamp: ")


def test_compiling_twice_gives_the_same_bytes(folder: Path):
    compile_("clean.md")
    first = files(folder / "out")
    compile_("clean.md")
    assert files(folder / "out") == first
    assert "lamp/index.html" in first


def test_a_note_with_errors_is_compiled_and_marked_and_ends_with_1(
    folder: Path, capsys: pytest.CaptureFixture[str]
):
    assert compile_("broken.md") == 1
    page = (folder / "out" / "lamp" / "index.html").read_text(encoding="utf-8")
    assert "not clean" in page.lower()
    assert "marked not clean" in capsys.readouterr().out
    compile_("clean.md")
    assert "not clean" not in (folder / "out" / "lamp" / "index.html").read_text(encoding="utf-8").lower()


def test_strict_writes_nothing_for_a_note_with_errors(folder: Path, capsys: pytest.CaptureFixture[str]):
    compile_("clean.md")
    before = files(folder / "out")
    assert compile_("broken.md", "--strict") == 1
    assert files(folder / "out") == before
    assert capsys.readouterr().out.endswith("broken.md: nothing written\n")


def test_strict_lets_warnings_pass(folder: Path):
    assert compile_("quiet.md", "--strict") == 0
    assert (folder / "out" / "lamp" / "index.html").exists()


def test_a_note_that_is_not_there_does_not_stop_the_others(folder: Path):
    assert compile_("gone.md", "clean.md") == 2
    assert (folder / "out" / "lamp" / "index.html").exists()


def test_two_notes_of_one_title_do_not_overwrite_each_other(folder: Path, capsys: pytest.CaptureFixture[str]):
    assert compile_("clean.md", "quiet.md") == 2
    out = capsys.readouterr().out
    assert "error[N008]: two notes in this call, `clean.md` and `quiet.md`, both go to `out/lamp`" in out


def test_a_file_of_somebody_else_is_not_overwritten(folder: Path, capsys: pytest.CaptureFixture[str]):
    (folder / "out" / "lamp").mkdir(parents=True)
    (folder / "out" / "lamp" / "index.html").write_text("mine")
    assert compile_("clean.md") == 2
    assert "error[N008]: `out/lamp/index.html` was not written by guidec" in capsys.readouterr().out
    assert (folder / "out" / "lamp" / "index.html").read_text() == "mine"


def test_a_place_that_cannot_be_written_is_said(folder: Path, capsys: pytest.CaptureFixture[str]):
    (folder / "out").write_text("a file")
    assert compile_("clean.md") == 2
    assert "error[N008]" in capsys.readouterr().out


def test_json_names_the_folders_the_files_and_the_findings(folder: Path, capsys: pytest.CaptureFixture[str]):
    assert compile_("broken.md", "--format", "json") == 1
    data = json.loads(capsys.readouterr().out)
    (guide,) = data["guides"]
    assert guide["note"] == "broken.md"
    assert guide["folder"] == "out/lamp"
    assert set(guide["files"]) == {name.removeprefix("lamp/") for name in files(folder / "out")} - {".guidec"}
    assert [one["code"] for one in data["diagnostics"]] == ["N005"]


def test_a_picture_is_published_without_what_the_camera_wrote_into_it(folder: Path):
    from PIL import Image

    exif = Image.Exif()
    exif[0x010F] = "Camera Maker 4711"
    exif[0x0112] = 6
    Image.new("RGB", (40, 20), "grey").save(folder / "a.jpg", exif=exif, comment=b"my kitchen table")
    (folder / "clean.md").write_text(CLEAN + "\n![from above](a.jpg)\n", encoding="utf-8")
    assert compile_("clean.md") == 0
    written = files(folder / "out")
    photos = [data for name, data in written.items() if name.startswith("lamp/pictures/")]
    assert len(photos) == 2, "one for every browser, one that is smaller"
    assert b"Camera Maker 4711" in (folder / "a.jpg").read_bytes()
    for data in written.values():
        assert b"Camera Maker 4711" not in data
        assert b"my kitchen table" not in data
    import io

    assert [Image.open(io.BytesIO(photo)).size for photo in photos] == [(20, 40)] * 2, "turned upright"


def test_a_picture_that_is_none_leaves_the_rest_whole(folder: Path, capsys: pytest.CaptureFixture[str]):
    (folder / "a.jpg").write_bytes(b"\xff\xd8\xff\xe0 not much of a picture")
    (folder / "clean.md").write_text(CLEAN + "\n![from above](a.jpg)\n", encoding="utf-8")
    assert compile_("clean.md") == 1
    assert "error[N007]: picture `a.jpg` cannot be read" in capsys.readouterr().out
    assert b"from above" in (folder / "out" / "lamp" / "index.html").read_bytes()


def test_without_pango_everything_but_the_pdf_is_written(
    folder: Path, capsys: pytest.CaptureFixture[str], monkeypatch: pytest.MonkeyPatch
):
    from guidec.outputs import pdf

    def lacking() -> None:
        raise pdf.CannotPrintError("the PDF needs Pango")

    monkeypatch.setattr(pdf, "_printer", lacking)
    assert main(["compile", "clean.md", "-o", "out"]) == 0
    assert (folder / "out" / "lamp" / "index.html").exists()
    assert not (folder / "out" / "lamp" / "guide.pdf").exists()
    assert "warning[N009]: guide.pdf was not made: the PDF needs Pango\n" in capsys.readouterr().out


def test_the_pdf_is_made(folder: Path):
    assert main(["compile", "clean.md", "-o", "out"]) == 0
    assert (folder / "out" / "lamp" / "guide.pdf").read_bytes().startswith(b"%PDF-")


def test_progress_is_shown_on_a_terminal_only(
    folder: Path, capsys: pytest.CaptureFixture[str], monkeypatch: pytest.MonkeyPatch
):
    compile_("clean.md")
    assert capsys.readouterr().err == ""
    monkeypatch.setattr("sys.stderr.isatty", lambda: True, raising=False)
    compile_("clean.md")
    err = capsys.readouterr().err
    assert "clean.md: check …" in err
    assert "clean.md: write …" in err
    assert err.endswith("\r\x1b[K"), "and wiped away at the end"


def test_cautions_that_the_compiler_adds_are_on_the_page_and_marked(folder: Path):
    note = (
        "---\npower: battery\nisolate: cell lead\n---\n\n# Lamp\n\n## Open\n\n"
        "1. Unplug {connector cell lead: plug; from=cell}.\n"
        "2. Pry out {part cell: 800 mAh, 3.7 V; class=battery} with {tool plastic card}.\n"
    )
    (folder / "clean.md").write_text(note, encoding="utf-8")
    compile_("clean.md")
    data = json.loads((folder / "out" / "lamp" / "bom.json").read_bytes())
    added = [hazard for hazard in data["hazards"] if hazard["added"]]
    assert added
    page = (folder / "out" / "lamp" / "index.html").read_text(encoding="utf-8")
    assert page.count('class="added"') == len(added)


PARTS = """---
title: Lamp
language: en
power: none
---

# Lamp

## Open

1. Undo {screw A: 2x PH0 M2x6}.
2. Lift off {part lid}.
3. Lift out {part main board; class=board}.
4. Look at {connector socket}.

## Frame {after lid}

1. Lift out {part frame; under=bezel}.
"""


def test_the_way_to_a_part_alone_comes_besides_all_else(folder: Path):
    (folder / "parts.md").write_text(PARTS, encoding="utf-8")
    compile_("parts.md")
    before = files(folder / "out")
    compile_("parts.md", "--for", "Main  Board", "--for", "lid")
    after = files(folder / "out")
    added = {name.removeprefix("lamp/") for name in after.keys() - before.keys()}
    tables = ("bom.json", "routes.json", "parts.csv", "fasteners.csv", "tools.csv", "supplies.csv")
    assert added == {f"route-{part}/{name}" for part in ("main-board", "lid") for name in tables}
    assert [name for name in before if after.get(name) != before[name]] == ["lamp/.guidec"]  # the list of files
    bill = json.loads(after["lamp/route-lid/bom.json"])
    assert [part["id"] for part in bill["parts"]] == ["lid"]
    found = json.loads(after["lamp/route-lid/routes.json"])["routes"]
    assert [route["part"] for route in found] == ["lid"]


def test_the_way_alone_is_printed_too(folder: Path):
    (folder / "parts.md").write_text(PARTS, encoding="utf-8")
    main(["compile", "parts.md", "-o", "out", "--for", "lid"])
    assert (folder / "out" / "lamp" / "route-lid.pdf").read_bytes().startswith(b"%PDF")
    assert (folder / "out" / "lamp" / "guide.pdf").is_file()


@pytest.mark.parametrize(
    ("typed", "said"),
    [
        ("main bord", "the note has no part `main bord`\n  = help: did you mean `main board`?"),
        ("socket", "`socket` is no part, but a connector"),
        ("xyzzy", "the note has no part `xyzzy`\n  = help: `guidec route NOTE` lists all parts"),
    ],
)
def test_an_unknown_part_stops_the_call_and_names_the_nearest(
    folder: Path, capsys: pytest.CaptureFixture[str], typed: str, said: str
):
    (folder / "parts.md").write_text(PARTS, encoding="utf-8")
    assert compile_("parts.md", "--for", typed) == 2
    assert said in capsys.readouterr().err
    assert not (folder / "out").exists()


def test_a_part_that_nothing_reaches_stops_the_call(folder: Path, capsys: pytest.CaptureFixture[str]):
    text = PARTS + "\n{part lens} is not touched.\n"
    (folder / "parts.md").write_text(text, encoding="utf-8")
    assert compile_("parts.md", "--for", "lens") == 2
    assert "no route leads to `lens`" in capsys.readouterr().err
