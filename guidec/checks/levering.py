"""Displays, glass and flexible cables, levered -> those for which no risk is told."""

from __future__ import annotations

from collections.abc import Iterator

from guidec.model.types import Action, Guide, Part
from guidec.plan import Graph
from guidec.plan.deeds import hazards_of, is_glass, levered_parts
from guidec.rules.finding import Finding
from guidec.trade.cautions import covers
from guidec.trade.deeds import is_deed

__all__ = ["check"]


def check(guide: Guide, graph: Graph) -> Iterator[Finding]:
    """T206. A risk in the action's line, or a hazard of the operation that speaks of it, is enough."""
    for action in guide.actions.values():
        if action.risks or not is_deed(action.verb, "lever", guide.meta.language):
            continue
        part = next((part for part in levered_parts(guide, action) if _breaks(guide, part)), None)
        if part and not _told(guide, action, part):
            variant = "cable" if part.cls == "cable" else ""
            yield Finding.at("T206", action.verb_span, variant=variant, verb=action.verb, name=part.name)


def _breaks(guide: Guide, part: Part) -> bool:
    return part.cls == "cable" or is_glass(guide, part)


def _told(guide: Guide, action: Action, part: Part) -> bool:
    hazards = (*guide.hazards, *hazards_of(guide.operation[action.operation]))
    text = "\n".join(guide.source.slice(hazard.span) for hazard in hazards)
    folded = text.casefold()
    return part.name.casefold() in folded or covers("glass", text, guide.meta.language)
