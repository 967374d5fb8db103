"""Keys: what each kind takes, and what values may say."""

from __future__ import annotations

import pytest

from guidec.model.keys import KEYS
from guidec.model.types import Adhesive, Part, ScrewSet, Tool
from tests.model.things import clean, codes, lines, told


def test_the_keys_are_those_of_the_language():
    taken = {kind: " ".join(sorted(keys)) for kind, keys in KEYS.items()}
    held = "holds renew reuse"
    assert {kind: keys.removesuffix(" was") for kind, keys in taken.items()} == {
        "part": "class in mass material number qty sold-with source under",
        "screw": "captive colour grade hand head holds locked renew reuse torque",
        "connector": "from qty reuse to",
        "adhesive": f"amount {held}",
        "thermal": f"amount {held}",
        "clip": held,
        "solder": held,
        "fastening": held,
        "tool": "grade link",
        "supply": "link",
    }
    assert all(keys.endswith(" was") for keys in taken.values())


def test_a_part_takes_all_its_keys():
    declared = clean(
        "{part lid; qty=two; number=AB-1; class=Cover; material=>PC+ABS<; mass=12 g; under=shield; in=case; "
        "sold-with=seal, foot; source=maker}",
        "{part shield} {part case} {part seal} {part foot}",
    )
    lid = declared.things["lid"]
    assert isinstance(lid, Part)
    assert (lid.qty, lid.number, lid.cls, lid.cls_proposed, lid.material) == (
        2,
        "AB-1",
        "cover",
        False,
        ">PC+ABS<",
    )
    assert (lid.mass.low, lid.source) == (12, "maker")
    assert [ref.id for ref in lid.under] == ["shield"]
    assert lid.inside.id == "case"
    assert [ref.id for ref in lid.sold_with] == ["seal", "foot"]


def test_a_screw_set_takes_all_its_keys():
    declared = clean(
        "{screw A: 4x PH0 M2x6; head=pan; colour=black; torque=1.5 kgf·cm; grade=8.8; hand=left; locked=blue; "
        "captive; renew; holds=lid, wall; reuse=removable} {part lid}"
    )
    screws = declared.things["a"]
    assert isinstance(screws, ScrewSet)
    assert (screws.head, screws.colour, screws.grade, screws.left_hand) == ("pan", "black", "8.8", True)
    assert (screws.locked, screws.captive, screws.renew) == ("blue", True, True)
    assert screws.torque.low == pytest.approx(0.147, abs=1e-3)
    assert [ref.id for ref in screws.holds] == ["lid", None]


@pytest.mark.parametrize(
    ("key", "field", "value"),
    [
        ("captive", "captive", True),
        ("captive=yes", "captive", True),
        ("captive=no", "captive", False),
        ("captive=TRUE", "captive", True),
        ("renew=false", "renew", False),
        ("locked", "locked", ""),
        ("locked=yes", "locked", ""),
        ("locked=no", "locked", None),
        ("locked=blue compound", "locked", "blue compound"),
        ("hand=right", "left_hand", False),
    ],
)
def test_yes_or_no_keys_stand_bare_or_say_so(key: str, field: str, value: object):
    screws = clean(f"{{screw A: 1x T5; {key}}}").things["a"]
    assert getattr(screws, field) == value


@pytest.mark.parametrize(
    ("mark", "code", "typed", "suggestion"),
    [
        ("{part lid; undr=x}", "M110", "undr", "under"),
        ("{part lid; torque=1 N·m}", "M110", "torque", None),
        ("{tool pick; qty=2}", "M110", "qty", None),
        ("{screw A: 1x T5; tourque=1 N·m}", "M110", "tourque", "torque"),
        ("{part lid; number}", "M111", "number", None),
        ("{part lid; under}", "M111", "under", None),
        ("{screw A: 1x T5; torque}", "M111", "torque", None),
        ("{part lid; qty=0}", "M112", "0", None),
        ("{part lid; qty=some}", "M112", "some", None),
        ("{part lid; qty=2.5}", "M112", "2.5", None),
        ("{part lid; class=batery}", "M112", "batery", "battery"),
        ("{part lid; class=camera}", "M112", "camera", None),
        ("{screw A: 1x T5; reuse=reuseable}", "M112", "reuseable", "reusable"),
        ("{screw A: 1x T5; hand=lft}", "M112", "lft", "left"),
        ("{screw A: 1x T5; captive=maybe}", "M112", "maybe", "yes"),
        ("{tool pick; grade=basik}", "M112", "basik", "basic"),
        ("{screw A: 1x T5; torque=0.15}", "M130", "0.15", "0.15 N·m"),
        ("{screw A: 1x T5; torque=0.15 Nn}", "M131", "Nn", "0.15 N·m"),
        ("{screw A: 1x T5; torque=5 V}", "M132", "5 V", None),
        ("{screw A: 1x T5; torque=hand tight}", "M133", "hand tight", None),
        ("{part lid; mass=12}", "M130", "12", "12 g"),
        ("{part lid; mass=12 ml}", "M132", "12 ml", None),
    ],
)
def test_a_key_that_is_wrong_is_told_at_its_place(mark: str, code: str, typed: str, suggestion: str | None):
    _, findings = lines(mark)
    assert [(one.code, one.typed) for one in findings] == [(code, typed)]
    assert suggestion is None or findings[0].suggestions[0] == suggestion


