"""Screw sets that are locked -> those for whose way back no locking compound is named."""

from __future__ import annotations

from collections.abc import Iterator

from guidec.checks.fasteners import screw_sets
from guidec.model.types import Guide, ScrewSet, Supply
from guidec.plan import Graph
from guidec.plan.deeds import words_of
from guidec.rules.finding import Finding, Severity
from guidec.trade.deeds import speaks_of

__all__ = ["check"]

_BARE = ("", "yes", "ja", "true")


def check(guide: Guide, graph: Graph) -> Iterator[Finding]:
    """T106. New screws, and mechanical locks, need none."""
    locked = [screws for screws in screw_sets(guide) if _needs_compound(guide, screws)]
    if not locked or _compound_named(guide):
        return
    for screws in locked:
        bare = (screws.locked or "").casefold() in _BARE
        yield Finding.at(
            "T106",
            screws.span,
            variant="bare" if bare else "",
            severity=Severity.INFO if bare else None,
            name=screws.name,
            locked=screws.locked or "",
        )


def _needs_compound(guide: Guide, screws: ScrewSet) -> bool:
    if screws.locked is None or screws.renew or screws.locked.casefold() in ("no", "none", "nein"):
        return False
    return not speaks_of(screws.locked, "mechanical_locks", guide.meta.language)


def _compound_named(guide: Guide) -> bool:
    """Whether a supply, or a note on the way back, names something that locks."""
    language = guide.meta.language
    supplies = (words_of(thing) for thing in guide.things.values() if isinstance(thing, Supply))
    refits = (refit.text for action in guide.actions.values() for refit in action.refits)
    refit_only = (guide.source.slice(operation.span) for operation in guide.operations if operation.refit_only)
    return any(speaks_of(text, "compounds", language) for text in (*supplies, *refits, *refit_only))
