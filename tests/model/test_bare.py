"""Names without braces where something is undone: the braces are asked for, and nowhere else."""

from __future__ import annotations

import pytest

from guidec.rules.book import wording
from guidec.rules.finding import Severity
from tests.model.test_misread import found, only

HEAD = "# Lamp\n\n{part lid} {connector fan lead} {screw A: 4x PH1 M3x8} {part back} {part card}\n\n## Open\n\n"
GERMAN = "---\nlanguage: de\n---\n\n# Lampe\n\n{part Deckel} {part Nase}\n\n## Öffnen\n\n"


def without_braces(text: str) -> list[tuple[str, tuple[str, ...]]]:
    return [(text[one.span.start : one.span.end], one.suggestions) for one in found(text) if one.code == "M219"]


def test_a_part_that_is_only_moved_and_then_lifted_off_by_its_bare_name() -> None:
    finding = only("# Lamp\n\n## Open\n\n1. Open {part lid} like a book, then lift lid off.\n", "M219")
    assert finding.suggestions == ("{lid}",)
    assert "braces" in (wording(finding).help or "")


@pytest.mark.parametrize(
    ("line", "name", "mark"),
    [
        ("Lift lid off.", "lid", "{lid}"),
        ("Lift off the lid from the base.", "lid", "{lid}"),
        ("unplug the fan lead", "fan lead", "{fan lead}"),
        ("Undo A.", "A", "{A}"),
        ("Carefully undo screw A with a driver.", "screw A", "{A}"),
        ("Undo all 4 A.", "A", "{A}"),
        ("Lift the back off.", "back", "{back}"),
        ("Take off {card} and the lid.", "lid", "{lid}"),
        ("Open the lid.", "lid", "{lid}"),
    ],
)
def test_a_bare_name_of_a_declared_thing(line: str, name: str, mark: str) -> None:
    assert without_braces(f"{HEAD}1. {line}\n") == [(name, (mark,))]


@pytest.mark.parametrize(
    "line",
    [
        "Slide {card} under the lid.",
        "Lift off {lid}, and put the lid aside.",
        "Lift {lid} off. Keep the lid.",
        "Pull back a little.",
        "Pull out the lid {connector motor lead}.",
        "Clean the lid.",
        "Look at the lid.",
        "Do not lift the lid.",
        "Remove the mains cover.",
        "Lift {lid} by the back edge.",
    ],
)
def test_other_words_are_left_alone(line: str) -> None:
    assert without_braces(f"{HEAD}1. {line}\n") == []


def test_what_another_line_takes_off_may_be_named_in_plain_words() -> None:
    assert without_braces(f"{HEAD}1. Lift the lid a little.\n2. Undo {{A}} and take off {{lid}}.\n") == []


def test_what_is_put_back_is_left_alone() -> None:
    text = f"{HEAD}1. Undo {{A}}. {{refit slide the lid on}}\n\n## Last {{refit only}}\n\n1. Push the lid down.\n"
    assert without_braces(text) == []


def test_plain_screws_are_noticed_and_their_mark_is_offered() -> None:
    text = HEAD + "1. Undo 4 screws.\n"
    (finding,) = [one for one in found(text) if one.code == "M219"]
    assert (finding.severity, finding.suggestions) == (Severity.INFO, ("{A}",))
    assert text[finding.span.start : finding.span.end] == "screws"


@pytest.mark.parametrize(
    "lines",
    [
        "1. Undo {A}.\n2. Lift the screws out with a magnet.",
        "1. Undo the 4 screws {A}.",
        "1. Undo {A} and take out the screws.",
        "1. Lift off {lid}.\n2. Move the cable aside.\n3. Pull the cable out of its guide.",
    ],
)
def test_plain_words_beside_their_marks_are_not_noticed(lines: str) -> None:
    assert without_braces(HEAD + lines + "\n") == []


def test_a_note_without_marks_is_a_plain_guide() -> None:
    assert found("# Lamp\n\n## Open\n\n1. Undo 4 screws.\n2. Unplug the cable.\n") == []


@pytest.mark.parametrize("line", ["Den Deckel vom Rahmen abheben.", "Deckel abnehmen.", "Nimm den Deckel ab."])
def test_german_lines(line: str) -> None:
    assert without_braces(f"{GERMAN}1. {line}\n") == [("Deckel", ("{Deckel}",))]


@pytest.mark.parametrize(
    "line", ["{Nase} vom Deckel abziehen.", "Die {Nase} des Deckels abziehen.", "Mit dem Deckel {Nase} abziehen."]
)
def test_german_names_that_something_governs(line: str) -> None:
    assert without_braces(f"{GERMAN}1. {line}\n") == []