def test_a_key_of_another_kind_names_that_kind():
    _, findings = lines("{part lid; captive}")
    assert "of `screw`" in findings[0].message


def test_an_undeclared_name_in_a_key_is_a_warning_and_makes_no_reference():
    declared, findings = lines("{screw A: 1x T5; holds=front housing, lidd} {part lid} {part front housing}")
    screws = declared.things["a"]
    assert [(one.code, one.typed, one.suggestions[0]) for one in findings] == [("M113", "lidd", "lid")]
    assert isinstance(screws, ScrewSet)
    assert [(ref.name, ref.id) for ref in screws.holds] == [("front housing", "front-housing"), ("lidd", None)]


def test_names_in_keys_may_hold_commas_kinds_and_an_and():
    declared = clean(
        "{screw A: 1x T5; holds=cover, small} {screw B: 1x T5; holds=lid and foot}",
        "{screw C: 1x T5; holds=part lid}",
        "{part cover, small} {part lid} {part foot}",
    )
    held = [[ref.id for ref in declared.things[own].holds] for own in ("a", "b", "c")]
    assert held == [["cover-small"], ["lid", "foot"], ["lid"]]


def test_each_name_in_a_list_has_its_place():
    declared, findings = lines("{screw A: 1x T5; holds=aaaa,  bbbb}")
    assert [one.typed for one in findings] == ["aaaa", "bbbb"]
    assert [ref.name for ref in declared.things["a"].holds] == ["aaaa", "bbbb"]


def test_the_wall_needs_no_declaration():
    clean("{connector mains lead: plug; to=Wall}")


@pytest.mark.parametrize(
    ("mark", "key"),
    [
        ("{part lid; under=lid}", "under"),
        ("{part lid; in=lid}", "in"),
        ("{screw lid: 1x T5; holds=lid}", "holds"),
        ("{connector lid: plug; to=lid}", "to"),
        ("{part lid; sold-with=lid}", "sold-with"),
    ],
)
def test_a_thing_that_names_itself_is_an_error(mark: str, key: str):
    _, findings = lines(mark)
    assert [(one.code, one.typed) for one in findings] == [("M114", "lid")]
    assert f"`{key}`" in findings[0].message


def test_parts_in_a_ring_are_told_once():
    _, findings = lines("{part a1; in=b1} {part b1; in=c1} {part c1; in=a1} {part d1; in=c1}")
    assert codes(findings) == ["M114"]


def test_declarations_that_complete_each_other_are_merged():
    declared = clean(
        "{screw A: 4x} {part lid: 2600 mAh; class=battery}",
        "{screw A: PH0; torque=0.1 Nm} {part lid: 3.7 V; number=7}",
        "{screw A: four M2x6; torque=10 cN·m} {part lid; class=battery}",
    )
    screws, lid = declared.things["a"], declared.things["lid"]
    assert isinstance(screws, ScrewSet)
    assert isinstance(lid, Part)
    assert (screws.count, screws.drives, screws.thread.text) == (4, ("PH0",), "M2×6")
    assert lid.battery.energy_wh == pytest.approx(9.62)
    assert lid.number == "7"
    assert len(lid.places) == 3


def test_a_thread_is_completed_by_its_length():
    screws = clean("{screw A: 4x PH0 M2} {screw A: M2x6}").things["a"]
    assert isinstance(screws, ScrewSet)
    assert screws.thread.length_mm == 6


@pytest.mark.parametrize(
    ("first", "second", "typed", "label"),
    [
        ("{screw A: 4x PH0 M2x6}", "{screw A: 5x PH0 M2x6}", "5", "4"),
        ("{screw A: 4x PH0 M2x6}", "{screw A: 4x PH1 M2x6}", "PH1", "PH0"),
        ("{screw A: 4x PH0 M2x6}", "{screw A: 4x PH0 M2x8}", "M2x8", "M2x6"),
        ("{connector J1: plug}", "{connector J1: coaxial}", "coaxial", "plug"),
        ("{adhesive seal: tape}", "{adhesive seal: foam}", "foam", "tape"),
        ("{part lid; class=cover}", "{part lid; class=other}", "other", "cover"),
        ("{part lid; qty=2}", "{part lid; qty=3}", "3", "2"),
        ("{screw A: 1x T5; torque=0.1 N·m}", "{screw A; torque=0.2 N·m}", "0.2 N·m", "0.1 N·m"),
        ("{screw A: 1x T5; captive}", "{screw A; captive=no}", "no", "captive"),
        ("{part b: 2600 mAh; class=battery}", "{part b: 2700 mAh}", "2700 mAh", "2600 mAh"),
        ("{supply oil: 2 ml}", "{supply oil: 3 ml}", "3 ml", "2 ml"),
    ],
)
def test_declarations_that_disagree_show_both_places(first: str, second: str, typed: str, label: str):
    _, findings = lines(first, second)
    assert [(one.code, one.typed, one.labels) for one in findings] == [("M103", typed, (label,))]


