"""Numbers, values, drives and sizes as they are spoken."""

from __future__ import annotations

import pytest
from num2words import num2words

from guidec.draft.counting import number_at
from guidec.draft.drives import drive_at
from guidec.draft.measures import size_at, value_at


def whole(text: str) -> float | None:
    """The number that a text is, all of it."""
    words = text.split()
    found = number_at(words, 0)
    return found[0] if found and found[1] == len(words) else None


@pytest.mark.parametrize("number", [*range(1000), *range(1000, 100_000, 1237)])
def test_numbers_are_read_as_num2words_spells_them(number):
    assert whole(num2words(number).replace(",", "").replace("-", " ")) == number


@pytest.mark.parametrize("number", [0.8, 1.5, 3.85, 3.7, 12.05, 21.6, 0.35])
def test_decimals_are_read_as_num2words_spells_them(number):
    assert whole(num2words(number).replace("-", " ")) == number


@pytest.mark.parametrize(
    ("text", "number"),
    [
        ("point eight", 0.8),
        ("two fifty", 250),
        ("three sixty", 360),
        ("fifteen hundred", 1500),
        ("six and a half", 6.5),
        ("a hundred and fifty", 150),
        ("2,500", 2500),
        ("3.85", 3.85),
        ("three point eighty five", 3.85),
        ("5 thousand", 5000),
    ],
)
def test_numbers_as_people_say_them(text, number):
    assert whole(text) == number


@pytest.mark.parametrize(
    ("text", "shown"),
    [
        ("eighty degrees celsius", "80 °C"),
        ("two minutes", "2 min"),
        ("thirty to sixty seconds", "30-60 s"),
        ("a minute", "1 min"),
        ("half a minute", "30 s"),
        ("a couple of minutes", "2 min"),
        ("a minute and a half", "1.5 min"),
        ("two millilitres", "2 ml"),
        ("three thousand milliamp hours", "3000 mAh"),
        ("3.85 volts", "3.85 V"),
        ("0.6 newton metres", "0.6 N·m"),
        ("70°C", "70 °C"),
        ("ninety nine percent", "99 %"),
        ("ten kilo ohms", "10 kohm"),
        ("2600mah", "2600 mAh"),
        ("an hour", "1 h"),
    ],
)
def test_values(text, shown):
    amount, taken = value_at(text.lower().split(), 0) or (None, 0)
    assert amount is not None
    assert (amount.text, taken) == (shown, len(text.split()))


@pytest.mark.parametrize("text", ["a look", "two screws", "a second", "five of them", "three", "a bit"])
def test_what_is_no_value(text):
    assert value_at(text.split(), 0) is None


@pytest.mark.parametrize(
    ("text", "code"),
    [
        ("t five", "T5"),
        ("tea five", "T5"),
        ("t5s", "T5"),
        ("torx ten", "T10"),
        ("torx t5", "T5"),
        ("t twenty five", "T25"),
        ("security torx ten", "T10H"),
        ("phillips double zero", "PH00"),
        ("ph triple zero", "PH000"),
        ("p h zero", "PH0"),
        ("phillips number two", "PH2"),
        ("phillips", "PH"),
        ("pozidriv number two", "PZ2"),
        ("j i s zero zero", "JIS00"),
        ("hex 2.5 mm", "H2.5"),
        ("allen", "H"),
        ("slotted", "SL"),
        ("tri wing", "3W"),
        ("pentalobe", "5L"),
        ("ph0", "PH0"),
        ("t10h", "T10H"),
    ],
)
def test_drives(text, code):
    assert drive_at(text.split(), 0) == (code, len(text.split()))


@pytest.mark.parametrize("text", ["tea please", "the five", "t shirt", "ph value", "star", "hexagon"][:4])
def test_what_is_no_drive(text):
    assert drive_at(text.split(), 0) is None


@pytest.mark.parametrize(
    ("text", "size"),
    [
        ("m two by six", "M2x6"),
        ("m3x8", "M3x8"),
        ("m2.5x8", "M2.5x8"),
        ("m three", "M3"),
        ("m 2 by 5 mm", "M2x5"),
        ("three by twelve", "3x12"),
    ],
)
def test_sizes(text, size):
    assert size_at(text.split(), 0) == (size, len(text.split()))
