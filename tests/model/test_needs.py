"""The order of the language: what each action needs, and why."""

from __future__ import annotations

import pytest

from tests.model.helpers import built, guide_of, needs


def test_numbered_lines_need_the_nearest_needed_one() -> None:
    guide = guide_of(
        """\
        # Note

        ## Work

        1. Undo {screw A: 4x PH0 M2x6}.
        2. Look at {part label}.
        3. Lift off {part lid}.
        """
    )
    assert needs(guide, "work/1") == set()
    assert needs(guide, "work/2") == {("list", (("work/1",),))}
    assert ("list", (("work/1",),)) in needs(guide, "work/3")


def test_free_lines_need_only_what_stands_before_their_list() -> None:
    guide = guide_of(
        """\
        # Note

        ## Work

        1. Undo {screw A: 4x PH0 M2x6}.

        - Lift off {part lid}.
        - Pull off {part knob}.

        1. Lift out {part board}.
        """
    )
    first = ("earlier-list", (("work/1",),))
    assert first in needs(guide, "work/2")
    assert first in needs(guide, "work/3")
    assert {way for reason, (way,) in needs(guide, "work/4") if reason == "earlier-list"} == {
        ("work/2",),
        ("work/3",),
    }


def test_lists_of_one_kind_parted_by_quotes_or_pictures_are_one() -> None:
    guide = guide_of(
        """\
        # Note

        ## Work

        - Pull off {part knob}.

        > CAUTION: The spring is under load. It can hit the eye. Wear eye protection.

        - Pull off {part dial}.
        """
    )
    assert needs(guide, "work/2") == set()


def test_a_list_inside_a_line_comes_before_the_line() -> None:
    guide = guide_of(
        """\
        # Note

        ## Work

        1. Undo {screw A: 4x PH0 M2x6}.
        2. Lift off {part lid}.
           - Release {clip left}.
           - Release {clip right}.
        3. Pull out {part board}.
        """
    )
    assert needs(guide, "work/3") == {("list", (("work/1",),))}
    assert needs(guide, "work/2") >= {
        ("list", (("work/1",),)),
        ("nested", (("work/3",),)),
        ("nested", (("work/4",),)),
    }
    assert needs(guide, "work/5") >= {("list", (("work/2",),))}


def test_optional_lines_are_needed_by_nothing_later() -> None:
    guide = guide_of(
        """\
        # Note

        ## Work

        1. Undo {screw A: 4x PH0 M2x6}.
        2. Peel off {part label} {optional}.
        3. Lift off {part lid}.
        """
    )
    assert ("list", (("work/1",),)) in needs(guide, "work/3")
    assert guide.actions["work/2"].optional


def test_the_second_action_of_a_line_needs_the_first() -> None:
    guide = guide_of("# Note\n\n## Work\n\n- Undo {screw A: 4x PH0 M2x6} and lift off {part lid}.\n")
    assert ("line", (("work/1",),)) in needs(guide, "work/2")


HEADINGS = """\
# Note

## One

1. Undo {screw A: 4x PH0 M2x6}.
2. Lift off {part lid}.

## Two

1. Pull off {part knob}.

## Other one {instead of One}

1. Cut off {part lid}.

## Three {after lid}

1. Pull off {part dial}.

## Four {after nothing}

1. Pull off {part strap}.

## Five {also strap}

1. Pull off {part foot}.

## Six {after operation Two}

1. Pull off {part cap}.
"""


def test_operations_need_the_one_before_or_what_their_heading_says() -> None:
    guide = guide_of(HEADINGS)
    lid = (("one/2",), ("other-one/1",))
    assert needs(guide, "two/1") == {("operation", lid)}
    assert needs(guide, "other-one/1") == set()
    assert needs(guide, "three/1") == {("after", lid)}
    assert needs(guide, "four/1") == set()
    assert needs(guide, "five/1") == {("operation", (("four/1",),)), ("after", (("four/1",),))}
    assert needs(guide, "six/1") == {("after", (("two/1",),))}


