"""The page on planning runs: each example's routes are what the page says."""

from __future__ import annotations

import re
from pathlib import Path

import pytest

from guidec import plan
from guidec.plan import Route
from tests.plan.random_notes import graph_of

PAGE = Path(__file__).parent.parent.parent / "docs" / "planning.md"
EXAMPLE = re.compile(r"^```note\n(?P<note>.*?)^```\n\n```routes\n(?P<routes>.*?)^```", re.M | re.S)
CASES = [
    (found["note"], line) for found in EXAMPLE.finditer(PAGE.read_text()) for line in found["routes"].splitlines()
]


def counted(count: int, word: str) -> str:
    return f"{count} {word}{'' if count == 1 else 's'}"


def said(names: str, route: Route) -> str:
    cost = route.cost
    counts = ((cost.steps, "step"), (cost.changes, "change"), (cost.screws, "screw"), (cost.risks, "risk"))
    told = ", ".join(counted(count, word) for count, word in counts)
    return f"{names}: {', '.join(route.operations)} | {told}"


@pytest.mark.parametrize(("note", "line"), CASES)
def test_an_example_has_the_route_that_the_page_says(note: str, line: str):
    names = line.partition(":")[0]
    route = plan.route(graph_of(note), [name.strip().replace(" ", "-") for name in names.split("+")])
    assert route is not None
    assert said(names, route) == line


def test_the_page_has_examples():
    assert len(CASES) >= 6


def test_the_page_names_every_rule_of_the_planner():
    from guidec.rules.book import codes  # here, not above: the page is read first

    text = PAGE.read_text()
    assert [code for code in codes() if code.startswith("P1") and code not in text] == []
