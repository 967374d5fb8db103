"""How people talk while they work, a turn of speech each: what is done to what, with what."""

from __future__ import annotations

import pytest

from tests.draft.narrate import acts, drafted, kinds, sets


@pytest.mark.parametrize(
    ("words", "done"),
    [
        ("go ahead and remove the fan", ["remove fan"]),
        ("i'm going to lift out the fan", ["remove fan"]),
        ("you wanna pull the fan out", ["remove fan"]),
        ("let's go ahead and take the fan off", ["remove fan"]),
        ("the fan is removed", ["remove fan"]),
        ("the fan can now be lifted out", ["remove fan"]),
        ("the fan comes right out", ["remove fan"]),
        ("and off comes the lid", ["remove lid"]),
        ("and out it comes so the fan", []),
        ("whip out the fan", ["remove fan"]),
        ("with that the fan's out", ["remove fan"]),
        ("flick the fan off with a pick", ["remove fan"]),
        ("remove the fan and the speaker", ["remove fan", "remove speaker"]),
        ("lift out the fan unplug the speaker cable", ["remove fan", "unplug speaker cable"]),
        ("take out the crumb flap", ["remove crumb flap"]),
        ("unplug the fan", ["unplug fan connector"]),
        ("flip the latch and slide the ribbon cable out", ["unplug ribbon cable"]),
        ("desolder the two wires", ["undo wire"]),
        ("swing the screen over to the left", ["move screen"]),
        ("turn it upside down", ["turn"]),
        ("clean the fan with a brush", ["treat fan"]),
        ("drive out the roll pin", ["undo roll pin"]),
    ],
)
def test_things_done(words, done):
    assert acts(words) == done


@pytest.mark.parametrize(
    "words",
    [
        "don't remove the fan",
        "you don't have to remove the fan",
        "before you remove the fan",
        "be careful not to pull the fan out",
        "if you remove the fan",
        "to remove the fan",
        "i'll show you how to take out the fan",
        "take a look at the fan",
        "without removing the fan",
        "the fan is nice",
    ],
)
def test_things_not_done(words):
    assert acts(words) == []


@pytest.mark.parametrize(
    ("lines", "told"),
    [
        (["there are four phillips screws"], ["4x PH"]),
        (["that's held in by two t5 screws"], ["2x T5"]),
        (["four sorry five screws"], ["5x"]),
        (["there are three screws", "they're all ph double zero"], ["3x PH00"]),
        (["there's four screws here", "these three are t5 and this one is a ph0"], ["3x T5", "1x PH0"]),
        (["six machine screws m five by sixteen"], ["6x M5x16"]),
        (["undo the two t8 screws", "there's two more under the strip"], ["2x T8", "2x"]),
        (["four torx ten screws", "the kind with the pin in the middle"], ["4x T10H"]),
        (["remove the four screws", "all four out"], ["4x"]),
        (["two screws with a three millimetre hex head"], ["2x NUT3"]),
        (["there are no screws on the outside"], []),
        (["two of the screws are longer"], []),
    ],
)
def test_screw_sets(lines, told):
    assert sets(*lines) == told


def test_sets_told_and_never_said_to_be_out_come_out_with_the_part_they_hold():
    assert acts("the fan is held in by three t5 screws", "then the fan lifts out") == ["undo 3x T5", "remove fan"]


def test_sets_that_are_only_told_stay_in():
    assert acts("the motor has six t6 screws", "i leave it in") == []
    assert sets("the motor has six t6 screws", "i leave it in") == ["6x T6"]


def test_pronouns_mean_what_was_spoken_of_last():
    assert acts("there's the speaker", "pull it out") == ["remove speaker"]
    assert acts("there are two t5 screws at the top", "take those out") == ["undo 2x T5"]
    assert acts("you've got the fan connector here", "just lift it straight up") == ["unplug fan connector"]
    assert acts("there's the fan connector and the display connector", "both of those get unplugged") == [
        "unplug fan connector",
        "unplug display connector",
    ]


