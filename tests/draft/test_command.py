"""`guidec draft`: what it writes where, what it says, and what it never writes over."""

from __future__ import annotations

import json
from pathlib import Path

import pytest

from guidec.cli import main
from tests.draft.film import film

TALK = """0:01 welcome back everybody
0:05 there are four t5 screws at the back
0:09 take those out
0:12 and the back cover lifts off
0:16 unplug the battery with a spud jar
0:20 then pry out the battery with a plastic card
0:40 lift out the fan
"""


@pytest.fixture
def transcript(tmp_path: Path) -> Path:
    path = tmp_path / "talk.txt"
    path.write_text(TALK, encoding="utf-8")
    return path


def call(*arguments: object) -> int:
    return main(["draft", *map(str, arguments)])


def test_a_draft_is_written_and_summed_up(transcript, tmp_path, capsys):
    note = tmp_path / "out" / "note.md"
    assert (
        call(transcript, "-o", note, "--title", "Lamp", "--maker", "Nimbora", "--model", "L1", "--kind", "lamp")
        == 0
    )
    said = capsys.readouterr().out
    assert "4 operations, 5 actions, 1 screw set, 3 parts" in said
    assert "6 of 7 cues used, 1 left out" in said
    assert "0:01 welcome back everybody" in said
    assert "“spud jar” → spudger" in said
    assert 'title: "Lamp"' in note.read_text(encoding="utf-8")
    assert main(["check", str(note)]) == 0


def test_without_an_out_the_draft_is_printed_and_the_summary_kept_apart(transcript, capsys):
    assert call(transcript) == 0
    captured = capsys.readouterr()
    assert captured.out.startswith("---\ntitle: ")
    assert "4 operations" in captured.err


def test_placeholders_are_named_by_check(transcript, tmp_path, capsys):
    note = tmp_path / "note.md"
    call(transcript, "-o", note, "--title", "Lamp")
    capsys.readouterr()
    main(["check", "--format", "json", str(note)])
    found = json.loads(capsys.readouterr().out)["diagnostics"]
    assert [row["message"] for row in found if row["code"] == "D102"] == [
        "`maker` still holds the placeholder `MAKER?`",
        "`model` still holds the placeholder `MODEL?`",
        "`kind` still holds the placeholder `KIND?`",
    ]
    (left,) = [row["message"] for row in found if row["code"] == "D103"]
    marks = sum(row["code"] == "D101" for row in found)
    assert left == f"{marks} of {marks} marks are left to confirm"


def test_the_count_goes_down_as_question_marks_go(transcript, tmp_path, capsys):
    note = tmp_path / "note.md"
    call(transcript, "-o", note)
    note.write_text(note.read_text(encoding="utf-8").replace("{? ", "{", 3), encoding="utf-8")
    capsys.readouterr()
    main(["check", "--format", "json", str(note)])
    found = json.loads(capsys.readouterr().out)["diagnostics"]
    (left,) = [row["message"].split() for row in found if row["code"] == "D103"]
    assert int(left[2]) - int(left[0]) == 3


def test_a_note_that_exists_is_never_written_over(transcript, tmp_path, capsys):
    note = tmp_path / "note.md"
    note.write_text("# Mine\n", encoding="utf-8")
    for beside in ("note.draft.md", "note.draft-2.md"):
        assert call(transcript, "-o", note) == 0
        assert f"the draft is in {tmp_path / beside}" in capsys.readouterr().out
        assert (tmp_path / beside).read_text(encoding="utf-8").startswith("---\n")
    assert note.read_text(encoding="utf-8") == "# Mine\n"


def test_merging_adds_what_is_new_and_touches_no_line(transcript, tmp_path, capsys):
    note = tmp_path / "note.md"
    call(transcript, "-o", note)
    text = note.read_text(encoding="utf-8")
    start = text.index("1. Lift out {? part fan")
    mine = (
        text[:start].replace("{? ", "{").replace("Take out {screw A", "Carefully undo {screw A")
        + "\nMy own words.\n"
    )
    note.write_text(mine, encoding="utf-8")
    capsys.readouterr()
    assert call(transcript, "-o", note, "--merge") == 0
    assert "1 lines added, 4 known already" in capsys.readouterr().out
    merged = note.read_text(encoding="utf-8")
    assert "Lift out {? part fan" in merged
    lines = iter(merged.split("\n"))
    assert all(line in lines for line in mine.rstrip("\n").split("\n") if line)  # all of it, in its order
    assert main(["check", str(note)]) == 0


