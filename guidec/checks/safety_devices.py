"""The words of actions, remarks and notes on the way back -> instructions that defeat a safety device."""

from __future__ import annotations

from collections.abc import Iterator

from guidec.model.types import Content, Guide, Lines, Prose
from guidec.plan import Graph
from guidec.rules.finding import Finding
from guidec.source import Span
from guidec.trade.defeat import defeats, may_name_device

__all__ = ["check"]


def check(guide: Guide, graph: Graph) -> Iterator[Finding]:
    """T505. Hazards are left alone: they tell what must not be done."""
    language = guide.meta.language
    may = may_name_device(guide.source.text, language)
    seen: set[Span] = set()
    for span in _told(guide):
        if not may(*span):
            continue
        for found in defeats(guide.source.slice(span), language):
            place = Span(span.start + found.start, span.start + found.end)
            if place not in seen:
                seen.add(place)
                yield Finding.at("T505", place, verb=found.verb, device=found.device)
    for action in guide.actions.values():
        for refit in action.refits:
            for found in defeats(refit.text, language)[:1]:
                yield Finding.at("T505", refit.span, verb=found.verb, device=found.device)


def _told(guide: Guide) -> Iterator[Span]:
    """The spans of everything that tells the reader to do something."""
    yield from _of_content(guide.intro)
    for operation in guide.operations:
        yield operation.heading_span
        yield from _of_content(operation.content)


def _of_content(content: tuple[Content, ...]) -> Iterator[Span]:
    for each in content:
        if isinstance(each, Prose):
            yield each.span
        elif isinstance(each, Lines):
            for line in each.lines:
                yield line.inline.span
                yield from _of_content(line.content)
