"""The bench sheet as PDF.

Tagging: ISO 14289-1 (PDF/UA-1) as the PyPI package `page-validation` checks it. Syntax: `qpdf --check`. Text,
pages and drawing: `pdftotext`, `pdfinfo` and `pdftoppm` of poppler. Paper: ISO 216 (A4), ANSI/ASME Y14.1 (Letter).
"""

from __future__ import annotations

import io
import json
import os
import re
import subprocess
import sys
from collections.abc import Callable
from pathlib import Path

import page as pdf_checker
import pytest
from PIL import Image

from guidec import compile as compiler
from guidec.model.types import Guide
from guidec.outputs import pdf

from .conftest import NOTES, REPOSITORY, SAMPLES, guide_at, pictures_of

Note = Callable[[str], Guide]
PAGES = (NOTES / "every.md", NOTES / "klein.md", *SAMPLES)


@pytest.fixture(scope="module")
def sheets(tmp_path_factory: pytest.TempPathFactory) -> dict[str, Path]:
    """The sheets of all notes as files; `klein` is not clean."""
    folder, made = tmp_path_factory.mktemp("sheets"), {}
    for path in PAGES:
        made[path.stem] = folder / f"{path.stem}.pdf"
        content = pdf.sheet(guide_at(path), clean=path.stem != "klein", files=pictures_of(path))
        made[path.stem].write_bytes(content)
    return made


def run(*command: str | Path) -> str:
    return subprocess.run([str(part) for part in command], capture_output=True, text=True, check=True).stdout


def words(text: str) -> str:
    return " ".join(text.split())


def read(path: Path, *options: str) -> str:
    """The text of a PDF in reading order."""
    return words(run("pdftotext", "-raw", *options, path, "-"))


def _note(stem: str) -> Path:
    return next(path for path in PAGES if path.stem == stem)


def pages(path: Path) -> list[str]:
    return run("pdftotext", "-layout", path, "-").split("\f")[:-1]


@pytest.mark.parametrize("name", [path.stem for path in PAGES])
def test_a_checker_of_pdf_ua_finds_no_failure(sheets: dict[str, Path], name: str) -> None:
    report = str(pdf_checker.validate_pdf(str(sheets[name]), profile="ua1"))
    assert "no failures" in report, report
    assert int(re.findall(r"Rules: (\d+) passed", report)[0]) > 90


def test_the_checker_would_find_an_untagged_file(tmp_path: Path) -> None:
    from weasyprint import HTML

    plain = tmp_path / "plain.pdf"
    HTML(string="<h1>no tags</h1>").write_pdf(plain)
    assert "no failures" not in str(pdf_checker.validate_pdf(str(plain), profile="ua1"))


@pytest.mark.parametrize("name", [path.stem for path in PAGES])
def test_the_syntax_is_sound(sheets: dict[str, Path], name: str) -> None:
    assert "No syntax or stream encoding errors" in run("qpdf", "--check", sheets[name])


@pytest.mark.parametrize("path", PAGES, ids=lambda path: path.stem)
def test_the_text_holds_every_action_and_hazard_of_the_note(sheets: dict[str, Path], path: Path) -> None:
    """Every word of every action, in order, in the line that the action stands in."""
    guide, whole = guide_at(path), _bare(run("pdftotext", "-raw", sheets[path.stem], "-"))
    assert guide.actions or path.stem == "klein"
    for action in guide.actions.values():
        clause = _bare(action.text)
        assert clause in whole, action.text
    for operation in guide.operations:
        assert _bare(operation.title) in whole
        for hazard in operation.hazards:
            assert _bare(hazard.text) in whole


def _bare(text: str) -> str:
    """Letters and digits only: line ends, small capitals and units typed another way do not count."""
    return re.sub(r"\W+", "", text).casefold()


