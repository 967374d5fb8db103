"""Small doors for tests of declarations: text -> what is declared; findings with the words they point at."""

from __future__ import annotations

from textwrap import dedent
from typing import NamedTuple

from guidec.model.things import Declared, declare
from guidec.notes import read
from guidec.rules.book import wording
from guidec.source import Source


class Told(NamedTuple):
    """A finding: its code, the words it points at, its suggestions, and the words its labels point at."""

    code: str
    typed: str
    suggestions: tuple[str, ...] = ()
    labels: tuple[str, ...] = ()
    message: str = ""


def told(text: str) -> tuple[Declared, list[Told]]:
    """What a note declares, and what is said about it."""
    source = Source.of("note.md", dedent(text))
    document, _ = read(source)
    declared, findings = declare(document)
    return declared, [
        Told(
            finding.code,
            source.slice(finding.span),
            finding.suggestions,
            tuple(source.slice(label.span) for label in finding.labels),
            wording(finding).message,
        )
        for finding in findings
    ]


def lines(*marks: str) -> tuple[Declared, list[Told]]:
    """The same for a note of list lines, one for each argument."""
    body = "\n".join(f"{number}. Line {mark}." for number, mark in enumerate(marks, 1))
    return told(f"# Note\n\n## Work\n\n{body}\n")


def clean(*marks: str) -> Declared:
    """What list lines declare that must be clean."""
    declared, findings = lines(*marks)
    assert findings == [], findings
    return declared


def codes(findings: list[Told]) -> list[str]:
    """The codes of findings."""
    return [finding.code for finding in findings]
