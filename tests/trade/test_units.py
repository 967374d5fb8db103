"""Units of the trade. Factors are checked against pint; sources of other values stand beside them."""

from __future__ import annotations

import pint
import pytest
from hypothesis import given
from hypothesis import strategies as st

from guidec.source import Span
from guidec.trade.load import data
from guidec.trade.unit_table import Unit, dimension_units, spellings
from guidec.trade.units import (
    convert,
    every_quantity,
    find_quantities,
    find_unit,
    first_quantity,
    read_count,
    read_quantity,
    shown,
    shown_in,
)

REGISTRY = pint.UnitRegistry()
PINT = {
    "°C": "degC",
    "°F": "degF",
    "K": "kelvin",
    "h": "hour",
    "d": "day",
    "N·m": "newton*meter",
    "cN·m": "centinewton*meter",
    "dN·m": "decinewton*meter",
    "mN·m": "millinewton*meter",
    "N·cm": "newton*centimeter",
    "N·mm": "newton*millimeter",
    "kgf·cm": "kgf*centimeter",
    "kgf·m": "kgf*meter",
    "gf·cm": "gram_force*centimeter",
    "lbf·in": "lbf*inch",
    "lbf·ft": "lbf*foot",
    "ozf·in": "force_ounce*inch",
    "Ω": "ohm",
    "mΩ": "milliohm",
    "kΩ": "kiloohm",
    "MΩ": "megaohm",
    "mAh": "milliampere*hour",
    "Ah": "ampere*hour",
    "Wh": "watt*hour",
    "mWh": "milliwatt*hour",
    "kWh": "kilowatt*hour",
    "in": "inch",
    "ft": "foot",
    "mil": "thou",
    "fl·oz": "fluid_ounce",
    "l": "liter",
    "ml": "milliliter",
    "cl": "centiliter",
    "µl": "microliter",
    "%": "percent",
    "‰": "permille",
    "oz": "ounce",
    "lb": "pound",
}
OWN = {"drop": "0.05 ml, common practice, no source"}
ALL = [unit for dimension in data("units")["dimensions"] for unit in dimension_units(dimension)]


@pytest.mark.parametrize("unit", ALL, ids=lambda unit: unit.symbol)
@pytest.mark.parametrize("value", [1.0, 37.5])
def test_a_unit_converts_as_pint_says(unit: Unit, value: float):
    if unit.symbol in OWN:
        assert OWN[unit.symbol].startswith(f"{unit.to_base(1):g} ml")
        return
    own = data("units")["dimensions"][unit.dimension]["unit"]
    quantity = REGISTRY.Quantity(value, PINT.get(unit.symbol, unit.symbol))
    expected = quantity.to(PINT.get(own, own)).magnitude
    assert unit.to_base(value) == pytest.approx(expected, rel=1e-9)
    assert unit.from_base(unit.to_base(value)) == pytest.approx(value, rel=1e-9)


def test_no_spelling_is_read_as_another_unit():
    for spelling, meant in spellings().items():
        for unit in meant:
            rivals = [other for other in meant if other.dimension == unit.dimension]
            assert find_unit(spelling, (unit.dimension,)) == (unit if rivals == [unit] else None), spelling


@pytest.mark.parametrize("typed", ["Nm", "N·m", "N m", "N*m", "N.m", "N-m", "N⋅m", "newton metres", "NM"])
def test_a_newton_metre_is_typed_in_many_ways(typed: str):
    found = read_quantity(f"0.15 {typed}")
    assert found is not None
    assert (found.low, found.unit, found.dimension) == (0.15, "N·m", "torque")


@pytest.mark.parametrize(
    ("typed", "symbol"),
    [
        ("cN·m", "cN·m"),
        ("kgf·cm", "kgf·cm"),
        ("kgf.cm", "kgf·cm"),
        ("kgf-cm", "kgf·cm"),
        ("kg cm", "kgf·cm"),
        ("in-lb", "lbf·in"),
        ("in lbs", "lbf·in"),
        ("in.-lb.", "lbf·in"),
        ("N‧m", "N·m"),
        ("lbf·in", "lbf·in"),
        ("inch-pounds", "lbf·in"),
        ("ozf·in", "ozf·in"),
        ("oz-in", "ozf·in"),
        ("ft-lb", "lbf·ft"),
        ("°C", "°C"),
        ("° C", "°C"),
        ("℃", "°C"),
        ("deg C", "°C"),
        ("degrees celsius", "°C"),
        ("C", "°C"),
        ("c", "°C"),
        ("sec", "s"),
        ("minutes", "min"),
        ("hrs", "h"),
        ("\u00b5F", "µF"),
        ("\u03bcF", "µF"),
        ("uF", "µF"),
        ("ohm", "Ω"),
        ("\u2126", "Ω"),
        ("kohm", "kΩ"),
        ("k ohm", "kΩ"),
        ("millilitres", "ml"),
        ("mL", "ml"),
        ("cc", "ml"),
        ("VDC", "V"),
        ("v", "V"),
        ("mah", "mAh"),
        ('"', "in"),
        ("”", "in"),
        ("fl oz", "fl·oz"),
        ("percent", "%"),
        ("bar", "bar"),
        ("KHz", "kHz"),
    ],
)
def test_spellings_people_use_are_understood(typed: str, symbol: str):
    unit = find_unit(typed)
    assert unit is not None
    assert unit.symbol == symbol


