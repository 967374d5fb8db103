"""A number written before a mark: it is read, and printed once."""

from __future__ import annotations

import pytest

from guidec.model import build
from guidec.notes import read
from guidec.source import Source

SET = "{screw H: 4x T20 5x20}"


def texts(lines: str, language: str = "en") -> list[str]:
    note = (
        f"---\nlanguage: {language}\n---\n\n# N\n\n{SET} {{part valve}} {{part battery}}\n\n## W\n\n1. {lines}\n"
    )
    return [action.text for action in build(read(Source.of("n.md", note))[0])[0].actions.values()]


@pytest.mark.parametrize(
    ("line", "text"),
    [
        ("Undo 4 {H}.", "Undo 4 × T20 5×20 (H)."),
        ("Undo the four {H}.", "Undo the four T20 5×20 (H)."),
        ("Undo 4x {H}.", "Undo 4x T20 5×20 (H)."),
        ("Undo the 4 short screws {H}.", "Undo the 4 short screws T20 5×20 (H)."),
        ("Undo 2 {H}.", "Undo 2 × T20 5×20 (H)."),
        ("Undo {H}.", "Undo 4 × T20 5×20 (H)."),
        ("Undo 2 of {H}.", "Undo 2 of 4 × T20 5×20 (H)."),
        ("Pull 3 {valve} out.", "Pull 3 valves out."),
        ("Pull 2 {battery} out.", "Pull 2 batteries out."),
        ("Pull 1 {valve} out.", "Pull 1 valve out."),
        ("Pull {valve} out.", "Pull valve out."),
    ],
)
def test_a_count_is_printed_once(line: str, text: str) -> None:
    assert texts(line) == [text]


def test_a_german_count_is_printed_once() -> None:
    assert texts("Die 4 Schrauben {H} lösen.", "de") == ["Die 4 Schrauben T20 5×20 (H) lösen."]
