"""Markdown's own inline rules -> the same, with marks among them, each writing down what it met and where.

Braces in code are plain, since a code span is read whole; a backslash before a brace is Markdown's own escape.
"""

from __future__ import annotations

import re
from collections.abc import Mapping, Sequence

from markdown_it.common.html_re import HTML_TAG_RE
from markdown_it.rules_inline import StateInline, autolink, backtick, emphasis, entity, escape, html_inline
from markdown_it.rules_inline import image as plain_image
from markdown_it.rules_inline import link as plain_link
from markdown_it.rules_inline import newline as plain_newline

from guidec.notes.braces import extent
from guidec.notes.inline_parser import Rule
from guidec.notes.trace import Met, Trace

__all__ = ["rules"]

_TAG_LENGTH = 400
_MEANT = re.compile(r"!\[[^\[\]\n]{0,200}\]\((?!<)[^()<>\n]{1,200}\)")
_HOLLOW = " \t\n?}"


def rules(trace: Trace, marks: bool) -> Mapping[str, Sequence[Rule]]:
    """The rules by the character they begin with. Without `marks`, braces are text."""
    emphasised = (_delimiters(trace),)
    by_character: dict[str, Sequence[Rule]] = {
        "\n": (_newline(trace),),
        "\\": (_instead(escape, trace),),
        "`": (_code(trace),),
        "*": emphasised,
        "_": emphasised,
        "[": (_may_refuse(plain_link, trace),),
        "]": (),
        "!": (_picture(trace),),
        "<": (_may_refuse(_address(trace), trace), _html(trace)),
        "&": (_instead(entity, trace),),
    }
    if marks:
        by_character |= {"{": (_mark(trace),), "}": (_stray(trace),)}
    return by_character


def _newline(trace: Trace) -> Rule:
    def newline(state: StateInline, silent: bool) -> bool:
        start = state.pos
        plain_newline(state, silent)
        if not silent:
            trace.add(Met.BREAK, start, state.pos)
        return True

    return newline


def _instead(rule: Rule, trace: Trace) -> Rule:
    """An escape or an entity: what it stands for is in the token (a backslash at a line's end is a break)."""

    def run(state: StateInline, silent: bool) -> bool:
        start = state.pos
        if not rule(state, silent):
            return False
        if not silent:
            token = state.tokens[-1]
            token.type = "text" if token.type == "text_special" else token.type
            met = Met.BREAK if token.type == "hardbreak" else Met.INSTEAD
            trace.add(met, start, state.pos, token.content)
        return True

    return run


def _code(trace: Trace) -> Rule:
    def code(state: StateInline, silent: bool) -> bool:
        start, known = state.pos, len(state.tokens)
        backtick(state, silent)
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
        trace.emphasis = True
        trace.add(Met.DELIMITERS, start, state.pos, state.tokens[start - state.pos :])
        return True

    return run


def _mark(trace: Trace) -> Rule:
    """`{…}`. What is not closed, or empty, stays plain text; the trace says why."""

    def mark(state: StateInline, silent: bool) -> bool:
        start, src = state.pos, state.src
        found = extent(src, start, state.posMax)
        empty = found.end > 0 and src[start + 1] in _HOLLOW and not src[start + 1 : found.end - 1].strip(_HOLLOW)
        if empty or found.end < 0:
            end = found.end if empty and "\n" not in src[start : found.end] else start + 1
            if not silent:
                state.append_pending(src[start:end])
                trace.add(Met.TEXT, start, end)
                trace.add(Met.OPEN, start, found.until, "empty" if empty else "unclosed")
                trace.unclosed += not empty
            state.pos = end
            return True
        if not silent:
            token = state.push("mark", "", 0)
            token.markup = src[start : found.end]
            token.meta["extent"] = found.moved(trace.base) if trace.base else found
            trace.add(Met.MARK, start, found.end, token)
        state.pos = found.end
        return True

    return mark


def _stray(trace: Trace) -> Rule:
    """A `}` that closes nothing: text, and written down, unless it may be that of a mark found not closed."""

    def stray(state: StateInline, silent: bool) -> bool:
        if not silent and trace.unclosed:
            trace.unclosed -= 1
        elif not silent:
            trace.add(Met.OPEN, state.pos, state.pos + 1, "stray")
        return False

    return stray


def _html(trace: Trace) -> Rule:
    """A tag; with raw HTML off it is text, and written down."""

    def html(state: StateInline, silent: bool) -> bool:
        start = state.pos
        if html_inline(state, silent):
            if not silent:
                trace.add(Met.CODE, start, state.pos)
            return True
        if not silent and not state.md.options["html"]:
            tag = HTML_TAG_RE.match(state.src[start : start + _TAG_LENGTH])
            if tag:
                trace.add(Met.HTML, start, start + tag.end())
        return False

    return html


def _picture(trace: Trace) -> Rule:
    """A picture. Its alt text is read by a nested parse, whose marks are kept and whose words are not."""

    def image(state: StateInline, silent: bool) -> bool:
        start, base, outer, lenient = state.pos, trace.base, trace.events, trace.lenient
        trace.base, trace.events, trace.lenient = base + start + 2, [], True
        try:
            done = plain_image(state, silent)
        finally:
            inner = trace.events
            trace.base, trace.events, trace.lenient = base, outer, lenient
        if not done and not silent:
            tried = _MEANT.match(state.src, start)
            if tried:
                trace.add(Met.OPEN, start, tried.end(), "picture")
        if done and not silent:
            trace.add(Met.PICTURE, start, state.pos, state.tokens[-1])
            outer.extend(event for event in inner if event[0] in (Met.MARK, Met.OPEN))
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
