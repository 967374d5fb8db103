"""Going back, side trips, verdicts, plans and talk: turns of speech of our own, common practice."""

from __future__ import annotations

import pytest

from tests.draft.narrate import acts, drafted

WORK = ("Lift the lid off.", "Then pull the motor out.")


def refits(*lines: str) -> list[str]:
    return [one.text for one in drafted(*lines).story.refits]


@pytest.mark.parametrize(
    "words",
    [
        "reassembly needs a second pair of fingers",
        "putting it back together check the wires",
        "for assembly the long screws go in the corners",
        "when it goes back use fresh tape",
        "on the way back in mind the ribbon",
        "going back together the seal goes in first",
        "now back together with the clips first",
        "when you close it up check the gasket",
        "before you reassemble it wipe the seats",
        "don't forget the spacer under the fan",
        "a new gasket goes on with grease",
        "torque the screws to two newton metres",
        "tighten those in a cross pattern",
        "the cable must be routed under the hook",
        "put the cover back on",
        "reconnect the battery last of all",
        "it gets a new seal",
        "fit the new belt and screw the plate back in",
        "take a photo first because you'll need it",
        "keep that one for the rebuild",
        "clip the shroud back on",
        "the earth wire goes on first",
        "fresh adhesive has to go all the way round",
        "line the notch up with the arrow",
        "make sure the spring sits in its hole",
        "finger tight and a quarter turn",
        "press along the edge till it clicks",
        "check that the ribbon is fully home",
        "it has to be recalibrated",
        "set the timing mark to twelve o'clock",
        "plug the battery back in",
        "now i'm screwing the lid back on",
        "keep the shims in order",
        "mark the position of the gear",
        "write down where the colours go",
        "clean the mating faces before you stick it down",
    ],
)
def test_words_on_putting_back_are_remarks_and_no_work(words):
    assert any(words.split()[-1] in text for text in refits(*WORK, words))
    assert acts(*WORK, words) == acts(*WORK)


@pytest.mark.parametrize(
    "words",
    [
        "fold the display back",
        "lift the back off",
        "loosen them in reverse order",
        "it should be under five volts",
        "the back comes off",
        "unplug the cable at the back",
        "turn it on its back",
        "the lid is stuck down with a bead of sealant",
        "they were only hand tight",
        "draw the socket out",
        "it should be around four ohms",
    ],
)
def test_words_of_work_are_no_remarks_on_putting_back(words):
    assert refits(*WORK, words) == []


def test_a_stretch_on_putting_back_gives_one_remark_for_each_thing_said_and_ends_with_the_score():
    told = refits(
        *WORK,
        "reassembly is the reverse of that",
        "and the seal goes in flat side down",
        "and the three long screws go in the corners",
        "i'd say seven out of ten",
        "the clips are nice",
    )
    assert told == ["and the seal goes in flat side down", "and the three long screws go in the corners"]


@pytest.mark.parametrize(
    "words",
    [
        "if you only need the fan you'd stop here",
        "if you just want the fan you don't need any of this",
        "if all you're after is the fan leave the rest alone",
        "if you only came for the fan you can stop here",
        "if it's just the fan you wouldn't have to open this",
        "if the fan is all you wanted you may stop here",
        "should only the fan be needed none of this is required",
        "should your fan be the only thing at fault you needn't have come this far",
        "if the only thing you need is the fan skip all that",
        "if you're only replacing the fan you don't have to go this way",
        "if your fan is dead and nothing else you wouldn't open this at all",
        "anyone who only wants the fan can leave all this where it is",
        "if it was only the fan you were after you'd leave this alone",
        "if you just came here for the fan you could have stopped at the lid",
        "had only the fan been at fault you would have needed none of this",
        "in case you only need the fan stop here",
        "if yours only has a broken fan stop way earlier",
        "if someone simply wants the fan they don't need to go in here",
        "if you merely want to swap the fan leave everything else in",
        "for just the fan you wouldn't come in this way",
    ],
)
def test_conditions_of_others_are_side_trips(words):
    made = drafted("lift the lid off", "unplug the speaker", words, "okay now pull the motor out")
    assert [trip.goal.name for trip in made.story.trips] == ["fan"]
    assert acts("lift the lid off", "unplug the speaker", words, "okay now pull the motor out") == acts(
        "lift the lid off", "unplug the speaker", "okay now pull the motor out"
    )


