"""What each operation's strip says is worked out from what the actions before it did, by hand here."""

from __future__ import annotations

from collections.abc import Callable

from guidec.model.types import Guide
from guidec.outputs.strip import Strip, strips

Note = Callable[[str], Guide]

LID = """## Lid {side back} @0:10-0:40

1. Undo {screw A: 6x PH0 M2x6} and lift off {part lid} with {tool plastic card}.
2. Unplug {connector lead; from=board; to=cell}.
"""


def off(strip: Strip) -> list[str]:
    return [gone.id for gone in strip.off]


def test_nothing_is_off_before_the_first_operation(note: Note) -> None:
    strip = strips(note(LID))["lid"]
    assert (off(strip), strip.open, strip.side) == ([], (), "back")
    assert strip.time is not None
    assert (strip.time.start, strip.time.end) == (10, 40)


def test_parts_off_and_connectors_open_are_carried_on_with_where_it_was_done(note: Note) -> None:
    found = strips(note(LID + "\n## Board\n\n1. Lift out {part board}.\n\n## Cell\n\n1. Lift out {part cell}.\n"))
    assert off(found["board"]) == ["lid"]
    assert [(gone.id, gone.operation) for gone in found["cell"].off] == [("lid", 10), ("board", 20)]
    assert [(gone.id, gone.operation) for gone in found["cell"].open] == [("lead", 10)]


def test_tools_are_those_of_the_operation_in_the_order_they_are_picked_up(note: Note) -> None:
    guide = note(LID)
    names = [guide.things[name].name for name in strips(guide)["lid"].tools]
    assert names[-1] == "plastic card"
    assert any("PH0" in name for name in names)


def test_a_set_taken_in_shares_is_counted_by_share(note: Note) -> None:
    body = """## First

1. Undo 2 of {screw A: 6x PH0 M2x6}.

## Second

1. Undo 1 of {A}.

## Third

1. Undo the rest of {A} and lift off {part lid}.
"""
    found = strips(note(body))
    counts = [
        [(screws.id, screws.count) for screws in found[name].screws] for name in ("first", "second", "third")
    ]
    assert counts == [[("a", 2)], [("a", 1)], [("a", 3)]]


def test_a_set_without_a_count_comes_out_in_an_unknown_number(note: Note) -> None:
    found = strips(note("## Lid\n\n1. Undo {screw A: PH0 M2x6} and lift off {part lid}.\n"))
    assert [(screws.id, screws.count) for screws in found["lid"].screws] == [("a", None)]


def test_another_way_starts_where_its_first_way_does_and_leaves_nothing_behind(note: Note) -> None:
    body = (
        LID
        + """
## Board

1. Undo {screw B: 2x T5 M2x3} and lift out {part board}.

## Board from the front {instead of Board}

1. Undo {B} and slide {board} out.

## Cell

1. Lift out {part cell}.
"""
    )
    found = strips(note(body))
    assert off(found["board-from-the-front"]) == off(found["board"]) == ["lid"]
    assert [(screws.id, screws.count) for screws in found["board-from-the-front"].screws] == [("b", 2)]
    assert off(found["cell"]) == ["lid", "board"]


def test_a_part_only_moved_is_not_off(note: Note) -> None:
    found = strips(note("## Lid\n\n1. Lift off {part lid}. {partly}\n\n## Board\n\n1. Lift out {part board}.\n"))
    assert off(found["board"]) == []


def test_what_an_optional_action_took_off_is_marked_as_perhaps_still_there(note: Note) -> None:
    body = "## Lid\n\n1. Lift off {part lid}. {optional}\n\n## Board\n\n1. Lift out {part board}.\n"
    assert [(gone.id, gone.optional) for gone in strips(note(body))["board"].off] == [("lid", True)]


def test_on_refit_only_the_device_is_back_together(note: Note) -> None:
    strip = strips(note(LID + "\n## Before use {refit only}\n\n- Check {lid}.\n"))["before-use"]
    assert strip.together
    assert (off(strip), strip.open) == ([], ())


def test_a_turn_shows_where_the_operation_ends(note: Note) -> None:
    strip = strips(note("## Lid {side back}\n\n1. Lift off {part lid}.\n2. Turn over.\n"))["lid"]
    assert (strip.side, strip.ends_side) == ("back", "front")
