"""Cells that are levered or treated as swollen -> what should be said with it; what the law says of glued ones."""

from __future__ import annotations

from collections.abc import Iterator

from guidec.model.types import Action, Guide, Part
from guidec.plan import Graph
from guidec.plan.deeds import (
    batteries,
    hazards_of,
    heats,
    is_lithium,
    levered_parts,
    removes,
    solvents_used,
    words_of,
)
from guidec.plan.without import done_without
from guidec.rules.finding import Finding, Severity
from guidec.trade.batteries import removable
from guidec.trade.cautions import covers
from guidec.trade.deeds import advises_discharge, says_swollen

__all__ = ["check"]


def check(guide: Guide, graph: Graph) -> Iterator[Finding]:
    """T404, T405, T407."""
    cells = [part for part in batteries(guide) if is_lithium(guide, part)]
    if not cells:
        return
    for action in guide.actions.values():
        yield from _levered(guide, action)
    for part in cells:
        yield from _heat_or_solvent(guide, graph, part)


def _levered(guide: Guide, action: Action) -> Iterator[Finding]:
    """T407 for a cell said to be swollen, else T404 for what is not said: a warning only where nothing is."""
    part = next((part for part in levered_parts(guide, action) if is_lithium(guide, part)), None)
    if part is None:
        return
    language = guide.meta.language
    if says_swollen(words_of(part), language) or says_swollen(action.text, language):
        yield Finding.at("T407", action.verb_span, name=part.name, verb=action.verb)
        return
    hazards = (*guide.hazards, *hazards_of(guide.operation[action.operation]))
    warned = covers("lever-cell", "\n".join(guide.source.slice(hazard.span) for hazard in hazards), language)
    advised = advises_discharge(guide.source.text, language)
    if warned and advised:
        return
    yield Finding.at(
        "T404",
        action.verb_span,
        variant="discharge" if warned else "warning" if advised else "",
        severity=Severity.INFO if warned or advised else None,
        name=part.name,
        verb=action.verb,
    )


def _heat_or_solvent(guide: Guide, graph: Graph, part: Part) -> Iterator[Finding]:
    """T405: no way to the battery does without heat or solvent."""
    used = {
        action.id for action in guide.actions.values() if heats(guide, action) or any(solvents_used(guide, action))
    }
    takers = [action for action in guide.actions.values() if removes(action, part.id)]
    if not used or not takers:
        return
    without = done_without(graph, used)
    if any(action.id in without for action in takers):
        return
    law = removable()
    yield Finding.at("T405", takers[0].verb_span, name=part.name, regulation=law["regulation"], date=law["from"])
