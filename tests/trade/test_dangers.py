"""Kinds of device that can kill; instructions that defeat a safety device."""

from __future__ import annotations

import pytest

from guidec.trade.dangers import dangers, speaks_of_mains, stored_charge_limit_v
from guidec.trade.defeat import defeat, defeats
from guidec.trade.load import data


@pytest.mark.parametrize(
    ("subject", "parts", "language", "caution"),
    [
        ("microwave oven", (), "en", "microwave"),
        ("kitchen machine", ("magnetron",), "en", "microwave"),
        ("Mikrowelle", (), "de", "microwave"),
        ("CRT monitor", (), "en", "picture-tube"),
        ("television", ("picture tube",), "en", "picture-tube"),
        ("flash gun", (), "en", "flash"),
        ("compact camera", ("flash capacitor",), "en", "flash"),
        ("valve amplifier", (), "en", "tube-amplifier"),
        ("fridge", (), "en", "refrigerant"),
        ("gas heater", (), "en", "gas"),
        ("Blitzgerät", (), "de", "flash"),
    ],
)
def test_kinds_are_told_by_subject_or_part(subject: str, parts: tuple[str, ...], language: str, caution: str):
    assert [each.caution for each in dangers(subject, parts, language)] == [caution]


@pytest.mark.parametrize(
    ("subject", "parts"),
    [
        ("head torch", ("battery pack", "driver board")),
        ("smartphone", ("camera", "flash led", "display")),
        ("bread oven", ("heating element",)),
        ("microwave motion sensor", ("antenna board",)),
        ("bicycle strobe", ("LED",)),
        ("inner tube pump", ("tube",)),
        ("USB flash drive reader", ("flash memory",)),
    ],
)
def test_other_devices_are_left_alone(subject: str, parts: tuple[str, ...]):
    assert dangers(subject, parts) == ()


def test_limits_of_stored_charge():
    """IEC 60335-1, 22.5: 34 V in 1 s at the plug; IEC 60204-1, 6.2.4: 60 V in 5 s (published)."""
    limits = data("stored-charge")["limits"]
    assert (limits["unplugged"]["volts"], limits["unplugged"]["seconds"]) == (34, 1)
    assert (limits["supply"]["volts"], limits["supply"]["seconds"]) == (60, 5)
    assert stored_charge_limit_v() == 60


def test_words_for_the_mains():
    assert speaks_of_mains("Unplug the mains lead")
    assert not speaks_of_mains("Unplug the motor lead")


DEFEATS = (
    "Bridge the door interlock with a wire",
    "Bridge {part thermal fuse: 10 A; class=other} with a clip lead",
    "Test it with the interlock bypassed",
    "Run it with the lid switch taped down",
    "Short the thermal fuse to see if the motor runs",
    "Tape down the lid switch",
    "Tape the interlock down",
    "Hold the door switch in with a clamp",
    "Jumper the fuse",
    "Wedge the lid switch down with a folded card",
    "Bypassing the RCD makes it run",
    "Disable the overload protection first",
    "Block the blade guard open",
    "Override the tip-over switch",
    "It is safe to defeat the safety switch for a moment",
)
HARMLESS = (
    "Never bridge the door interlock",
    "Do not run it with the lid switch taped down",
    "Check that nobody has bypassed the interlock",
    "Check whether the thermal fuse is bridged",
    "Replace the thermal fuse",
    "Desolder {part bridge rectifier} and {part fuse}",
    "Move the jumper next to the fuse",
    "Short out the capacitor beside the thermal fuse through a resistor",
    "Short {part smoothing capacitor} beside the fuse through a resistor",
    "Measure across the fuse",
    "Check for a short across the fuse",
    "The short at the fuse is gone",
    "Remove the solder bridge at the fuse",
    "Tie back the cable under the interlock",
    "Tape the thermal fuse to the winding",
    "Put tape over the fuse holder",
    "Peel the tape off the thermal fuse",
    "Unplug the interlock switch and lift it out",
    "Instead of bridging the fuse, fit a new one of the same rating",
    "Disconnect the earth wire",
    "Press the safety catch and slide out the battery",
    "Unscrew the protective earth",
    "Note {part bypass capacitor} at the fuse",
    "Hold the door switch and undo its screws",
    "Press the interlock switch in with a card and slide out the tray",
    "Block the flywheel with a wedge and undo the blade guard",
    "Note the wire around the fuse holder",
)


@pytest.mark.parametrize("text", DEFEATS)
def test_defeating_a_safety_device_is_seen(text: str):
    found = defeat(text)
    assert found, text
    assert found.verb in text[found.start : found.end]
    assert found.device.casefold() in text[found.start : found.end].casefold()


@pytest.mark.parametrize("text", HARMLESS)
def test_other_work_on_a_safety_device_is_let_be(text: str):
    assert defeat(text) is None


@pytest.mark.parametrize(
    ("text", "found"),
    [
        ("Den Türschalter überbrücken", True),
        ("Die Thermosicherung nie überbrücken", False),
        ("Sicherheitsschalter mit Draht überbrücken", True),
        ("Prüfen, ob die Sicherung überbrückt ist", False),
        ("Sicherung ersetzen", False),
    ],
)
def test_german(text: str, found: bool):
    assert bool(defeat(text, "de")) is found


def test_every_clause_is_looked_at():
    text = "Never bridge the fuse. Then bridge the interlock; jumper the thermal fuse."
    assert [each.device for each in defeats(text)] == ["interlock", "thermal fuse"]
