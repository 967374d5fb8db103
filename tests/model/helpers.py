"""Small doors for tests of the model: a note's text -> its guide and the codes found."""

from __future__ import annotations

from textwrap import dedent

from guidec.model import build
from guidec.model.types import Action, Guide
from guidec.notes import read
from guidec.source import Source


def built(text: str) -> tuple[Guide, tuple[str, ...]]:
    """The guide of a note and the codes of all findings, in order."""
    document, first = read(Source.of("note.md", dedent(text)))
    guide, second = build(document)
    return guide, tuple(finding.code for finding in (*first, *second))


def guide_of(text: str) -> Guide:
    """The guide of a note that must be clean."""
    guide, codes = built(text)
    assert codes == (), codes
    return guide


def line(words: str, *, clean: bool = True) -> tuple[Action, ...]:
    """The actions of one list line in a note that has nothing else."""
    guide, codes = built(f"# Note\n\n## Work\n\n1. {words}\n")
    assert not clean or codes == (), codes
    return tuple(guide.actions.values())


def needs(guide: Guide, action: str) -> set[tuple[str, tuple[tuple[str, ...], ...]]]:
    """The needs of an action as (reason, ways)."""
    return {(need.reason.value, need.ways) for need in guide.actions[action].needs}