def test_isolation_is_needed_by_every_later_operation() -> None:
    guide = guide_of(
        """\
        ---
        power: battery
        isolate: battery lead
        ---
        # Note

        ## Open

        1. Lift off {part lid}.

        ## Make it dead

        1. Unplug {connector battery lead: plug}.

        ## Strap {after nothing}

        1. Pull off {part strap}.

        ## Lamp {after lid} {live}

        1. Pull out {part lamp}.

        ## Dial {after lid}

        1. Pull off {part dial}.
        """
    )
    assert guide.isolating == ("make-it-dead/1",)
    assert needs(guide, "strap/1") == set()
    assert needs(guide, "lamp/1") == {("after", (("open/1",),))}
    assert needs(guide, "dial/1") == {("after", (("open/1",),)), ("isolation", (("make-it-dead/1",),))}


def test_facts_make_order() -> None:
    guide = guide_of(
        """\
        # Note

        ## Work

        - Undo {screw A: 4x PH0 M2x6; holds=board}.
        - Unplug {connector lead: plug; from=board; to=wall}.
        - Lift off {part shield}.
        - Lift out {part board; under=shield}.
        """
    )
    assert needs(guide, "work/4") == {
        ("holds", (("work/1",),)),
        ("connector", (("work/2",),)),
        ("under", (("work/3",),)),
    }


def test_a_connector_inside_an_assembly_comes_along() -> None:
    guide = guide_of(
        """\
        # Note

        ## Work

        - Lift out {part tray}.
        - Unplug {connector lead: plug; from=tray; to=fan}.
        - Pull off {part fan; in=tray}.
        """
    )
    assert needs(guide, "work/1") == set()
    assert needs(guide, "work/3") == {("connector", (("work/2",),))}


def test_a_connector_of_a_member_is_plugged_into_the_assembly_too() -> None:
    guide = guide_of(
        """\
        # Note

        ## Work

        - Lift out {part tray}.
        - Unplug {connector lead: plug; from=fan; to=wall}.

        The {part fan; in=tray} stays in it.
        """
    )
    assert needs(guide, "work/1") == {("connector", (("work/2",),))}


def test_each_share_of_a_set_frees_the_part_that_comes_off_next() -> None:
    guide = guide_of(
        """\
        # Note

        ## Work

        - Undo 2 of {screw A: 4x PH0 M2x6; holds=lid, board}.
        - Lift off {part lid}.
        - Undo the rest of {screw A}.
        - Lift out {part board}.
        """
    )
    assert needs(guide, "work/2") == {("holds", (("work/1",),))}
    assert needs(guide, "work/4") == {("holds", (("work/3",),))}


def test_what_nobody_says_holds_is_supposed_for_that_operation() -> None:
    guide = guide_of(
        """\
        # Note

        ## Work

        - Undo {screw A: 4x PH0 M2x6} and lift off {part lid}.
        - Undo {screw B: 2x PH0 M2x4}.
        - Lift out {part board}.
        """
    )
    assert [(one.fastening, one.part) for one in guide.operations[0].supposed] == [("a", "lid"), ("b", "board")]
    assert needs(guide, "work/4") == {("supposed", (("work/3",),))}


def test_a_fact_that_nobody_serves_is_an_error() -> None:
    _, codes = built(
        "# Note\n\n## Work\n\n1. Lift off {part lid; under=rim}.\n\nThe {part rim} stays. {clip C; holds=lid}\n"
    )
    assert codes.count("M304") == 2


def test_removing_a_part_twice_needs_a_word() -> None:
    text = "# Note\n\n## One\n\n1. Lift off {part lid}.\n\n## Two%s\n\n1. Cut off {part lid}.\n"
    assert built(text % "")[1] == ("M205",)
    assert built(text % " {instead of One}")[1] == ()


