"""The actions of the language: what is one, what it acts on, what it changes."""

from __future__ import annotations

import pytest

from guidec.model import build
from guidec.model.types import Change, Family
from guidec.notes import read
from guidec.rules.book import wording
from guidec.source import Source
from tests.model.helpers import built, guide_of, line, needs

OFF, MOVED, UNDONE, OPEN, EXPOSED = Change.OFF, Change.MOVED, Change.UNDONE, Change.OPEN, Change.EXPOSED


def effects(words: str) -> list[list[tuple[str, Change]]]:
    return [[(effect.id, effect.change) for effect in action.effects] for action in line(words)]


@pytest.mark.parametrize(
    ("words", "expected"),
    [
        ("Undo {screw A: 4x PH0 M2x6}.", [[("a", UNDONE)]]),
        ("Lift off {part lid}.", [[("lid", OFF)]]),
        ("Carefully lift off {part lid}.", [[("lid", OFF)]]),
        ("Now, very gently, pry up {part lid}.", [[("lid", OFF)]]),
        ("Slide {part left fan} out.", [[("left-fan", OFF)]]),
        ("Unplug {connector lead: plug}.", [[("lead", OPEN)]]),
        ("Undo {screw A: 4x PH0 M2x6} and lift off {part lid}.", [[("a", UNDONE)], [("lid", OFF)]]),
        ("Undo {screw A: 4x PH0 M2x6}, then lift {part lid} off.", [[("a", UNDONE)], [("lid", OFF)]]),
        ("Remove {part lid}, {part rim} and the small {part cap}.", [[("lid", OFF), ("rim", OFF), ("cap", OFF)]]),
        ("Pull {part lid} out of the housing.", [[("lid", OFF)]]),
        ("Peel off {thermal pad} with a card.", [[("pad", UNDONE)]]),
        ("Fold {part board} aside.", [[("board", MOVED)]]),
        ("Lift {part board} up {partly}.", [[("board", MOVED)]]),
        ("Note {part moisture indicator} under the board.", [[("moisture-indicator", EXPOSED)]]),
        ("Look at {part label}.", [[("label", EXPOSED)]]),
        ("Warm the rim to soften {adhesive seal: tape}.", [[("seal", UNDONE)]]),
        ("Soak the edge of {adhesive tape} with {supply alcohol}.", [[("tape", UNDONE)]]),
        ("Clean the seat.", [[]]),
        ("Turn the radio over.", [[]]),
        ("Open {connector flat cable: flip-lock}.", [[("flat-cable", OPEN)]]),
        ("Drill out {fastening rivets}.", [[("rivets", UNDONE)]]),
    ],
)
def test_what_a_line_changes(words: str, expected: list[list[tuple[str, Change]]]) -> None:
    assert effects(words) == expected


def test_objects_end_at_a_preposition_and_the_rest_is_mentioned() -> None:
    (action,) = line("Unplug {connector lead: plug} from the {part board} with {tool tweezers}.")
    assert [use.id for use in action.objects] == ["lead"]
    assert [use.id for use in action.mentions] == ["board"]
    assert [use.id for use in action.tools] == ["tweezers"]


def test_what_stands_over_or_on_an_object_without_a_mark_is_none() -> None:
    actions = line("Remove the tape over {part lid} and lift the cable off {part board}.", clean=False)
    assert [action.effects for action in actions] == [(), ()]
    (action,) = line("Lift carefully off {part lid}.")
    assert [effect.id for effect in action.effects] == ["lid"]


@pytest.mark.parametrize("lead", ["Carefully and slowly", "Carefully, slowly and evenly"])
def test_adverbs_that_are_joined_are_skipped(lead: str) -> None:
    (action,) = line(f"{lead} slide {{part fan}} out.")
    assert (action.verb, [effect.id for effect in action.effects]) == ("slide", ["fan"])


def test_a_thing_that_only_stands_behind_with_is_asked_about_where_nothing_is_taken() -> None:
    assert built("# Note\n\n## Work\n\n1. Lift with care {part lid}.\n")[1] == ("M202",)
    assert built("# Note\n\n## Work\n\n1. Lift off {part lid} with {part gasket}.\n")[1] == ()
    assert built("# Note\n\n## Work\n\n1. Pry with a {tool card} at {part lid}.\n")[1] == ()


