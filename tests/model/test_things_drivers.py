"""Drivers follow from drives."""

from __future__ import annotations

from guidec.model.drivers import driver_of
from guidec.model.types import Tool
from tests.model.things import clean


def test_each_drive_brings_its_driver_once():
    declared = clean("{screw A: 4x PH0 M2x6} {screw B: 2x PH0 M2x4} {screw C: 2x T5 M1.6x4}")
    tools = [thing for thing in declared.things.values() if isinstance(thing, Tool)]
    assert [(tool.name, tool.drive, tool.grade, tool.implied) for tool in tools] == [
        ("PH0 screwdriver", "PH0", "basic", True),
        ("T5 driver", "T5", "basic", True),
    ]
    assert dict(declared.drivers) == {"a": "ph0-screwdriver", "b": "ph0-screwdriver", "c": "t5-driver"}
    assert declared.driver(declared.things["c"]) == "t5-driver"


def test_a_declared_tool_that_plainly_is_the_driver_is_it():
    declared = clean(
        "{screw A: 4x PH0 M2x6} {screw B: 2x T5 M1.6x4} {tool PH0 driver} {tool small driver: Torx T5}"
    )
    assert dict(declared.drivers) == {"a": "ph0-driver", "b": "small-driver"}
    assert not any(thing.implied for thing in declared.things.values())


def test_of_two_drives_that_fit_the_one_that_is_needed_anyway_counts():
    assert clean("{screw A: 2x SL4|PZ1 M3x8}").drivers["a"] == "4-mm-slotted-screwdriver"
    assert clean("{screw A: 2x SL4|PZ1 M3x8} {screw B: 2x PZ1 M3x8}").drivers["a"] == "pz1-screwdriver"
    assert clean("{screw A: 2x SL4|PZ1 M3x8} {tool PZ1 screwdriver}").drivers["a"] == "pz1-screwdriver"


def test_a_set_without_a_drive_has_no_driver():
    declared = clean("{screw A: 4x M2x6} {screw B}")
    assert dict(declared.drivers) == {}


def test_a_driver_points_at_the_drive_that_asks_for_it():
    declared = clean("{screw A: 4x PH0 M2x6}")
    driver = declared.things["ph0-screwdriver"]
    assert driver.span == declared.things["a"].notation.drive_span
    assert driver.places == ()


def test_a_part_that_has_the_drivers_name_keeps_its_id():
    declared = clean("{part PH0 screwdriver} {screw A: 4x PH0 M2x6}")
    assert declared.drivers["a"] == "ph0-screwdriver-2"


def test_a_drivers_id_and_name_can_be_asked_for():
    assert driver_of("NUT5.5") == ("5-5-mm-nut-driver", "5.5 mm nut driver")


def test_a_german_note_has_german_drivers_under_the_same_ids():
    assert driver_of("PH0", "de") == ("ph0-screwdriver", "Schraubendreher PH0")
    assert driver_of("H2.5", "de-AT") == ("2-5-mm-hex-key", "Innensechskantschlüssel 2.5 mm")
    assert driver_of("PH0", "fr") == ("ph0-screwdriver", "PH0 screwdriver")
