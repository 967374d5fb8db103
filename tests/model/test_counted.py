"""Counts of parts and of what holds them: among the details, as a key, and in the line that takes them."""

from __future__ import annotations

import pytest

from guidec.model import build
from guidec.model.types import Connector, Part
from guidec.notes import read
from guidec.rules.book import wording
from guidec.source import Source
from tests.model.helpers import built


@pytest.mark.parametrize(
    ("mark", "qty", "details"),
    [
        ("part foot: qty=4", 4, ""),
        ("part foot: qty 2", 2, ""),
        ("part foot: 2 Stück", 2, ""),
        ("part foot: Stück=4", 4, ""),
        ("part foot; Stück=4", 4, ""),
        ("part foot: rubber, 4 pcs", 4, "rubber"),
        ("part foot: 4x, rubber", 4, "rubber"),
        ("part foot: 4x 8 mm", 1, "4x 8 mm"),
        ("part foot: 12 V, 3 W", 1, "12 V, 3 W"),
        ("part foot: 2x ball bearing", 1, "2x ball bearing"),
        ("connector foot: 2x spade", 2, "spade"),
        ("connector foot: 2 Flachstecker", 2, "Flachstecker"),
        ("connector foot: 9 Stück", 9, ""),
        ("connector foot: plug, 2x", 2, "plug"),
        ("connector foot: 24 pin plug", 1, "24 pin plug"),
        ("connector foot: 6.3 mm spade", 1, "6.3 mm spade"),
        ("connector foot: 2x10 contacts", 1, "2x10 contacts"),
    ],
)
def test_a_count_among_the_details_is_the_quantity(mark: str, qty: int, details: str):
    guide, codes = built(f"# Note\n\n## Work\n\n1. Take off {{{mark}}}.\n")
    thing = guide.things["foot"]
    assert isinstance(thing, Part | Connector)
    assert codes == ()
    assert (thing.qty, thing.details) == (qty, details)


def test_a_key_with_a_colon_in_place_of_the_semicolon_is_read_as_the_key():
    guide, codes = built("# Note\n\n## Work\n\n1. Take off {part foot: class=cover}.\n")
    thing = guide.things["foot"]
    assert isinstance(thing, Part)
    assert (thing.cls, thing.details, codes) == ("cover", "", ())


def test_two_counts_that_disagree_are_shown():
    assert built("# Note\n\n## Work\n\n1. Unplug {connector lead: 2x plug; qty=3}.\n")[1] == ("M103",)
    assert built("# Note\n\n## Work\n\n1. Unplug {connector lead: 3x plug; qty=3}.\n")[1] == ()


@pytest.mark.parametrize(
    ("words", "codes"),
    [
        ("Unplug 5 {connector leads: plug; qty=2}.", ("M203",)),
        ("Unplug 3 of {connector leads: 2x spade}.", ("M203",)),
        ("Unplug both {connector leads: 2x spade}.", ()),
        ("Unplug both {connector leads: spade}.", ()),
        ("Unplug {connector leads: 2x spade}, and unplug {leads}.", ()),
        ("Unplug 1 of {connector leads: 3x spade}, then unplug the rest of {leads}.", ()),
        ("Release 5 of {clip rim: 4 Stück}.", ("M203",)),
        ("Pull 3 {part valve: qty=3} out.", ()),
        ("Pull 4 {part valve: qty=3} out.", ("M205",)),
    ],
)
def test_what_is_taken_is_held_against_what_there_is(words: str, codes: tuple[str, ...]):
    assert built(f"# Note\n\n## Work\n\n1. {words}\n")[1] == codes


def test_several_of_a_part_without_a_quantity_are_told_of_the_quantity():
    document, _ = read(Source.of("note.md", "# Note\n\n## Work\n\n1. Pull 3 {part valve} out.\n"))
    found = build(document)[1]
    assert [(one.code, one.variant) for one in found] == [("M205", "uncounted")]
    assert "qty=3" in (wording(found[0]).help or "")


@pytest.mark.parametrize(
    ("words", "suggested"),
    [
        ("Undo {screw F: PH000 M1x2.5} x 2.", ["2x PH000 M1x2.5"]),
        ("Undo {screw F: PH000 M1x2.5} (3x).", ["3x PH000 M1x2.5"]),
        ("Undo 2x {screw F: PH000 M1x2.5}.", ["2x PH000 M1x2.5"]),
        ("Undo 2 × {screw F: PH000 M1x2.5}.", ["2x PH000 M1x2.5"]),
        ("Undo the four {screw F: PH000 M1x2.5}.", ["4x PH000 M1x2.5"]),
        ("Undo 2 {screw F: PH000 M1x2.5}.", ["2x PH000 M1x2.5"]),
        ("Undo {screw F: PH000 M1x2.5}.", []),
        ("Undo {screw F: PH000 M1x2.5} with {tool driver} (2 turns).", []),
    ],
)
def test_a_screw_set_without_a_count_is_told_of_once_with_the_number_beside_it(words: str, suggested: list[str]):
    document, _ = read(Source.of("note.md", f"# Note\n\n## Work\n\n1. {words}\n"))
    found = [one for one in build(document)[1] if one.code == "M124"]
    assert [list(one.suggestions) for one in found] == [suggested]


@pytest.mark.parametrize("mark", ["screw F: 2x PH000 M1x2.5", "screw F: PH000 M1x2.5, 2x", "screw F"])
def test_a_set_that_counts_or_says_nothing_at_all_is_left_alone(mark: str):
    assert built(f"# Note\n\n## Work\n\n1. Undo {{{mark}}}.\n")[1] == ()


def test_a_count_of_screws_as_a_key_is_told_of_once():
    assert built("# Note\n\n## Work\n\n1. Undo {screw F: T6 M2x4; qty=3}.\n")[1] == ("M110",)
