"""A document -> all its marks, and what its value marks say."""

from __future__ import annotations

from collections.abc import Iterable, Iterator

from guidec.model.types import Heat, Measure, Quantity, Wait
from guidec.model.values import read_value
from guidec.notes.kinds import VALUES
from guidec.notes.syntax import Block, Document, Heading, Inline, ItemList, Mark, Paragraph, Quote, Table
from guidec.rules.finding import Finding
from guidec.source import Span

__all__ = ["all_marks", "inlines", "values_of"]

Value = Heat | Wait | Measure | Quantity


def inlines(blocks: Iterable[Block]) -> Iterator[Inline]:
    """All stretches of text in blocks, in order."""
    for block in blocks:
        if isinstance(block, Heading | Paragraph):
            yield block.inline
        elif isinstance(block, ItemList):
            for item in block.items:
                yield from inlines(item.blocks)
        elif isinstance(block, Quote):
            yield from inlines(block.blocks)
        elif isinstance(block, Table):
            for row in block.rows:
                yield from row


def all_marks(document: Document) -> tuple[Mark, ...]:
    """All marks of a note in order, each before those inside it."""
    return tuple(
        mark for inline in inlines(document.blocks) for outer in inline.marks for mark in (outer, *outer.inner)
    )


def values_of(marks: Iterable[Mark]) -> tuple[dict[Span, Value], tuple[Finding, ...]]:
    """What each value mark says, and what is wrong with it."""
    values: dict[Span, Value] = {}
    findings: list[Finding] = []
    for mark in marks:
        if mark.kind in VALUES:
            value, wrong = read_value(mark)
            findings += wrong
            if value is not None:
                values[mark.span] = value
    return values, tuple(findings)
