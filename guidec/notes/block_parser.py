"""markdown-it's block parser -> the same, choosing its rules by the character that a line's text begins with."""

from __future__ import annotations

from collections.abc import Callable, Mapping

from markdown_it.parser_block import ParserBlock
from markdown_it.rules_block import StateBlock

__all__ = ["BlockParser", "Rule"]

Rule = Callable[[StateBlock, int, int, bool], bool]


class BlockParser(ParserBlock):
    """`rules`: each with the characters that it may begin with (none: any), in their order.

    The ruler keeps what may end a paragraph, a quote or a list.
    """

    def __init__(self, rules: Mapping[Rule, str]) -> None:
        super().__init__()
        characters = "".join(rules.values())
        self.rules = {
            one: tuple(rule for rule, begins in rules.items() if not begins or one in begins) for one in characters
        }
        self.others = tuple(rule for rule, begins in rules.items() if not begins)

    def tokenize(self, state: StateBlock, startLine: int, endLine: int) -> None:  # noqa: N803
        """Make the tokens of a range of lines."""
        line = startLine
        deepest = state.md.options["maxNesting"]
        parted = False
        while line < endLine:
            state.line = line = state.skipEmptyLines(line)
            if line >= endLine or state.sCount[line] < state.blkIndent:
                return
            if state.level >= deepest:
                state.line = endLine
                return
            first = state.src[state.bMarks[line] + state.tShift[line]]
            for rule in self.rules.get(first, self.others):
                if rule(state, line, endLine, False):
                    break
            state.tight = not parted
            line = state.line
            if line <= endLine and state.isEmpty(line - 1):  # a paragraph in a nested list may take it with it
                parted = True
            if line < endLine and state.isEmpty(line):
                parted = True
                line += 1
                state.line = line
