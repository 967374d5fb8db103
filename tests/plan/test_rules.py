"""The proofs as rules: over every way, and not only the order in which the note has the lines."""

from __future__ import annotations

from textwrap import dedent

import pytest

from guidec import checks, model, notes, plan
from guidec.plan.live import touched_before_isolation
from guidec.rules.book import wording
from guidec.source import Source


def found(text: str, power: str = "battery", isolate: str = "pack lead") -> list[str]:
    """`CODE severity: message` of the planner's rules."""
    front = f"---\npower: {power}\n" + (f"isolate: {isolate}\n" if isolate else "") + "---\n\n# Radio\n\n"
    guide, _ = model.build(notes.read(Source.of("note.md", front + dedent(text)))[0])
    every = checks.run(guide, plan.graph(guide))
    ours = [(one.code, wording(one)) for one in every if one.code.startswith("P1")]
    return [f"{code} {words.severity.value}: {words.message}" for code, words in ours]


DEAD = """\
## Make it dead

1. Unplug {connector pack lead: plug}.

"""


def test_work_behind_isolation_is_dead():
    assert found(DEAD + "## Board\n\n1. Lift out {part board; class=board}.\n") == []


@pytest.mark.parametrize(
    "line",
    [
        "Lift out {part board; class=board}.",
        "Fold {part board; class=board} aside.",
        "Unplug {connector ribbon}.",
        "Desolder {solder joints: 2}.",
        "Lift out {part motor; class=motor}.",
    ],
)
def test_a_way_around_isolation_is_an_error(line: str):
    (one,) = found(DEAD + f"## Other {{after nothing}}\n\n1. {line}\n")
    assert one.startswith("P110 error: ")


@pytest.mark.parametrize("line", ["Lift off {part lid; class=cover}.", "Undo {screw A: 2x PH0 M2x4}."])
def test_what_carries_no_current_needs_no_isolation(line: str):
    assert found(DEAD + f"## Other {{after nothing}}\n\n1. {line}\n") == []


def test_the_message_names_the_route_that_is_live():
    text = DEAD + dedent("""\
    ## Tuner {after nothing}

    1. Unplug {connector ribbon}.
    2. Lift out {part tuner; class=other}.
    """)
    (one,) = found(text)
    assert one == "P110 error: reaching `tuner` works on the live `ribbon`: nothing on that way undoes `pack lead`"


def test_a_class_that_is_only_proposed_is_a_warning():
    (one,) = found(DEAD + "## Other {after nothing}\n\n1. Lift out {part driver board}.\n")
    assert one.startswith("P110 warning: ")
    assert "taken for class board" in one


def test_live_lifts_the_need_and_not_the_question():
    lid = "## Lid {after nothing}\n\n1. Lift off {part lid; class=cover}.\n\n"
    board = "## Other {after lid} {live}\n\n1. Lift out {part board; class=board}.\n"
    (one,) = found(DEAD + lid + board)
    assert one.startswith("P110 warning: ")
    assert "marked `live`" in one
    assert found(DEAD + lid + board.replace(" {live}", "")) == []


def test_one_way_of_two_that_is_live_is_an_error_and_is_not_taken():
    text = DEAD + dedent("""\
    ## Board {after pack lead}

    1. Undo {screw A: 4x PH0 M2x4}.
    2. Lift out {part board; class=board}.

    ## Board by the slot {instead of Board} {after nothing}

    1. Slide out {board}.
    """)
    (one,) = found(text)
    assert one.startswith("P110 error: reaching `board`")
    front = "---\npower: battery\nisolate: pack lead\n---\n\n# Radio\n\n"
    guide, _ = model.build(notes.read(Source.of("note.md", front + dedent(text)))[0])
    route = plan.route(plan.graph(guide), ["board"])
    assert route is not None
    assert route.operations == ("make-it-dead", "board")
    assert route.broken == ()
    assert [other.cost.flaws for other in route.alternatives] == [1]


EARLY = """\
    ## Back

    1. Unplug {connector dial lead}.
    2. Lift off {part back}.

    ## Make it dead

    1. Unplug {connector pack lead: plug}.
    """


def test_work_that_isolation_itself_needs_is_asked_about():
    (one,) = found(EARLY)
    assert one.startswith("P111 warning: `dial lead` is worked on before `pack lead` makes the device dead")


def test_a_guide_can_ask_which_lines_those_are():
    front = "---\npower: battery\nisolate: pack lead\n---\n\n# Radio\n\n"
    guide, _ = model.build(notes.read(Source.of("note.md", front + dedent(EARLY)))[0])
    assert touched_before_isolation(plan.graph(guide)) == ("back/1",)


def test_a_device_without_power_needs_no_isolation():
    assert found("## Board\n\n1. Lift out {part board; class=board}.\n", power="none", isolate="") == []


def test_a_ring_is_told_once_with_its_walk():
    (one,) = found(
        """\
        ## Back {after handle}

        1. Lift off {part back}.

        ## Handle {after back}

        1. Slide off {part handle}.

        ## Lid

        1. Lift off {part lid}.
        """,
        power="none",
        isolate="",
    )
    assert one.startswith("P101 error: the order of work goes round in a circle: `Lift off back` (line ")
    assert one.endswith("which needs `Lift off back`")


def test_two_rings_are_two_messages():
    text = ""
    for name in ("one", "two"):
        text += dedent(f"""\
        ## Off {name} {{after {name} b}}

        1. Lift off {{part {name} a}}.

        ## Off {name} too {{after {name} a}}

        1. Lift off {{part {name} b}}.

        """)
    assert [one[:4] for one in found(text, power="none", isolate="")] == ["P101", "P101"]


def test_a_ring_of_facts_and_order_is_found():
    (one,) = found(
        """\
        ## Back

        1. Lift off {part back; under=handle}.
        2. Slide off {part handle}.
        """,
        power="none",
        isolate="",
    )
    assert one.startswith("P101 error: ")


def test_operations_in_each_other_are_an_error():
    (one,) = found(
        """\
        ## Back {after nothing}

        1. Undo {screw A: 2x PH0 M2x4}.
        2. Lift off {part back; under=strap}.

        ## Strap {after screw A}

        1. Pull off {part strap}.
        """,
        power="none",
        isolate="",
    )
    assert one == "P101 error: operations `Back` and `Strap` each need a part of the other first"


def test_shares_on_another_way_that_leave_screws_in_are_an_error():
    (one,) = found(
        """\
        ## Loosen

        1. Undo {screw A: 4x PH0 M2x4; holds=back}.

        ## Loosen from below {instead of Loosen}

        1. Undo 3 of {screw A}.

        ## Back

        1. Lift off {part back}.
        """,
        power="none",
        isolate="",
    )
    assert one == "P120 error: `back` comes off with 1 of `A` still in, on the way by `Loosen from below`"


def test_a_part_that_comes_along_is_reached_with_its_assembly():
    text = """\
        ## Unit

        1. Lift out {part unit}, which carries {part coil; in=unit} and {part magnet}.
        """
    assert [one[:4] for one in found(text, power="none", isolate="")] == ["P104"]


def test_no_tool_and_no_drive_is_a_warning():
    text = "## A\n\n1. Undo {screw A: 4x M2x4}.\n2. Lift off {part lid}.\n"
    assert [one[:4] for one in found(text, power="none", isolate="")] == ["P130"]
    assert found(text.replace("}.\n", "} with {tool driver}.\n", 1), power="none", isolate="") == []