def test_pages_carry_their_number_the_device_and_the_operation(sheets: dict[str, Path]) -> None:
    found = pages(sheets["pocket-phone"])
    assert len(found) > 5
    for number, text in enumerate(found, 1):
        assert f"page {number} of {len(found)}" in text
    assert all("Ambervale Leaf 2" in text.split("\n")[0] for text in found[1:])
    heads = [words(text.split("\n")[0]) for text in found[1:]]
    known = {f"{one.number} {one.title}" for one in guide_at(_note("pocket-phone")).operations}
    lists = {"Lay out before you start", "Operations", "Bill of materials", "Index of things"}
    assert all(any(name in head for name in known | lists) for head in heads)
    assert sum(any(name in head for name in known) for head in heads) > 3


def test_a_page_that_goes_on_with_an_operation_names_it(note: Note) -> None:
    lines = "\n".join(f"1. Undo {{screw S{n}: 2x PH0 M2x6}}." for n in range(1, 60))
    content = pdf.sheet(note(f"## The only one {{side back}}\n\n{lines}\n"), clean=True)
    found = subprocess.run(["pdftotext", "-layout", "-", "-"], input=content, capture_output=True, check=True)
    second = found.stdout.decode().split("\f")[1:3]
    assert any("10 The only one · back" in words(text.split("\n")[0]) for text in second)


def test_bookmarks_lead_to_every_operation_and_list(sheets: dict[str, Path]) -> None:
    outlines = json.loads(run("qpdf", "--json=2", "--json-key=outlines", sheets["every"]))["outlines"]
    assert [(one["title"], len(one["kids"]) > 8) for one in outlines] == [
        ("Kestrel K9 bench radio, every feature of a sheet", True)
    ]
    kids = outlines[0]["kids"]
    titles = [one["title"] for one in kids]
    guide = guide_at(NOTES / "every.md")
    assert [title for title in titles if title[0].isdigit()] == [
        f"{operation.number} {operation.title}" for operation in guide.operations
    ]
    assert titles[0] == "Hazards and isolation"
    assert titles[-2:] == ["Bill of materials", "Index of things"]
    assert "Fasteners" in [one["title"] for one in kids[-2]["kids"]]
    places = [one["destpageposfrom1"] for one in kids]
    assert places == sorted(places)


def test_the_language_and_title_are_stated(sheets: dict[str, Path]) -> None:
    info = run("pdfinfo", sheets["klein"])
    assert "Wetterfest W1 Regenmelder" in info
    assert re.search(r"Tagged:\s+yes", info)
    objects = json.loads(run("qpdf", "--json=2", "--json-key=qpdf", sheets["klein"]))["qpdf"][1]
    roots = [one["value"] for one in objects.values() if one.get("value", {}) and "/Lang" in one.get("value", {})]
    assert {root["/Lang"] for root in roots} == {"u:de"}


def test_a_sheet_that_is_not_clean_says_so_on_every_page(sheets: dict[str, Path]) -> None:
    found = pages(sheets["klein"])
    assert found
    assert all("nichtsauber" in _bare(text) for text in found)
    assert all("notclean" not in _bare(text) for text in pages(sheets["every"]))


@pytest.mark.parametrize(
    ("paper", "width", "height"), [("a4", 210 / 25.4 * 72, 297 / 25.4 * 72), ("letter", 612, 792)]
)
def test_the_paper_has_its_size(radio: Guide, tmp_path: Path, paper: str, width: float, height: float) -> None:
    made = tmp_path / "sheet.pdf"
    made.write_bytes(pdf.sheet(radio, clean=True, paper=paper))
    size = re.search(r"Page size:\s+([\d.]+) x ([\d.]+) pts", run("pdfinfo", made))
    assert size
    assert float(size[1]) == pytest.approx(width, abs=0.5)
    assert float(size[2]) == pytest.approx(height, abs=0.5)


def test_an_unknown_paper_is_refused(radio: Guide) -> None:
    with pytest.raises(KeyError):
        pdf.sheet(radio, clean=True, paper="b7")


