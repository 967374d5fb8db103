"""Materials of parts as typed -> plastics marks with a symbol that no table has."""

from __future__ import annotations

from collections.abc import Iterator

from guidec.model.types import Guide, Part
from guidec.plan import Graph
from guidec.rules.finding import Finding
from guidec.trade.plastics import read_mark

__all__ = ["check"]


def check(guide: Guide, graph: Graph) -> Iterator[Finding]:
    """T601."""
    for thing in guide.things.values():
        mark = read_mark(thing.material) if isinstance(thing, Part) and thing.material else None
        for symbol, near in mark.unknown if mark else ():
            yield Finding.at("T601", thing.span, suggest=near, name=thing.name, symbol=symbol)
