"""The blocks of a note -> the marks that belong on a heading and stand elsewhere.

The marks of an operation's heading may also stand on the line right below it. A mark whose wording is a declared
name is that thing, whatever kind word it begins with.
"""

from __future__ import annotations

from collections.abc import Iterator, Mapping

from guidec.notes.kinds import THINGS
from guidec.notes.syntax import Block, Document, Heading, Inline, ItemList, Mark, Paragraph, Quote, Table, Verbatim
from guidec.rules.finding import Finding
from guidec.source import Source, Span

__all__ = ["stray_marks"]

_ONLY_HEADINGS = frozenset(("after", "also", "instead of", "live", "refit only"))
_TABLES = ("parts", "fasteners", "tools", "supplies", "connectors", "adhesives")


def _below(blocks: tuple[Block, ...], at: int, source: Source) -> tuple[Mark, ...]:
    """The marks of the paragraph that begins on the line right below the heading `blocks[at]`."""
    below = blocks[at + 1] if at + 1 < len(blocks) else None
    if not isinstance(below, Paragraph):
        return ()
    adjacent = source.text.count("\n", blocks[at].span.end, below.span.start) == 1
    return below.inline.marks if adjacent else ()


def stray_marks(document: Document) -> tuple[Finding, ...]:
    """A finding for each mark of a kind for headings that stands somewhere else."""
    suspects = list(_suspects(document.blocks, document.source, in_list=False))
    if not suspects:
        return ()
    names = _declared(document)
    return tuple(
        Finding.at("N108", mark.span, kind=mark.kind) for mark in suspects if _fold(mark.whole) not in names
    )


def _suspects(blocks: tuple[Block, ...], source: Source, in_list: bool) -> Iterator[Mark]:
    """The marks of a kind for headings that stand on no operation's heading and not right below one."""
    fine: set[Span] = set()
    for at, block in enumerate(blocks):
        if isinstance(block, Heading) and not in_list and block.level == 2:
            fine |= {mark.span for mark in (*block.inline.marks, *_below(blocks, at, source))}
        for inline in _own(block):
            for mark in inline.marks:
                if _misplaced(mark, in_list) and mark.span not in fine:
                    yield mark
        for below, listed in _nested(block):
            yield from _suspects(below, source, in_list or listed)


def _misplaced(mark: Mark, in_list: bool) -> bool:
    """Whether a mark may not stand off a heading: `side` may on a turn's line, `optional` on an action's."""
    return mark.kind in _ONLY_HEADINGS or (mark.kind in ("side", "optional") and not in_list)


def _own(block: Block) -> tuple[Inline, ...]:
    if isinstance(block, (Heading, Paragraph)):
        return (block.inline,)
    return tuple(cell for row in block.rows for cell in row) if isinstance(block, Table) else ()


def _nested(block: Block) -> Iterator[tuple[tuple[Block, ...], bool]]:
    """The blocks inside a block, and whether they are a list line's."""
    if isinstance(block, ItemList):
        yield from ((item.blocks, True) for item in block.items)
    elif isinstance(block, Quote):
        yield block.blocks, False


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
        for below, _ in _nested(block):
            yield from _all(below)