def test_case_decides_where_it_tells_units_apart():
    assert find_unit("mW") != find_unit("MW")
    assert find_unit("mohm") != find_unit("Mohm")
    assert find_unit("mv").symbol == "mV"
    assert find_unit("MF") is None, "an old millifarad or an old microfarad"
    assert find_unit("S") is None


def test_a_letter_with_two_meanings_is_read_as_what_is_due():
    assert read_quantity("160 F", 0, "temperature").dimension == "temperature"
    assert read_quantity("160 F").dimension == "capacitance"
    assert read_quantity("343 K", 0, "temperature").low == pytest.approx(69.85)
    assert read_quantity("10 K").dimension == "", "a resistor of 10 K is no temperature"


@pytest.mark.parametrize(
    ("typed", "low", "high", "bound"),
    [
        ("0.15 N·m", 0.15, 0.15, "="),
        ("0,15 N·m", 0.15, 0.15, "="),
        ("30-60 s", 30, 60, "="),
        ("30–60 s", 30, 60, "="),
        ("30 to 60 s", 30, 60, "="),
        ("30 s - 60 s", 30, 60, "="),
        ("30 s–1 min", 30, 60, "="),
        ("between 30 and 60 s", 30, 60, "="),
        ("10±1 V", 9, 11, "="),
        ("10 ± 1 V", 9, 11, "="),
        ("10 V ± 10 %", 9, 11, "="),
        ("10 V ± 500 mV", 9.5, 10.5, "="),
        ("10 +/- 1 V", 9, 11, "="),
        ("<=5 V", 5, 5, "<="),
        ("≤ 5 V", 5, 5, "<="),
        ("<5V", 5, 5, "<"),
        (">= 5 V", 5, 5, ">="),
        ("> 5 V", 5, 5, ">"),
        ("~70 °C", 70, 70, "~"),
        ("≈70 °C", 70, 70, "~"),
        ("about 70 °C", 70, 70, "~"),
        ("approx. 70 °C", 70, 70, "~"),
        ("ca. 70 °C", 70, 70, "~"),
        ("max. 5 V", 5, 5, "<="),
        ("at most 5 V", 5, 5, "<="),
        ("no more than 5 V", 5, 5, "<="),
        ("less than 5 V", 5, 5, "<"),
        ("under 5 V", 5, 5, "<"),
        ("at least 5 V", 5, 5, ">="),
        ("min. 5 V", 5, 5, ">="),
        ("more than 5 V", 5, 5, ">"),
        ("two minutes", 120, 120, "="),
        ("half a minute", 30, 30, "="),
        ("half an hour", 1800, 1800, "="),
        ("a minute", 60, 60, "="),
        ("1 min 30 s", 90, 90, "="),
        ("1 h 30 min", 5400, 5400, "="),
        ("1:30 min", 90, 90, "="),
        ("1/2 in", 12.7, 12.7, "="),
        ("1 1/2 in", 38.1, 38.1, "="),
        ("½ in", 12.7, 12.7, "="),
        ("1½ in", 38.1, 38.1, "="),
        ("2,600 mAh", 2600, 2600, "="),
        ("10 000 mAh", 10000, 10000, "="),
        ("2.600 mAh", 2600, 2600, "="),
        ("-18 °C", -18, -18, "="),
        ("−18 °C", -18, -18, "="),
        (".5 V", 0.5, 0.5, "="),
        ("45 s.", 45, 45, "="),
        ("5V", 5, 5, "="),
        ("zwei Minuten", 120, 120, "="),
    ],
)
def test_numbers_are_read_as_people_write_them(typed: str, low: float, high: float, bound: str):
    found = read_quantity(typed)
    assert found is not None
    assert (found.low, found.high) == (pytest.approx(low), pytest.approx(high))
    assert found.bound == bound
    assert found.typed == typed.rstrip(".")


def test_a_number_without_a_known_unit_has_no_dimension():
    missing, unknown = read_quantity("70"), read_quantity("70 zorks")
    assert (missing.unit, missing.dimension) == ("", "")
    assert (unknown.unit, unknown.dimension) == ("zorks", "")
    assert read_quantity("gently") is None
    assert read_quantity("5 V across the capacitor") is None


def test_sixty_by_seventy_is_no_fraction():
    assert read_quantity("60/70 °C") is None


