"""What people say of damage and of harm: turns of speech of our own, common practice of workshop talk."""

from __future__ import annotations

import pytest

from guidec.draft.caution import harms_person, harms_thing, signal_of
from tests.draft.narrate import drafted

RISKS = [
    "or you'll rip the ribbon clean off the board",
    "because the plastic gets brittle with age",
    "don't yank on that cable",
    "do not pry near the corner",
    "never lift it by the lens",
    "it'll crack if you rush it",
    "those little hooks break really easily",
    "otherwise the clip gets bent",
    "be careful not to nick the foil",
    "mind the flex underneath",
    "watch out for the tiny spring",
    "if you force it the tabs will shear",
    "so you don't strip the heads",
    "pull on the plug not the wires",
    "that ceramic chips if you look at it",
    "you could easily puncture the membrane",
    "the threads strip when you overtighten them",
    "go slow around the camera",
    "you don't want to scratch the coating",
    "the spring will shoot across the room",
    "it's a really delicate connector",
    "i've broken two of these already",
    "this must not be bent",
    "without tearing the gasket",
    "easy to lose these",
    "the film is as thin as paper",
]

NO_RISKS = [
    "the cover snaps off",
    "now pull the fan straight out",
    "you can cut the adhesive with a blade",
    "i don't have the small one here",
    "we don't need that today",
    "don't forget the washer",
    "or you can use a plastic card",
    "they don't come with the kit",
    "it pops right off",
    "i'll break the seal with a pick",
    "carefully lift the board out",
    "don't worry about the colour",
    "and the tape peels off",
    "the screws come out easily",
    "then it lifts off",
    "the old one is cracked",
    "two screws hold it",
]

HAZARDS = [
    "that can give you a nasty shock",
    "those capacitors could kill you",
    "the blade is razor sharp",
    "watch your fingers here",
    "keep your hands away from the rotor",
    "always cut away from your thumb",
    "put your safety glasses on",
    "wear gloves for this one",
    "if you pierce the cell it catches fire",
    "a swollen pack is dangerous",
    "the fumes are toxic",
    "there's still high voltage in here",
    "it holds its charge for hours",
    "the bracket gets really hot",
    "do this in a well ventilated room",
    "don't breathe the dust in",
    "the glass throws splinters everywhere",
    "that fluid is bad for your eyes",
    "i nearly lost my finger there",
    "children may swallow the cell",
    "the terminals are live",
    "it'll burn you",
]

NO_HAZARDS = [
    "spin it with your fingers",
    "it came off in my hand",
    "the high voltage board sits on the left",
    "start at the vent",
    "use a razor blade",
    "the screw under the nose",
    "a hot air gun at ninety degrees",
    "peel the cap off the head",
    "use hot glue there",
    "it runs off the mains",
    "now nothing is live",
    "the arm comes off",
    "cut the tape with a sharp knife",
    "hold it in your hand",
]


@pytest.mark.parametrize("words", RISKS)
def test_words_of_damage_are_heard(words):
    assert harms_thing(words)


@pytest.mark.parametrize("words", NO_RISKS)
def test_words_of_work_are_no_risk(words):
    assert not harms_thing(words)


@pytest.mark.parametrize("words", HAZARDS)
def test_words_of_harm_are_heard(words):
    assert harms_person(words)


@pytest.mark.parametrize("words", NO_HAZARDS)
def test_words_of_work_are_no_hazard(words):
    assert not harms_person(words)


@pytest.mark.parametrize(
    ("words", "signal"),
    [
        ("it can catch fire", "WARNING"),
        ("that could kill you", "WARNING"),
        ("mind your fingers", "CAUTION"),
        ("the edge is sharp", "CAUTION"),
    ],
)
def test_what_can_be_serious_is_a_warning(words, signal):
    assert signal_of(words) == signal


def test_a_warning_stands_at_the_work_it_speaks_of_with_its_reason():
    made = drafted("unplug the fan", "now lift the board out", "don't bend it because the ribbon will tear")
    (board,) = [act for job in made.jobs for act in job.acts if act.do == "remove"]
    assert [risk.text for risk in board.risks] == ["don't bend it because the ribbon will tear"]
    assert "{? risk board: don't bend it because the ribbon will tear}" in made.text


def test_a_hazard_stands_above_the_work():
    made = drafted("lift the lid off", "watch your fingers the blade is very sharp", "then pull the motor out")
    assert "> CAUTION: Watch your fingers the blade is very sharp." in made.text
