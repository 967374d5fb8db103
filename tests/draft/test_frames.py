"""What is done, in the turns that people put it in: each verb in each turn, drafted from captions without stops.

The verbs and turns are common practice, no source.
"""

from __future__ import annotations

import pytest

from guidec.draft import draft
from guidec.draft.story import Act, Named, Screws

BEFORE, AFTER = "okay so that's the cover done", "okay let's carry on"

REMOVING = (
    "lift lifts lifted lifting out", "pull pulls pulled pulling off", "pop pops popped popping up",
    "pry pries pried prying off", "take takes taken taking out", "remove removes removed removing",
    "slide slides slid sliding out", "peel peels peeled peeling back", "wiggle wiggles wiggled wiggling free",
    "unclip unclips unclipped unclipping", "draw draws drawn drawing out", "whisk whisks whisked whisking away",
)  # fmt: skip
REMOVED = (
    "now {v} the bracket {p}", "i'm going to {v} the bracket {p}", "then i {v} {p} the bracket",
    "here's the bracket so just {v} it {p}", "this is the bracket and i'm {g} that {p} now",
    "i've {d} the bracket {p}", "you want to {v} the bracket {p}",
    "after that the bracket was {d} {p}", "which lets us {v} the bracket {p}",
    "here's the bracket that one you {v} straight {p}", "the bracket i {v} {p} by hand",
    "there's a bracket here too we need to {v} {p}", "and the bracket should just {v} {p}",
)  # fmt: skip
OPENING = (
    "unplug unplugs unplugged unplugging", "pop pops popped popping off", "lift lifts lifted lifting up",
    "flick flicks flicked flicking up", "wiggle wiggles wiggled wiggling out", "pry pries pried prying up",
)  # fmt: skip
OPENED = (
    "now {v} the fan connector {p}", "here's the fan connector so just {v} it {p}",
    "the fan connector can be {d} {p}", "the fan has a plug so {v} that {p}",
    "with a fingernail {v} the fan connector {p}", "{v} the fan cable {p} from the board",
    "go ahead and {v} the fan ribbon {p}",
)  # fmt: skip
UNDOING = (
    "undo undoes undone undoing", "unscrew unscrews unscrewed unscrewing", "take takes taken taking out",
    "get gets gotten getting out", "zip zips zipped zipping out", "spin spins spun spinning out",
)  # fmt: skip
UNDONE = (
    "now {v} the four screws {p}", "there are four screws so {v} those {p}", "the four screws are {d} {p}",
    "i've {d} the four screws {p}", "it's held in by four screws {v} them {p}",
    "you've got four screws to {v} {p}", "use your driver to {v} the four screws {p}",
)  # fmt: skip
UNKNOWN = {
    "whisk": {
        "here's the bracket that one you {v} straight {p}", "the bracket i {v} {p} by hand",
        "then i {v} {p} the bracket", "there's a bracket here too we need to {v} {p}",
        "and the bracket should just {v} {p}",
    }
}  # fmt: skip
"""A verb of no lexicon is known by its object before its particle."""


def told(said: str) -> list[Act]:
    """The actions of some words, spoken in cues of seven words."""
    words = f"{BEFORE} {said} {AFTER}".split()
    rows = [words[at : at + 7] for at in range(0, len(words), 7)]
    cues = [f"00:03:{2 * n:02}.000 --> 00:03:{2 * n + 1:02}.900\n{' '.join(row)}" for n, row in enumerate(rows)]
    return draft("\n\n".join(["WEBVTT", *cues]).encode()).story.acts


def _said(turn: str, verb: str) -> str:
    base, _, done, going, *particle = verb.split()
    return " ".join(turn.format(v=base, d=done, g=going, p=" ".join(particle)).split())


def _sayings(turns: tuple[str, ...], verbs: tuple[str, ...]) -> list[str]:
    return [
        _said(turn, verb)
        for verb in verbs
        for turn in turns
        if turn not in UNKNOWN.get(verb.split()[0], ())
    ]  # fmt: skip


@pytest.mark.parametrize("said", _sayings(REMOVED, REMOVING))
def test_a_part_that_is_told_to_come_off_comes_off(said: str) -> None:
    assert any(
        act.do == "remove" and any(isinstance(thing, Named) and thing.name == "bracket" for thing in act.things)
        for act in told(said)
    )


@pytest.mark.parametrize("said", _sayings(OPENED, OPENING))
def test_a_connector_that_is_told_to_be_opened_is_opened(said: str) -> None:
    assert any(
        act.do == "unplug" and any(isinstance(thing, Named) and "fan" in thing.name for thing in act.things)
        for act in told(said)
    )


@pytest.mark.parametrize("said", _sayings(UNDONE, UNDOING))
def test_screws_that_are_told_to_come_out_come_out_once(said: str) -> None:
    undone = [act for act in told(said) if act.do == "undo"]
    assert len(undone) == 1
    assert [thing.count for thing in undone[0].things if isinstance(thing, Screws)] == [4]


@pytest.mark.parametrize(
    "said",
    [
        "don't lift the bracket out", "you could lift the bracket out but we don't need to",
        "before you lift the bracket out look at the hinge", "if you lift the bracket out now the spring jumps",
        "i would never pull the bracket off", "when you put the bracket back lift the cover out of the way",
    ],
)  # fmt: skip
def test_what_is_forbidden_supposed_or_for_later_is_not_done(said: str) -> None:
    assert not any(
        act.do == "remove" and any(isinstance(thing, Named) and thing.name == "bracket" for thing in act.things)
        for act in told(said)
    )


@pytest.mark.parametrize(
    ("said", "thing"),
    [
        ("clean the old glue off the frame with some alcohol", "frame"),
        ("pull the knobs from the front", "knobs"),
    ],
)
def test_what_is_worked_on_may_stand_behind_what_comes_off_it(said: str, thing: str) -> None:
    named = [*(one.name for act in told(said) for one in act.things if isinstance(one, Named))]
    assert any(thing.rstrip("s") in name for name in [*named, *(act.plain for act in told(said))])


def test_a_pull_right_after_the_suction_cup_is_set_takes_nothing_off() -> None:
    assert not [act for act in told("stick the suction cup on the glass and just pull up") if act.do == "remove"]


def test_the_device_put_on_its_face_is_turned() -> None:
    assert told("now turn the radio on its face")[-1].do == "turn"


def test_a_way_round_is_no_part() -> None:
    assert not [one for act in told("cut all the way round the back") for one in act.things if "way" in str(one)]
