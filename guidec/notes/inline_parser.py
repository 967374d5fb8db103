"""markdown-it's inline parser -> the same, choosing its rules by character.

CommonMark's inline rules each begin with a character of their own, so there is no need to ask every rule at every
place. That saves more time than tracing costs. Most texts of a note hold nothing but words and whole marks: those
need no rule at all.
"""

from __future__ import annotations

import re
from collections.abc import Callable, Mapping, Sequence

from markdown_it import MarkdownIt
from markdown_it.parser_inline import ParserInline
from markdown_it.rules_inline import StateInline
from markdown_it.token import Token
from markdown_it.utils import EnvType

from guidec.notes.braces import WHOLE_MARK, Extent
from guidec.notes.trace import Met, Trace

__all__ = ["InlineParser", "Rule"]

Rule = Callable[[StateInline, bool], bool]


class InlineParser(ParserInline):
    """`rules`: by the character they begin with, in their order; every other character is text."""

    def __init__(self, rules: Mapping[str, Sequence[Rule]], trace: Trace) -> None:
        super().__init__()
        self.ruler2.enableOnly(["balance_pairs", "emphasis", "fragments_join"])
        self.rules = rules
        self.trace = trace
        special = re.escape("".join(rules))
        self.stop = re.compile(f"[{special}]").search
        self.runs = re.compile(rf"[^{special}]+|" + (WHOLE_MARK if "{" in rules else "(?!)")).findall

    def tokenize(self, state: StateInline) -> None:
        """Make the tokens of the range that `state` stands for."""
        src, end, rules, stop, text = state.src, state.posMax, self.rules, self.stop, Met.TEXT
        trace = self.trace
        deepest = state.md.options["maxNesting"]
        while state.pos < end:
            pos = state.pos
            here = rules.get(src[pos])
            if here is None:
                found = stop(src, pos, end)
                state.pos = found.start() if found else end
                state.append_pending(src[pos : state.pos])
                trace.events.append((text, trace.base + pos, trace.base + state.pos, None))
                continue
            if state.level < deepest:
                for rule in here:
                    if rule(state, False):
                        break
                else:
                    self._plain(state)
            else:
                self._plain(state)
        if state.pending:
            state.pushPending()

    def _plain(self, state: StateInline) -> None:
        """One character that meant nothing."""
        pos = state.pos
        state.append_pending(state.src[pos])
        self.trace.add(Met.TEXT, pos, pos + 1)
        state.pos = pos + 1

    def skipToken(self, state: StateInline) -> None:  # noqa: N802
        """Pass one token without making it."""
        pos = state.pos
        known = state.cache.get(pos)
        if known is not None:
            state.pos = known
            return
        here = self.rules.get(state.src[pos])
        if state.level >= state.md.options["maxNesting"]:
            state.pos = state.posMax
        elif here is None:
            found = self.stop(state.src, pos, state.posMax)
            state.pos = found.start() if found else state.posMax
        elif not self._passes(state, here):
            state.pos = pos + 1
        state.cache[pos] = state.pos

    def _passes(self, state: StateInline, rules: Sequence[Rule]) -> bool:
        state.level += 1
        try:
            return any(rule(state, True) for rule in rules)
        finally:
            state.level -= 1

    def _is_plain(self, src: str, tokens: list[Token]) -> bool:
        """Whether a text holds but words and whole marks; if so, make its tokens."""
        runs = self.runs(src)
        base = self.trace.base
        if sum(map(len, runs)) != len(src) or (base and len(runs) > 1):
            return False
        events, at = self.trace.events, 0
        for run in runs:
            end = at + len(run)
            if run[0] == "{":
                token = Token("mark", "", 0, markup=run, meta={"extent": Extent(at, end, end)})
                events.append((Met.MARK, at, end, token))
            else:
                token = Token("text", "", 0, content=run)
                events.append((Met.TEXT, base + at, base + end, None))
            tokens.append(token)
            at = end
        return True

    def parse(self, src: str, md: MarkdownIt, env: EnvType, tokens: list[Token]) -> list[Token]:
        """The tokens of a text; what only emphasis needs is done only where there is any."""
        if self._is_plain(src, tokens):
            return tokens
        state = StateInline(src, md, env, tokens)
        self.tokenize(state)
        if self.trace.emphasis:
            for rule in self.ruler2.getRules(""):
                rule(state)
        return state.tokens
