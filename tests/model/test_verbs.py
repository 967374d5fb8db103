"""The usual verbs of teardown work, each as a line with a thing of the kind that it is said of."""

from __future__ import annotations

import pytest

from tests.model.helpers import built

THINGS = {
    "lid": "{part lid}",
    "a": "{screw A: 4x PH1 M3x8}",
    "c": "{clip C: 2x}",
    "x": "{connector X: flip-lock}",
    "joint": "{solder joint: 2x}",
    "pin": "{fastening pin: roll pin}",
    "tape": "{adhesive tape}",
}
OFF = """
    remove _ | take _ off | take out _ | lift _ away | pull _ straight up | slide out _ | pry up _ | prise off _
    | pop _ loose | lever _ up | peel back _ | snap off _ | split _ | tease out _ | wiggle _ free | rock _ loose
    | jiggle _ out | shimmy _ out | coax _ out | ease off _ | work _ loose | tip out _ | twist off _ | drop _ out
    | separate _ | detach _ | saw through _ | tear off _ | yank out _ | unmount _ | dismount _ | disassemble _
    | extract _ | withdraw _ | eject _ | retrieve _ | unwind _ | uncoil _ | untie _ | decouple _ | fish out _
"""
MOVED = """
    nudge _ aside | tilt _ up | pivot _ open | swing _ open | fold _ back | fold down _ | raise _ | lower _
    | set _ aside | put _ aside | place _ on a mat | lay _ down | move _ aside | push _ aside | tuck _ away
    | open _ | bend _ up
    | turn _ to the left | hinge _ up | hold _
"""
SHOWN = """
    note _ | photograph _ | take a photo of _ | look at _ | inspect _ | find _ | locate _ | expose _ | uncover _
    | feel for _ | spot _
"""
UNDONE = {
    "a": "undo _ | unscrew _ | screw out _ | back out _ | spin off _ | wind out _ | crack _ loose | loosen _",
    "c": "unclip _ | unlatch _ | disengage _ | squeeze _ | pinch _ | depress _ | press in _ | bend _ | open _",
    "joint": "desolder _ | melt _ | wick away _ | suck up _",
    "pin": "punch out _ | drive out _ | tap out _ | hammer out _ | grind off _ | file off _ | clip off _ | nip _",
    "tape": "heat _ {heat 60 °C, 1 min} | slice _ | slice through _ | saw _ | score _ | stretch _ | roll up _",
}
OPEN = "unplug _ | disconnect _ | unlock _ | flip open _ | flip the latch of _ up | unseat _"
NOTHING = """
    keep _ | store _ | label _ | support _ | grip _ | leave _ in place | brush _ | vacuum _ | drain _
    | run {tool pick} along _ | use {tool pick} under _ | insert {tool pick} under _
"""


def cases() -> list[tuple[str, str, str]]:
    rows = [(OFF, "lid", "off"), (MOVED, "lid", "moved"), (SHOWN, "lid", "exposed"), (OPEN, "x", "open")]
    rows += [(lines, thing, "undone") for thing, lines in UNDONE.items()]
    return [(line.strip(), thing, change) for lines, thing, change in rows for line in lines.split("|")]


@pytest.mark.parametrize(("line", "thing", "change"), cases())
def test_a_usual_verb_is_understood(line: str, thing: str, change: str) -> None:
    text = line.replace("_", THINGS[thing])
    guide, codes = built(f"# N\n\n## Work\n\n1. {text[0].upper()}{text[1:]}.\n")
    effects = {(one.id, one.change.value) for action in guide.actions.values() for one in action.effects}
    assert (effects, codes) == ({(thing, change)}, ())


@pytest.mark.parametrize("line", [one.strip() for one in NOTHING.split("|")])
def test_a_verb_that_changes_nothing_is_an_action_all_the_same(line: str) -> None:
    guide, codes = built(f"# N\n\n## Work\n\n1. {line.replace('_', THINGS['lid']).capitalize()}.\n")
    (action,) = guide.actions.values()
    assert (action.effects, codes) == ((), ())


@pytest.mark.parametrize(
    "line",
    [
        "Use {tool pick} to pry off {part lid}.",
        "Start by removing {part lid}.",
        "After that, remove {part lid}.",
        "Go ahead and remove {part lid}.",
        "Try to remove {part lid}.",
        "Remove {part lid} and set it aside.",
        "Grab {part lid} and pull it off.",
        "Remove {part lid} but keep {part seal}.",
    ],
)
def test_what_leads_in_or_follows_does_not_hide_the_action(line: str) -> None:
    guide, codes = built(f"# N\n\n## Work\n\n1. {line}\n")
    effects = {(one.id, one.change.value) for action in guide.actions.values() for one in action.effects}
    assert (effects, codes) == ({("lid", "off")}, ())


@pytest.mark.parametrize(
    "line", ["Using {tool pick}, pry off {part lid}.", "With {tool pick}, pry off {part lid}."]
)
def test_a_line_that_begins_with_its_means_is_doubted(line: str) -> None:
    assert built(f"# N\n\n## Work\n\n1. {line}\n")[1] == ("M201",)


@pytest.mark.parametrize(
    ("line", "gone"),
    [
        ("Remove {part lid}, support bracket {part B} and {part C}.", {"lid", "b", "c"}),
        ("Unplug {connector X: plug} and place card {part B} on a mat.", {"x", "b"}),
        ("Lift off {part lid}, close to the {part hinge}.", {"lid"}),
    ],
)
def test_a_noun_that_is_a_verb_elsewhere_begins_no_action(line: str, gone: set[str]) -> None:
    guide, _ = built(f"# N\n\n## Work\n\n1. {line}\n")
    assert {one.id for action in guide.actions.values() for one in action.effects} == gone


@pytest.mark.parametrize(
    "line",
    ["The place to reach is the edge.", "Nice to use and keep.", "A tight fit, close to the rim.", "Low count."],
)
def test_plain_prose_with_such_words_is_a_remark_without_a_doubt(line: str) -> None:
    guide, codes = built(f"# N\n\n## Work\n\n1. {line}\n")
    assert (guide.actions, codes) == ({}, ())


def test_a_verb_that_lacks_its_particle_is_told_so() -> None:
    assert built("# N\n\n## Work\n\n1. Clip {fastening tie: cable tie}.\n")[1] == ("M201",)
