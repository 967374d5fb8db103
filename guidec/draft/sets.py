"""Screw sets told -> actions that take them out.

People tell a set first ("held by four screws"), its drive later ("they're all T5"), and its undoing last or never
("and the cover comes off"): so sets stay pending until they are said or plainly meant to be out.
"""

from __future__ import annotations

from guidec.draft.clauses import Clause
from guidec.draft.drivers import taken
from guidec.draft.mind import Mind
from guidec.draft.story import Act, Named, Quote, Screws

__all__ = ["close", "implied", "pending", "undo"]

NEAR = 75.0
"""Seconds for which a set told waits for the part it holds."""


def pending(mind: Mind, at: float, span: float = NEAR) -> list[Screws]:
    """The sets told and not yet out, lately."""
    return [row for row in mind.story.screws if not row.gone and not row.split and at - row.heard < span]


def undo(mind: Mind, clause: Clause, rows: list[Screws], verb: str, *, implied: bool = False) -> Act | None:
    """Enter that sets come out; None where they are out already."""
    left = []
    for row in rows:
        left += [share for share in row.split if not share.gone] if row.split else [row] if not row.gone else []
    left = list(dict.fromkeys(left))
    if not left:
        return None
    for row in left:
        taken(mind, row, clause.items[-1].start)
    if mind.trip is None:
        for row in left:
            row.gone = True
            if row.parent:
                row.parent.gone = True
    if not implied:
        act = Act("undo", verb, mind.quote(clause), list(left))
        mind.add(act)
        return act
    for row in left:
        act = Act("undo", verb, row.quote, [row], implied=True)
        mind.add(act)
    return act


def implied(mind: Mind, clause: Clause, part: Named | None) -> None:
    """Before a part comes off: the sets told since the last removal came out, though nobody said so."""
    rows = pending(mind, clause.start)
    rows = [
        row
        for row in rows
        if row.holds is None
        or row.holds is part
        or part is None
        or row.holds.gone
        or row.holds.name in part.name
        or part.name in row.holds.name
    ]
    if rows and mind.trip is None:
        undo(mind, clause, rows, "Undo", implied=True)
    clips = [
        row
        for row in mind.story.named
        if row.kind == "clip" and not row.gone and (row.count or row.plural) and clause.start - row.heard < 45
    ]
    if clips and mind.trip is None:
        for row in clips:
            row.gone = True
        mind.add(Act("undo", "Release", clips[0].quote, list(clips), implied=True))


def close(mind: Mind) -> None:
    """At the end: a set that fell into shares is those shares."""
    story = mind.story
    for row in story.screws:
        if not row.gone and not row.split:
            _behind_removal(mind, row)
    for row in [row for row in story.screws if not row.gone and not row.count and row.drive in ("", "NUT")]:
        if not row.split and not row.size:
            story.screws.remove(row)
    for row in [row for row in story.screws if _judged(mind, row)]:
        story.screws.remove(row)
    for row in list(story.screws):
        if row.split:
            rest = (row.count or 0) - sum(share.count or 0 for share in row.split)
            if rest > 0:
                row.count = rest
                row.split = []
                row.gone = any(share.gone for share in story.screws if share.parent is row)
            else:
                story.screws.remove(row)


def _judged(mind: Mind, row: Screws) -> bool:
    """Whether a set is only spoken of in the verdict: `ten screws, all the same, I give it seven`."""
    verdict = mind.story.verdict
    if verdict is None:
        return False
    works = [
        act.start for act in mind.story.acts if act.do in ("remove", "unplug", "undo") and row not in act.things
    ]
    bare = not row.drive and not row.size and row.quote.start > max(works, default=0.0) + 8
    near = (-30 if bare else -12) < row.quote.start - verdict.quote.start < 40
    return near and not any(row in act.things and not act.implied for act in mind.story.acts) and not row.split


def _behind_removal(mind: Mind, row: Screws) -> None:
    """`remove the module, two tiny screws`: a set told right behind a removal came out for it."""
    acts = mind.story.acts
    for at in range(len(acts) - 1, -1, -1):
        act = acts[at]
        if act.quote.first > row.quote.first:
            continue
        if (
            act.do == "remove"
            and 0 <= row.quote.start - act.start < 7
            and (row.holds is None or row.holds in act.things)
        ):
            row.gone = True
            acts.insert(
                at, Act("undo", "Undo", Quote(act.start, act.quote.first, row.quote.last), [row], implied=True)
            )
        return
