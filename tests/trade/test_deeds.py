"""Kinds of work told from verbs and words."""

from __future__ import annotations

import pytest
from hypothesis import given
from hypothesis import strategies as st

from guidec.trade.deeds import advises_discharge, is_deed, patterns, says_swollen, speaks_of, words
from guidec.trade.lexicon import lexicon
from guidec.trade.load import data
from guidec.trade.phrases import first_phrase, may_speak


@pytest.mark.parametrize("language", ["en", "de"])
@pytest.mark.parametrize("deed", data("deeds")["verbs"])
def test_every_verb_is_one_of_the_lexicon(deed: str, language: str):
    known = {sense.verb.split(" ")[0] for senses in lexicon(language).senses.values() for sense in senses}
    assert set(data("deeds")["verbs"][deed][language]) <= known


@pytest.mark.parametrize(
    ("verb", "deed", "language", "is_"),
    [
        ("pry", "lever", "en", True),
        ("lift", "lever", "en", False),
        ("heble heraus", "lever", "de", True),
        ("warm", "heat", "en", True),
        ("soak", "heat", "en", False),
        ("desolder", "solder", "en", True),
    ],
)
def test_verbs_are_kinds_of_work(verb: str, deed: str, language: str, is_: bool):
    assert is_deed(verb, deed, language) is is_


@pytest.mark.parametrize(
    ("text", "advises"),
    [
        ("Discharge the battery first", True),
        ("Run it down to 25 %", True),
        ("The charge should be below 30 %", True),
        ("Discharge the capacitor", False),
        ("Discharge yourself on a radiator", False),
        ("Discharge the capacitor. Then run the cell down.", True),
        ("Charge it to 99 %", False),
        ("isopropyl alcohol: 99 %", False),
    ],
)
def test_advice_to_run_a_cell_down(text: str, advises: bool):
    assert advises_discharge(text) is advises


@pytest.mark.parametrize(
    ("text", "language", "says"),
    [
        ("a swollen cell", "en", True),
        ("the battery bulges", "en", True),
        ("a flat cell", "en", False),
        ("der Akku ist aufgebläht", "de", True),
    ],
)
def test_swelling(text: str, language: str, says: bool):
    assert says_swollen(text, language) is says


def test_lists_of_words():
    assert speaks_of("retaining ring", "under_tension")
    assert speaks_of("Rückglas mit Glas", "glass", "de")
    assert not speaks_of("plastic card", "hot_tools")
    assert not speaks_of("", "glass")


HEADS = {
    "conditional": "conditional_heads",
    "perhaps_conditional": "conditional_heads",
    "waiting": "waiting_heads",
}


@pytest.mark.parametrize("language", ["en", "de"])
@pytest.mark.parametrize("list_", HEADS)
@given(given_=st.data())
def test_whatever_a_pattern_finds_begins_with_one_of_its_heads(list_: str, language: str, given_: st.DataObject):
    typed = given_.draw(st.from_regex(patterns(list_, language), fullmatch=True))
    assert may_speak(f"Now {typed}.", words(HEADS[list_], language))(4, 4 + len(typed))


@given(
    st.lists(
        st.sampled_from(["lift", "if", "Falls", "Groß", "lid-switch", "FUSE", "_fuse", " ", "-"]), max_size=12
    ),
    st.integers(0, 40),
    st.integers(0, 40),
)
def test_no_phrase_stands_where_none_may_begin(pieces: list[str], one: int, other: int):
    text, phrases = "".join(pieces), ("if", "falls", "groß", "lid switch", "fuse")
    start, end = sorted((one, other))
    found = first_phrase(text, phrases)
    if found is not None and len(text.casefold()) == len(text) and start <= found.start() < end:
        assert may_speak(text, phrases)(start, end)
    if found is not None:
        assert may_speak(text, phrases)(0, len(text))


def test_a_stretch_is_told_from_its_neighbour():
    may = may_speak("Lift it out. If it sticks, warm it.", ("if",))
    assert not may(0, 13)
    assert may(13, 30)