def test_a_hazard_is_on_the_page_of_its_action(note: Note) -> None:
    """Whatever stands above it pushes it near a page's end."""
    for lines in range(20, 44, 4):
        filler = "\n".join(f"1. Undo {{screw S{n}: 2x PH0 M2x6}}." for n in range(lines))
        body = f"## Long\n\n{filler}\n1. Lift off {{part lid}}.\n\n   > WARNING: springs jump out\n"
        made = pdf.sheet(note(body), clean=True, sections=("operations",))
        text = subprocess.run(["pdftotext", "-layout", "-", "-"], input=made, capture_output=True, check=True)
        with_hazard = [one for one in text.stdout.decode().split("\f") if "springs jump out" in one]
        assert len(with_hazard) == 1
        assert "Lift off lid" in words(with_hazard[0])


def test_a_table_that_goes_on_repeats_its_head(note: Note) -> None:
    lines = "\n".join(f"1. Undo {{screw S{n}: 2x PH0 M2x6}}." for n in range(70))
    made = pdf.sheet(note(f"## Long\n\n{lines}\n"), clean=True, sections=("materials",))
    text = subprocess.run(["pdftotext", "-layout", "-", "-"], input=made, capture_output=True, check=True)
    found = [page for page in text.stdout.decode().split("\f") if "M2×6" in page]
    assert len(found) > 1
    assert all("THREAD" in page.upper() for page in found)


def test_pictures_are_those_handed_over(sheets: dict[str, Path]) -> None:
    listed = run("pdfimages", "-list", sheets["pocket-phone"]).splitlines()[2:]
    assert len([line for line in listed if " image " in line]) >= len(pictures_of(SAMPLES[2]))


def test_nothing_is_fetched_from_the_disk_or_the_net(
    note: Note, tmp_path: Path, caplog: pytest.LogCaptureFixture
) -> None:
    secret = tmp_path / "secret.png"
    Image.new("RGB", (9, 9), "red").save(secret)
    guide = note(f"## Lid\n\n![a]({secret})\n\n![b](http://127.0.0.1:9/b.png)\n\n![c](../{secret.name})\n")
    from markupsafe import Markup

    def raw(shown: object, *, paper: bool = False) -> Markup:
        return Markup('<img alt="a" src="{}"><img alt="b" src="http://127.0.0.1:9/b.png">').format(secret.as_uri())

    made = pdf.sheet(guide, clean=True, picture=raw)
    assert b"/Subtype /Image" not in made
    assert "disallowed protocol" in caplog.text


def test_the_same_guide_gives_the_same_bytes(radio: Guide) -> None:
    first = pdf.sheet(radio, clean=True, files={})
    assert first == pdf.sheet(radio, clean=True, files={})
    assert first != pdf.sheet(radio, clean=False, files={})


def test_bytes_do_not_depend_on_the_clock_or_the_place(tmp_path: Path) -> None:
    """Another process, another day, another folder, another zone."""
    note = NOTES / "klein.md"
    script = (
        "import sys, hashlib; sys.path.insert(0, sys.argv[1])\n"
        "from tests.outputs.conftest import guide_at; from guidec.outputs import pdf; from pathlib import Path\n"
        "print(hashlib.sha256(pdf.sheet(guide_at(Path(sys.argv[2])), clean=True)).hexdigest())"
    )
    command = [sys.executable, "-c", script, str(REPOSITORY), str(note)]
    digests = {
        subprocess.run(
            command, capture_output=True, text=True, check=True, cwd=folder, env={**os.environ, **env}
        ).stdout
        for folder, env in (
            (tmp_path, {"TZ": "Asia/Tokyo", "SOURCE_DATE_EPOCH": "1"}),
            (REPOSITORY, {"TZ": "UTC"}),
        )
    }
    assert len(digests) == 1


BARE = """<?xml version="1.0"?><!DOCTYPE fontconfig SYSTEM "urn:fontconfig:fonts.dtd">
<fontconfig><dir>{folder}</dir><cachedir>{folder}/cache</cachedir></fontconfig>"""
MAKE = """
import sys; sys.path.insert(0, sys.argv[1])
from pathlib import Path
from tests.outputs.conftest import guide_at
from guidec.outputs import pdf
if sys.argv[3] == "without": pdf._faces = lambda: ()
try:
    sys.stdout.buffer.write(pdf.sheet(guide_at(Path(sys.argv[2])), clean=True))
except pdf.CannotPrintError as error:
    sys.stdout.write(f"message: {error}")
"""


