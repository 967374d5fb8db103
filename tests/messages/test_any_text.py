"""Whatever a note holds and wherever a place is, the report is whole, safe to print, and points at the place."""

from __future__ import annotations

import unicodedata
from collections.abc import Callable

import pytest
import wcwidth
from hypothesis import HealthCheck, example, given, settings
from hypothesis import strategies as st

from guidec.messages import as_json, diagnose, sarif, text
from guidec.messages.cells import cells
from guidec.rules.finding import Finding
from guidec.source import Source, Span

LINES = st.text(
    alphabet=st.one_of(
        st.sampled_from("ab {}`\t\n漢ｗ\u0301\u200d👩🔧🇩🇪\u202e\x1b\x00é\u2028\x85"), st.characters(codec="utf-8")
    ),
    max_size=200,
)
PLACES = st.tuples(st.integers(0, 210), st.integers(0, 210)).map(sorted)


@pytest.fixture(autouse=True)
def rule(write_page: Callable[[str, str], None]) -> None:
    write_page("X100-x", "---\nseverity: error\nmessage: $what\nhelp: h\nlabels: {here: h, other: o}\n---\nWhy.\n")


@settings(max_examples=300, deadline=None, suppress_health_check=[HealthCheck.function_scoped_fixture])
@given(note=LINES, main=PLACES, other=PLACES, width=st.integers(12, 130))
@example(note="", main=[0, 0], other=[5, 9], width=12)
@example(note="\n\n\n", main=[0, 3], other=[1, 1], width=12)
def test_any_place_in_any_text_can_be_reported(note: str, main: list[int], other: list[int], width: int):
    source = Source.of("n.md", note)
    finding = Finding.at("X100", Span(*main), labels={"other": Span(*other)}, what=note[:30])
    found = diagnose(source, [finding])
    report = text(found, width=width)
    assert all(char == "\n" or unicodedata.category(char) not in ("Cc", "Zl", "Zp") for char in report)
    assert "\u202e" not in report
    if source.text:
        assert "^" in report
    as_json(found)
    sarif(found)


@settings(max_examples=300, deadline=None)
@given(line=LINES.map(lambda text: text.replace("\n", " ")))
def test_columns_add_up_to_what_a_terminal_shows(line: str):
    """`wcwidth` (Unicode's East Asian width and emoji data) measures what is printed; tabs are blanks by then."""
    layout = cells(line)
    shown = "".join(layout.shown)
    assert len(layout.starts) == len(layout.ends) == len(line) + 1
    assert list(layout.starts) == sorted(layout.starts)
    assert all(start <= end for start, end in zip(layout.starts, layout.ends, strict=True))
    if line.isascii() and not shown.startswith("␀"):
        assert layout.width == sum(wcwidth.wcwidth(char) for char in shown)
