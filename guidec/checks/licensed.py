"""Kinds of device that can kill -> a notice that the guide will carry the words for licensed practice."""

from __future__ import annotations

from collections.abc import Iterator

from guidec.model.types import Guide, Part
from guidec.plan import Graph
from guidec.plan.deeds import hazards_of
from guidec.rules.finding import Finding
from guidec.source import Span
from guidec.trade.cautions import caution, covers
from guidec.trade.dangers import dangers

__all__ = ["check"]


def check(guide: Guide, graph: Graph) -> Iterator[Finding]:
    """T504, where the author's own hazards do not say it."""
    if not any(action.effects for action in guide.actions.values()):
        return
    parts = [thing for thing in guide.things.values() if isinstance(thing, Part)]
    subject = f"{guide.meta.subject.kind or ''}\n{guide.meta.title}"
    for danger in dangers(subject, (part.name for part in parts), guide.meta.language):
        if covers(danger.caution, _told(guide), guide.meta.language):
            continue
        words = caution(danger.caution, guide.meta.language)
        named = next((part.span for part in parts if danger.words in part.name.casefold()), None)
        yield Finding.at(
            "T504", named or _subject_span(guide), words=danger.words, signal=words.signal, hazard=words.hazard
        )


def _told(guide: Guide) -> str:
    """What the author's hazards before the work, and in the first operation, say."""
    hazards = (*guide.hazards, *(hazard for first in guide.operations[:1] for hazard in hazards_of(first)))
    return "\n".join(guide.source.slice(hazard.span) for hazard in hazards)


def _subject_span(guide: Guide) -> Span:
    """Where the front matter names the subject, else its title, else the first operation."""
    for key in ("subject", "title"):
        found = guide.meta.front.get(key)
        if found:
            kind = found.get("kind")
            return (kind or found).span
    return guide.operations[0].heading_span if guide.operations else Span(0, 0)
