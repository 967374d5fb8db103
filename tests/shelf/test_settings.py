"""`shelf.yaml`: what it may say, and messages at the place for what it may not.

Contrast: WCAG 2.2, relative luminance and contrast ratio; the pairs and ratios are those of general use (black on
white is 21 by the definition; `#767676` on white is the lightest grey that passes 4.5, `#777777` fails).
"""

from __future__ import annotations

import json

import jsonschema
import pytest

from guidec.messages import diagnose
from guidec.rules.book import codes, page
from guidec.shelf import settings
from guidec.shelf.contrast import LEAST, contrast
from guidec.shelf.settings import COLOURS, Settings, read
from guidec.source import Source

from .shelves import REPOSITORY, SETTINGS

SETTING_CODES = [code for code in codes() if code in ("B101", "B102", "B103", "B104", "B105")]


def said(text: str) -> list[tuple[str, int, int, str]]:
    source = Source.of("shelf.yaml", text)
    _, findings = read(source, "x")
    return [
        (one.code, one.here.start.line, one.here.start.column, one.message) for one in diagnose(source, findings)
    ]


def test_the_schema_is_one_and_fits_what_the_documents_show() -> None:
    schema = json.loads((REPOSITORY / "schema" / "shelf.schema.json").read_text())
    jsonschema.Draft202012Validator.check_schema(schema)
    fields = {name.replace("_", "-") for name in Settings.__dataclass_fields__}
    assert set(schema["properties"]) == fields
    assert all("description" in one for one in schema["properties"].values())


def test_full_settings_are_read() -> None:
    made, findings = read(Source.of("shelf.yaml", SETTINGS), "x")
    assert findings == ()
    assert made.address == "https://shelf.example/guides"
    assert made.languages == ("en", "de")
    assert made.footer.startswith("Ask before")


def test_without_a_title_the_shelf_has_its_folders_name() -> None:
    assert read(Source.of("shelf.yaml", "licence: CC-BY-4.0\n"), "bench")[0].title == "bench"


@pytest.mark.parametrize("code", SETTING_CODES)
def test_each_pages_examples_raise_just_its_code_and_none(code: str) -> None:
    (bad,), (good,) = page(code).examples("raises"), page(code).examples("mended")
    assert [one[0] for one in said(bad)] == [code]
    assert said(good) == []


def test_all_setting_codes_are_tried() -> None:
    assert len(SETTING_CODES) == 5


@pytest.mark.parametrize(
    ("text", "expected"),
    [
        ("titel: x\n", ("B102", 1, 1)),
        ("title: x\ncolours: {lite: {}}\n", ("B102", 2, 11)),
        ("title: x\nerrors: kep-old\n", ("B103", 2, 9)),
        ("title: x\nlanguages: [en, fr]\n", ("B103", 2, 17)),
        ("title: x\npdf: maybe\n", ("B103", 2, 6)),
        ('title: x\ncolours: {light: {link: "blue"}}\n', ("B103", 2, 25)),
        ("title: x\nlicence: MTI\n", ("B104", 2, 10)),
        ("- a\n- b\n", ("B101", 1, 1)),
        ('title: x\ncolours: {dark: {paper: "#b0b0b0"}}\n', ("B105", 2, 25)),
    ],
)
def test_a_fault_is_shown_at_its_place(text: str, expected: tuple[str, int, int]) -> None:
    assert expected in [one[:3] for one in said(text)]


def test_a_near_miss_gets_the_right_word() -> None:
    for text, meant in (("titel: x\n", "title"), ("license: MIT\n", "licence"), ("errors: publsh\n", "publish")):
        source = Source.of("shelf.yaml", text)
        (first, *_) = diagnose(source, read(source, "x")[1])
        assert meant in first.suggestions


def test_contrasts_are_those_of_the_standard() -> None:
    assert contrast("#000000", "#ffffff") == pytest.approx(21)
    assert contrast("#ffffff", "#ffffff") == 1
    assert contrast("#767676", "#ffffff") >= LEAST > contrast("#777777", "#ffffff")
    assert contrast("#0a4c9a", "#ffffff") == contrast("#ffffff", "#0a4c9a")


def test_the_usual_colours_pass_their_own_bound() -> None:
    for scheme in COLOURS.values():
        for name in ("ink", "link", "soft"):
            assert contrast(scheme[name], scheme["paper"]) >= LEAST


def test_the_usual_colours_are_those_of_the_sheet() -> None:
    from guidec.outputs.template import file

    css = file("base.css") + file("screen.css")
    for scheme in COLOURS.values():
        for name, colour in scheme.items():
            short = "#fff" if colour == "#ffffff" else colour
            assert f"--{name}: {short}" in css


@pytest.mark.parametrize("text", ["", "\n", "# only a comment\n", "title:\n", "\t- x: [", "a: &x 1\n", "{", "\0"])
def test_any_text_is_read_or_refused_and_never_raises(text: str) -> None:
    made, _ = read(Source.of("shelf.yaml", text), "x")
    assert made.title
    assert settings.NAME == "shelf.yaml"
