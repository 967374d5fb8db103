"""Breaking torques, recomputed; units mixed up, converted by another library."""

from __future__ import annotations

from math import floor, log10

import pint
import pytest

from guidec.trade.load import data
from guidec.trade.torque import breaking_torque, class_named, computed_torque, slips, strongest_torque

GRADES = ("8.8", "9.8", "10.9", "12.9")
ROWS = [
    (float(row["d"]), grade, value)
    for row in data("torque")["breaking"]["rows"]
    for grade, value in zip(GRADES, row["values"], strict=True)
]


@pytest.mark.parametrize(("size", "grade", "value"), ROWS)
def test_the_table_of_iso_898_7_follows_from_its_formula(size: float, grade: str, value: float):
    """M_B = X Rm pi/16 d3min^3, ISO 898-7:1992 (formula, inputs and table from memory).

    The table prints two digits; the formula agrees to less than one in the last of them.
    """
    last_digit = 10.0 ** (floor(log10(value)) - 1)
    assert abs(computed_torque(size, grade) - value) < last_digit


def test_the_allowances_follow_from_the_pitch():
    """ISO 965-1: es = 15 + 11 P um for position g (from memory), rounded in the standard's table."""
    for row in data("torque")["breaking"]["rows"]:
        if row["es"]:
            assert row["es"] == pytest.approx(15 + 11 * row["pitch"], abs=1)


def test_a_finer_pitch_breaks_later():
    """By the formula the core is thicker (computed): M8x1 bears more than M8."""
    coarse, fine = breaking_torque(8, 1.25), breaking_torque(8, 1.0)
    assert fine.value_nm > coarse.value_nm
    assert fine.value_nm == pytest.approx(38, rel=0.12), "ISO 898-7 has 38 N·m for M8x1, 8.8 (from memory)"


def test_a_size_between_two_rows_takes_the_larger_ones():
    """Own assumption, on the side of silence: M2.6 is judged as M3."""
    assert breaking_torque(2.6).value_nm == 1.5
    assert breaking_torque(2.6).size_mm == 3


def test_past_the_table_nothing_is_said():
    assert breaking_torque(12) is None
    assert strongest_torque(12) is None
    assert slips("5 N·m", 12) == ()


@pytest.mark.parametrize(
    ("typed", "grade"),
    [("8.8", "8.8"), ("12,9", "12.9"), ("A2-70", "70"), ("a4 80", "80"), ("4.8", None), ("", None), (None, None)],
)
def test_classes_are_read(typed: str | None, grade: str | None):
    assert class_named(typed) == grade


def test_stainless_has_its_own_values():
    """ISO 3506-1: M3 in class 70 breaks at 1.6 N·m (from memory)."""
    assert breaking_torque(3, None, "A2-70").value_nm == 1.6
    assert breaking_torque(3, None, "A2-70").class_known


def test_an_unknown_class_is_taken_as_8_8():
    """Own assumption, as the issue of a warning needs some value."""
    assert (breaking_torque(2, None, "4.8").value_nm, breaking_torque(2, None, "4.8").class_known) == (0.37, False)


UNITS = pint.UnitRegistry()


@pytest.mark.parametrize(
    ("unit", "theirs"),
    [
        ("kgf·cm", "kilogram_force * centimeter"),
        ("lbf·in", "force_pound * inch"),
        ("cN·m", "centinewton * meter"),
        ("ozf·in", "force_ounce * inch"),
    ],
)
def test_the_units_that_are_mixed_up_convert_as_in_a_units_library(unit: str, theirs: str):
    """Checked against pint."""
    ours = data("torque")["slips"]["units"][unit]
    assert ours == pytest.approx(UNITS.Quantity(1, theirs).to("newton * meter").magnitude, rel=1e-9)


def test_one_newton_metre_in_the_units_of_the_trade():
    """Computed: 10.19716 kgf·cm, 8.850746 lbf·in, 141.6119 ozf·in."""
    units = data("torque")["slips"]["units"]
    assert 1 / units["kgf·cm"] == pytest.approx(10.19716, rel=1e-6)
    assert 1 / units["lbf·in"] == pytest.approx(8.850746, rel=1e-6)
    assert 1 / units["ozf·in"] == pytest.approx(141.6119, rel=1e-6)


@pytest.mark.parametrize(
    ("typed", "size", "units"),
    [
        ("15 N·m", 2, ("cN·m", "ozf·in")),
        ("1.5 N·m", 2, ("kgf·cm", "lbf·in")),
        ("12 Nm", 3, ("kgf·cm",)),
        ("100 N·m", 3, ("cN·m", "ozf·in")),
        ("9999 N·m", 2, ()),
    ],
)
def test_a_figure_that_makes_sense_in_another_unit(typed: str, size: float, units: tuple[str, ...]):
    """Own choice of what makes sense: 12 to 90 % of the 8.8 breaking torque."""
    found = slips(typed, size)
    assert tuple(unit for unit, _ in found) == units
    factors = data("torque")["slips"]["units"]
    for unit, value in found:
        number = float(typed.split()[0])
        assert value == pytest.approx(number * factors[unit])
        assert 0.12 <= value / breaking_torque(size).value_nm <= 0.9


def test_the_unit_typed_is_no_suggestion():
    assert "kgf·cm" not in dict(slips("1.5 kgf.cm", 2))