def test_an_operation_without_a_title_is_told_what_it_is_called() -> None:
    document, _ = read(Source.of("note.md", "# Note\n\n##\n\n1. Lift off {part lid}.\n"))
    guide, findings = build(document)
    assert [guide.operations[0].title in wording(finding).help for finding in findings] == [True]


def test_a_name_of_two_kinds_is_one_error_and_its_counts_are_left_alone() -> None:
    text = "# Note\n\n## Work\n\n1. Undo {screw B: 1x PH0 M2x4}.\n2. Lift off {part b}.\n"
    assert built(text)[1] == ("M104",)


@pytest.mark.parametrize("typed", ["english!", "../words/de", '"\\0"', "/etc/passwd"])
def test_a_language_that_is_no_tag_is_one_error_and_the_note_is_read_as_english(typed: str) -> None:
    guide, codes = built(f"---\nlanguage: {typed}\n---\n# Note\n\n## Work\n\n1. Lift off {{part lid}}.\n")
    assert codes == ("N021",)
    assert (guide.meta.language, [action.verb for action in guide.actions.values()]) == ("en", ["lift"])


def test_a_participle_starts_no_action() -> None:
    (action,) = line("Lift off {part lid}, holding the {part frame} down.")
    assert [use.id for use in action.objects] == ["lid"]


def test_a_particle_chooses_the_reading_of_its_verb() -> None:
    assert line("Turn the fan over.")[0].family is Family.TURN
    assert line("Turn off the fan.")[0].family is Family.TREAT
    assert line("Short out the capacitor.")[0].verb == "short out"
    assert line("Check for cracks.")[0].family is Family.LOOK


@pytest.mark.parametrize(
    ("words", "count"),
    [
        ("2 of {screw A}", 2),
        ("two of the {screw A}", 2),
        ("both of {screw A}", 2),
        ("all but 1 of {screw A}", 3),
        ("all but one of {screw A}", 3),
        ("all of {screw A}", None),
        ("the rest of {screw A}", 4),
        ("{screw A}", None),
    ],
)
def test_shares_of_a_set(words: str, count: int | None) -> None:
    guide, _ = built(f"# Note\n\n## Work\n\n1. Undo {words}.\n\nThe set {{screw A: 4x PH0 M2x6}}.\n")
    (action,) = guide.actions.values()
    assert [effect.count for effect in action.effects] == [count]


def test_the_rest_is_what_was_not_taken_before() -> None:
    guide = guide_of(
        """\
        # Note

        ## Work

        1. Undo 2 of {screw A: 6x PH0 M2x6}.
        2. Undo one of {screw A}.
        3. Undo the last of {screw A}.
        """
    )
    assert [action.effects[0].count for action in guide.actions.values()] == [2, 1, 3]


def test_a_line_without_a_verb_is_a_remark() -> None:
    guide = guide_of("# Note\n\n## Work\n\n1. The lid is thin.\n2. Lift off {part lid}.\n")
    assert list(guide.actions) == ["work/1"]


@pytest.mark.parametrize(
    ("words", "codes"),
    [
        ("With a card, pry off {part lid}.", ("M201",)),
        ("Lfit off {part lid}.", ("M201",)),
        ("The {part lid} is thin.", ("M201",)),
        ("Two clips hold it.", ("M201",)),
        ("Do not lift by the cable.", ()),
        ("It takes some force, never pull.", ()),
        ("There is a cut in the frame.", ()),
        ("Use {tool card}.", ()),
        ("Undo {screw A: 4x PH0 M2x6}. Lift off {part lid}.", ("M202",)),
        ("Unplug {connector lead: plug} from {part board}.", ()),
        ("Pull {connector lead: plug} out of {part board}.", ()),
    ],
)
def test_lines_that_may_be_meant_otherwise(words: str, codes: tuple[str, ...]) -> None:
    assert built(f"# Note\n\n## Work\n\n1. {words}\n")[1] == codes