@pytest.mark.parametrize(
    ("first", "second"),
    [
        ("{screw A: 4x PH0 M2x6}", "{screw A: four ph0 M2 × 6 mm}"),
        ("{screw A: 1x T5; torque=0.1 N·m}", "{screw A; torque=10 cN·m}"),
        ("{adhesive seal: Tape}", "{adhesive seal: tape}"),
        ("{adhesive seal: tape}", "{adhesive seal: double-sided tape}"),
        ("{part lid; under=a1, b1} {part a1} {part b1}", "{part lid; under=b1, A1}"),
        ("{part lid; in=a1} {part a1}", "{part lid; in=A1}"),
    ],
)
def test_declarations_that_agree_in_other_words_are_one(first: str, second: str):
    clean(first, second)


def test_the_first_that_says_something_wins():
    declared, _ = lines("{adhesive seal}", "{adhesive seal: tape}", "{adhesive seal: foam}")
    seal = declared.things["seal"]
    assert isinstance(seal, Adhesive)
    assert seal.type == "tape"


def test_a_proposed_grade_is_marked_as_proposed():
    declared = clean("{tool spudger} {tool service cradle} {tool hot-air gun; grade=group}")
    tools = [thing for thing in declared.things.values() if isinstance(thing, Tool)]
    assert [(tool.grade, tool.grade_proposed) for tool in tools] == [
        ("basic", True),
        (None, False),
        ("group", False),
    ]


FRONT = """\
---
parts:
  battery pack: {details: "2600 mAh, 3.7 V", qty: 2, sold-with: [back cover, seal]}
  back cover: {under: battery pack}
  seal:
fasteners:
  A: {details: 4x PH0 M2x6, captive: true, torque: 0.15 N·m, holds: back cover}
  B: 2x T5 M1.6x4
tools: [tweezers, PH0 driver]
supplies: {isopropyl alcohol: "99 %, 2 ml"}
connectors: {lead: {details: plug, from: battery pack, to: wall}}
adhesives: {tape: {details: foam, renew: no}}
---
# Note

## Work

1. Undo {A}, {screw B}, {battery pack}.
"""


def test_the_tables_of_the_front_matter_declare_as_marks_do():
    declared, findings = told(FRONT)
    assert findings == []
    kinds = {own: thing.kind.value for own, thing in declared.things.items()}
    assert kinds == {
        "battery-pack": "part",
        "back-cover": "part",
        "seal": "part",
        "a": "screw",
        "b": "screw",
        "tweezers": "tool",
        "ph0-driver": "tool",
        "isopropyl-alcohol": "supply",
        "lead": "connector",
        "tape": "adhesive",
        "t5-driver": "tool",
    }
    pack, screws, tape = (declared.things[own] for own in ("battery-pack", "a", "tape"))
    assert isinstance(pack, Part)
    assert isinstance(screws, ScrewSet)
    assert isinstance(tape, Adhesive)
    assert (pack.qty, pack.battery.energy_wh, len(pack.sold_with)) == (2, pytest.approx(9.62), 2)
    assert (screws.captive, screws.count, screws.torque.low) == (True, 4, 0.15)
    assert tape.renew is False
    assert len(declared.resolved) == 3, "places of the front matter are no marks"


def test_the_front_matter_and_marks_complete_each_other_or_disagree():
    front = "---\nfasteners: {A: 4x PH0}\nparts: {lid: {class: cover}}\n---\n"
    note = front + "# N\n\n## W\n\n1. Undo {screw A: 5x M2x6}.\n2. Lift {part lid; class=other}.\n"
    declared, findings = told(note)
    assert [(one.code, one.typed, one.labels) for one in findings] == [
        ("M103", "5", ("4",)),
        ("M103", "other", ("cover",)),
    ]
    assert declared.things["a"].thread.text == "M2×6"


def test_what_the_schema_of_the_front_matter_reports_is_not_told_twice():
    _, findings = told(
        "---\nparts: {lid: {bogus: 1, class: batery, qty: 0}}\ntools: {pick: {grade: nice}}\n---\n# N\n"
    )
    assert [(one.code, one.typed) for one in findings] == [("M112", "batery")]
