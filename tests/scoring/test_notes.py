"""Notes scored from end to end: stretches, steps, what is assumed, outside the scope, other methods."""

from __future__ import annotations

from fractions import Fraction

import pytest

from guidec.model.types import Reuse
from guidec.scoring import assess
from guidec.scoring.assess import Ways
from guidec.scoring.change import Answer, Edge, Gone, Grade, Through, indexed
from guidec.scoring.ideas import ideas
from guidec.scoring.index import index
from guidec.scoring.library import method
from tests.scoring.helpers import assessed, findings, graph_of

PHONE = """
---
title: Calder P1
subject: {maker: Calder, model: P1, kind: smartphone}
power: battery
isolate: battery lead
scoring:
  foldable: no
  spare_parts: [display, battery, back cover]
  update_years: 6
  repair_information: public
  absent: [microphone, rear camera]
---

# Calder P1

## Open the back

1. Undo {screw A: 4x T5 M1.6x4}.
2. Pry off {part back cover; class=cover} with {tool spudger; grade=basic}.
3. Unplug {connector battery lead: press-fit}.

## Battery

1. Peel off {adhesive cell tape}.
2. Lift out {part battery: 3000 mAh, 3.85 V; class=battery}.

## Bottom {after back cover}

1. Undo {screw B: 3x PH00 M1.4x4}.
2. Lift out {part speaker} and {part charging port}.

## Display {after nothing} {live}

1. Warm {adhesive rim} with {tool heat gun} {heat 80 °C, 2 min}.
2. Pry off {part screen; class=display} with {tool card X; grade=maker}.
"""


def test_the_stretch_begins_after_the_priority_part_before():
    found = assessed(PHONE).evidence
    assert found is not None
    (battery,) = found.parts["BAT"]
    assert battery.after == "back-cover"
    assert [one.thing for one in battery.fastenings] == ["battery-lead", "cell-tape"]
    assert battery.tools == ()


def test_two_parts_that_come_off_at_once_have_the_same_stretch():
    """Common sense: what comes off in the same action does not come before it."""
    found = assessed(PHONE).evidence
    assert found is not None
    (speaker,), (port,) = found.parts["SPK"], found.parts["EC"]
    assert speaker.stretch == port.stretch
    assert [one.thing for one in speaker.fastenings] == ["battery-lead", "b"]


def test_the_index_of_a_note_worked_out_by_hand():
    """By hand from the Regulation: see the comments."""
    found = assessed(PHONE).index
    assert found is not None
    # T5 work ends at the spudger (1), the cover ends 2: 5 points; screws 5; basic tools 4
    cover = found.parts["BC"]
    assert (cover.steps, [one.low for one in cover.points.values()]) == (2, [5, 5, 4])
    # battery: the cover's two, then tape and battery: 3 steps, 4 points; tape removable 1; no tool 5
    battery = found.parts["BAT"]
    assert (battery.steps, [one.low for one in battery.points.values()]) == (3, [4, 1, 5])
    # display: heating, and the card is another tool: 2 steps; glue 1; a heat gun 1, the maker's card has no score
    display = found.parts["DA"]
    assert (display.steps, display.points["SDD"].low, display.points["SF"].low) == (2, 5, 1)
    assert (display.points["ST"].low, display.points["ST"].high) == (1, 1)
    assert found.scores["SSP"].low == 3  # the cameras: the rear one is not there, the front one is not sold
    assert {one.key: one.why for one in found.unknowns} == {
        "camera-front": "class",
        "button": "class",
        "card-x": "tools",
    }
    moves = {one.key: one.moves for one in found.unknowns}
    # a class that is not known: 0.05 x (0.25 + 0.15 + 0.15) x 4 points
    assert moves == {"camera-front": Fraction("0.11"), "button": Fraction("0.11"), "card-x": 0}


def test_defaults_and_proposals_are_assumptions():
    found = {(one.why, one.about) for one in assessed(PHONE).assumptions}
    assert {("fastenings", "cell-tape"), ("class", "speaker"), ("class", "charging-port")} <= found
    assert ("tools", "heat-gun") in found
    assert ("tools", "spudger") not in found
    assert ("class", "battery") not in found


