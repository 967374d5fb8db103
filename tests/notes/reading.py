"""Helpers of the reader's tests: read a text, walk what came out."""

from __future__ import annotations

from collections.abc import Iterator
from textwrap import dedent
from typing import NamedTuple

from guidec.notes import read
from guidec.notes.syntax import (
    Block,
    Document,
    Heading,
    Inline,
    ItemList,
    Mark,
    Paragraph,
    Picture,
    Quote,
    Table,
)
from guidec.rules.finding import Finding
from guidec.source import Source


class Read(NamedTuple):
    source: Source
    document: Document
    findings: tuple[Finding, ...]

    @property
    def codes(self) -> list[str]:
        return [finding.code for finding in self.findings]

    def found(self) -> list[tuple[str, str, str]]:
        """Each finding as code, variant and the text it points at."""
        return [(one.code, one.variant, self.source.slice(one.span)) for one in self.findings]


def note(text: str, *, plain: bool = False) -> Read:
    source = Source.of("note.md", text if plain else dedent(text).lstrip("\n"))
    document, findings = read(source)
    return Read(source, document, findings)


def inlines(blocks: tuple[Block, ...]) -> Iterator[Inline]:
    for block in blocks:
        if isinstance(block, (Heading, Paragraph)):
            yield block.inline
        elif isinstance(block, Table):
            for row in block.rows:
                yield from row
        elif isinstance(block, Quote):
            yield from inlines(block.blocks)
        elif isinstance(block, ItemList):
            for item in block.items:
                yield from inlines(item.blocks)


def marks(document: Document, *, inner: bool = True) -> Iterator[Mark]:
    for inline in inlines(document.blocks):
        for mark in inline.marks:
            yield mark
            if inner:
                yield from mark.inner


def pictures(document: Document) -> list[Picture]:
    return [picture for inline in inlines(document.blocks) for picture in inline.pictures]


def words(inline: Inline) -> list[str]:
    return [piece.text for piece in inline.pieces]


def one_mark(typed: str) -> Mark:
    """The only mark of a paragraph that holds nothing else."""
    source = Source.of("note.md", f"Take {typed} now.")
    document, _ = read(source)
    (mark,) = marks(document, inner=False)
    return mark
