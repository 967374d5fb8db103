"""Routes of notes: the counting rules, how parts are reached, sides, other ways, what is skipped."""

from __future__ import annotations

from textwrap import dedent

import pytest

from guidec import plan
from guidec.model.types import Reason
from guidec.plan import Graph, Route, UnknownPartError
from guidec.plan.routing import rows
from tests.plan.random_notes import graph_of


def graph(text: str) -> Graph:
    return graph_of(dedent(text))


def route(text: str, *parts: str, by: plan.By = "damage") -> Route:
    found = plan.route(graph(text), parts, by)
    assert found is not None
    return found


def test_the_counting_example_of_the_planning_rules():
    """The card ends what was done with T6, PH0 the unplugging; bezel and board end a step each."""
    found = route(
        """\
        # Radio

        ## Out with the board

        1. Undo {screw A: 5x T6 M2x4}.
        2. Pry off {part bezel} with {tool card}.
        3. Unplug {connector lead}.
        4. Undo {screw B: 3x PH0 M2x4}.
        5. Unplug {connector ribbon}.
        6. Lift out {part board; class=board}.
        """,
        "board",
    )
    assert (found.cost.steps, found.cost.changes, found.screws) == (4, 2, 8)
    assert [(step.action[-1], step.by) for step in found.steps] == [
        ("2", "tool"),
        ("2", "removal"),
        ("4", "tool"),
        ("6", "removal"),
    ]


@pytest.mark.parametrize(
    ("lines", "steps", "changes"),
    [
        (["Undo {screw A: 2x PH0 M2x4}.", "Lift off {part lid}."], 1, 0),
        (["Warm the rim to soften {adhesive glue}.", "Lift off {part lid}."], 2, 0),
        (["Soak {adhesive glue} {heat 60 °C}.", "Lift off {part lid}."], 2, 0),
        (["Soak {adhesive glue}.", "Lift off {part lid}."], 1, 0),
        (["Clean the rim.", "Lift off {part lid}."], 2, 0),
        (["Fold {part flap} aside.", "Lift off {part lid}."], 2, 0),
        (["Measure {measure 5 V} with {tool meter}.", "Pry off {part lid} with {tool pick}."], 1, 1),
        (["Undo {screw A: 2x PH0 M2x4}.", "Measure {measure 5 V} with {tool rod}.", "Lift off {part lid}."], 2, 1),
        (["Lift off {part lid} with {tool card} and {tool tweezers}."], 2, 0),
        (["Pry off {part rim} with {tool card}.", "Lift off {part lid} with {card} and {tool pick}."], 3, 1),
        (["Undo {screw A: 2x PH0 M2x4}.", "Unplug {connector lead}.", "Undo {screw B: 1x PH0 M2x4}.",
          "Lift off {part lid}."], 1, 0),
        (["Undo {screw A: 2x PH0 M2x4} with {tool fingers}.", "Lift off {part lid}."], 1, 0),
    ],
)  # fmt: skip
def test_steps_and_tool_changes(lines: list[str], steps: int, changes: int):
    text = "\n".join(["# Radio", "", "## Open", "", *(f"1. {line}" for line in lines), ""])
    found = route(text, "lid")
    assert (found.cost.steps, found.cost.changes) == (steps, changes)


def test_work_pending_at_the_end_is_a_step():
    found = route(
        """\
        # Radio

        ## Open

        1. Undo {screw A: 2x PH0 M2x4}.
        2. Note {part chip} below it.
        """,
        "chip",
    )
    assert found.how == ("exposed",)
    assert [step.by for step in found.steps] == ["end"]


def test_hands_are_no_tool():
    found = route("# R\n\n## A\n\n1. Pull off {part lid} with {tool fingers}.\n", "lid")
    assert found.tools == ()


CHOICE = """\
    # Radio

    ## Screwed

    1. Undo {screw A: 4x PH0 M2x4}.
    2. Lift off {part lid}. {risk lid: its tabs snap}

    ## Glued {instead of Screwed}

    1. Slit {adhesive seam} with {tool knife}.
    2. Lift off {lid} with {tool card}.

    ## Board

    1. Lift out {part board; class=board}.
    """


def test_the_way_is_chosen_by_what_is_spared_first():
    assert route(CHOICE, "board").operations == ("glued", "board")  # a risk mark weighs more than a lost seam
    assert route(CHOICE, "board", by="steps").operations == ("screwed", "board")
    assert route(CHOICE, "lid", by="steps").operations == ("screwed",)


def test_other_ways_are_told_with_their_costs():
    found = route(CHOICE, "board", by="steps")
    (other,) = found.alternatives
    assert (other.operation, other.replaces) == ("glued", "screwed")
    assert other.operations == ("glued", "board")
    assert (other.cost.steps, other.cost.spent, other.cost.risks) == (3, 1, 0)


def test_a_chain_of_other_ways():
    text = CHOICE + "\n    ## Snapped {instead of Glued}\n\n    1. Pop off {lid}.\n"
    found = route(text, "board")
    assert found.operations == ("snapped", "board")
    assert {other.operation for other in found.alternatives} == {"screwed", "glued"}


def test_what_another_way_did_is_skipped():
    """The bezel only comes off on one way, the hook only on the other: the route takes both."""
    found = route(
        """\
        # Radio

        ## Front

        1. Lift off {part bezel} and lift off {part lid}. {risk lid: cracks}

        ## Rear {instead of Front}

        1. Lift off {part hook} and lift off {lid}. {risk lid: cracks}
        """,
        "bezel",
        "hook",
    )
    assert found.cost.risks + found.cost.flaws <= 2
    visited = {visit.operation: visit for visit in found.visits}
    assert set(visited) == {"front", "rear"}


