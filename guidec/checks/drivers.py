"""Actions with a driver marked -> drivers that do not fit the screws they turn."""

from __future__ import annotations

import re
from collections.abc import Iterator

from guidec.model.types import Action, Guide, Tool
from guidec.plan import Graph
from guidec.plan.deeds import screw_sets_undone
from guidec.rules.finding import Finding, Severity
from guidec.source import Span

__all__ = ["check", "fits"]

_CODE = re.compile(r"([A-Z]+|5L|3W)(\d+(?:\.\d+)?)(H?)")
_CROSS = ("PH", "JIS")


def check(guide: Guide, graph: Graph) -> Iterator[Finding]:
    """T105."""
    for action in guide.actions.values():
        sets = [screws for screws in screw_sets_undone(guide, action) if screws.drives]
        drivers = [(tool, span) for tool, span in _tools(guide, action) if tool.drive and not tool.implied]
        if not sets or not drivers:
            continue
        drives = [tool.drive or "" for tool, _ in drivers]
        for screws in sets:
            best = max((fits(one, drive) for one in drives for drive in screws.drives), default=2)
            if best < 2:
                tool, span = drivers[0]
                yield Finding.at(
                    "T105",
                    span,
                    severity=Severity.INFO if best else None,
                    labels={"declared": screws.span},
                    tool=tool.name,
                    turns=tool.drive,
                    name=screws.name,
                    drive=" or ".join(screws.drives),
                )


def _tools(guide: Guide, action: Action) -> Iterator[tuple[Tool, Span]]:
    for use in action.tools:
        thing = guide.things.get(use.id)
        if isinstance(thing, Tool) and guide.resolved.get(use.span) == use.id:
            yield thing, use.span


def fits(driver: str, drive: str) -> int:
    """How a driver goes with a drive: 2 it fits, 1 near enough that some use it, 0 not at all.

    A driver with a centre hole turns screws with and without a pin; a solid one does not turn those with a pin.
    Drives that cannot be read fit anything.
    """
    one, other = _CODE.fullmatch(driver), _CODE.fullmatch(drive)
    if not one or not other or driver == drive:
        return 2
    if one[1] == other[1] and one[2] == other[2]:
        return 0 if other[3] and not one[3] else 2
    if one[1] in _CROSS and other[1] in _CROSS:
        return 1 if one[2] == other[2] or _next(one[2], other[2]) else 0
    if one[1] == other[1] == "SL":
        return 1
    return 0


def _next(one: str, other: str) -> bool:
    """Whether two cross recess numbers are neighbours (000, 00, 0, 1, …)."""
    order = ("000", "00", "0", "1", "2", "3", "4")
    return one in order and other in order and abs(order.index(one) - order.index(other)) == 1
