"""Adhesives and solvents."""

from __future__ import annotations

import pint
import pytest

from guidec.trade.adhesives import softening, tells_what_renews
from guidec.trade.load import data
from guidec.trade.solvents import is_measured_out, says_dry, solvent
from guidec.trade.units import convert

UNITS = pint.UnitRegistry()


@pytest.mark.parametrize(
    ("words", "high"),
    [
        ("ring seal double-sided tape", 90),  # common practice: 60 to 80 °C, 90 °C at glass edges
        ("seam", 90),
        ("potting two-part epoxy", 200),  # from memory
        ("hot-melt", 160),  # from memory
        ("screw lock threadlocker", 260),  # from memory
        ("Schraubensicherung", 260),
    ],
)
def test_adhesives_soften_at_their_own_temperatures(words: str, high: float):
    assert softening(words).high_c == high


@pytest.mark.parametrize(("celsius", "fahrenheit"), [(60, 140), (70, 158), (80, 176), (90, 194)])
def test_temperatures_convert_as_in_a_units_library(celsius: float, fahrenheit: float):
    """Computed, and checked against pint."""
    assert convert(celsius, "temperature", "°F") == pytest.approx(fahrenheit)
    theirs = UNITS.Quantity(celsius, "degC").to("degF").magnitude
    assert convert(celsius, "temperature", "°F") == pytest.approx(theirs)


@pytest.mark.parametrize(
    ("words", "language", "tells"),
    [
        ("double-sided tape", "en", True),
        ("seam", "en", False),
        ("ring seal", "en", True),
        ("edge", "en", False),
        ("Klebeband 2 mm", "de", True),
        ("Rand", "de", False),
    ],
)
def test_some_names_say_what_renews_them(words: str, language: str, tells: bool):
    assert tells_what_renews(words, language) is tells


@pytest.mark.parametrize(
    ("words", "name"),
    [
        ("isopropyl alcohol 99 %", "isopropyl alcohol"),
        ("IPA wipe", "isopropyl alcohol"),
        ("isopropanol", "isopropyl alcohol"),
        ("acetone", "acetone"),
        ("lighter fluid", "heptane or white spirit"),
        ("adhesive remover", "adhesive remover"),
        ("alcohol", "ethanol"),
        ("Waschbenzin", "heptane or white spirit"),
    ],
)
def test_solvents_are_known_by_many_names(words: str, name: str):
    assert solvent(words).name == name


@pytest.mark.parametrize(
    "words", ["grease", "thermal paste", "distilled water", "double-sided tape", "solder wick"]
)
def test_other_supplies_are_no_solvents(words: str):
    assert solvent(words) is None


def test_flash_points_and_limits():
    """NIOSH Pocket Guide (published): isopropyl alcohol 11.7 °C, 2.0 to 12.7 %, 400 ppm; acetone -18 °C, …"""
    rows = {row["name"]: row for row in data("solvents")["rows"]}
    assert rows["isopropyl alcohol"]["flash_point_c"] == 11.7
    assert rows["isopropyl alcohol"]["explosive_percent"] == [2.0, 12.7]
    assert rows["isopropyl alcohol"]["exposure_ppm"] == 400
    assert solvent("acetone").flash_point_c == -18
    assert rows["acetone"]["explosive_percent"] == [2.5, 12.8]


def test_what_acetone_attacks():
    """ABS and PC (from memory)."""
    assert {"ABS", "PC"} <= set(solvent("acetone").attacks)
    assert solvent("isopropyl alcohol").attacks == ()


@pytest.mark.parametrize(
    ("words", "measured"),
    [
        ("isopropyl alcohol", True),
        ("thermal paste", True),
        ("silicone grease", True),
        ("alcohol wipes", False),
        ("cotton swabs", False),
        ("glue syringe", False),
        ("double-sided tape", False),
        ("cloth", False),
    ],
)
def test_only_what_is_measured_out_is_asked_for_an_amount(words: str, measured: bool):
    assert is_measured_out(words) is measured


@pytest.mark.parametrize(
    ("text", "language", "dry"),
    [
        ("Let it dry for five minutes.", "en", True),
        ("Wait until the alcohol has evaporated", "en", True),
        ("Blow out the dust", "en", False),
        ("Gut trocknen lassen", "de", True),
        ("Warten", "de", False),
    ],
)
def test_words_for_drying(text: str, language: str, dry: bool):
    assert says_dry(text, language) is dry
