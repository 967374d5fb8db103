"""Markdown's own block rules -> the same, with a `Chart` left in each inline token's meta.

Right after a block rule returns, the parser's state still knows where each line's text begins and ends; the rules
are wrapped to write that down. The tokens stay what they were.
"""

from __future__ import annotations

from markdown_it import MarkdownIt
from markdown_it.helpers import parseLinkDestination
from markdown_it.rules_block import (
    StateBlock,
    blockquote,
    code,
    fence,
    heading,
    hr,
    html_block,
    lheading,
    list_block,
    paragraph,
    reference,
    table,
)

from guidec.notes.block_parser import BlockParser, Rule
from guidec.notes.chart import Chart
from guidec.notes.trace import Trace
from guidec.rules.finding import Finding
from guidec.source import Span

__all__ = ["use"]

_IN_ALL = ["paragraph", "reference", "blockquote", "list"]
_IN_MOST = ["paragraph", "reference", "blockquote"]
_LOOK_AHEAD = 8


def use(md: MarkdownIt, trace: Trace) -> None:
    """Put the charting rules in the place of the plain ones, each asked only where it may apply."""
    rules: dict[str, tuple[Rule, str, list[str]]] = {
        "table": (_table, "", ["paragraph", "reference"]),
        "code": (code, "", []),
        "fence": (fence, "`~", _IN_ALL),
        "blockquote": (blockquote, ">", _IN_ALL),
        "hr": (hr, "*-_", _IN_ALL),
        "list": (list_block, "*-+0123456789", _IN_MOST),
        "reference": (_definition(trace), "[", []),
        "html_block": (html_block, "<", _IN_MOST),
        "heading": (_heading, "#", _IN_MOST),
        "lheading": (_may_be_underlined(_charted(lheading, 1)), "", []),
        "paragraph": (_charted(paragraph, 0), "", []),
    }
    md.block = BlockParser({rule: begins for rule, begins, _ in rules.values()})
    for name, (rule, begins, ends) in rules.items():
        md.block.ruler.at(name, _begins(begins, rule) if begins else rule, {"alt": ends})


def _begins(characters: str, rule: Rule) -> Rule:
    """A rule that is asked only where a line's text begins with one of some characters."""

    def run(state: StateBlock, start: int, end: int, silent: bool) -> bool:
        at = state.bMarks[start] + state.tShift[start]
        if at >= state.eMarks[start] or state.src[at] not in characters:
            return False
        return rule(state, start, end, silent)

    return run


def _may_be_underlined(rule: Rule) -> Rule:
    """A rule for setext headings that is asked only where one of the next lines may be an underline."""

    def run(state: StateBlock, start: int, end: int, silent: bool) -> bool:
        for line in range(start + 1, min(end, start + _LOOK_AHEAD)):
            at = state.bMarks[line] + state.tShift[line]
            if at >= state.eMarks[line]:
                return False
            if state.src[at] in "-=":
                break
        else:
            if end <= start + _LOOK_AHEAD:
                return False
        return rule(state, start, end, silent)

    return run


def _definition(trace: Trace) -> Rule:
    """The definition of a link; where its address is not followed, it is text, and that is a finding."""

    def run(state: StateBlock, start: int, end: int, silent: bool) -> bool:
        trace.refused.clear()
        done = reference(state, start, end, silent)
        if not done and trace.refused:
            at = state.src.find("]:", _text_start(state, start)) + 2
            while state.src[at : at + 1].isspace():
                at += 1
            found = parseLinkDestination(state.src, at, len(state.src))
            span = Span(at + _offset(state), max(found.pos, at) + _offset(state))
            finding = Finding.at("N210", span, address=trace.refused[0])
            state.env.setdefault("findings", []).append(finding)
        return done

    return run


def _charted(rule: Rule, below: int) -> Rule:
    """A rule for a paragraph or a setext heading, which has `below` more lines than its text."""

    def run(state: StateBlock, start: int, end: int, silent: bool) -> bool:
        if not rule(state, start, end, silent):
            return False
        token = state.tokens[-2]
        token.meta["chart"] = _chart(state, token.content, start, state.line - below)
        return True

    return run