def test_an_unstated_class_of_a_whole_range():
    found = assessed(PHONE.replace("  update_years: 6\n", "").replace("kind: smartphone", "kind: phone"))
    assert found.index is not None
    assert ("kind", "smartphone") in {(one.why, one.word) for one in found.assumptions}
    unknown = next(one for one in found.index.unknowns if one.key == "update_years")
    assert unknown.moves == Fraction("0.6")


def test_a_part_that_only_moves_never_comes_off():
    text = PHONE.replace("Lift out {part battery: 3000 mAh, 3.85 V; class=battery}", "Fold {part battery} aside")
    found = assessed(text).index
    assert found is not None
    assert "removal" in {one.why for one in found.unknowns}


@pytest.mark.parametrize(
    ("kind", "own"),
    [
        ("Smartphone", "eu-2023-1669"),
        ("slate tablet", "eu-2023-1669"),
        ("folding pocket phone", "eu-2023-1669"),
        ("rugged smartphone", "eu-2023-1669"),
        ("tablet", "eu-2023-1669"),
        ("feature phone", None),
        ("cordless phone", None),
        ("headphone", None),
        ("head torch", None),
    ],
)
def test_the_method_follows_from_the_kind(kind: str, own: str | None):
    found = assessed(PHONE.replace("kind: smartphone", f"kind: {kind}")).method
    assert (found.id if found else None) == own


def test_another_kind_that_asks_is_marked():
    text = PHONE.replace("kind: smartphone", "kind: desk fan").replace(
        "scoring:", "scoring:\n  method: eu-2023-1669"
    )
    found = assessed(text)
    assert found.choice.outside
    assert found.index is not None
    assert [one.code for one in findings(text)] == ["S108"]


def test_without_a_method_there_are_classes_and_no_index():
    found = assessed(PHONE.replace("kind: smartphone", "kind: desk fan"))
    assert found.index is None
    assert {one.part for one in found.classes} == {"back-cover", "battery", "speaker", "charging-port", "screen"}


def test_any_device_can_be_scored_by_the_own_method():
    fan = """
    # Desk fan

    ## Open

    1. Undo {screw A: 4x PH2 M4x10}.
    2. Lift off {part grille}.
    3. Undo {screw B: 2x PH2 M4x8}.
    4. Lift out {part motor; class=motor}.
    """
    found, _ = assess(graph_of(fan), method("own-neutral"))
    assert found.index is not None
    assert 1 <= found.index.total.low < found.index.total.high <= 5
    assert not found.choice.outside
    # by hand: other parts weigh 1, the motor 3; both within 3 steps, reusable, basic, within two minutes
    assert [found.index.scores[one].low for one in ("WAY", "FASTENINGS", "TOOLS", "TIME")] == [5, 5, 5, 5]


# ---------------------------------------------------------------- classes and lines


def test_classes_of_the_standard_by_the_whole_way():
    """EN 45554:2020: A reusable, B removable; tools A basic, C other commercially available, D proprietary."""
    found = {one.part: (one.fastenings.letter, one.tools.letter) for one in assessed(PHONE).classes}
    assert found == {
        "back-cover": ("A", "A"),
        "battery": ("B", "A"),
        "speaker": ("A", "A"),
        "charging-port": ("A", "A"),
        "screen": ("B", "D"),
    }


def test_place_and_skill_come_from_the_note_by_part():
    text = PHONE.replace("scoring:", "scoring:\n  environment: workshop\n  skill: {battery: layman, screen: C}")
    found = {one.part: one for one in assessed(text).classes}
    skill = {own: one.skill.letter if one.skill else None for own, one in found.items()}
    assert {one.environment.letter for one in found.values() if one.environment} == {"B"}
    assert (skill["battery"], skill["screen"], skill["speaker"]) == ("A", "C", None)


def verdicts(text: str) -> dict[tuple[str, str], str]:
    return {(one.rule, one.part): one.verdict for one in assessed(text).limits}


def test_lines_of_the_regulations():
    found = verdicts(PHONE)
    assert found["ecodesign", "battery"] == "fail"  # the tape is removable, neither resupplied nor reusable
    assert found["ecodesign", "screen"] == "fail"  # a proprietary tool
    assert found["batteries", "battery"] == "pass"
    assert found["ecodesign", "speaker"] == "open"  # nobody says who and where