def test_merging_the_same_again_changes_nothing(transcript, tmp_path, capsys):
    note = tmp_path / "note.md"
    call(transcript, "-o", note)
    before = note.read_bytes()
    assert call(transcript, "-o", note, "--merge") == 0
    assert note.read_bytes() == before


def test_what_would_contradict_the_note_stays_out_and_is_said(transcript, tmp_path, capsys):
    note = tmp_path / "note.md"
    note.write_text(
        "# Lamp\n\n## Open it\n\n1. Lift off {part fan}.\n2. Undo {screw A: 2x PH0}.\n", encoding="utf-8"
    )
    assert call(transcript, "-o", note, "--merge") == 0
    assert main(["check", str(note)]) == 0
    assert note.read_text(encoding="utf-8").count("part fan") == 1
    assert "left out, as it would contradict the note: 1. Lift out {? fan}. @0:40" in capsys.readouterr().out


def test_a_lexicon_of_ones_own(tmp_path, capsys):
    path = tmp_path / "talk.txt"
    path.write_text("0:01 lift off the flooble with the snorkler\n", encoding="utf-8")
    lexicon = tmp_path / "own.yaml"
    lexicon.write_text("parts: {shield: flooble}\ntools: [snorkler]\n", encoding="utf-8")
    assert call(path, "--lexicon", lexicon) == 0
    assert "Lift off {? part flooble; class=shield} with {? tool snorkler}." in capsys.readouterr().out


@pytest.mark.parametrize("text", ["[1, 2]", "parts: x", "a: [", "tools: {x: y}"])
def test_a_broken_lexicon_is_refused_in_words(transcript, tmp_path, text, capsys):
    lexicon = tmp_path / "own.yaml"
    lexicon.write_text(text, encoding="utf-8")
    assert call(transcript, "--lexicon", lexicon) == 2
    assert "is no lexicon" in capsys.readouterr().err


def test_json_for_programs(transcript, tmp_path, capsys):
    assert call(transcript, "-o", tmp_path / "note.md", "--format", "json") == 0
    data = json.loads(capsys.readouterr().out)
    assert (data["actions"], data["cues"], data["cues_left_out"]) == (5, 7, 1)
    assert data["corrected"] == [{"at": pytest.approx(17.5, abs=2), "heard": "spud jar", "meant": "spudger"}]
    assert data["left_out"][0]["talk"] is True
    assert data["left_out_share"] == pytest.approx(0.09, abs=0.02)


@pytest.mark.parametrize(
    ("data", "words"), [(b"", "empty"), (b"no times here", "no line"), (None, "cannot be read")]
)
def test_what_is_no_transcript(tmp_path, data, words, capsys):
    path = tmp_path / "talk.txt"
    if data is not None:
        path.write_bytes(data)
    assert call(path) == 2
    assert words in capsys.readouterr().err


def test_stills_are_saved_beside_the_note_and_placed_in_it(transcript, tmp_path, capsys):
    pytest.importorskip("av")
    video = film(tmp_path / "talk.mp4", [number / 25 for number in range(30 * 25)])
    note = tmp_path / "note.md"
    assert call(transcript, "-o", note, "--video", video) == 0
    said = capsys.readouterr().out
    assert "0:40 is past the end of the video" in said
    text = note.read_text(encoding="utf-8")
    saved = sorted(path.name for path in (tmp_path / "note-stills").iterdir())
    assert f"{len(saved)} stills in" in said
    assert len(saved) >= 5
    assert all(f"](note-stills/{name})" in text for name in saved)
    assert "![The back cover coming off, at 0:12](note-stills/" in text
    capsys.readouterr()
    assert main(["check", str(note)]) == 0
    assert main(["compile", str(note), "-o", str(tmp_path / "out"), "--no-pdf"]) == 0


def test_stills_need_a_place(transcript, tmp_path, capsys):
    assert call(transcript, "--video", tmp_path / "x.mp4") == 2
    assert "`--video` needs `--out`" in capsys.readouterr().err


def test_a_video_that_cannot_be_read_is_said(transcript, tmp_path, capsys):
    pytest.importorskip("av")
    video = tmp_path / "x.mp4"
    video.write_bytes(b"nothing")
    assert call(transcript, "-o", tmp_path / "note.md", "--video", video) == 2
    assert "cannot be opened" in capsys.readouterr().err
