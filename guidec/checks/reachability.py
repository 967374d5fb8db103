"""Every part that is named -> whether some way leads to it."""

from __future__ import annotations

from collections.abc import Collection, Iterator

from guidec.model.types import Guide, Part
from guidec.plan import Graph
from guidec.plan.reach import reaches
from guidec.rules.finding import Finding

__all__ = ["check"]


def check(guide: Guide, graph: Graph) -> Iterator[Finding]:
    """P104: parts that no action takes off, moves or shows, in a note that has actions at all.

    Not those in a line that was said to be read as a remark: its slip is the one to mend.
    """
    if not guide.actions:
        return
    known = reaches(graph)
    for thing in guide.things.values():
        if not isinstance(thing, Part) or thing.id in known or thing.id in guide.doubted:
            continue
        if not _with_another(thing, known):
            yield Finding.at("P104", thing.span, name=thing.name)


def _with_another(part: Part, known: Collection[str]) -> bool:
    """Whether a part comes along with the assembly it belongs to, or with the part it is sold with."""
    outer = [part.inside, *part.sold_with]
    return any(ref is not None and ref.id in known for ref in outer)
