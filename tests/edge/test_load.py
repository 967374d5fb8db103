"""What a file can be, and that each trouble with it has words."""

from __future__ import annotations

import os
from pathlib import Path

import pytest

from guidec.edge.load import MOST_BYTES, Bundle, load, of_bytes
from guidec.edge.near import near_files, near_notes
from guidec.messages import diagnose, text


def codes(bundle: Bundle) -> list[tuple[str, str]]:
    text(diagnose(bundle.source, bundle.findings))
    return [(finding.code, finding.variant) for finding in bundle.findings]


def test_a_plain_note_is_its_text_with_line_ends_made_one(tmp_path: Path):
    (tmp_path / "n.md").write_bytes(b"\xef\xbb\xbf# A\r\nb\rc\n")
    bundle = load(tmp_path / "n.md")
    assert bundle.source.text == "# A\nb\nc\n"
    assert bundle.folder == tmp_path.resolve()
    assert bundle.readable
    assert codes(bundle) == []


def test_a_missing_note_suggests_its_neighbours(tmp_path: Path):
    (tmp_path / "radio.md").write_text("# R\n")
    bundle = load(tmp_path / "raido.md")
    assert codes(bundle) == [("N001", "")]
    assert bundle.findings[0].suggestions == (str(tmp_path / "radio.md"),)
    assert not bundle.found
    assert not bundle.readable


def test_a_folder_suggests_the_notes_in_it(tmp_path: Path):
    (tmp_path / "a.md").write_text("# A\n")
    (tmp_path / "b.txt").write_text("# B\n")
    bundle = load(tmp_path)
    assert codes(bundle) == [("N001", "folder")]
    assert bundle.findings[0].suggestions == (str(tmp_path / "a.md"),)


def test_a_pipe_is_not_waited_for(tmp_path: Path):
    os.mkfifo(tmp_path / "n.md")
    assert codes(load(tmp_path / "n.md")) == [("N001", "special")]


@pytest.mark.skipif(os.geteuid() == 0, reason="the administrator may read everything")
def test_a_note_that_may_not_be_read(tmp_path: Path):
    (tmp_path / "n.md").write_text("# A\n")
    (tmp_path / "n.md").chmod(0)
    assert codes(load(tmp_path / "n.md")) == [("N001", "denied")]


def test_a_name_that_no_system_takes(tmp_path: Path):
    assert codes(load(tmp_path / ("x" * 5000)))[0][0] == "N001"


def test_an_old_encoding_is_named_with_its_first_place_and_read_all_the_same():
    bundle = of_bytes("n.md", "# Ä\n\nheat to 70 °C\n".encode("cp1252"), Path())
    assert codes(bundle) == [("N002", "")]
    assert bundle.source.text == "# Ä\n\nheat to 70 °C\n"
    place = bundle.source.place(bundle.findings[0].span.start)
    assert (place.line, place.column) == (1, 3)
    assert bundle.findings[0].facts["byte"] == "0xC4"


def test_the_place_of_the_first_wrong_byte_is_right_after_signs_of_many_bytes():
    bundle = of_bytes("n.md", "# wide 漢字 then ".encode() + b"\xb0C\n", Path())
    finding = bundle.findings[0]
    assert bundle.source.text == "# wide 漢字 then °C\n"
    assert bundle.source.text[finding.span.start] == "°"


@pytest.mark.parametrize("encoding", ["utf-16", "utf-32"])
def test_wide_encodings_are_named_and_read(encoding: str):
    bundle = of_bytes("n.md", "# Ä\n".encode(encoding), Path())
    assert codes(bundle) == [("N002", "other")]
    assert bundle.source.text == "# Ä\n"


@pytest.mark.parametrize("data", [b"\x89PNG\r\n\x1a\n\0\0\0\rIHDR", b"PK\x03\x04\0\0\0\xff", b"# a\0b\n"])
def test_what_is_no_text_is_not_read_as_text(data: bytes):
    bundle = of_bytes("n.md", data, Path())
    assert codes(bundle) == [("N002", "binary")]
    assert not bundle.readable


@pytest.mark.parametrize("data", [b"", b" \n\t\n", b"\xef\xbb\xbf", b"\xef\xbb\xbf\r\n"])
def test_an_empty_note_is_one_message(data: bytes):
    bundle = of_bytes("n.md", data, Path())
    assert codes(bundle) == [("N003", "")]
    assert bundle.found
    assert not bundle.readable


def test_a_note_has_a_bound():
    assert codes(of_bytes("n.md", b"x" * (MOST_BYTES + 1), Path())) == [("N004", "")]
    assert codes(of_bytes("n.md", b"x" * MOST_BYTES, Path())) == []


def test_a_picture_of_another_name_with_the_same_suffix_is_not_suggested(tmp_path: Path):
    for name in ("front.jpeg", "front-off.jpg", "zebra.jpg", "FRONT.png"):
        (tmp_path / name).touch()
    near = near_files(tmp_path, "front.jpg")
    assert set(near) == {"front.jpeg", "FRONT.png", "front-off.jpg"}
    assert near[-1] == "front-off.jpg"


def test_only_notes_are_suggested_for_a_note_that_is_not_there(tmp_path: Path):
    for name in ("fill.py", "lamp.md", "lamp.png", "pump.md"):
        (tmp_path / name).touch()
    assert near_notes(tmp_path, "nofile.md") == ()
    assert near_notes(tmp_path, "lmap.md") == ("lamp.md",)
