"""Clauses -> the story: who does what to which thing, with what, and what is only said."""

from __future__ import annotations

from collections.abc import Sequence

from guidec.draft import doing, moods, quantities, sets
from guidec.draft.back import is_back
from guidec.draft.clauses import Clause
from guidec.draft.detours import detour
from guidec.draft.hearing import Corrected
from guidec.draft.item import Item
from guidec.draft.mind import Mind
from guidec.draft.story import Story
from guidec.draft.talk import is_talk
from guidec.draft.turns import parted
from guidec.draft.verdicts import verdict_of
from guidec.draft.vocabulary import Vocabulary
from guidec.draft.warned import warn
from guidec.draft.wordset import among, phrased

__all__ = ["tell"]

OPENING = 90.0
"""Seconds within which the device is named."""


def tell(told: Sequence[Clause], words: Vocabulary, corrected: Sequence[Corrected]) -> Story:
    """The story of all clauses."""
    told = parted(told)
    mind = Mind(words)
    mind.story.corrected = list({(one.heard, one.meant): one for one in reversed(corrected)}.values())[::-1]
    mind.story.device = _device(told)
    mind.story.verdict = verdict_of(told)
    mind.told = told
    for at, clause in enumerate(told):
        mind.at, mind.now = at, clause
        mind.before = told[at - 1] if at else None
        mind.after = told[at + 1] if at + 1 < len(told) else None
        hear(mind, clause)
    quantities.unused_iron(mind, float("inf"))
    sets.close(mind)
    return mind.story


def hear(mind: Mind, clause: Clause) -> None:
    """Take in one clause."""
    if mind.scored_in(clause) and not _says_more(mind, clause):
        mind.refitting = False
        return
    if is_talk(mind, clause):
        return
    if not mind.refitting:
        detour(mind, clause)
    back = mind.trip is None and is_back(mind, clause)
    warn(mind, clause)
    if back:
        return
    if mind.trip is None and moods.is_("dead", clause):
        mind.story.dead.append(clause.start)
    doing.work(mind, clause)


def _says_more(mind: Mind, clause: Clause) -> bool:
    """Whether a clause with the verdict also names what the work needs."""
    last = mind.story.verdict.quote.last if mind.story.verdict is not None else -1
    return any(item.is_a("tool", "supply", "part", "screw") for item in clause.items if item.last > last + 1)


def _device(told: Sequence[Clause]) -> str:
    """What is taken apart: the first device named in the first minute and a half."""
    early = (item for clause in told if clause.start <= OPENING for item in clause.items if item.is_a("device"))
    return next((item.head for item in early if _is_told_of(item)), "")


_VAGUE = (
    "thing|unit|machine|device|set|controller|torch|iron|saw|keyboard|speaker|impact driver|toothbrush|grinder"
)


def _is_told_of(item: Item) -> bool:
    """Whether a device's name is that of what is taken apart, not of a tool or a part of it."""
    if item.head not in phrased(_VAGUE):
        return True
    told = phrased("speaker|saw|keyboard|controller|grinder|iron|torch|impact driver|toothbrush")
    return item.head in told and item.det in among("a an this")
