"""What a line or title says in plain words and no plan reads: conditions, waits, putting back."""

from __future__ import annotations

import pytest

from guidec.rules.book import wording
from guidec.rules.finding import Severity
from tests.model.test_misread import found

WARNING, INFO = Severity.WARNING, Severity.INFO


def note(lines: str, language: str = "en") -> str:
    return f"---\nlanguage: {language}\n---\n\n# T\n\n{{supply isopropyl: 2 ml}}\n\n## Work\n\n1. {lines}\n"


def said(code: str, text: str) -> list[tuple[str, Severity]]:
    return [
        (text[one.span.start : one.span.end], wording(one).severity)
        for one in found(text, checked=True)
        if one.code == code
    ]


@pytest.mark.parametrize(
    ("language", "line", "condition"),
    [
        ("en", "Pull off {part seal} if needed.", ("if needed", WARNING)),
        ("en", "Undo {screw S: 2x PH1 M3x8} where fitted.", ("where fitted", WARNING)),
        ("en", "Undo {screw S: 2x PH1 M3x8} and, if necessary, lift off {part lid}.", ("if necessary", WARNING)),
        ("en", "Soak with {isopropyl} if it resists.", ("if it resists", INFO)),
        ("en", "Peel off {adhesive strips: 4x}; if one rips, soak with {isopropyl}.", ("if one rips", INFO)),
        ("de", "Falls nötig, {part Nase} abziehen.", ("Falls nötig", WARNING)),
        ("de", "{part Haube} bei Bedarf abnehmen.", ("bei Bedarf", WARNING)),
        ("de", "wenn's klemmt mit Öl einsprühen und {part Mahlring} rausdrehen.", ("wenn's klemmt", INFO)),
        ("de", "{part Ring} abziehen, falls er klemmt.", ("falls er klemmt", INFO)),
    ],
)
def test_a_condition_in_plain_words_is_asked_to_be_optional(
    language: str, line: str, condition: tuple[str, Severity]
) -> None:
    assert said("M220", note(line, language)) == [condition]
    assert said("M220", note(line + " {optional}", language)) == []


@pytest.mark.parametrize(
    ("language", "line"),
    [
        ("en", "Check if {part fan} turns."),
        ("en", "Lift {part lid} off, with {tool card} if needed."),
        ("en", "Warm {adhesive rim} {heat 60 °C, 2 min}, longer if needed."),
        ("en", "Pull {part lid} out. Stop if it cracks."),
        ("en", "Pull {part lid} out, in one piece if possible."),
        ("en", "Pull {part lid} out even if it resists."),
        ("en", "Pull {part lid} out. {refit grease it if needed}"),
        ("en", "Clean the rim if it is dirty."),
        ("de", "{part Deckel} erst abheben, wenn die Schrauben gelöst sind."),
        ("de", "{adhesive Rand} erwärmen {heat 60 °C, 2 min}, länger falls nötig."),
        ("de", "Prüfen, ob {part Deckel} bei Bedarf aufgeht."),
    ],
)
def test_other_conditions_are_left_alone(language: str, line: str) -> None:
    assert said("M220", note(line, language)) == []


def test_what_is_done_on_the_way_back_may_hang_on_something() -> None:
    text = note("Lift off {part lid}.") + "\n## Last {refit only}\n\n1. Apply {isopropyl} if needed.\n"
    assert said("M220", text) == []


@pytest.mark.parametrize(
    ("language", "line", "typed"),
    [
        ("en", "Let dry 1 min.", "1 min"),
        ("en", "Wait 10 min.", "10 min"),
        ("en", "Clean {part plate} with {isopropyl} and wait 10 min.", "10 min"),
        ("en", "Leave it for 10 minutes to cool.", "10 minutes"),
        ("de", "Abkühlen lassen 30 min.", "30 min"),
        ("de", "10 min warten.", "10 min"),
    ],
)
def test_a_wait_in_plain_words_is_asked_to_be_marked(language: str, line: str, typed: str) -> None:
    assert said("M221", note(line, language)) == [(typed, WARNING)]
    assert said("M221", note(line.replace(typed, f"{{wait {typed}}}"), language)) == []


@pytest.mark.parametrize(
    "line",
    [
        "Check that it runs for 10 min.",
        "Warm {adhesive rim} at 60 °C and leave it for 2 min.",
        "Warm {adhesive rim} {heat 60 °C, 2 min} and let it sit.",
        "Let it cool. The pump runs on for 10 min.",
        "Wait until it is cold.",
    ],
)
def test_other_times_are_left_alone(line: str) -> None:
    assert said("M221", note(line)) == []


@pytest.mark.parametrize(
    ("language", "title"),
    [
        ("en", "Reassembly"),
        ("en", "Putting it back together"),
        ("en", "Reassemble the pump"),
        ("en", "Put everything back"),
        ("de", "Zusammenbau"),
        ("de", "Wieder zusammenbauen"),
        ("de", "Montage"),
    ],
)
def test_a_title_of_putting_back_is_asked_for_refit_only(language: str, title: str) -> None:
    text = note("Wait.", language) + f"\n## {title}\n\n1. Wait.\n"
    assert said("M222", text) == [(title, WARNING)]
    assert said("M222", text.replace(f"## {title}", f"## {title} {{refit only}}")) == []


@pytest.mark.parametrize("title", ["Closing plate", "Pump assembly", "Put the lid aside", "Back panel", "Back"])
def test_other_titles_are_left_alone(title: str) -> None:
    assert said("M222", note("Wait.") + f"\n## {title}\n\n1. Wait.\n") == []


def test_a_title_of_putting_back_is_one_message_and_not_one_for_each_line() -> None:
    text = note("Lift off {part lid}.") + "\n## Reassembly\n\n1. Refit {lid}.\n"
    assert [one.code for one in found(text, checked=True)] == ["M222"]
