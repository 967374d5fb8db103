"""Words found in texts."""

from __future__ import annotations

import pytest

from guidec.trade.phrases import first_phrase, in_language, matches_all


@pytest.mark.parametrize(
    ("text", "phrase", "found"),
    [
        ("Hot-air gun", "hot air gun", True),
        ("two hot-air  guns", "hot air gun", True),
        ("shotgun", "gun", False),
        ("gunpowder", "gun", False),
        ("the boxes", "box", True),
        ("Kontakte", "kontakt", True),
    ],
)
def test_whole_words_are_found_whatever_stands_between(text: str, phrase: str, found: bool):
    assert bool(first_phrase(text, [phrase])) is found


def test_plural_endings_can_be_refused():
    assert first_phrase("Notes: go on", ["note"])
    assert not first_phrase("Notes: go on", ["note"], plural=False)


def test_the_longest_phrase_wins():
    assert first_phrase("a lock washer", ["washer", "lock washer"])[0] == "lock washer"


def test_no_phrases_find_nothing():
    assert first_phrase("anything", []) is None
    assert not matches_all("anything", [])


def test_a_language_falls_back():
    words = {"en": ["one"], "de": ["eins"]}
    assert in_language(words, "de-AT") == ("eins",)
    assert in_language(words, "fr") == ("one",)
