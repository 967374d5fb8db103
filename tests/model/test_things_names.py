"""Names: what declares, what refers, what is a slip."""

from __future__ import annotations

import pytest

from guidec.model.types import Kind, Part, ScrewSet
from tests.model.things import clean, codes, lines, told


def test_things_come_in_the_order_of_their_first_place_and_drivers_last():
    declared = clean("{lid} {screw A: 4x PH0 M2x6}", "{part lid}", "{tool spudger}")
    assert list(declared.things) == ["lid", "a", "spudger", "ph0-screwdriver"]


def test_a_reference_may_stand_before_or_after_its_declaration():
    declared = clean("{front housing}", "{part front housing: black}", "{Front   HOUSING}")
    housing = declared.things["front-housing"]
    assert housing.name == "front housing"
    assert len(housing.places) == 3
    assert housing.span == housing.places[1], "the first place with a kind declares"
    assert set(declared.resolved.values()) == {"front-housing"}


def test_a_kind_with_a_known_name_and_no_details_refers():
    declared = clean("{screw A: 4x PH0 M2x6}", "{screw A}", "{A}")
    assert len(declared.things["a"].places) == 3
    assert declared.things["a"].count == 4


def test_a_declared_name_wins_over_kind_and_name():
    declared, findings = lines(
        "{part side key}", "{side key}", "{part heat sink}", "{heat sink}", "{part screw cover}", "{screw cover}"
    )
    assert findings == []
    assert set(declared.things) == {"side-key", "heat-sink", "screw-cover"}
    assert declared.values == {}
    assert [thing.details for thing in declared.things.values()] == ["", "", ""]


def test_a_declared_name_wins_over_kind_and_name_with_details_too():
    declared = clean("{part heat sink}", "{heat sink: black}")
    assert declared.things["heat-sink"].details == "black"


def test_only_a_longer_name_takes_a_mark_from_its_kind():
    declared = clean("{tool part lifter}", "{part lifter}", "{part tool part}")
    assert set(declared.things) == {"part-lifter", "tool-part"}


@pytest.mark.parametrize(
    "place",
    [
        "{part lid}",
        "# {part lid}",
        "> {part lid}",
        "| a |\n|---|\n| {part lid} |",
        "{refit press {part lid} down}",
        "- x\n\n  {part lid}",
        "### {part lid}",
        "*{part lid}*",
    ],
)
def test_things_are_declared_wherever_marks_stand(place: str):
    declared, _ = told(f"# Note\n\n## Work\n\n{place}\n\n1. {{lid}}\n")
    assert list(declared.things) == ["lid"]
    assert len(declared.things["lid"].places) == 2


def test_marks_inside_a_refit_are_resolved():
    declared = clean("{refit put {supply grease: 1 g} on {part seal}, {torque 0.1 N·m}}")
    assert list(declared.things) == ["grease", "seal"]
    assert len(declared.resolved) == 2
    assert [value.low for value in declared.values.values()] == [0.1]


def test_an_unknown_reference_gets_the_nearest_names():
    declared, findings = lines(
        "{part front housing}", "{part front cover}", "{part rear housing}", "{front housng}"
    )
    assert [(one.code, one.typed) for one in findings] == [("M102", "front housng")]
    assert findings[0].suggestions[0] == "{front housing}"
    assert len(findings[0].suggestions) <= 4
    assert declared.nearest("front housng")[0] == "front housing"


def test_a_shortened_name_finds_the_whole_one():
    _, findings = lines("{part battery pack}", "{battery}")
    assert findings[0].suggestions[0] == "{battery pack}"


def test_every_place_with_an_unknown_name_is_told():
    _, findings = lines("{lid}", "{lid}")
    assert codes(findings) == ["M102", "M102"]


def test_a_misspelled_kind_is_told_once_and_its_name_not_again():
    declared, findings = lines("{scrw A: 4x PH0 M2x6}", "{A}", "{part lid; under=A}")
    assert [(one.code, one.typed) for one in findings] == [("M101", "scrw")]
    assert findings[0].suggestions == ("{screw A: 4x PH0 M2x6}",)
    assert declared.find("A") is None


@pytest.mark.parametrize(
    ("mark", "better"),
    [
        ("{glue seal: tape}", "{adhesive seal: tape}"),
        ("{bolt A: 2x NUT8 M5x20}", "{screw A: 2x NUT8 M5x20}"),
        ("{plug J1: coaxial}", "{connector J1: coaxial}"),
        ("{spring S: 2}", "{fastening S: 2}"),
        ("{Schraube A: 2x T5}", "{screw A: 2x T5}"),
        ("{conector J1: plug}", "{connector J1: plug}"),
        ("{prat lid; qty=2}", "{part lid; qty=2}"),
    ],
)
def test_words_of_the_trade_lead_to_the_kind(mark: str, better: str):
    _, findings = lines(mark)
    assert codes(findings) == ["M101"]
    assert findings[0].suggestions[0] == better


def test_details_without_any_kind_are_told():
    _, findings = lines("{frobnicator: 2 pieces}")
    assert [(one.code, one.typed) for one in findings] == [("M101", "frobnicator")]
    assert findings[0].suggestions[0] == "{part frobnicator: 2 pieces}"