def _chart(state: StateBlock, content: str, first: int, last: int) -> Chart:
    """The chart of text that stands on the lines from `first` up to `last`."""
    ends = state.eMarks
    if last - first == 1 or "\n" not in content:
        first = _first_text(state, first, last)
        return Chart([0], [_text_end(state, first) - len(content) + _offset(state)])
    lines = content.split("\n")
    if len(lines) != last - first:
        first = _first_text(state, first, last)
    final = first + len(lines) - 1
    return Chart.of_lines(lines, [*ends[first:final], _text_end(state, final)], _offset(state))


def _offset(state: StateBlock) -> int:
    """Where the text starts in its source."""
    offset: int = state.env.get("offset", 0)
    return offset


def _first_text(state: StateBlock, first: int, last: int) -> int:
    """The first line whose text is more than white space."""
    while first + 1 < last and not state.src[_text_start(state, first) : state.eMarks[first]].strip(_SPACE):
        first += 1
    return first


_SPACE = "\t\n\v\f\r \u00a0\u1680\u202f\u205f\u3000\u2028\u2029" + "".join(map(chr, range(0x2000, 0x200B)))
"""What Markdown trims from a text: its own white space and Unicode's separators."""


def _text_start(state: StateBlock, line: int) -> int:
    return state.bMarks[line] + state.tShift[line]


def _text_end(state: StateBlock, line: int) -> int:
    """Where a line's text ends, white space at its end left out."""
    end, start = state.eMarks[line], _text_start(state, line)
    while end > start and state.src[end - 1] in _SPACE:
        end -= 1
    return end


def _heading(state: StateBlock, start: int, end: int, silent: bool) -> bool:
    """A heading with `#`: its text is searched past them."""
    if not heading(state, start, end, silent):
        return False
    if not silent:
        token = state.tokens[-2]
        after = _text_start(state, start) + len(state.tokens[-3].markup)
        found = state.src.find(token.content, after) if token.content else after
        token.meta["chart"] = Chart([0], [found + _offset(state)])
    return True


def _table(state: StateBlock, start: int, end: int, silent: bool) -> bool:
    """A table: each row is cut into cells once more, with offsets."""
    if start + 2 > end or state.isEmpty(start + 1) or state.src[_text_start(state, start + 1)] not in "|-:":
        return False
    known = len(state.tokens)
    if not table(state, start, end, silent):
        return False
    if not silent:
        row: list[tuple[str, Chart]] = []
        column = 0
        for token in state.tokens[known:]:
            if token.type == "tr_open" and token.map:
                row = _cells(state.src, *_row_bounds(state, token.map[0]), _offset(state))
                column = 0
            elif token.type == "inline" and token.map:
                token.meta["chart"] = row[column][1] if column < len(row) else _row_end(state, token.map[0])
                column += 1
    return True


def _row_bounds(state: StateBlock, line: int) -> tuple[int, int]:
    start, end = _text_start(state, line), _text_end(state, line)
    while start < end and state.src[start] in _SPACE:
        start += 1
    return start, end


def _row_end(state: StateBlock, line: int) -> Chart:
    return Chart([0], [_text_end(state, line) + _offset(state)])


def _cells(text: str, start: int, end: int, offset: int) -> list[tuple[str, Chart]]:
    """The cells of the row from `start` to `end`: text as kept, and its chart. As markdown-it splits rows."""
    cells: list[tuple[str, Chart]] = []
    kept: list[tuple[int, int]] = []
    escaped, last = False, start
    for at in range(start, end):
        if text[at] == "|":
            if escaped:
                kept.append((last, at - 1))
                last = at
            else:
                cells.append(_cell(text, [*kept, (last, at)], offset))
                kept, last = [], at + 1
        escaped = text[at] == "\\"
    cells.append(_cell(text, [*kept, (last, end)], offset))
    if cells and not cells[0][0]:
        cells.pop(0)
    if cells and not cells[-1][0]:
        cells.pop()
    return cells


def _cell(text: str, kept: list[tuple[int, int]], offset: int) -> tuple[str, Chart]:
    """A cell of the stretches `kept` of the source, trimmed only in its chart."""
    whole = "".join(text[start:end] for start, end in kept)
    lead = len(whole) - len(whole.lstrip(_SPACE))
    starts, shifts, at = [], [], 0
    for start, end in kept:
        starts.append(max(at - lead, 0))
        shifts.append(start - (at - lead) + offset)
        at += end - start
    keep = next((k for k in range(len(starts) - 1, 0, -1) if starts[k] == 0), 0)
    return whole, Chart(starts[keep:], shifts[keep:])
