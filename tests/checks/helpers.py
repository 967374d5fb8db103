"""A note's text -> what the trade's rules find in it."""

from __future__ import annotations

from collections.abc import Sequence
from textwrap import dedent

from guidec import checks, model, notes, plan
from guidec.model.types import Guide
from guidec.plan.cautions import Placed, cautions
from guidec.rules.book import lacking, page, wording
from guidec.rules.finding import Finding
from guidec.source import Source


def guide_of(text: str) -> Guide:
    """The guide of a note."""
    document, _ = notes.read(Source.of("note.md", dedent(text)))
    guide, _ = model.build(document)
    return guide


def found(text: str) -> tuple[Finding, ...]:
    """The findings of the trade's rules, none of which may lack a word of its page."""
    guide = guide_of(text)
    every = checks.run(guide, plan.graph(guide))
    trade = tuple(finding for finding in every if finding.code.startswith("T"))
    assert [lacking(finding) for finding in trade if lacking(finding)] == []
    return trade


def codes(text: str) -> list[str]:
    """The codes in order, each followed by its severity where that is not its page's."""
    return sorted(_code(finding) for finding in found(text))


def _code(finding: Finding) -> str:
    own = finding.severity or page(finding.code).severity
    return finding.code if own is page(finding.code).severity else f"{finding.code} {own}"


def told(text: str, code: str) -> list[str]:
    """The messages of one code, each with its help."""
    return [
        f"{words.message} | {words.help}" for each in found(text) if each.code == code for words in [wording(each)]
    ]


def place(text: str, code: str) -> list[str]:
    """What the findings of a code point at."""
    guide = guide_of(text)
    return [guide.source.slice(each.span) for each in found(text) if each.code == code]


def added(text: str, order: Sequence[str] | None = None) -> tuple[Placed, ...]:
    """The cautions that are added."""
    return cautions(guide_of(text), order)


def ids(text: str, order: Sequence[str] | None = None) -> list[str]:
    """The ids of the cautions that are added, in order."""
    return [placed.hazard.rule for placed in added(text, order)]


def line(words: str, *, front: str = "", before: str = "", after: str = "") -> str:
    """A note with one operation and one line in it."""
    head = f"---\n{front}\n---\n\n" if front else ""
    return f"{head}# Device\n\n## Work\n\n{before}\n1. {words}\n{after}"
