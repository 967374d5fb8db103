"""The blocks of a note -> the marks that belong on a heading and stand elsewhere.

The marks of an operation's heading may also stand on the line right below it. A mark whose wording is a declared
name is that thing, whatever kind word it begins with.
"""

from __future__ import annotations

from bisect import bisect_right
from collections.abc import Iterable, Iterator, Mapping

from guidec.notes.kinds import THINGS
from guidec.notes.syntax import Block, Document, Heading, Inline, ItemList, Mark, Paragraph, Quote, Table, Verbatim
from guidec.rules.finding import Finding
from guidec.source import Source

__all__ = ["named_after_all", "stray_marks"]

_ON_PICTURE = ("N106", "N110")
_TABLES = ("parts", "fasteners", "tools", "supplies", "connectors", "adhesives")


def _below(blocks: tuple[Block, ...], at: int, source: Source) -> tuple[Mark, ...]:
    """The marks of the paragraph that begins on the line right below the heading `blocks[at]`."""
    below = blocks[at + 1] if at + 1 < len(blocks) else None
    if not isinstance(below, Paragraph):
        return ()
    adjacent = source.text.count("\n", blocks[at].span.end, below.span.start) == 1
    return below.inline.marks if adjacent else ()


def stray_marks(document: Document, marks: Iterable[Mark]) -> tuple[Finding, ...]:
    """A finding for each of `marks`, all of kinds for headings, that stands somewhere else."""
    fine = {mark.span for mark in _well_placed(document)}
    suspects = [mark for mark in marks if mark.span not in fine and not _on_action(document.blocks, mark)]
    if not suspects:
        return ()
    names = _declared(document)
    return tuple(
        Finding.at("N108", mark.span, kind=mark.kind) for mark in suspects if _fold(mark.whole) not in names
    )


def named_after_all(document: Document, findings: list[Finding]) -> list[Finding]:
    """The findings without those on points that miss from a mark which is a thing's name: `{pin header}`."""
    if not any(finding.code in _ON_PICTURE for finding in findings):
        return findings
    names = _declared(document)
    plain = [mark.span for mark in _all(document.blocks) if not mark.points and _fold(mark.whole) in names]
    return [
        finding
        for finding in findings
        if finding.code not in _ON_PICTURE
        or not any(span.start <= finding.span.start and finding.span.end <= span.end for span in plain)
    ]


def _well_placed(document: Document) -> Iterator[Mark]:
    """The marks of all operations' headings, and of the paragraphs right below them."""
    blocks = document.blocks
    for at, block in enumerate(blocks):
        if isinstance(block, Heading) and block.level == 2:
            yield from block.inline.marks
            yield from _below(blocks, at, document.source)


def _on_action(blocks: tuple[Block, ...], mark: Mark) -> bool:
    """Whether a mark is a `side` or `optional` in a list: the one may stand on a turn's line, the other on any."""
    if mark.kind not in ("side", "optional"):
        return False
    at = bisect_right(blocks, mark.span.start, key=lambda block: block.span.start) - 1
    around = blocks[at] if at >= 0 else None
    return isinstance(around, ItemList) or (isinstance(around, Quote) and _on_action(around.blocks, mark))


def _own(block: Block) -> tuple[Inline, ...]:
    if isinstance(block, (Heading, Paragraph)):
        return (block.inline,)
    return tuple(cell for row in block.rows for cell in row) if isinstance(block, Table) else ()


def _nested(block: Block) -> Iterator[tuple[Block, ...]]:
    """The blocks inside a block."""
    if isinstance(block, ItemList):
        yield from (item.blocks for item in block.items)
    elif isinstance(block, Quote):
        yield block.blocks


def _fold(name: str) -> str:
    return " ".join(name.casefold().split())


def _declared(document: Document) -> set[str]:
    """The names of all things that the note declares, folded."""
    names = {_fold(mark.name) for mark in _all(document.blocks) if mark.kind in THINGS}
    for table in _TABLES:
        rows = document.front.get(table)
        if rows is not None and isinstance(rows.value, Mapping):
            names |= {_fold(name) for name in rows.value}
        elif rows is not None and isinstance(rows.value, tuple):
            names |= {_fold(row.typed) for row in rows.value}
    return names


def _all(blocks: tuple[Block, ...]) -> Iterator[Mark]:
    """All marks, those inside others too."""
    for block in blocks:
        if isinstance(block, Verbatim):
            continue
        for inline in _own(block):
            for mark in inline.marks:
                yield mark
                yield from mark.inner
        for below in _nested(block):
            yield from _all(below)
