"""The tray sheet, measured: lengths in the PDF's own points (pdfplumber) against the dimensions of the standards.

Heads: ISO 7045 (pan), ISO 7046 (countersunk, length over all), ISO 4762 (socket); typed here.
"""

from __future__ import annotations

import io
import re
from pathlib import Path
from typing import Any

import pdfplumber
import pytest

from guidec import compile as compiler
from guidec.model import build
from guidec.model.types import Guide
from guidec.notes import read
from guidec.outputs import bag_labels, pdf
from guidec.outputs.overlay import FONT
from guidec.outputs.tray import layout
from guidec.outputs.tray import sheet as tray
from guidec.outputs.tray.drawing import above
from guidec.outputs.tray.fields import fields
from guidec.outputs.words import words
from guidec.source import Source
from guidec.trade.heads import form

NOTE = """---
title: Desk radio
subject: {maker: Halden, model: R2}
language: en
power: none
---

# Desk radio

## Open

1. Undo {screw A: 4x PH1 M3x8; head=pan; torque=0.5 N·m}.
2. Undo {screw K: 1x PH0 M2x5; head=pan}.
3. Lift off {part back}.

## Board

1. Undo {screw B: 3x PH1 M3x6; head=pan}.
2. Undo {screw C: 2x PH2 M4x12; head=countersunk}, {screw D: 2x H2.5 M3x10; head=socket}.
3. Undo {screw N: 2x NUT5.5 M3}.
4. Lift out {part board}.
"""
POINTS = 72 / 25.4
HEADS = {"A": (5.6, 2.4, 3, 8), "K": (4, 1.6, 2, 5), "B": (5.6, 2.4, 3, 6), "D": (5.5, 3, 3, 10)}
"""Head diameter, head height, shank diameter, length under the head, in mm."""


def guide(text: str = NOTE) -> Guide:
    return build(read(Source.of("note.md", text))[0])[0]


@pytest.fixture(scope="module")
def page() -> Any:
    """The tray's page of the PDF."""
    made = pdf.sheet(guide(), clean=True, data={"tray": tray.section(guide())}, sections=("title", "tray"))
    opened = pdfplumber.open(io.BytesIO(made))
    return next(one for one in opened.pages if "Donotmix" in said(one))


def said(page: Any) -> str:
    """The text of a page without its blanks, which the PDF does not hold."""
    return "".join((page.extract_text() or "").split())


def lengths(page: Any) -> list[tuple[float, float]]:
    """Width and height in mm of all that is drawn."""
    found = [*page.rects, *page.lines, *page.curves]
    return [(abs(one["x1"] - one["x0"]) / POINTS, abs(one["bottom"] - one["top"]) / POINTS) for one in found]


def drawn(page: Any, width: float, height: float) -> int:
    return sum(abs(w - width) < 0.05 and abs(h - height) < 0.05 for w, h in lengths(page))


def test_the_bar_is_a_hundred_millimetres_long(page: Any):
    assert drawn(page, 100, 0) == 1


@pytest.mark.parametrize("name", HEADS)
def test_head_and_shank_measure_what_the_standards_say(page: Any, name: str):
    head, high, size, length = HEADS[name]
    shanks = drawn(page, length, size)
    assert shanks >= 1
    assert drawn(page, head, head) >= 1, "from above"
    assert drawn(page, high, head) >= 1, "from the side"


def test_a_countersunk_length_counts_over_all(page: Any):
    assert drawn(page, 2.7, 8.4) == 3, "ISO 7046, M4: the drawing and two places"
    assert drawn(page, 12 - 2.7, 4) == 3


def test_each_screw_has_a_place_with_its_outline_in_it(page: Any):
    assert drawn(page, 8, 3) == 1 + 4, "the drawing and a place for each of A"
    assert drawn(page, 6, 3) == 1 + 3


def test_a_nut_is_as_wide_as_its_key(page: Any):
    assert drawn(page, 2.4, 5.5) == 1 + 2, "ISO 4032, M3"


def test_the_words_of_a_field(page: Any):
    text = said(page)
    for words_ in ("4×PH1M3×8", "Operation10", "0.5N·m", "Printat100%", "Donotmix:BisnotA:2mmshorter(6,not8)"):
        assert words_ in text


def test_sets_come_in_the_order_they_come_out_with_those_like_them_beside():
    assert [one.name for one in fields(guide(), words("en"))] == ["A", "B", "K", "C", "D", "N"]


def test_what_nobody_said_is_assumed_and_said_so():
    bare = guide("# R\n\n## Open\n\n1. Undo {screw Z: 2x PH1}.\n2. Lift off {part lid}.\n")
    (field,) = fields(bare, words("en"))
    assert field.form.assumed == ("size", "length", "head")
    svg = tray.files(bare)["tray.svg"].decode()
    for words_ in ("size assumed", "length assumed", "pan head assumed"):
        assert words_ in svg


def test_the_svg_is_a_whole_sheet_in_millimetres():
    svg = tray.files(guide())["tray.svg"].decode()
    assert '<svg xmlns="http://www.w3.org/2000/svg" width="210mm" height="297mm" viewBox="0 0 210 297">' in svg
    assert 'width="215.9mm" height="279.4mm"' in tray.files(guide(), "letter")["tray.svg"].decode()
    assert re.search(r'd="M0 [\d.]+H100"', svg)


