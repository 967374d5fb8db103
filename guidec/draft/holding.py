"""What a clause tells of how things hold together ("glued in", "held by four screws") -> glue, clips, what screws
hold."""

from __future__ import annotations

from guidec.draft.clauses import Clause
from guidec.draft.kinds import is_itself, kind_of
from guidec.draft.mind import Mind
from guidec.draft.reading import barred_from
from guidec.draft.story import Named, Screws
from guidec.draft.wordset import among, phrased

__all__ = ["holds", "stuck"]


_STUCK = {"glued": ("adhesive", "glue"), "taped": ("adhesive", "tape"), "clipped": ("clip", "clips")}


def stuck(mind: Mind, clause: Clause) -> None:
    """`the button flex is glued to the plastic`, `the lid is clipped in`: glue or clips that nobody
    calls by name."""
    items = clause.items
    at = next((n for n, item in enumerate(items) if item.text in _STUCK), None)
    if at is None or any(item.is_a("adhesive", "supply", "clip") for item in items) or barred_from(clause):
        return
    kind, called = _STUCK[items[at].text]
    name = _what_sticks(mind, clause, at)
    if not name or mind.names.find(kind, f"{name} {called}", clause.start) is not None:
        return
    found = mind.names.thing(kind, items[at], name=f"{name} {called}")
    if kind == "adhesive":
        mind.glue = found
    else:
        found.plural = True


def _what_sticks(mind: Mind, clause: Clause, at: int) -> str:
    """The part before `glued`, else the part in focus."""
    before = clause.items[:at]
    owner = next((one for one in reversed(before) if one.is_a("part") and not is_itself(mind, one)), None)
    if owner is not None:
        return owner.text
    if mind.part is None or mind.part.gone or clause.start - mind.part.heard >= 15:
        return ""
    return mind.part.name if any(item.text in among("it's it is 's") for item in before) else ""


def holds(mind: Mind, clause: Clause, fresh: list[Screws]) -> None:
    """What new sets hold: the subject of `is held by`, the object of `holding`, the part in focus."""
    text = clause.text
    items = clause.items
    parts = [at for at, item in enumerate(items) if item.kind == "thing" and kind_of(mind, clause, at) == "part"]
    held = any(
        word in text
        for word in phrased(
            "held|secured|fixed|fastened|attached by|attached with|mounted with|screwed|has|bolted|retained"
        )
    )
    holding = any(
        word in text for word in phrased("holding|hold |holds|securing|secure|keeping|retaining|hold down")
    )
    target: Named | None = None
    if parts and (held or holding):
        at = parts[0] if held and not holding else parts[-1]
        target = mind.names.thing("part", items[at])
    elif held and mind.part is not None and not mind.part.gone and clause.start - mind.part.heard < 30:
        target = mind.part
    if target is not None:
        for row in fresh:
            row.holds = row.holds or target
        mind.part = target if not target.gone else mind.part