def test_the_same_thing_told_twice_is_done_once():
    assert acts("so i remove the bracket", "and there's the bracket off") == ["remove bracket"]


@pytest.mark.parametrize(
    ("words", "tools"),
    [
        ("pry it up with a spudger", ["spudger"]),
        ("grab your tweezers", ["tweezers"]),
        ("heat needs to be applied with a hot air gun", ["hot air gun"]),
        ("you need a long t20 for that", ["T20 driver"]),
        ("use a t5 screwdriver on the fan", ["T5 screwdriver"]),
        ("never use a screwdriver here", []),
        ("the tip of the nose", []),
        ("a quick bit of fun", []),
    ],
)
def test_tools(words, tools):
    assert kinds("tool", words) == tools


def test_supplies_with_strength_and_amount():
    story = drafted(
        "there's the battery", "put two mils of ninety nine percent isopropyl alcohol along the edge"
    ).story
    (supply,) = [thing for thing in story.named if thing.kind == "supply"]
    assert (supply.name, sorted(value.text for value in supply.values)) == ("isopropyl alcohol", ["2 ml", "99 %"])
    assert kinds("supply", "it's leaking oil everywhere") == []


def test_heat_with_temperature_and_time_and_a_wait():
    (soften, undo) = [
        act
        for job in drafted(
            "the back glass is held down by adhesive",
            "warm it with a heat gun at eighty degrees for two minutes",
            "let it sit for thirty seconds",
            "then cut through the adhesive",
        ).jobs
        for act in job.acts
        if act.do in ("soften", "undo")
    ]
    assert [value.text for value in soften.heat] == ["80 °C", "2 min"]
    assert [value.text for value in soften.waits] == ["30 s"]
    assert undo.do == "undo"


def test_what_isolates_and_what_the_battery_holds():
    made = drafted(
        "first unplug the battery", "then lift out the battery", "it's three thousand milliamp hours 3.85 volts"
    )
    assert (made.story.power, made.story.isolate.name) == ("battery", "battery connector")
    assert "{? part battery: 3000 mAh, 3.85 V; class=battery}" in made.text


def test_a_verdict():
    assert (
        "verdict: {points: 6.5, out_of: 10}"
        in drafted("lift out the fan", "i'd give it a six and a half out of ten").text
    )


def test_parts_that_are_only_pointed_at_are_looks():
    made = drafted("lift out the fan", "here you can see the vibration motor")
    assert "Note {? part vibration motor; class=motor}." in made.text


def test_going_back_is_a_refit_remark_and_no_action():
    made = drafted("lift out the fan", "to put it back together make sure the fan cable sits flat")
    assert "{? refit" in made.text
    assert acts("lift out the fan", "to put it back together screw the fan down again") == ["remove fan"]


def test_risks_and_hazards():
    made = drafted(
        "there's the battery",
        "don't puncture it because it can catch fire",
        "pry out the battery",
        "the flex will tear if you pull it",
    )
    assert "> WARNING: " in made.text
    assert "{? risk" in made.text


def test_a_side_trip_is_another_route_and_no_part_of_the_main_line():
    made = drafted(
        "lift off the back cover",
        "unplug the display cable",
        "lift out the main board",
        "if you only need the charging port you would leave the board in",
        "and pull the charging port out with tweezers",
        "okay next lift out the speaker",
    )
    assert [job.title for job in made.jobs][-1] == "Only the charging port"
    assert "## Only the charging port {after operation" in made.text
    assert not any(job.trip is None and "charging port" in job.title for job in made.jobs)


def test_talk_is_left_out_and_counted():
    made = drafted(
        "welcome back everybody",
        "this video is sponsored by a web host",
        "get twenty percent off a spudger with the link below",
        "okay lift out the fan",
        "don't forget to subscribe",
    )
    assert (
        kinds(
            "tool", "this video is sponsored by a web host", "get twenty percent off a spudger with the link below"
        )
        == []
    )
    assert len(made.story.talk) == 3
    assert [job.title for job in made.jobs] == ["Remove the fan"]
