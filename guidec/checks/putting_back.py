"""Verbs that put something back -> those on the way in that take back what was done before them."""

from __future__ import annotations

from collections.abc import Iterator

from guidec.checks.refit_titles import meant_for_the_way_back
from guidec.model.types import Change, Guide
from guidec.plan import Graph
from guidec.rules.finding import Finding
from guidec.source import Span
from guidec.trade.lexicon import lexicon

__all__ = ["check"]


def check(guide: Guide, graph: Graph) -> Iterator[Finding]:
    """M207. The way back follows from the way in; a line that goes back within it leaves the thing away."""
    words = lexicon(guide.meta.language)
    if words is None:
        return
    away: dict[str, Span] = {}
    for operation in guide.operations:
        if operation.refit_only or meant_for_the_way_back(guide, operation):
            continue
        for action in (guide.actions[own] for own in operation.actions):
            if action.verb in words.restoring:
                for use in action.objects:
                    if use.id in away:
                        yield Finding.at(
                            "M207",
                            action.verb_span,
                            labels={"away": away[use.id]},
                            verb=action.verb,
                            name=guide.things[use.id].name,
                        )
            for effect in action.effects:
                if effect.change is not Change.EXPOSED:
                    away.setdefault(effect.id, effect.span)