def test_sides_follow_turns() -> None:
    guide = guide_of(
        """\
        # Note

        ## One

        1. Pull off {part knob}.
        2. Turn the radio over.
        3. Pull off {part foot}.

        ## Two

        1. Pull off {part dial}.

        ## Three {side left}

        1. Pull off {part cap}.
        """
    )
    sides = [action.side for action in guide.actions.values()]
    assert sides == ["front", "front", "back", "back", "left"]
    assert [operation.side for operation in guide.operations] == ["front", "back", "left"]
    assert guide.actions["one/2"].turn == "back"


def test_a_hazard_belongs_where_it_stands() -> None:
    guide = guide_of(
        """\
        # Note

        > DANGER: Mains. It kills. Unplug it.

        ## Work

        > WARNING: Sharp. It cuts. Wear gloves.

        1. Lift off {part lid}.

        > CAUTION: Hot. It burns. Wait.

        2. Lift out {part lamp}.
           > NOTICE: Thin. It tears. Go slowly.

        > CAUTION: Springs. They jump. Wear glasses.
        """
    )
    assert [hazard.text for hazard in guide.hazards] == ["Mains. It kills. Unplug it."]
    assert [hazard.text[:5] for hazard in guide.operations[0].hazards] == ["Sharp"]
    assert guide.actions["work/1"].hazards == ()
    assert [hazard.text.split(".")[0] for hazard in guide.actions["work/2"].hazards] == ["Hot", "Thin", "Springs"]


def test_refit_only_operations_need_nothing_and_are_needed_by_nothing() -> None:
    guide = guide_of(
        "# Note\n\n## One\n\n1. Lift off {part lid}.\n\n## Test {refit only}\n\n- Check the lamp.\n\n"
        "## Two\n\n1. Pull off {part dial}.\n"
    )
    assert needs(guide, "two/1") == {("operation", (("one/1",),))}
    assert needs(guide, "test/1") == set()


def test_a_pin_names_something_that_is_declared() -> None:
    text = "# Note\n\n## Work\n\n1. Lift off {part lid}.\n\n![Lid](lid.jpg)\n{pin 10,20: %s}\n"
    assert built(text % "lid")[1] == ()
    assert built(text % "hid")[1] == ("M102",)


@pytest.mark.parametrize(
    ("lines", "supposed"),
    [
        ("Pull out {part NTC} | Lift out {part block}", {("a", "block")}),
        ("Lift off {part plate} | Pull out {part lamp}", {("a", "plate")}),
        ("Lift off {part plate} | Lift out {part tray}", {("a", "plate")}),
        ("Pull out {part lamp}", {("a", "lamp")}),
        ("Pull out {part lamp} | Pull out {part fan}", set()),
        ("Slide off {part panel} | Pull out {part fan}", {("a", "panel")}),
        (
            "Pull out {part lamp} | Undo {screw B: 2x PH1 M3x8} | Lift out {part fan}",
            {("a", "lamp"), ("b", "fan")},
        ),
        ("Open {part door} | Lift out {part fan}", set()),
        ("Tuck {part lead} aside | Lift out {part fan}", {("a", "fan")}),
    ],
)
def test_what_is_undone_is_supposed_to_hold_what_is_lifted_rather_than_what_is_drawn(
    lines: str, supposed: set[tuple[str, str]]
):
    body = "".join(f"{at}. {one}.\n" for at, one in enumerate(lines.split(" | "), 2))
    guide = guide_of(f"# Note\n\n## Work\n\n1. Undo {{screw A: 2x PH1 M3x8}}.\n{body}")
    assert {(one.fastening, one.part) for one in guide.operations[0].supposed} == supposed


def test_in_german_a_sensor_that_is_drawn_gives_way_to_the_block_that_is_lifted():
    guide = guide_of(
        """\
        ---
        language: de
        ---

        # Gerät

        ## Innen

        1. Löse {screw T: 2x T20 M4x10}.
        2. {part NTC} rausziehen.
        3. {part Thermoblock} rausheben.
        """
    )
    assert [(one.fastening, one.part) for one in guide.operations[0].supposed] == [("t", "thermoblock")]