def test_asides_go_to_the_action_in_whose_clause_they_stand() -> None:
    first, second = line(
        "Warm the rim {heat 70 °C, 2 min} to soften {adhesive seal} and lift off {part lid} "
        "{risk lid: cracks}\n   {refit press it on for {wait 30 s}}."
    )
    assert first.heats[0].temperature is not None
    assert first.heats[0].temperature.low == 70
    assert [risk.text for risk in second.risks] == ["cracks"]
    assert second.risks[0].thing is not None
    assert second.risks[0].thing.id == "lid"
    assert [note.text for note in second.refits] == ["press it on for 30 s"]
    assert not first.risks


def test_the_driver_of_a_set_is_used_unless_a_tool_is_marked() -> None:
    (action,) = line("Undo {screw A: 4x PH0 M2x6}.")
    assert len(action.tools) == 1
    (other,) = line("Undo {screw A: 4x PH0 M2x6} with {tool cordless driver}.")
    assert [use.id for use in other.tools] == ["cordless-driver"]


def test_actions_read_as_sentences() -> None:
    actions = line("undo {screw A: 4x PH0 M2x6} and lift off {part lid} with {tool plastic card}")
    assert [action.text for action in actions] == [
        "Undo 4 × PH0 M2×6 (A).",
        "Lift off lid with plastic card.",
    ]


def test_looks_and_plain_checks_are_never_needed() -> None:
    guide = guide_of(
        "# Note\n\n## Work\n\n1. Look at {part label}.\n2. Check the fuse.\n"
        "3. Measure {measure <=5 V across the capacitor}.\n4. Discharge the capacitor.\n"
    )
    assert [action.step for action in guide.actions.values()] == [False, False, True, True]


def test_a_name_that_is_declared_is_read_before_a_kind_with_a_name() -> None:
    guide = guide_of(
        "# Note\n\n## Work {after nothing}\n\n1. Slide out {part side key}.\n2. Lift off {part heat sink}.\n\n"
        "## Rest {after heat sink}\n\n1. Clean the seat of {side key} and of {heat sink}.\n"
    )
    effects = [effect.id for action in guide.actions.values() for effect in action.effects]
    assert effects == ["side-key", "heat-sink"]
    assert guide.actions["rest/1"].text == "Clean the seat of side key and of heat sink."


def test_words_inside_a_value_are_kept() -> None:
    (action,) = line("Warm the rim {heat 70 °C, 2 min from the back}.")
    assert "from the back" in action.text


@pytest.mark.parametrize(
    ("words", "changes"),
    [
        ("Clean off {thermal paste: grey} with {supply alcohol}.", [("paste", "undone")]),
        ("Clean {adhesive seal: silicone} off.", [("seal", "undone")]),
        ("Scrape off {adhesive seal: silicone}.", [("seal", "undone")]),
        ("Clean {thermal pad: silicone; renew=no}.", []),
        ("Clean {part heatsink}.", []),
    ],
)
def test_cleaning_undoes_paste_and_glue(words: str, changes: list[tuple[str, str]]):
    guide, _ = built(f"# Note\n\n## Work\n\n1. {words}\n")
    assert [(e.id, e.change.value) for a in guide.actions.values() for e in a.effects] == changes


def test_wiping_off_what_is_left_holds_nothing_that_came_off_before():
    guide = guide_of(
        """\
        # Note

        ## Work

        1. Lift off {part heatsink}.
        2. Clean off {thermal paste; holds=heatsink}.
        3. Lift out {part fan}.
        """
    )
    assert {reason for reason, _ in needs(guide, "work/1")} == set()
    assert guide.operations[0].supposed == ()


def test_glue_that_is_scraped_off_first_holds_its_part():
    guide = guide_of("# Note\n\n## Work\n\n1. Scrape off {adhesive seal; holds=lid}.\n2. Lift off {part lid}.\n")
    assert ("holds", (("work/1",),)) in needs(guide, "work/2")


def test_what_is_heated_is_pried_out_although_the_line_goes_on_about_what_it_is_stuck_with() -> None:
    note = (
        "# N\n\n## W\n\n1. Heat {part motor} {heat 70 °C, 30 s} and pry out; it is stuck with {adhesive tape}.\n"
    )
    guide, codes = built(note)
    assert "M202" not in codes
    assert [effect.id for effect in guide.actions["w/2"].effects] == ["motor"]