def test_a_battery_passes_where_all_is_as_it_should_be():
    text = PHONE.replace("{adhesive cell tape}", "{adhesive cell tape; reuse=resupplied}")
    assert verdicts(text)["ecodesign", "battery"] == "open"
    assert verdicts(text.replace("scoring:", "scoring:\n  skill: layman"))["ecodesign", "battery"] == "pass"
    assert verdicts(text.replace("scoring:", "scoring:\n  skill: expert"))["ecodesign", "battery"] == "fail"


@pytest.mark.parametrize(
    "work",
    [
        "Warm {adhesive cell tape} {heat 60 °C, 1 min}",
        "Soak {adhesive cell tape} with {supply isopropyl alcohol: 99 %, 1 ml}",
        "Peel off {adhesive cell tape} with {tool cell key; grade=maker}",
    ],
)
def test_heat_solvents_and_proprietary_tools_fail_a_portable_battery(work: str):
    """Reg. (EU) 2023/1542, Art. 11 and recital 38."""
    assert verdicts(PHONE.replace("Peel off {adhesive cell tape}", work))["batteries", "battery"] == "fail"


def test_the_way_without_heat_is_the_one_that_is_judged():
    other = """
## Battery warm {instead of Battery}

1. Warm {cell tape} with {heat gun} {heat 60 °C, 1 min}.
2. Lift out {battery}.

## Bottom"""
    assert verdicts(PHONE.replace("\n## Bottom", other, 1))["batteries", "battery"] == "pass"


# ---------------------------------------------------------------- suppositions


def total(text: str, *changes: object) -> Fraction:
    graph = graph_of(text)
    own = method("eu-2023-1669")
    return indexed(graph, own, changes).total.low  # type: ignore[arg-type]


def test_what_if_moves_what_it_should():
    now = total(PHONE)
    assert total(PHONE, Answer("update_years", 7)) - now == Fraction("0.15") * 2
    # the battery's fastener points from 1 to 5, or to 3, at 0.30 of 0.15
    assert total(PHONE, Through("cell-tape", Reuse.REUSABLE)) - now == Fraction("0.3") * Fraction("0.15") * 4
    assert total(PHONE, Through("cell-tape", Reuse.RESUPPLIED)) - now == Fraction("0.3") * Fraction("0.15") * 2
    assert total(PHONE, Grade("heat-gun", "basic")) == now  # the maker's card has no score and may be 1


def test_several_changes_at_once_add_up():
    changes = (Answer("update_years", 7), Through("cell-tape", Reuse.REUSABLE))
    assert total(PHONE, *changes) - total(PHONE) == sum(total(PHONE, one) - total(PHONE) for one in changes)


def test_a_battery_that_needs_no_cover_off():
    """Without the cover: unplug, peel, lift out, in one step; 5 points at 0.30 of 0.25 instead of 4."""
    assert total(PHONE, Edge("battery", ("back-cover",))) - total(PHONE) == Fraction("0.3") * Fraction("0.25")


def test_what_is_not_there_need_not_be_undone():
    assert total(PHONE, Gone("cell-tape")) - total(PHONE) == Fraction("0.3") * Fraction("0.15") * 4


def test_ideas_are_ranked_and_each_is_what_it_says():
    found = assessed(PHONE)
    ranked = ideas(found)
    gains = [one.gain for one in ranked]
    assert gains == sorted(gains, reverse=True)
    assert gains[-1] > 0
    assert found.method is not None
    assert found.index is not None
    for one in ranked:
        alone = indexed(found.graph, found.method, [one.change])
        assert alone.total == one.total
    # two points at 0.15 for the spare parts; four at 0.30 of 0.15 for either glue
    assert (ranked[0].change, ranked[0].gain) == (Answer("spare_parts", "all"), Fraction("0.3"))
    assert {
        one.change.thing for one in ranked if one.gain == Fraction("0.18") and isinstance(one.change, Through)
    } == {
        "cell-tape",
        "rim",
    }


def test_the_index_is_the_same_each_time():
    found = assessed(PHONE)
    assert found.method is not None
    assert found.evidence is not None
    assert index(found.method, found.evidence) == found.index
    assert Ways(found.graph).off("battery") is not None