def test_the_second_way_does_not_do_again_what_is_done():
    found = route(
        """\
        # Radio

        ## Front

        1. Lift off {part lid}.
        2. Pull out {part bezel}.

        ## Rear {instead of Front}

        1. Lift off {lid}.
        2. Pull out {part hook}.
        """,
        "bezel",
        "hook",
    )
    assert list(found.actions) == ["front/1", "front/2", "rear/2"]
    assert found.visits[1].skipped == {"rear/1"}
    assert found.cost.steps == 3


def test_a_part_that_never_comes_off_is_reached_by_the_first_look():
    text = """\
        # Radio

        ## Back

        1. Undo {screw A: 4x PH0 M2x4}.
        2. Lift off {part back}.

        - Note {part label}.

        ## Deep

        1. Lift out {part board}.
        2. Look at {label} again.
        """
    found = route(text, "label")
    assert found.how == ("exposed",)
    assert found.actions == ("back/1", "back/2", "back/3")


def test_looks_and_optional_lines_are_on_no_route_but_their_own():
    text = """\
        # Radio

        ## Back

        1. Note {part label}.
        2. Lift off {part cap}. {optional}
        3. Lift off {part back}.
        """
    assert route(text, "back").actions == ("back/3",)
    assert route(text, "cap").actions == ("back/2",)


def test_a_part_that_only_moves():
    found = route("# R\n\n## A\n\n1. Fold {part flap} aside.\n", "flap")
    assert found.how == ("moved",)


SIDES = """\
    # Radio

    ## Front cover {after nothing} {side front}

    1. Lift off {part cover}.

    ## Foot {after nothing} {side back}

    1. Pull off {part foot}.

    ## Grille {after cover} {side front}

    1. Lift off {part grille}.
    """


def test_a_route_puts_its_own_turn_overs_in():
    found = route(SIDES, "foot", "grille")
    assert found.cost.turns == 1
    (turn,) = [turn for visit in found.visits for turn in visit.turns]
    assert turn.side in ("front", "back")
    assert route(SIDES, "foot").cost.turns == 0  # it is laid down as the first line wants it


def test_operations_are_put_in_the_order_that_turns_least():
    found = route(SIDES, "grille", "foot")
    assert found.operations in {("foot", "front-cover", "grille"), ("front-cover", "grille", "foot")}
    assert found.cost.distance == 1


def test_free_lines_are_put_in_the_order_that_costs_least():
    text = """\
        # Radio

        ## Open

        - Undo {screw A: 1x PH0 M2x4}.
        - Undo {screw B: 1x T5 M2x4}.
        - Undo {screw C: 1x PH0 M2x4}.

        1. Lift off {part lid}.
        """
    found = route(text, "lid")
    assert found.actions in {
        ("open/2", "open/1", "open/3", "open/4"),
        ("open/1", "open/3", "open/2", "open/4"),
    }
    assert found.cost.changes == 1


def test_screws_that_are_renewed_are_damage_singly():
    text = "# R\n\n## A\n\n1. Undo {screw A: 4x PH0 M2x4; renew}.\n2. Lift off {part lid}.\n"
    assert route(text, "lid").cost.spent == 4
    assert route(text, "lid").renewals == ("a",)


def test_an_unknown_target_is_said_to_be_so():
    with pytest.raises(UnknownPartError):
        plan.route(graph(SIDES), ["nothing-of-the-kind"])


def test_the_table_says_what_the_routes_say():
    for text in (CHOICE, SIDES):
        one = graph(text)
        table = {row.part: row for row in rows(one)}
        for found in plan.routes(one):
            row = table[found.targets[0]]
            assert row.cost == found.cost
            assert set(row.tools) == set(found.tools)
            assert row.operations == len(found.visits)


def test_edges_say_why_and_where():
    one = graph(CHOICE)
    edges = [edge for edge in one.edges if edge.needs == "board/1"]
    assert [(edge.needed, edge.reason, edge.way, edge.ways) for edge in edges] == [
        ("screwed/2", Reason.OPERATION, 1, 2),
        ("glued/2", Reason.OPERATION, 2, 2),
    ]


RING = """\
    # Radio

    ## Back {after handle}

    1. Lift off {part back}.

    ## Handle {after back}

    1. Slide off {part handle}.

    ## Lid {after nothing}

    1. Lift off {part lid}.
    """


def test_a_ring_is_shown_as_a_walk_and_leaves_the_rest_alone():
    one = graph(RING)
    (ring,) = one.cycles
    assert [(edge.needs, edge.needed) for edge in ring] == [("back/1", "handle/1"), ("handle/1", "back/1")]
    assert all(one.guide.source.slice(edge.span) in ("handle", "back") for edge in ring)
    assert one.impossible == {"back/1", "handle/1"}
    assert plan.route(one, ["back"]) is None
    assert [found.targets for found in plan.routes(one)] == [("lid",)]


def test_the_teardown_takes_the_first_way_of_each_choice():
    one = graph(CHOICE)
    assert plan.teardown(one) == ("screwed/1", "screwed/2", "board/1")


def test_operations_that_need_parts_of_each_other_are_still_planned():
    one = graph(
        """\
        # Radio

        ## Back {after clip}

        1. Undo {screw A: 2x PH0 M2x4}.
        2. Lift off {part back; under=strap}.

        ## Strap {after screw A}

        1. Pull off {part strap}.

        ## Clip {after nothing}

        1. Release {clip clip: 1}.
        """
    )
    found = plan.route(one, ["back"])
    assert found is not None
    assert found.actions == ("clip/1", "back/1", "strap/1", "back/2")
    assert found.operations == ("clip", "back", "strap", "back")
