"""The language page runs: each example compiles without errors of its own, and reads as the page says."""

from __future__ import annotations

import re
from pathlib import Path

import pytest

from guidec.model import build
from guidec.model.types import Action, Guide, Need
from guidec.notes import read
from guidec.source import Source
from guidec.trade.classes import part_classes

PAGE = Path(__file__).parent.parent / "docs" / "language.md"
EXAMPLE = re.compile(r"^```note\n(?P<note>.*?)^```\n(?:\n```reads\n(?P<reads>.*?)^```\n)?", re.M | re.S)
CASES = [(found["note"], found["reads"] or "") for found in EXAMPLE.finditer(PAGE.read_text(encoding="utf-8"))]


def test_the_page_has_examples() -> None:
    assert len(CASES) >= 12


@pytest.mark.parametrize(("note", "reads"), CASES)
def test_an_example_reads_as_the_page_says(note: str, reads: str) -> None:
    document, first = read(Source.of("note.md", note))
    guide, second = build(document)
    lines = [_action(action) for action in guide.actions.values()]
    messages = [_message(guide, finding.code, finding.span.start) for finding in (*first, *second)]
    expected = reads.splitlines()
    assert [one for one in expected if one not in lines + messages] == []
    assert [one for one in messages if one not in expected] == []


def _action(action: Action) -> str:
    changes = [
        f"{effect.count} of {effect.id} {effect.change}" if effect.count else f"{effect.id} {effect.change}"
        for effect in action.effects
    ]
    needs = ", ".join(_need(need) for need in action.needs)
    return f"{action.id} {action.verb}: {', '.join(changes)}" + (f" < {needs}" if needs else "")


def _need(need: Need) -> str:
    return f"{need.reason} " + " or ".join(" + ".join(way) for way in need.ways)


def _message(guide: Guide, code: str, offset: int) -> str:
    place = guide.source.place(offset)
    return f"{code} {place.line}:{place.column}"


def test_the_classes_that_the_page_lists_are_those_of_the_data():
    text = (Path(__file__).parent.parent / "docs" / "language.md").read_text(encoding="utf-8")
    listed = re.search(r"The values of `class` are (.*?)\.\s", text, re.S)
    assert listed is not None
    assert tuple(re.findall(r"`([^`]+)`", listed[1])) == part_classes()
