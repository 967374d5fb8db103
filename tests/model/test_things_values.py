"""Value marks: heat, wait, torque, measure."""

from __future__ import annotations

import pytest

from guidec.model.types import Heat, Measure, Quantity, Wait
from tests.model.things import Told, clean, lines


def value(mark: str) -> Heat | Wait | Measure | Quantity:
    """The value of a mark that must be clean."""
    (found,) = clean(mark).values.values()
    return found


@pytest.mark.parametrize(
    ("mark", "celsius", "seconds"),
    [
        ("{heat 70 °C, 2 min}", (70, 70), (120, 120)),
        ("{heat 70 C for 2 minutes}", (70, 70), (120, 120)),
        ("{heat: 70 °C, 2 min}", (70, 70), (120, 120)),
        ("{heat 2 min at 60-70 °C}", (60, 70), (120, 120)),
        ("{heat 70°C/2min}", (70, 70), (120, 120)),
        ("{heat 158 °F}", (70, 70), None),
        ("{heat 158 F}", (70, 70), None),
        ("{heat 343.15 K}", (70, 70), None),
        ("{heat 30–60 s}", None, (30, 60)),
        ("{heat about 70 °C, one minute, from the back}", (70, 70), (60, 60)),
        ("{heat max. 80 °C, 1 min 30 s}", (80, 80), (90, 90)),
        ("{heat 80 °C, 2x 30 s}", (80, 80), (30, 30)),
        ("{heat 70 °C\n   2 min}", (70, 70), (120, 120)),
    ],
)
def test_heat_is_a_temperature_a_time_or_both(
    mark: str, celsius: tuple[float, float] | None, seconds: tuple[float, float] | None
):
    heat = value(mark)
    assert isinstance(heat, Heat)
    for quantity, expected in ((heat.temperature, celsius), (heat.duration, seconds)):
        assert (quantity is None) == (expected is None)
        assert expected is None or (quantity.low, quantity.high) == (
            pytest.approx(expected[0]),
            pytest.approx(expected[1]),
        )


@pytest.mark.parametrize(
    "mark",
    [
        "{heat 80 °C, 5 cm away}",
        "{heat 80 °C, 2 min, setting 3}",
        "{heat 80 °C on level 2 of 5}",
        "{wait 5 min at 20 °C}",
        "{torque 0.15 N·m, then 90°}",
        "{wait 5 or 10 min}",
    ],
)
def test_what_is_said_beside_a_value_is_no_fault(mark: str):
    assert value(mark)


@pytest.mark.parametrize(
    ("mark", "typed"), [("{heat 80 °C, 2}", "2"), ("{heat 80 °C for 2}", "2"), ("{heat 80 °C, 2 m}", "2 m")]
)
def test_a_second_number_without_its_unit_is_a_fault(mark: str, typed: str):
    _, findings = lines(mark)
    assert [one.typed for one in findings] == [typed]


def test_heat_keeps_its_text():
    assert value("{heat 70 °C, two minutes, from the back}").text == "70 °C, two minutes, from the back"


@pytest.mark.parametrize(
    ("mark", "low", "high"),
    [
        ("{wait 45 s}", 45, 45),
        ("{wait 30-60 s}", 30, 60),
        ("{wait half an hour}", 1800, 1800),
        ("{wait until cool, 5 min}", 300, 300),
    ],
)
def test_wait_is_a_time(mark: str, low: float, high: float):
    wait = value(mark)
    assert isinstance(wait, Wait)
    assert (wait.duration.low, wait.duration.high) == (low, high)


def test_torque_is_a_torque():
    torque = value("{torque 1.5 kgf.cm}")
    assert isinstance(torque, Quantity)
    assert torque.low == pytest.approx(0.14709975)


@pytest.mark.parametrize(
    ("mark", "typed", "dimension", "where"),
    [
        ("{measure <=5 V across the capacitor}", "<=5 V", "voltage", "across the capacitor"),
        ("{measure 10±1 µF}", "10±1 µF", "capacitance", ""),
        ("{measure across C12: < 5 V}", "< 5 V", "voltage", "across C12"),
        ("{measure pin 3 to ground, 3.3 V ± 5 %}", "3.3 V ± 5 %", "voltage", "pin 3 to ground"),
        ("{measure < 1 ohm between the pins}", "< 1 ohm", "resistance", "between the pins"),
        ("{measure 40 C at the plate}", "40 C", "temperature", "at the plate"),
        ("{measure less than 2 mA}", "less than 2 mA", "current", ""),
    ],
)
def test_a_measure_is_a_value_and_a_place(mark: str, typed: str, dimension: str, where: str):
    measure = value(mark)
    assert isinstance(measure, Measure)
    assert (measure.value.typed, measure.value.dimension, measure.where) == (typed, dimension, where)


@pytest.mark.parametrize(
    ("mark", "code", "typed", "suggestions"),
    [
        ("{heat 70}", "M130", "70", ("70 °C", "70 °F", "70 s", "70 min")),
        ("{wait 45}", "M130", "45", ("45 s", "45 min")),
        ("{torque 0.15}", "M130", "0.15", ("0.15 N·m", "0.15 kgf·cm")),
        ("{measure 5 across C1}", "M130", "5", ("5 V",)),
        ("{heat 70 °}", "M131", "°", ("70 °C", "70 °F")),
        ("{heat 70 degrees}", "M131", "degrees", ("70 °C", "70 °F")),
        ("{wait 45 sceonds}", "M131", "sceonds", ("45 s",)),
        ("{wait 45 zorks}", "M131", "zorks", ("45 s", "45 min")),
        ("{torque 0.15 Nn}", "M131", "Nn", ("0.15 N·m",)),
        ("{measure 5 Vlt across C1}", "M131", "Vlt", ("5 V",)),
        ("{wait 2 m}", "M132", "2 m", ("2 min",)),
        ("{heat 2 m}", "M132", "2 m", ("2 min",)),
        ("{heat 5 V}", "M132", "5 V", ()),
        ("{torque 2 N}", "M131", "N", ("2 N·m",)),
        ("{heat gently}", "M133", "gently", ()),
        ("{wait until dry}", "M133", "until dry", ()),
        ("{torque hand tight}", "M133", "hand tight", ()),
        ("{measure continuity}", "M133", "continuity", ()),
        ("{heat 70 °C, 80 °C}", "M134", "80 °C", ()),
        ("{heat 1 min and again 2 min}", "M134", "2 min", ()),
        ("{wait 1 min, 2 min}", "M134", "2 min", ()),
    ],
)
def test_what_is_wrong_with_a_value_is_told_at_its_place(
    mark: str, code: str, typed: str, suggestions: tuple[str, ...]
):
    _, findings = lines(mark)
    assert [(one.code, one.typed) for one in findings] == [(code, typed)]
    assert findings[0].suggestions[: len(suggestions)] == suggestions


def test_two_faults_in_one_mark_are_two_findings():
    _, findings = lines("{heat 70 °, 2 m}")
    assert [(one.code, one.typed) for one in findings] == [("M131", "°"), ("M132", "2 m")]


def test_places_hold_in_a_quote_across_lines():
    _, findings = lines("x\n\n> {heat 70 °C,\n>  2 m}")
    assert [Told(one.code, one.typed) for one in findings] == [Told("M132", "2 m")]


def test_a_value_that_cannot_be_read_is_kept_with_its_text():
    declared, _ = lines("{heat gently} {torque tight}")
    (heat,) = declared.values.values()
    assert isinstance(heat, Heat)
    assert (heat.text, heat.temperature, heat.duration) == ("gently", None, None)