def test_many_screws_go_on_over_pages_and_none_is_lost():
    many = guide("# R\n\n## Open\n\n1. Undo {screw A: 300x PH1 M3x8}.\n2. Lift off {part lid}.\n")
    made = tray.files(many)
    svgs = [data.decode() for name, data in made.items() if name.endswith(".svg")]
    assert len(svgs) > 1
    assert sum(svg.count('class="place"') for svg in svgs) == 300
    first, *others = tray.tray(many)
    assert first.height <= 297 - 72 + 0.01, "with a heading above it"
    assert all(page.height <= 297 - 44 + 0.01 for page in others)
    sheet = pdf.sheet(many, clean=True, data={"tray": tray.section(many)}, sections=("tray",))
    with pdfplumber.open(io.BytesIO(sheet)) as opened:
        assert len(opened.pages) == len(svgs), "no page runs over"


def test_a_page_marks_a_note_that_is_not_clean():
    assert b"Not clean" in tray.files(guide(), clean=False)["tray.html"]


@pytest.mark.parametrize("sheet", ["a4", "a4-5x13", "letter"])
def test_labels_hold_name_operation_device_and_code(sheet: str):
    made = bag_labels.labels(guide(), sheet=sheet, address="https://example.org/radio/")
    assert made
    with pdfplumber.open(io.BytesIO(made)) as opened:
        text = said(opened.pages[0])
        width = opened.pages[0].width / POINTS
    assert abs(width - (215.9 if sheet == "letter" else 210)) < 0.1
    for words_ in ("back", "board", "Operation10", "HaldenR2"):
        assert words_ in text


def test_a_code_reads_as_the_parts_id_or_its_address():
    assert bag_labels.code(guide(), "back", "") == "desk-radio#back"
    assert bag_labels.code(guide(), "back", "https://example.org/r/") == "https://example.org/r/#thing-back"


def test_the_code_in_the_pdf_can_be_read():
    import subprocess
    import tempfile
    from pathlib import Path

    zxing = pytest.importorskip("zxingcpp", reason="a reader of QR codes from outside")
    from PIL import Image

    made = bag_labels.labels(guide(), address="https://example.org/radio/")
    assert made
    with tempfile.TemporaryDirectory() as folder:
        path = Path(folder) / "l.pdf"
        path.write_bytes(made)
        subprocess.run(["pdftoppm", "-r", "200", "-png", str(path), str(path.with_suffix(""))], check=True)
        (image,) = Path(folder).glob("*.png")
        found = {one.text for one in zxing.read_barcodes(Image.open(image))}
    assert found == {f"https://example.org/radio/#thing-{part}" for part in ("back", "board")}


@pytest.mark.parametrize("drive", ["PH1", "PZ1", "JIS1", "SL4", "H2.5", "T10", "T10H", "5L1.2", "3W2.6"])
def test_every_drive_of_the_language_has_its_recess_drawn(drive: str) -> None:
    shape = form(3, 8, "pan", drive)
    drawn_ = above(shape, drive, 0, 0)
    assert 'class="head"' in drawn_
    assert 'fill="#000"' in drawn_
    assert ('class="pin"' in drawn_) == (drive == "T10H")


def test_sets_of_one_thread_are_told_apart_up_to_half_their_length() -> None:
    """Own assumption: 10 and 16 mm of one thread are taken for one another, of unlike threads they are not."""
    text = (
        "# R\n\n## Open\n\n1. Undo {screw A: 2x PH2 M4x10}, {screw B: 2x PH2 M4x16} and {screw C: 2x PH2 M4x40}.\n"
        "2. Undo {screw D: 2x PH2 M3.5x16}.\n3. Lift off {part lid}.\n"
    )
    told = {field.id: dict(field.alike) for field in fields(guide(text), words("en"))}
    assert told["b"] == {"A": "6 mm longer (16, not 10)", "D": "0.5 mm thicker (4, not 3.5)"}
    assert told["c"] == {}
    assert "A" not in told["d"]


def test_the_codes_lead_to_the_address_that_the_note_gives_unless_told_otherwise(
    monkeypatch: pytest.MonkeyPatch, tmp_path: Path
) -> None:
    given: list[str] = []
    monkeypatch.setattr(bag_labels, "labels", lambda _, *, sheet, address: given.append(address))
    note = tmp_path / "radio.md"
    note.write_text(
        NOTE.replace("power: none", "power: none\naddress: https://shop.example/r2.html"), encoding="utf-8"
    )
    bundle = compiler.load(note)
    for typed in ("", "https://other.example/"):
        built = compiler.build(bundle, compiler.Options(address=typed, cache=tmp_path / "cache"))
        assert not [one for one in built.findings if one.code.startswith("N")]
    assert given == ["https://shop.example/r2.html", "https://other.example/"]


@pytest.mark.parametrize("words_", ["Pull the battery out by its tabs", "main microphone", "WWW MMM", "a" * 90])
@pytest.mark.parametrize("bold", [False, True])
def test_a_line_of_a_label_stays_within_its_width(words_: str, bold: bool) -> None:
    """Measured in the PDF's own points, in the font that comes with the project."""
    line = layout.text(0, 6, 4, words_, 30, bold=bold)
    box = f'<svg width="60mm" height="10mm" viewBox="0 0 60 10"><g font-family="{FONT}">{line}</g></svg>'
    made = pdf.typeset(f'<html lang="en"><title>x</title>{box}</html>', pdf.faces() + "@page { margin: 0 }", {})
    with pdfplumber.open(io.BytesIO(made)) as opened:
        chars = opened.pages[0].chars
    left, right = min(char["x0"] for char in chars), max(char["x1"] for char in chars)
    assert (right - left) / POINTS <= 30.2
    assert "".join(char["text"] for char in chars)[:3] == words_[:3]
