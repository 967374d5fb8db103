"""A guide -> what a draft still lacks: placeholders in its front matter, marks that nobody has confirmed."""

from __future__ import annotations

from collections.abc import Iterator

from guidec.model.types import Guide
from guidec.notes.syntax import Located
from guidec.plan import Graph
from guidec.rules.finding import Finding
from guidec.source import Span
from guidec.trade.placeholders import PLACEHOLDERS

__all__ = ["check"]


def check(guide: Guide, graph: Graph) -> Iterator[Finding]:
    """D102: a placeholder is left; D103: how many marks are to be confirmed, at the first of them."""
    subject = guide.meta.front.get("subject")
    for key, word in PLACEHOLDERS.items():
        place = guide.meta.front.get(key) if key == "title" else subject.get(key) if subject else None
        if place is not None and place.value == word:
            yield Finding.at("D102", place.span, key=key, word=word, line=_line(guide, place))
    if "{?" not in guide.source.text:
        return
    marks = _marks(guide)
    left = [span for span in marks if guide.source.text.startswith("{?", span.start)]
    if left:
        yield Finding.at("D103", left[0], left=len(left), all=len(marks))


def _line(guide: Guide, place: Located) -> int:
    return guide.source.place(place.span.start).line


def _marks(guide: Guide) -> list[Span]:
    """The spans of all marks that state something, in note order."""
    spans = set(guide.resolved)
    for action in guide.actions.values():
        for row in (action.heats, action.waits, action.measures, action.risks, action.refits):
            spans.update(one.span for one in row)
    return sorted(spans)
