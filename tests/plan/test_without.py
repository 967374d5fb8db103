"""What can be done with some actions left out, and what surely comes before."""

from __future__ import annotations

from itertools import combinations
from textwrap import dedent

import pytest

from guidec import model, notes
from guidec.model.types import Guide
from guidec.plan import graph
from guidec.plan.without import done_without, surely_after
from guidec.source import Source

NOTE = """
    # Radio

    ## Front

    1. Lift off {part lid}.
    2. Dry the front.

    ## Window {instead of operation front}

    1. Lift off {part window}.
    2. Dry the window.

    ## Board

    1. Lift out {part board}.

    ## Strap {after nothing}

    - Unhook {part strap}.
    - Unhook {part ring}.

    ## Last

    1. Lift out {part motor}.

    ## Way back {refit only}

    1. Clean {part lid}.
    """


@pytest.fixture(scope="module")
def guide() -> Guide:
    document, _ = notes.read(Source.of("note.md", dedent(NOTE)))
    return model.build(document)[0]


def by_hand(guide: Guide, without: frozenset[str]) -> frozenset[str]:
    """The same by going over all actions again and again until nothing more can be done."""
    back = {one for operation in guide.operations if operation.refit_only for one in operation.actions}
    done: set[str] = set()
    while True:
        more = {
            action.id
            for action in guide.actions.values()
            if action.id not in done | without | back
            and all(any(set(way) <= done for way in need.ways) for need in action.needs)
        }
        if not more:
            return frozenset(done)
        done |= more


def test_every_choice_of_two_left_out_agrees_with_going_over_and_over(guide: Guide):
    for left_out in [(), *combinations(guide.actions, 1), *combinations(guide.actions, 2)]:
        assert done_without(graph(guide), left_out) == by_hand(guide, frozenset(left_out)), left_out


@pytest.mark.parametrize(
    ("action", "others", "surely"),
    [
        ("board/1", {"front/2"}, False),
        ("board/1", {"front/2", "window/2"}, True),
        ("front/2", {"front/1"}, True),
        ("strap/1", {"front/2", "window/2"}, False),
        ("last/1", {"strap/1"}, True),
        ("last/1", {"last/1"}, False),
        ("way-back/1", {"front/1"}, False),
        ("board/1", set(), False),
    ],
)
def test_what_surely_comes_before(guide: Guide, action: str, others: set[str], surely: bool):
    assert surely_after(graph(guide), action, others) is surely
