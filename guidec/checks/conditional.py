"""Lines that say "if needed" -> those whose work the guide would ask for all the same."""

from __future__ import annotations

import re
from collections.abc import Callable, Iterator

from guidec.checks.unmarked import BLANK, sentence_at, unmarked
from guidec.model.types import Action, Family, Guide, Kind
from guidec.plan import Graph
from guidec.rules.finding import Finding, Severity
from guidec.source import Span
from guidec.trade.deeds import patterns, words
from guidec.trade.phrases import may_speak

__all__ = ["check"]

_LEFT_ALONE = frozenset((Family.LOOK, Family.CHECK, Family.TURN))


def check(guide: Guide, graph: Graph) -> Iterator[Finding]:
    """M220, once a line. What is optional, or done on the way back only, is left alone."""
    language = guide.meta.language
    sure, perhaps = patterns("conditional", language), patterns("perhaps_conditional", language)
    may = may_speak(guide.source.text, words("conditional_heads", language))
    for span, actions in _lines(guide, may).items():
        text = unmarked(guide, span)
        found = next((one for one in sure.finditer(text) if _counts(guide, one, text, span)), None)
        if found is None:
            found = next((one for one in perhaps.finditer(text) if _hangs(guide, one, text, span)), None)
        if found is None:
            continue
        start, end = sentence_at(text, found.start())
        verbs = [one for one in actions if start <= one.verb_span.start - span.start < end]
        if verbs or BLANK in text[found.end() : end]:
            certain = found.re is sure
            upto = _clause_end(text, found.end(), end) if found[0].endswith(" ") else found.end()
            yield Finding.at(
                "M220",
                Span(span.start + found.start(), span.start + upto),
                severity=None if certain else Severity.INFO,
                said=" ".join(text[found.start() : upto].replace(BLANK, " ").split()),
            )


def _lines(guide: Guide, may: Callable[[int, int], bool]) -> dict[Span, list[Action]]:
    """The lines whose work a guide asks for, and their actions that do something; those that `may` be meant."""
    found: dict[Span, list[Action]] = {}
    for operation in guide.operations:
        if operation.optional or operation.refit_only:
            continue
        for action in (guide.actions[one] for one in operation.actions):
            if (
                may(*action.line_span)
                and not action.optional
                and action.family not in _LEFT_ALONE
                and _does(action)
            ):
                found.setdefault(action.line_span, []).append(action)
    return found


def _does(action: Action) -> bool:
    return bool(action.effects or action.supplies or action.heats or action.waits or action.objects)


def _counts(guide: Guide, found: re.Match[str], text: str, line: Span) -> bool:
    """Whether a condition is one of the work: not of a tool before it, nor of how long or how much."""
    before = text[: found.start()].rstrip(" ,(")
    if before.endswith(BLANK):
        at = line.start + len(before)
        own = next((thing for span, thing in guide.resolved.items() if span.end == at), None)
        return own is None or guide.things[own].kind is not Kind.TOOL
    last = re.search(r"\w+$", before)
    return last is None or last[0].casefold() not in words("unconditional_before", guide.meta.language)


def _hangs(guide: Guide, found: re.Match[str], text: str, line: Span) -> bool:
    """Whether the line's work, or what is marked behind the condition, hangs on it."""
    if not _counts(guide, found, text, line):
        return False
    _, end = sentence_at(text, found.start())
    comma = text.find(",", found.end(), end)
    return comma < 0 or BLANK in text[comma:end]


def _clause_end(text: str, at: int, end: int) -> int:
    """Where a condition ends: at its comma or stop, or before a mark."""
    stops = [place for place in (text.find(",", at, end), text.find(BLANK, at, end)) if place >= 0]
    return len(text[: min(stops, default=end)].rstrip())
