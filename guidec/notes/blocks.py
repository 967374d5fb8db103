"""markdown-it's flat tokens -> the tree of blocks, each with its span."""

from __future__ import annotations

import re
from collections.abc import Callable

from markdown_it.token import Token

from guidec.notes.inlines import InlineReader
from guidec.notes.markdown import DEEPEST
from guidec.notes.syntax import Block, Heading, Inline, Item, ItemList, Paragraph, Quote, Table, Verbatim
from guidec.rules.finding import Finding
from guidec.source import Source, Span

__all__ = ["BlockReader"]

_MARKER = re.compile(r"[ \t>]*([-+*]|\d{1,9}[.)])")


class BlockReader:
    """Reads the blocks of one source, whose tokens count lines from line `first` (from 0) on."""

    def __init__(self, source: Source, tokens: list[Token], first: int, findings: list[Finding]) -> None:
        self.source = source
        self.tokens = tokens
        self.first = first
        self.findings = findings
        self.inline = InlineReader(findings)
        self.at = 0
        self.quotes = 0
        self.lists = 0
        self.cursor = (-1, 0)
        self.opening = False

    def read(self) -> tuple[tuple[Block, ...], tuple[Inline, ...]]:
        """All blocks, and all stretches of text in them in reading order."""
        return self._until(""), tuple(self.inline.done)

    def _until(self, close: str) -> tuple[Block, ...]:
        """The blocks up to a closing token, which is passed."""
        blocks: list[Block] = []
        while self.at < len(self.tokens):
            token = self.tokens[self.at]
            if token.type == close:
                self.at += 1
                break
            blocks.append(_READERS.get(token.type, BlockReader._verbatim)(self, token))
            self.opening = False
        return tuple(blocks)

    def _line(self, line: int) -> Span:
        """The span of a line by markdown-it's count."""
        starts = self.source.line_starts
        return self.source.line_span(min(line + self.first + 1, len(starts)))

    def _take(self, count: int) -> tuple[Token, ...]:
        start, self.at = self.at, self.at + count
        return tuple(self.tokens[start : self.at])

    def _heading(self, token: Token) -> Heading:
        tokens = self._take(3)
        inline = self.inline.read(tokens[1], timed=not self.quotes and not self.lists)
        first, last = token.map or [0, 1]
        start = inline.span.start
        if token.markup.startswith("#"):
            line = self._line(first)
            start = (
                self.source.text.rfind("#" * len(token.markup), line.start, max(start, line.start)) if start else 0
            )
        return Heading(Span(max(start, 0), self._end(last)), int(token.tag[1]), inline, tokens)

    def _end(self, line: int) -> int:
        """Where the text of the line before line `line` ends."""
        span = self._line(line - 1)
        return span.start + len(self.source.slice(span).rstrip())

    def _paragraph(self, token: Token) -> Paragraph:
        tokens = self._take(3)
        inline = self.inline.read(tokens[1], timed=self.opening and not self.quotes)
        return Paragraph(inline.span, inline, tokens)

    def _table(self, token: Token) -> Table:
        start = self.at
        rows: list[list[Inline]] = []
        while self.tokens[self.at].type != "table_close":
            token = self.tokens[self.at]
            if token.type == "tr_open":
                rows.append([])
            elif token.type == "inline":
                rows[-1].append(self.inline.read(token, cell=True))
            self.at += 1
        self.at += 1
        first, last = self.tokens[start].map or [0, 1]
        line = self._line(first)
        begin = rows[0][0].span.start
        bar = self.source.text.rfind("|", line.start, begin)
        if bar >= 0 and not self.source.text[bar + 1 : begin].strip():
            begin = bar
        return Table(Span(begin, self._end(last)), tuple(map(tuple, rows)), tuple(self.tokens[start : self.at]))

    def _list(self, token: Token) -> ItemList:
        start = self.at
        self.at += 1
        items: list[Item] = []
        self.lists += 1
        while self.tokens[self.at].type == "list_item_open":
            items.append(self._item(self.tokens[self.at]))
        self.lists -= 1
        self.at += 1
        return ItemList(
            span=items[0].span.to(items[-1].span),
            ordered=token.type == "ordered_list_open",
            items=tuple(items),
            start=int(token.attrs.get("start", 1)),
            tokens=tuple(self.tokens[start : self.at]),
        )

    def _item(self, token: Token) -> Item:
        line = (token.map or [0])[0]
        at = self._cursor(line)
        found = _MARKER.match(self.source.text, at)
        marker = Span(*found.span(1)) if found else Span(at, at)
        self.cursor = (line, marker.end)
        self.at += 1
        self.opening = True
        blocks = self._until("list_item_close")
        self._depth(token, blocks, marker)
        return Item(Span(marker.start, blocks[-1].span.end if blocks else marker.end), marker, blocks)

    def _quote(self, token: Token) -> Quote:
        start = self.at
        line = (token.map or [0])[0]
        at = self._cursor(line)
        for _ in range(self.quotes if self.cursor[0] != line else 0):
            at = self.source.text.find(">", at) + 1
        mark = self.source.text.find(">", at)
        self.cursor = (line, mark + 1)
        self.at += 1
        self.quotes += 1
        blocks = self._until("blockquote_close")
        self.quotes -= 1
        marker = Span(mark, mark + 1)
        self._depth(token, blocks, marker)
        end = blocks[-1].span.end if blocks else marker.end
        return Quote(Span(mark, end), blocks, tuple(self.tokens[start : self.at]))

    def _cursor(self, line: int) -> int:
        """Where to look for the marker of a block that begins on a line: after those found on it before."""
        return self.cursor[1] if self.cursor[0] == line else self._line(line).start

    def _depth(self, token: Token, blocks: tuple[Block, ...], marker: Span) -> None:
        if not blocks and token.level + 1 >= DEEPEST:
            self.findings.append(Finding.at("N205", marker, deepest=DEEPEST))

    def _verbatim(self, token: Token) -> Verbatim:
        (only,) = self._take(1)
        first, last = only.map or [0, 1]
        line = self._line(first)
        start = self.cursor[1] if self.cursor[0] == first else line.start
        typed = self.source.text[start : line.end]
        start += len(typed) - len(typed.lstrip(" \t>"))
        while last > first + 1 and not self.source.slice(self._line(last - 1)).strip():
            last -= 1
        return Verbatim(Span(start, max(self._end(last), start)), tokens=(only,))


_READERS: dict[str, Callable[[BlockReader, Token], Block]] = {
    "heading_open": BlockReader._heading,
    "paragraph_open": BlockReader._paragraph,
    "table_open": BlockReader._table,
    "bullet_list_open": BlockReader._list,
    "ordered_list_open": BlockReader._list,
    "blockquote_open": BlockReader._quote,
}
