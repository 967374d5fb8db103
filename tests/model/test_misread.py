"""Lines and names that were meant otherwise: one message for each slip, with a way out that helps."""

from __future__ import annotations

from textwrap import dedent

import pytest

from guidec import checks
from guidec.model import build
from guidec.notes import read
from guidec.plan import graph
from guidec.rules.book import wording
from guidec.rules.finding import Finding
from guidec.source import Source


def found(text: str, *, checked: bool = False) -> list[Finding]:
    document, first = read(Source.of("note.md", dedent(text)))
    guide, second = build(document)
    third = checks.run(guide, graph(guide)) if checked else ()
    return [*first, *second, *third]


def only(text: str, code: str) -> Finding:
    (finding,) = found(text)
    assert finding.code == code
    return finding


def work(line: str) -> str:
    return f"# Lamp\n\n## Open\n\n1. {line}\n"


def test_a_verb_behind_its_object_is_asked_to_the_front_and_is_not_suggested_for_itself() -> None:
    finding = only(work("{screw A: 2x PH1 M3x8} undo."), "M201")
    assert finding.variant == "late"
    assert finding.suggestions == ()


@pytest.mark.parametrize(
    ("line", "verb"),
    [
        ("{connector Stecker: plug} lässt sich ziehen.", "ziehen"),
        ("{part Deckel} kann man vorsichtig abnehmen.", "abnehmen"),
        ("{part Deckel} muss jetzt abgenommen werden.", "abgenommen"),
    ],
)
def test_a_german_verb_that_is_told_of_is_named_and_asked_for(line: str, verb: str) -> None:
    text = "---\nlanguage: de\n---\n\n" + work(line)
    finding = only(text, "M201")
    assert finding.variant == "told"
    assert "`… abnehmen`" in wording(finding).help
    assert text[finding.span.start : finding.span.end] == verb


@pytest.mark.parametrize(
    ("line", "code"),
    [
        ("Unscrwe {screw A: 2x PH1 M3x8}.", "M201"),
        ("With a card, release {clip rim: 2x}.", "M201"),
        ("Pull {part knob}; unplug {connector lead: plug}.", "M202"),
        ("Unplug all: {connector lead: plug}.", "M202"),
    ],
)
def test_what_a_doubted_line_names_is_not_said_to_be_never_undone(line: str, code: str) -> None:
    only(work(line), code)


def test_a_set_that_no_line_doubts_is_still_said_to_be_never_undone() -> None:
    only(work("Lift off {part lid}.") + "\nOf {screw A: 2x PH1 M3x8} more.\n", "M204")


def test_a_language_without_a_lexicon_is_one_message() -> None:
    text = "---\nlanguage: is\nisolate: A\n---\n\n" + work("Losa {screw A: 2x PH1 M3x8} og {part lok}.")
    assert [finding.code for finding in found(text, checked=True)] == ["M209"]


def test_a_key_behind_a_comma_is_told_from_a_name() -> None:
    finding = only(work("Unplug {connector lead: plug; from=wall, to=wall}."), "M113")
    assert finding.variant == "key"
    assert "; to=wall" in (wording(finding).help or "")


@pytest.mark.parametrize(
    ("typed", "meant"),
    [("WARN", "WARNING"), ("Attention", "CAUTION"), ("DANGR", "DANGER"), ("caution", "CAUTION")],
)
def test_a_signal_word_in_other_words_or_letters_is_asked_for(typed: str, meant: str) -> None:
    finding = only(f"# Lamp\n\n## Open\n\n> {typed}: Hot inside.\n\n1. Wait.\n", "M212")
    assert finding.suggestions == (meant,)


@pytest.mark.parametrize("typed", ["NOTE", "Note", "Tip", "Source"])
def test_a_plain_note_is_no_hazard(typed: str) -> None:
    assert found(f"# Lamp\n\n## Open\n\n> {typed}: the lid is blue.\n\n1. Wait.\n") == []


def test_an_operation_is_suggested_by_its_title_and_once() -> None:
    rest = "\n## Rear panel\n\n1. Wait.\n\n## Last {after operation Raer panel}\n\n1. Wait.\n"
    assert only(work("Lift off {part lid}.") + rest, "M301").suggestions == ("rear panel",)


def test_two_numbers_without_a_comma_are_one_slip_of_a_pin() -> None:
    text = "# Lamp\n\n## Open\n\n![Lid](lid.jpg)\n{pin 20 40: lid}\n\n1. Lift off {part lid}.\n"
    finding = only(text, "N106")
    assert finding.suggestions == ("20,40",)
    assert text[finding.span.start : finding.span.end] == "20 40"


def test_a_markdown_table_in_the_front_matter_is_one_message() -> None:
    table = "parts:\n| name | details |\n|---|---|\n| cell | 2 Ah |\n"
    assert only(f"---\npower: battery\n{table}---\n\n" + work("Wait."), "N011").variant == "table"


def test_a_driver_declared_for_one_set_is_not_held_against_another_in_its_line() -> None:
    text = """
        ---
        tools:
          insulated screwdriver: {details: PH2}
        ---

        # Supply

        ## Fan

        1. Undo {screw F: 4x PH2 M4x10} and the nuts {screw N: 4x NUT7 M4x5}.
        2. Lift out {part fan}.
    """.strip("\n")
    quiet = found(dedent(text), checked=True)
    assert "T105" not in [finding.code for finding in quiet]
