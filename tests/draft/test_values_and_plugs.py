"""Readings, heat and waits said without their unit or verb, and connectors told in lists."""

from __future__ import annotations

import pytest

from bench.draft_facts import of_note
from tests.draft.narrate import acts, drafted, kinds


def values(*lines: str) -> list[tuple[str, float, float | None, str]]:
    """Kind, value, upper end and unit of all values that the note states."""
    found = of_note(drafted(*lines).text)["values"]
    return [(one["kind"], one["value"], one.get("to"), one["unit"]) for one in found]


@pytest.mark.parametrize(
    ("lines", "told"),
    [
        (["warm the back glass with the heat gun", "i set mine at two hundred"], ("heat", 200, None, "°C")),
        (["warm the back cover with hot air for two or three minutes"], ("heat-time", 120, 180, "s")),
        (["warm the back cover with hot air for two three minutes"], ("heat-time", 120, 180, "s")),
        (
            ["measure across the motor it should be seventy ohms", "mine says seventy three"],
            ("measure", 73, None, "ohm"),
        ),
        (["measure across the switch it should be half an ohm"], ("measure", 0.5, None, "ohm")),
        (["lift out the battery", "it says twenty five hundred milliamp hours"], ("capacity", 2500, None, "mAh")),
        (
            ["lift out the battery", "four thousand million power three point eight volts"],
            ("capacity", 4000, None, "mAh"),
        ),
        (["drip some alcohol under the battery", "about two mils of alcohol"], ("amount", 2, None, "ml")),
        (["before anything else hold the power button for ten seconds"], ("wait", 10, None, "s")),
        (
            ["put some alcohol under the battery", "and it can lie there for twenty minutes"],
            ("wait", 1200, None, "s"),
        ),
    ],
)
def test_values_without_their_unit_or_their_verb(lines, told):
    assert told in values(*lines)


@pytest.mark.parametrize(
    "line",
    [
        "open the hinge to about ninety degrees",
        "flip the latch up ninety degrees",
        "it runs for ninety seconds and stops",
        "we've got about forty minutes",
    ],
)
def test_numbers_that_are_no_values(line):
    assert values(line) == []


@pytest.mark.parametrize(
    ("lines", "done"),
    [
        (
            ["four others were opened in the same manner the display the fan and the fingerprint reader"],
            ["unplug display connector", "unplug fan connector", "unplug fingerprint reader connector"],
        ),
        (["battery plug first"], ["unplug battery plug"]),
        (["unplug the fan", "and the speaker same deal"], ["unplug fan connector", "unplug speaker connector"]),
        (["there's a red plug here", "that goes to the speaker", "pull it out"], ["unplug speaker plug"]),
    ],
)
def test_connectors_told_in_lists_and_by_what_they_serve(lines, done):
    assert acts(*lines) == done


def test_a_size_in_mils_is_millimetres_of_a_tool():
    assert kinds("tool", "release the two clips with a 1.5 mil screwdriver") == ["1.5 mm screwdriver"]


@pytest.mark.parametrize(
    "line",
    [
        "i'll catch you in the next one",
        "the battery is welded to two nickel tabs",
        "put the meter probes on the two tabs",
        "lift the plug up by its tab",
    ],
)
def test_words_for_clips_that_mean_none(line):
    assert kinds("clip", line) == []


def test_one_clip_is_one():
    assert "{? clip" in (text := drafted("the lever has a clip on the axle", "pull the clip off").text)
    assert ": 1}" in text


@pytest.mark.parametrize("line", ["remove the fan cable from the board", "free the fan cable from its socket"])
def test_a_cable_that_comes_off_its_board_is_unplugged(line):
    assert acts(line) == ["unplug fan cable"]


@pytest.mark.parametrize(
    ("line", "tools", "supplies"),
    [
        ("the edge of the shield is razor sharp", [], []),
        ("it's about coin shaped", [], []),
        ("there's a lot of grease in there", [], []),
        ("change to the ph1 bit and take out the two screws", ["PH1 bit"], []),
        ("clean the contacts with alcohol a few drops", [], ["alcohol"]),
    ],
)
def test_what_is_used_is_told_from_what_is_only_there_or_alike(line, tools, supplies):
    assert (kinds("tool", line), kinds("supply", line)) == (tools, supplies)


def test_an_upper_end_may_come_late():
    told = values(
        "warm the back glass with the heat gun for two minutes maybe three", "then lift off the back glass"
    )
    assert told == [("heat-time", 120, 180, "s")]


def test_a_part_laid_aside_with_its_wires_on_is_only_moved():
    lines = ["undo the four screws", "set the speaker aside with its wires still on"]
    assert acts(*lines) == ["undo 4x", "move speaker"]
