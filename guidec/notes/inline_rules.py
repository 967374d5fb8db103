"""Markdown's own inline rules -> the same, with marks among them, each writing down what it met and where.

A mark is read after code spans, so that braces in code are plain; a backslash before a brace is Markdown's own
escape and never reaches it.
"""

from __future__ import annotations

import re
from collections.abc import Callable

from markdown_it import MarkdownIt
from markdown_it.common.html_re import HTML_TAG_RE
from markdown_it.rules_inline import (
    StateInline,
    autolink,
    backtick,
    emphasis,
    entity,
    escape,
    html_inline,
    newline,
)
from markdown_it.rules_inline import image as plain_image
from markdown_it.rules_inline import link as plain_link

from guidec.notes.braces import extent
from guidec.notes.trace import Met, Trace

__all__ = ["use"]

Rule = Callable[[StateInline, bool], bool]
_STOPS = re.compile(r"[\n!&*<\[\\\]_`{}]")
_TAG_LENGTH = 400


def use(md: MarkdownIt, trace: Trace, marks: bool) -> None:
    """Put the tracing rules in the place of the plain ones, and `mark` after code spans."""
    ruler = md.inline.ruler
    md.inline.terminator_re = _STOPS
    ruler.at("text", _text(trace))
    ruler.at("newline", _met(newline, trace, Met.BREAK))
    ruler.at("escape", _instead(escape, trace))
    ruler.at("backticks", _code(trace))
    ruler.at("emphasis", _delimiters(trace))
    ruler.at("link", _may_refuse(plain_link, trace))
    ruler.at("image", _may_refuse(_picture(trace), trace))
    ruler.at("autolink", _may_refuse(_address(trace), trace))
    ruler.at("html_inline", _met(html_inline, trace, Met.CODE))
    ruler.at("entity", _instead(entity, trace))
    if marks:
        ruler.after("backticks", "mark", _mark(trace))
    ruler.push("plain", _plain(trace))
    md.inline.ruler.enable(["plain"])


def _text(trace: Trace) -> Rule:
    """Text up to the next character that may mean something."""
    stop = _STOPS.search

    def text(state: StateInline, silent: bool) -> bool:
        pos, src = state.pos, state.src
        found = stop(src, pos)
        end = found.start() if found else state.posMax
        if end == pos:
            return False
        if not silent:
            state.append_pending(src[pos:end])
            trace.add(Met.TEXT, pos, end)
        state.pos = end
        return True

    return text


def _plain(trace: Trace) -> Rule:
    """One character that meant nothing after all."""

    def plain(state: StateInline, silent: bool) -> bool:
        pos = state.pos
        if not silent:
            state.append_pending(state.src[pos])
            trace.add(Met.TEXT, pos, pos + 1)
            if state.src[pos] == "<":
                tag = HTML_TAG_RE.match(state.src[pos : pos + _TAG_LENGTH])
                if tag:
                    trace.add(Met.HTML, pos, pos + tag.end())
            elif state.src[pos] == "}":
                trace.add(Met.OPEN, pos, pos + 1, "stray")
        state.pos = pos + 1
        return True

    return plain


def _met(rule: Rule, trace: Trace, met: Met) -> Rule:
    def run(state: StateInline, silent: bool) -> bool:
        start = state.pos
        if not rule(state, silent):
            return False
        if not silent:
            trace.add(met, start, state.pos)
        return True

    return run


def _instead(rule: Rule, trace: Trace) -> Rule:
    """An escape or an entity: what it stands for is in the token (a backslash at a line's end is a break)."""

    def run(state: StateInline, silent: bool) -> bool:
        start = state.pos
        if not rule(state, silent):
            return False
        if not silent:
            token = state.tokens[-1]
            broken = token.type == "hardbreak"
            trace.add(Met.BREAK if broken else Met.INSTEAD, start, state.pos, token.content)
        return True

    return run


def _code(trace: Trace) -> Rule:
    def code(state: StateInline, silent: bool) -> bool:
        start, known = state.pos, len(state.tokens)
        if not backtick(state, silent):
            return False
        if not silent:
            new = state.tokens[-1] if len(state.tokens) > known else None
            if new is not None and new.type == "code_inline":
                trace.add(Met.CODE, start, state.pos, new)
            else:
                trace.add(Met.TEXT, start, state.pos)
        return True

    return code


def _delimiters(trace: Trace) -> Rule:
    def run(state: StateInline, silent: bool) -> bool:
        start = state.pos
        if not emphasis.tokenize(state, silent):
            return False
        trace.add(Met.DELIMITERS, start, state.pos, state.tokens[start - state.pos :])
        return True

    return run


def _mark(trace: Trace) -> Rule:
    """`{…}`. What is not closed, or empty, stays plain text; the trace says why."""

    def mark(state: StateInline, silent: bool) -> bool:
        start, src = state.pos, state.src
        if src[start] != "{":
            return False
        found = extent(src, start, state.posMax)
        if found.end < 0 or not src[start + 1 : found.end - 1].strip(" \t\n?"):
            if not silent:
                state.append_pending("{")
                trace.add(Met.TEXT, start, start + 1)
                trace.add(Met.OPEN, start, found.until, "unclosed" if found.end < 0 else "empty")
            state.pos = start + 1
            return True
        if not silent:
            token = state.push("mark", "", 0)
            token.markup = src[start : found.end]
            trace.add(Met.MARK, start, found.end, token)
            token.meta["extent"] = found
            token.meta["base"] = trace.base
        state.pos = found.end
        return True

    return mark


def _picture(trace: Trace) -> Rule:
    """A picture. Its alt text is read by a nested parse, whose marks are kept and whose words are not."""

    def image(state: StateInline, silent: bool) -> bool:
        if silent or state.src[state.pos] != "!":
            return plain_image(state, silent)
        start, base, outer = state.pos, trace.base, trace.events
        trace.base, trace.events = base + start + 2, []
        try:
            done = plain_image(state, silent)
        finally:
            inner, trace.base, trace.events = trace.events, base, outer
        if done:
            token = state.tokens[-1]
            token.meta["source"] = state.src[start : state.pos]
            trace.add(Met.PICTURE, start, state.pos, token)
            outer.extend(event for event in inner if event.met in (Met.MARK, Met.OPEN))
        return done

    return image


def _address(trace: Trace) -> Rule:
    """`<https://…>`: its words are the address."""

    def run(state: StateInline, silent: bool) -> bool:
        start = state.pos
        if not autolink(state, silent):
            return False
        if not silent:
            trace.add(Met.TEXT, start + 1, state.pos - 1)
        return True

    return run


def _may_refuse(rule: Rule, trace: Trace) -> Rule:
    """A rule that asks whether an address may be followed: where it may not, that is written down."""

    def run(state: StateInline, silent: bool) -> bool:
        trace.refused.clear()
        done = rule(state, silent)
        if not done and not silent and trace.refused:
            trace.add(Met.REFUSED, state.pos, state.pos + 1, trace.refused[0])
        return done

    return run
