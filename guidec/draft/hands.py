"""What is at hand -> the tools and supplies of an action."""

from __future__ import annotations

from guidec.draft.clauses import Clause
from guidec.draft.mind import Mind
from guidec.draft.story import Act

__all__ = ["dress"]


def dress(mind: Mind, act: Act, clause: Clause) -> None:
    """Give an action the tools and supplies that its words name: those of its clause, and those taken up just
    before."""
    start, end = clause.items[0].start, clause.items[-1].start
    kept = []
    for heard, thing in mind.hand:
        if end - heard > 14:
            continue
        if heard >= start - 8 or heard >= start:
            target = act.tools if thing.kind == "tool" else act.supplies
            if thing not in target:
                target.append(thing)
            thing.gone = True
        else:
            kept.append((heard, thing))
    mind.hand = kept
    if mind.iron is not None and any("iron" in tool.name for tool in act.tools):
        act.heat.append(mind.iron)
        mind.iron = None
