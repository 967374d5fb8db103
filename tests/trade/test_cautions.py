"""The words of the usual cautions, in both languages."""

from __future__ import annotations

import re
from string import Template

import pytest

from guidec.trade.cautions import caution, caution_ids, covers, joined, says_so, usual_cautions
from guidec.trade.load import data
from guidec.trade.signs import sign_name, signal_meaning

FACTS = {"name": "acetone pack", "names": "A and B", "lengths": "4 and 6", "voltage": "72", "limit": "60"}
LANGUAGES = ("en", "de")


@pytest.mark.parametrize("language", LANGUAGES)
@pytest.mark.parametrize("id_", caution_ids())
def test_hazard_consequence_avoidance_in_that_order(id_: str, language: str):
    """ANSI Z535.6 (published)."""
    found = caution(id_, language, **FACTS)
    assert found.text == f"{found.hazard} {found.consequence} {found.avoidance}"
    for sentence in (found.hazard, found.consequence, found.avoidance):
        assert sentence.endswith("."), sentence
        assert sentence[0].isupper() or sentence[0].isdigit(), sentence
    assert "$" not in found.text


@pytest.mark.parametrize("id_", caution_ids())
def test_both_languages_use_the_same_facts(id_: str):
    facts = [
        {name for part in data(f"cautions/{language}")["cautions"][id_].values() for name in names_in(part)}
        for language in LANGUAGES
    ]
    assert facts[0] == facts[1]


def names_in(text: str) -> list[str]:
    return Template(text).get_identifiers()


@pytest.mark.parametrize("id_", caution_ids())
def test_signal_words_and_signs_are_known(id_: str):
    found = caution(id_, "en", **FACTS)
    assert signal_meaning(found.signal)
    assert all(sign_name(number) and sign_name(number, "de") for number in found.signs)


def test_danger_is_kept_for_what_kills():
    """DANGER will, WARNING could result in death (ANSI Z535.6, published)."""
    for id_ in caution_ids():
        found = caution(id_, "en", **FACTS)
        kills = re.search(r"\bkills?\b|explode|catch fire|burn|shock|fire|suffocat", found.consequence)
        if found.signal in ("DANGER", "WARNING"):
            assert kills, id_
        if found.signal == "NOTICE":
            assert not re.search(r"\bkill|skin|eye|fire", found.text), id_


@pytest.mark.parametrize(
    "id_", [id_ for id_ in caution_ids() if data("cautions")["rows"][id_]["signal"] == "DANGER"]
)
def test_dangers_defer_to_licensed_practice(id_: str):
    assert "licensed practice" in caution(id_, "en", **FACTS).text
    assert "zugelassene Fachleute" in caution(id_, "de", **FACTS).text


@pytest.mark.parametrize("language", LANGUAGES)
@pytest.mark.parametrize("id_", [id_ for id_ in caution_ids() if data("cautions")["rows"][id_]["covers"]])
def test_a_caution_covers_itself(id_: str, language: str):
    """Whoever copies the words of a caution into a note has said it."""
    assert covers(id_, caution(id_, language, **FACTS).text, language)


@pytest.mark.parametrize(
    ("id_", "text", "said"),
    [
        ("lever-cell", "A bent or pierced lithium cell can catch fire. Do not lever against the cell.", True),
        ("lever-cell", "The softened ring is hot enough to burn.", False),
        ("hot-surface", "The softened ring is hot enough to burn.", True),
        ("discharge-first", "Run the battery down below 25 % first.", True),
        ("discharge-first", "A bent cell can catch fire.", False),
        ("stored-charge", "The capacitor stays charged; measure before you touch it.", True),
        ("stored-charge", "Sharp edges inside.", False),
        ("mains", "Pull the plug out of the wall socket first.", True),
        ("mains", "Unplug the motor.", False),
        ("glass", "The screen cracks easily: wear goggles.", True),
        ("solvent", "Keep the alcohol away from any naked flame.", True),
        ("static", "Wear a wrist strap.", True),
    ],
)
def test_what_an_author_has_said(id_: str, text: str, said: bool):
    assert covers(id_, text) is said


def test_a_language_without_words_gets_english():
    assert caution("mains", "fr").text == caution("mains", "en").text


def test_lists_of_names():
    assert joined(["A"]) == "A"
    assert joined(["A", "B", "C"]) == "A, B and C"
    assert joined(["A", "B"], "de") == "A und B"


@pytest.mark.parametrize("language", LANGUAGES)
def test_the_page_of_usual_cautions_defers_to_local_codes(language: str):
    usual = usual_cautions(language)
    words = " ".join(usual.paragraphs)
    assert usual.title
    assert ("local codes" if language == "en" else "örtliche Vorschriften") in words
    assert ("licensed" if language == "en" else "zugelassenen") in words


@pytest.mark.parametrize(
    ("number", "name"),
    [
        ("W012", "electricity"),
        ("W017", "hot surface"),
        ("W021", "flammable material"),
        ("M004", "wear eye protection"),
        ("P003", "no open flame"),
        ("M006", "disconnect mains plug"),
    ],
)
def test_signs_of_iso_7010(number: str, name: str):
    """Published: the register of ISO 7010."""
    assert sign_name(number) == name


def test_colours_of_the_signal_words():
    """ANSI Z535.4 (published): red, orange, yellow, blue, gravest first; no alert symbol on a notice."""
    words = data("signs")["signal_words"]
    colours = {word: words[word]["colour"] for word in ("DANGER", "WARNING", "CAUTION", "NOTICE")}
    assert colours == {"DANGER": "red", "WARNING": "orange", "CAUTION": "yellow", "NOTICE": "blue"}
    assert not words["NOTICE"]["alert"]
    assert words["CAUTION"]["alert"]


@pytest.mark.parametrize(
    ("there", "word"), [("power", "make the device dead"), ("cells", "swollen"), ("waste", "household waste")]
)
def test_usual_cautions_speak_only_of_what_the_device_has(there: str, word: str):
    assert word in " ".join(usual_cautions("en").paragraphs)
    assert word not in " ".join(usual_cautions("en", **{there: False}).paragraphs)


def test_capacitors_are_only_stated_where_the_note_speaks_of_them():
    assert says_so("stored-charge", "Measure across the smoothing capacitor.")
    assert says_so("stored-charge", "Am Kondensator messen.", "de")
    assert not says_so("stored-charge", "Unplug the mains lead and lift out the driver.")
    assert says_so("static", "anything at all")
    assert "Capacitors in driver can stay charged" in caution("stored-charge", "en", name="driver").text
    unsaid = caution("stored-charge", "en", said=False, name="driver")
    assert unsaid.hazard.startswith("If driver holds capacitors")
    assert "Measure before the first touch" in unsaid.avoidance
