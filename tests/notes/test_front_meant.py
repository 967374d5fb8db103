"""Everyday words in the front matter: understood, and said; and keys that stand outside of it."""

from __future__ import annotations

import pytest

from guidec.notes import read
from guidec.rules.book import lacking, wording
from guidec.rules.finding import Finding, Severity
from guidec.source import Source


def front(typed: str, rest: str = "# Lamp\n\n## Open\n\n1. Wait.\n") -> tuple[dict[str, object], list[Finding]]:
    document, findings = read(Source.of("note.md", f"---\n{typed}\n---\n{rest}"))
    assert [lacking(one) for one in findings if lacking(one)] == []
    return document.front.plain(), list(findings)


@pytest.mark.parametrize(
    ("typed", "value"),
    [
        ("language: english", "en"),
        ("language: Deutsch", "de"),
        ("language: german", "de"),
        ("language: German (Austria)", "de"),
        ("language: en_GB", "en-GB"),
        ("power: accu", "battery"),
        ("power: Akku", "battery"),
        ("power: Netz", "mains"),
        ("power: mains 230V", "mains"),
        ("power: 230 V AC", "mains"),
        ("power: Li-ion battery", "battery"),
        ("power: Battery", "battery"),
        ("power: battery + mains", "battery, mains"),
        ("power: [akku, Netz]", ["battery", "mains"]),
    ],
)
def test_an_everyday_word_is_read_as_what_it_means_with_one_warning_each(typed: str, value: object) -> None:
    plain, findings = front(typed)
    assert plain[typed.split(":")[0]] == value
    assert {(one.code, one.variant, one.severity) for one in findings} == {("N021", "meant", Severity.WARNING)}
    assert [one.suggestions[0] for one in findings] == (value if isinstance(value, list) else [value])


@pytest.mark.parametrize(
    "typed", ["language: EN", "language: de-AT", "power: battery, mains", "power: battery,mains", "power: [mains]"]
)
def test_what_the_schema_takes_is_left_alone(typed: str) -> None:
    plain, findings = front(typed)
    assert findings == []
    assert plain[typed.split(":")[0]] in ("EN", "de-AT", "battery, mains", "battery,mains", ["mains"])


@pytest.mark.parametrize("typed", ["power: USB", "power: no battery", "power: 12 V adapter", "power: pedals"])
def test_power_that_names_none_of_the_kinds_is_an_error_with_an_example(typed: str) -> None:
    _, (finding,) = front(typed)
    assert (finding.code, finding.variant) == ("N021", "")
    assert wording(finding).help == "write it like this: `power: battery`"


@pytest.mark.parametrize(
    ("typed", "suggested"),
    [
        ("date: 24.11.2026", ("2026-11-24",)),
        ("date: 03/04/2026", ("2026-04-03", "2026-03-04")),
        ("date: March 2026", ("2026-03",)),
        ("date: 3. März 2026", ("2026-03-03",)),
        ("date: Nov 24, 2026", ("2026-11-24",)),
        ("recording: lamp.mp4", ("{file: lamp.mp4}",)),
        ("tools: spudger, tweezers", ("[spudger, tweezers]",)),
    ],
)
def test_a_value_of_another_shape_is_restated(typed: str, suggested: tuple[str, ...]) -> None:
    _, (finding,) = front(typed)
    assert (finding.code, finding.suggestions) == ("N021", suggested)


@pytest.mark.parametrize(
    "text",
    [
        "# Lamp\n\nlanguage: de\npower: battery\n\n## Open\n\n1. Wait.\n",
        "# Lamp\nlanguage: de\n\n## Open\n\n1. Wait.\n",
        "title: Lamp\nlanguage: de\n\n## Open\n\n1. Wait.\n",
        "# Lamp\n\n**Language:** de\n\n## Open\n\n1. Wait.\n",
    ],
)
def test_keys_of_the_front_matter_in_the_text_are_pointed_out_once(text: str) -> None:
    _, findings = read(Source.of("note.md", text))
    assert [(one.code, one.facts["key"]) for one in findings] == [("N016", "language")]


@pytest.mark.parametrize(
    "text",
    [
        "# Lamp\n\nTools: two picks\n\n## Open\n\n1. Wait.\n",
        "# Lamp\n\nThe power: it comes from a cell.\nAnd more of it.\n\n## Open\n\n1. Wait.\n",
        "# Lamp\n\n## Open\n\npower: off\n\n1. Wait.\n",
    ],
)
def test_plain_text_with_a_colon_is_no_front_matter(text: str) -> None:
    _, findings = read(Source.of("note.md", text))
    assert list(findings) == []


@pytest.mark.parametrize("typed", ["maker: Crumbix", "Model: T2", "year: 2023", "kind: toaster"])
def test_a_key_of_the_subject_at_the_top_is_shown_its_place(typed: str) -> None:
    _, (finding,) = front(typed)
    assert finding.code == "N020"
    assert finding.suggestions == (f"subject: {{{typed.partition(':')[0].lower()}: …}}",)