def _without_system_fonts(tmp_path: Path, own: str) -> subprocess.CompletedProcess[bytes]:
    config = tmp_path / "fonts.conf"
    config.write_text(BARE.format(folder=tmp_path))
    command = [sys.executable, "-W", "ignore", "-c", MAKE, str(REPOSITORY), str(NOTES / "klein.md"), own]
    return subprocess.run(
        command, capture_output=True, env={**os.environ, "FONTCONFIG_FILE": str(config)}, check=False
    )


def test_without_a_system_font_the_one_that_comes_with_us_serves(tmp_path: Path) -> None:
    done = _without_system_fonts(tmp_path, "with")
    assert done.returncode == 0, done.stderr
    assert done.stdout.startswith(b"%PDF")


def test_without_any_font_there_is_a_message_and_no_crash(tmp_path: Path) -> None:
    done = _without_system_fonts(tmp_path, "without")
    assert done.returncode == 0, done.stderr
    assert b"message: the PDF needs a font" in done.stdout
    assert b"install" in done.stdout


def test_without_pango_there_is_one_sentence(radio: Guide, monkeypatch: pytest.MonkeyPatch) -> None:
    class Missing:
        """Stands in the place of WeasyPrint and fails to load as it does where a library is missing."""

        def find_spec(self, name: str, path: object = None, target: object = None) -> None:
            if name.split(".")[0] == "weasyprint":
                raise OSError("cannot load library 'libpango-1.0-0'")

    for name in [name for name in sys.modules if name.startswith(("weasyprint", "guidec.outputs.printer"))]:
        monkeypatch.delitem(sys.modules, name)
    monkeypatch.delattr("guidec.outputs.printer", raising=False)
    monkeypatch.setattr(sys, "meta_path", [Missing(), *sys.meta_path])
    with pytest.raises(pdf.CannotPrintError, match="Pango") as caught:
        pdf.sheet(radio, clean=True)
    assert "apt-get install" in str(caught.value)
    assert "\n" not in str(caught.value)


def test_it_can_be_read_in_black_and_white(radio: Guide) -> None:
    """Printed in grey, the panel of each signal word is set off, and its word still has a contrast of 4.5
    (WCAG 2.2, 1.4.3) against it; the grades differ by the weight of their rule."""
    made = pdf.sheet(radio, clean=True, sections=("hazards",))
    grey = subprocess.run(
        ["pdftoppm", "-gray", "-r", "60", "-f", "1", "-l", "1", "-"], input=made, capture_output=True, check=True
    )
    picture = Image.open(io.BytesIO(grey.stdout))
    shades = {shade for _, shade in picture.getcolors(maxcolors=256) or []}
    assert min(shades) < 40
    assert max(shades) > 250


def test_letters_are_embedded_as_text_in_the_fonts_that_come_with_us(sheets: dict[str, Path]) -> None:
    listed = run("pdffonts", sheets["pocket-phone"]).splitlines()[2:]
    assert listed
    assert all("yes yes yes" in line for line in listed)
    assert all("Sheet-Sans" in line for line in listed)


def test_the_style_holds_nothing_that_the_printer_does_not_know(
    caplog: pytest.LogCaptureFixture, tmp_path: Path
) -> None:
    """WeasyPrint warns of rules, media and properties that it leaves out; a whole build has every section."""
    options = compiler.Options(cache=tmp_path, alone=("fan",))
    files = compiler.build(compiler.load(_note("induction-plate")), options).files
    assert {"guide.pdf", "labels.pdf", "route-fan.pdf"} <= files.keys()
    assert [one.getMessage() for one in caplog.records if one.name.startswith("weasyprint")] == []
