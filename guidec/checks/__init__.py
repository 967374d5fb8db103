"""A guide and its graph -> what the rules find, in the order of the rules.

Each rule module has `check(guide, graph) -> Iterator[Finding]`. The list is the order; to add a rule, write its
module and name it here.
"""

from __future__ import annotations

from collections.abc import Callable, Iterator

from guidec.checks import (
    adhesive,
    batteries,
    cells,
    conditional,
    drafts,
    drivers,
    earlier_names,
    fasteners,
    heat,
    holding,
    isolation,
    levering,
    licensed,
    locking,
    mains,
    materials,
    order,
    pictures,
    plain_waits,
    putting_back,
    reachability,
    refit_titles,
    safety_devices,
    solvents,
    tools_listed,
    torque,
    way_back,
)
from guidec.model.types import Guide
from guidec.plan import Graph
from guidec.rules.finding import Finding

__all__ = ["RULES", "run"]

Rule = Callable[[Guide, Graph], Iterator[Finding]]

RULES: tuple[Rule, ...] = (
    order.check,
    reachability.check,
    isolation.check,
    holding.check,
    tools_listed.check,
    way_back.check,
    refit_titles.check,
    putting_back.check,
    conditional.check,
    plain_waits.check,
    fasteners.check,
    torque.check,
    drivers.check,
    locking.check,
    heat.check,
    adhesive.check,
    levering.check,
    solvents.check,
    batteries.check,
    cells.check,
    mains.check,
    licensed.check,
    safety_devices.check,
    materials.check,
    pictures.check,
    drafts.check,
    earlier_names.check,
)


def run(guide: Guide, graph: Graph) -> tuple[Finding, ...]:
    """All findings of all rules."""
    return tuple(finding for rule in RULES for finding in rule(guide, graph))