def test_a_kind_that_was_mistyped_before_a_known_name_is_a_kind():
    _, findings = lines("{screw A: 2x T5}", "{screws A}")
    assert [(one.code, one.typed, one.suggestions[0]) for one in findings] == [("M101", "screws", "{screw A}")]


def test_a_kind_word_alone_names_nothing():
    _, findings = lines("{part}", "{heat}")
    assert [(one.code, one.typed) for one in findings] == [("M106", "{part}"), ("M106", "{heat}")]


def test_one_name_with_two_kinds_is_an_error_with_both_places():
    declared, findings = lines("{part lead}", "{connector lead: plug}")
    assert [(one.code, one.typed, one.labels) for one in findings] == [("M104", "connector lead", ("part lead",))]
    assert declared.things["lead"].kind is Kind.PART
    assert declared.things["lead"].details == ""


@pytest.mark.parametrize(
    ("first", "later"),
    [
        ("rating label", "rating lable"),
        ("front housing", "frnt housing"),
        ("battery cover", "batterycover"),
        ("front housing", "front-housing"),
        ("microphone", "mircophone"),
        ("transformer", "transfomrer"),
        ("connector board", "conector board"),
        ("side clips", "side clip"),
    ],
)
def test_a_near_miss_is_asked_about_at_the_later_place(first: str, later: str):
    _, findings = lines(f"{{part {first}}}", f"{{part {later}}}")
    assert [(one.code, one.typed, one.suggestions, one.labels) for one in findings] == [
        ("M105", later, (first,), (first,))
    ]


@pytest.mark.parametrize(
    ("one", "other"),
    [
        ("left fan", "right fan"),
        ("fan 1", "fan 2"),
        ("A1", "A2"),
        ("A", "B"),
        ("J12", "J13"),
        ("upper cover", "lower cover"),
        ("inner ring", "outer ring"),
        ("front foot", "rear foot"),
        ("belt", "bolt"),
        ("motor", "rotor"),
        ("cell tab", "cell tape"),
        ("valve seal", "valve seat"),
        ("rear cover", "gear cover"),
        ("board A", "board B"),
        ("USB port", "USB part"),
        ("cable to J1", "cable to J2"),
        ("left rear foot", "left front foot"),
        ("strap", "strip"),
        ("fan", "pan"),
        ("10 mm foot", "12 mm foot"),
        ("driver board", "driver cover"),
        ("speaker", "speaker grille"),
        ("linke Klappe", "linke Kappe"),
    ],
)
def test_names_that_differ_on_purpose_raise_nothing(one: str, other: str):
    clean(f"{{part {one}}}", f"{{part {other}}}")


def test_a_plural_with_details_of_its_own_is_another_thing():
    clean("{part cell: 3.7 V}", "{part cells; qty=4}")
    clean("{part hinge}", "{screw hinges: 4x T6 M2x4}")


def test_many_names_alike_stay_quick_and_quiet():
    names = [f"{side} bracket {number}" for number in range(1500) for side in ("left", "right")]
    declared = clean(*(f"{{part {name}}}" for name in names))
    assert len(declared.things) == 3000


def test_ids_are_slugs_and_alone_among_things():
    declared, _ = lines(
        "{part Fan: x}",
        "{part fan-A}",
        "{part Fan A}",
        "{part Gehäuse}",
        "{part 電池}",
        "{part ###}",
        "{part 5 V rail}",
    )
    assert list(declared.things) == ["fan", "fan-a", "fan-a-2", "gehaeuse", "電池", "part", "5-v-rail"]


def test_a_name_is_found_with_its_own_kind_before_it():
    declared = clean("{screw A: 2x T5}", "{part lid}")
    assert declared.find("screw A") == "a"
    assert declared.find("Lid") == "lid"
    assert declared.find("part A") is None
    assert declared.ref("part lid", (0, 0)).id == "lid"


def test_a_draft_counts_and_is_told_once_a_mark():
    declared, findings = lines("{? part lid}", "{lid}", "{? part foot} {? wait 5 s}", "{part foot}")
    assert [(one.code, one.typed) for one in findings] == [
        ("D101", "{? part lid}"),
        ("D101", "{? part foot}"),
        ("D101", "{? wait 5 s}"),
    ]
    assert declared.things["lid"].draft
    assert not declared.things["foot"].draft, "confirmed in another place"


def test_a_risk_to_a_thing_nobody_declares_is_a_warning():
    declared, findings = lines(
        "{part gasket} {risk gasket: stretches} {risk gaskte: tears} {risk burns the fingers}"
    )
    assert [(one.code, one.typed, one.suggestions[0]) for one in findings] == [("M113", "gaskte", "gasket")]
    assert len(declared.resolved) == 1


def test_typed_things_have_their_type():
    declared = clean("{part lid} {screw A: 1x T5}")
    assert isinstance(declared.things["lid"], Part)
    assert isinstance(declared.things["a"], ScrewSet)


def test_a_list_of_names_in_one_mark_is_asked_about():
    _, findings = lines("{screw A: 2x T5} {screw B: 2x T6}", "{screw A, B}")
    assert [(one.code, one.typed, one.suggestions) for one in findings] == [("M107", "A, B", ("{A} and {B}",))]
    clean("{part cover, small} {part cover}")
    clean("{part nuts and bolts}")
