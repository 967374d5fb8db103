"""Part classes proposed from names: common practice, no source; the classes are those of the language page."""

from __future__ import annotations

import pytest

from guidec.trade.classes import part_classes, propose_class


def test_the_classes_are_those_of_the_language():
    assert part_classes() == (
        "battery",
        "display",
        "cover",
        "camera-front",
        "camera-rear",
        "charging-port",
        "button",
        "microphone",
        "speaker",
        "hinge",
        "board",
        "cable",
        "sensor",
        "motor",
        "antenna",
        "shield",
        "supply-unit",
        "other",
    )


@pytest.mark.parametrize(
    ("name", "cls"),
    [
        ("battery pack", "battery"),
        ("Battery", "battery"),
        ("cells", "battery"),
        ("batteries", "battery"),
        ("battery cover", "cover"),
        ("battery cable", "cable"),
        ("battery holder", None),
        ("load cell", None),
        ("display", "display"),
        ("display assembly", "display"),
        ("display cable", "cable"),
        ("flex cable of the display", "cable"),
        ("display bracket", None),
        ("back glass", "cover"),
        ("rear cover", "cover"),
        ("lens cover", None),
        ("cover", "cover"),
        ("front camera", "camera-front"),
        ("rear camera", "camera-rear"),
        ("camera", None),
        ("camera flex", "cable"),
        ("charging port", "charging-port"),
        ("USB-C port", "charging-port"),
        ("charging port board", "board"),
        ("volume buttons", "button"),
        ("keyboard", None),
        ("microphone", "microphone"),
        ("speaker", "speaker"),
        ("left speaker", "speaker"),
        ("speaker (left)", "speaker"),
        ("speaker grille", None),
        ("earpiece speaker", "speaker"),
        ("hinges", "hinge"),
        ("circuit board", "board"),
        ("PCB", "board"),
        ("mainboard", "board"),
        ("driver board", "board"),
        ("fan", "motor"),
        ("fan 2", "motor"),
        ("fan guard", None),
        ("vibration motor", "motor"),
        ("motor cover", None),
        ("antenna", "antenna"),
        ("shield", "shield"),
        ("heat shield", None),
        ("power supply", "supply-unit"),
        ("power supply board", "supply-unit"),
        ("front housing", None),
        ("gasket", None),
        ("strap", None),
    ],
)
def test_what_a_name_ends_with_decides(name: str, cls: str | None):
    assert propose_class(name) == cls


@pytest.mark.parametrize(
    ("name", "cls"),
    [
        ("Akku", "battery"),
        ("Akkudeckel", "cover"),
        ("Displaykabel", "cable"),
        ("Hauptplatine", "board"),
        ("Netzteil", "supply-unit"),
        ("Lüfter links", "motor"),
        ("Hitzeschild", None),
        ("Gehäuse", None),
        ("battery pack", "battery"),
    ],
)
def test_german_names_are_read_by_how_the_word_ends(name: str, cls: str | None):
    assert propose_class(name, "de-AT") == cls


def test_a_language_without_a_list_falls_back_to_english():
    assert propose_class("display", "fr") == "display"