def test_quantities_are_found_in_a_text_with_their_places():
    text = "type LG-X2 4S, 2600 mAh, 3.7 V / 9.62 Wh"
    found = find_quantities(text, 100)
    assert [quantity.dimension for quantity in found] == ["charge", "voltage", "energy"]
    for quantity in found:
        assert text[quantity.span.start - 100 : quantity.span.end - 100] == quantity.typed


def test_the_first_quantity_is_the_first_with_a_unit():
    found = first_quantity("pin 3 of C12, <=5 V across it", 10)
    assert found.typed == "<=5 V"
    assert found.span == Span(24, 29)


def test_how_often_is_no_quantity():
    assert [quantity.typed for quantity in every_quantity("2x 30 s")] == ["30 s"]


@given(st.integers(1, 9_999), st.integers(0, 3), st.sampled_from(ALL), st.sampled_from(["", " ", "\u00a0"]))
def test_any_number_with_any_unit_comes_back(number: int, places: int, unit: Unit, space: str):
    typed = f"{number / 10**places:.{places}f}"
    found = read_quantity(f"{typed}{space}{unit.symbol.replace('·', ' ')}", 7, unit.dimension)
    assert found is not None
    assert found.dimension == unit.dimension
    if not (unit.symbol == "mAh" and places == 3):
        assert found.low == pytest.approx(unit.to_base(float(typed)), abs=1e-12)


@given(st.text(max_size=40))
def test_no_text_breaks_the_reader(text: str):
    for quantity in every_quantity(text, 5, ("temperature", "time")):
        assert text[quantity.span.start - 5 : quantity.span.end - 5] == quantity.typed
        assert shown(quantity)


@pytest.mark.parametrize(
    ("typed", "words"),
    [
        ("0.15 N·m", "0.15 N·m (1.5 kgf·cm, 1.3 lbf·in)"),
        ("15 cN·m", "0.15 N·m (1.5 kgf·cm, 1.3 lbf·in)"),
        ("1.5 kgf.cm", "0.15 N·m (1.5 kgf·cm, 1.3 lbf·in)"),
        ("10 lbf·in", "1.1 N·m (12 kgf·cm, 10 lbf·in)"),
        ("70 °C", "70 °C (158 °F)"),
        ("160 °F", "71 °C (160 °F)"),
        ("60-70 °C", "60–70 °C (140–158 °F)"),
        ("-18 °C", "-18 °C (0 °F)"),
        ("343.15 K", "70.00 °C (158.00 °F)"),
        ("30-60 s", "30–60 s"),
        ("two minutes", "2 min"),
        ("1 min 30 s", "1 min 30 s"),
        ("10±1 uF", "10 ± 1 µF"),
        ("<=5 V", "≤ 5 V"),
        ("about 45 sec", "≈ 45 s"),
        ("2,600 mAh", "2600 mAh"),
        ("1/2 in", "13 mm (0.5 in)"),
        ("3 fl oz", "89 ml (3 fl oz)"),
        ("2 oz", "57 g (2 oz)"),
        ("1,50 N·m", "1.50 N·m (15.3 kgf·cm, 13.3 lbf·in)"),
        ("5 zorks", "5 zorks"),
        ("70", "70"),
        ("0.6 °C", "0.6 °C (33.1 °F)"),
        ("10 psi", "69 kPa (10 psi)"),
    ],
)
def test_quantities_are_shown_in_si_with_the_trades_units_beside(typed: str, words: str):
    assert shown(read_quantity(typed, 0, "temperature")).replace("\u00a0", " ") == words


def test_a_comma_language_gets_commas():
    assert shown(read_quantity("1.5 N·m"), comma=True).startswith("1,5\u00a0N·m (15")


def test_words_around_a_quantity_are_kept():
    text = "70 °C from the back, two minutes at most"
    words = shown_in(text, every_quantity(text)).replace("\u00a0", " ")
    assert words == "70 °C (158 °F) from the back, 2 min at most"


@pytest.mark.parametrize(
    ("symbol", "value"), [("kgf·cm", 10.19716), ("lbf·in", 8.850746), ("ozf·in", 141.6119), ("lbf·ft", 0.7375621)]
)
def test_one_newton_metre_in_other_units(symbol: str, value: float):
    """Recomputed from 1 lbf = 4.4482216152605 N, 1 in = 25.4 mm, 1 kgf = 9.80665 N (NIST SP 811)."""
    assert convert(1, "torque", symbol) == pytest.approx(value, rel=1e-6)


@pytest.mark.parametrize(
    ("typed", "count"),
    [
        ("4", 4),
        ("4x", 4),
        ("4 ×", 4),
        ("six", 6),
        ("Six", 6),
        ("zwölf", 12),
        ("both", 2),
        ("a pair", 2),
        ("2.5", None),
        ("some", None),
    ],
)
def test_counts_are_read_in_figures_and_words(typed: str, count: int | None):
    assert read_count(typed) == count
