"""The blocks of a note -> its title, its introduction, and one section for each `##`."""

from __future__ import annotations

from collections.abc import Collection

from guidec.notes.kinds import HEADINGS
from guidec.notes.syntax import Block, Document, Heading, Mark, Paragraph
from guidec.quick import dataclass
from guidec.rules.finding import Finding
from guidec.source import Span

__all__ = ["Section", "Sections", "sections"]


@dataclass(frozen=True, slots=True)
class Section:
    """One operation as typed: its heading, the heading's own marks (also those on the line below), its blocks."""

    heading: Heading
    marks: tuple[Mark, ...]
    blocks: tuple[Block, ...]

    @property
    def span(self) -> Span:
        """From the heading to the end of the last block."""
        return self.heading.span.to(self.blocks[-1].span) if self.blocks else self.heading.span


@dataclass(frozen=True, slots=True)
class Sections:
    """A note cut at its headings."""

    title: Heading | None
    intro: tuple[Block, ...]
    operations: tuple[Section, ...]


def sections(document: Document, things: Collection[Span] = ()) -> tuple[Sections, tuple[Finding, ...]]:
    """Cut a note at its `##` headings. A second `#` is reported and read as prose.

    `things`: the spans of marks that name a thing, whatever their kind word says.
    """
    titles = [block for block in document.blocks if isinstance(block, Heading) and block.level == 1]
    findings = [
        Finding.at("M210", extra.span, labels={"first": titles[0].span}, title=_words(extra))
        for extra in titles[1:]
    ]
    intro: list[Block] = []
    parts: list[tuple[Heading, list[Block]]] = []
    for block in document.blocks:
        if isinstance(block, Heading) and block.level == 2:
            parts.append((block, []))
        elif titles and block is titles[0]:
            continue
        else:
            (parts[-1][1] if parts else intro).append(block)
    operations = tuple(_section(heading, blocks, document, things) for heading, blocks in parts)
    return Sections(titles[0] if titles else None, tuple(intro), operations), tuple(findings)


def _words(heading: Heading) -> str:
    return " ".join(piece.text for piece in heading.inline.pieces)


def _section(heading: Heading, blocks: list[Block], document: Document, things: Collection[Span]) -> Section:
    """Take the heading's marks, and those of a paragraph of nothing but such marks on the line below it."""
    marks = [mark for mark in heading.inline.marks if _of_heading(mark, things)]
    if blocks and isinstance(blocks[0], Paragraph) and _line_below(heading, blocks[0], document):
        below = blocks[0].inline
        marks += [mark for mark in below.marks if _of_heading(mark, things)]
        if all(isinstance(piece, Mark) and _of_heading(piece, things) for piece in below.pieces):
            blocks = blocks[1:]
    return Section(heading, tuple(marks), tuple(blocks))


def _of_heading(mark: Mark, things: Collection[Span]) -> bool:
    return mark.kind in HEADINGS and mark.span not in things


def _line_below(heading: Heading, paragraph: Paragraph, document: Document) -> bool:
    last = document.source.place(max(heading.span.start, heading.span.end - 1)).line
    return document.source.place(paragraph.span.start).line == last + 1
