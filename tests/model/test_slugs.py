"""Ids from names."""

from __future__ import annotations

import pytest
from hypothesis import given
from hypothesis import strategies as st

from guidec.model.slugs import slug, unique


@pytest.mark.parametrize(
    ("name", "own"),
    [
        ("front housing", "front-housing"),
        ("  Front   HOUSING ", "front-housing"),
        ("Gehäuse", "gehaeuse"),
        ("Größe", "groesse"),
        ("écran", "ecran"),
        ("Øre", "oere"),
        ("Ł-clip", "l-clip"),
        ("電池 パック", "電池-パック"),
        ("кабель", "кабель"),
        ("10 µF cap", "10-microf-cap"),
        ("fan & motor", "fan-and-motor"),
        ("V+ lead", "v-plus-lead"),
        ("maker's plate", "makers-plate"),
        ("A/B_C", "a-b-c"),
        ("###", ""),
        ("κάλυμμα", "κάλυμμα"),
        ("ガスケット", "ガスケット"),
    ],
)
def test_a_slug_keeps_letters_and_digits(name: str, own: str):
    assert slug(name) == own


@given(st.text(max_size=30))
def test_a_slug_is_stable_and_fit_for_a_file_name(name: str):
    own = slug(name)
    assert slug(own) == own
    assert slug(name.upper().lower()) == slug(name.lower())
    assert not set(own) & set(" /\\:.\"'<>|?*\n")
    assert not own.startswith("-")


def test_a_slug_that_is_taken_gets_a_number():
    assert unique("fan", {"fan", "fan-2"}) == "fan-3"
    assert unique("fan", ["lid"]) == "fan"