@pytest.mark.parametrize(
    "words",
    [
        "if you have a magnetic driver use it on the fan",
        "if you pull the fan too hard it breaks",
        "if the fan sticks give it a twist",
        "if you look here you can see the fan",
        "if the fan is stuck use heat",
    ],
)
def test_other_conditions_are_none(words):
    assert drafted("lift the lid off", words).story.trips == []


@pytest.mark.parametrize(
    ("words", "points", "scale"),
    [
        ("i give it a seven out of ten", 7, 10),
        ("eight outta ten", 8, 10),
        ("six and a half out of ten", 6.5, 10),
        ("so four out of five stars", 4, 5),
        ("seven points out of ten", 7, 10),
        ("six points of ten", 6, 10),
        ("i'll go with a nine out of ten", 9, 10),
        ("it's a solid 8 out of 10", 8, 10),
        ("three out of a possible ten", 3, 10),
        ("from ten points i give six and a half", 6.5, 10),
        ("seventy out of a hundred", 70, 100),
        ("an eight outta ten the clips are lame so seven and a half final answer", 7.5, 10),
        ("six out of ten no wait make it five", 5, 10),
        ("i'm gonna give it an eight outta ten tri wings are lame so seven and a half final answer", 7.5, 10),
        ("nine out of ten actually call it eight", 8, 10),
        ("a four out of ten so let's say four and a half", 4.5, 10),
        ("two out of ten and that's generous", 2, 10),
        ("five bones out of ten", 5, 10),
        ("that's a ten out of ten", 10, 10),
        ("one out of five", 1, 5),
        ("twelve out of twenty", 12, 20),
    ],
)
def test_verdicts(words, points, scale):
    verdict = drafted(*WORK, words).story.verdict
    assert verdict is not None
    assert (verdict.points, verdict.out_of) == (points, scale)


def test_a_verdict_may_be_parted_by_a_stop():
    verdict = drafted(*WORK, "Points? For the list on the wall: eight. Out of ten.").story.verdict
    assert verdict is not None
    assert (verdict.points, verdict.out_of) == (8, 10)


@pytest.mark.parametrize(
    "words",
    [
        "take three out of the five screws",
        "two of ten clips are broken",
        "nine times out of ten it's the fuse",
        "pull it out of the ten pin socket",
        "one of the five screws is longer",
    ],
)
def test_other_numbers_are_no_verdict(words):
    assert drafted(*WORK, words).story.verdict is None


@pytest.mark.parametrize(
    "words",
    [
        "today we are ripping open the phone",
        "we're going to take this laptop apart",
        "in this video i'll show you how to replace the battery",
        "i'm gonna crack open a drill today",
        "so the battery has to come out",
        "welcome back to the channel",
        "hey folks it's me again",
        "this video is brought to you by some drink",
        "smash that like button",
        "let me know in the comments",
        "my dog ate the last one",
        "thanks for watching",
        "see you in the next one",
        "use my code for ten percent off the drill",
        "we will open up this radio and have a look",
        "let's tear down this tablet",
        "today it's the battery of a phone",
        "don't forget to subscribe",
        "link in the description",
        "this is a full teardown of the watch",
    ],
)
def test_talk_is_no_work(words):
    assert acts(words) == []
    made = drafted(words, *WORK)
    assert [thing.name for thing in made.story.named if thing.kind == "part" and thing.gone] == ["lid", "motor"]
