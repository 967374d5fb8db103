"""Clauses that are no work -> left out: greetings, sponsors, stories, plans, calls to subscribe."""

from __future__ import annotations

from guidec.draft import doing, moods
from guidec.draft.clauses import Clause
from guidec.draft.mind import Mind
from guidec.draft.wordset import among

__all__ = ["is_talk"]

SPONSOR = 75.0
"""Seconds that a sponsor's message lasts at most without a word that ends it."""
OPENING = 45.0
"""Seconds within which a film says what it will be about."""


def is_talk(mind: Mind, clause: Clause) -> bool:
    """Whether a clause is talk; it is noted as such."""
    told = _sponsor(mind, clause) or _overview(mind, clause) or _chat(mind, clause)
    if told:
        mind.story.talk.append(mind.quote(clause))
    return told


def _sponsor(mind: Mind, clause: Clause) -> bool:
    """A sponsor's message, from its first word to the first word of work."""
    said = moods.is_("sponsor", clause)
    if said:
        mind.sponsor = clause.start
        return True
    if mind.sponsor < 0:
        return False
    ends = moods.is_("resume", clause) or clause.start - mind.sponsor > SPONSOR
    if ends or doing.is_work(clause) or _of_the_device(clause):
        mind.sponsor = -1.0
        return False
    return True


def _of_the_device(clause: Clause) -> bool:
    """`three screws`, `the bracket`: words that no sponsor says."""
    return any(
        (item.is_a("screw") and item.count)
        or (
            item.is_a("part", "connector", "screw")
            and item.det in among("the this these your its")
            and not item.is_a("device")
        )
        for item in clause.items
    )


def _overview(mind: Mind, clause: Clause) -> bool:
    """What the film will be about, or is for."""
    if moods.is_("overview", clause) or _today(clause) or _plan(mind, clause):
        mind.overview = True
        return True
    if not mind.overview:
        return False
    before = mind.before.text if mind.before is not None else ""
    if before.endswith(("today", "today is", "today the")) and not (clause.fresh or doing.is_work(clause)):
        return True
    if clause.lead in ("and", "then", "plus") and clause.start < OPENING and not clause.fresh:
        return True
    mind.overview = False
    return False


def _today(clause: Clause) -> bool:
    told = clause.start < OPENING and "today" in clause.text.split()
    return told and not any(item.is_a("screw") for item in clause.items)


def _plan(mind: Mind, clause: Clause) -> bool:
    """`we're ripping open the …`, `the board has to come out`: at the start, before anything is done."""
    begun = any(act.do not in ("look", "hand") for act in mind.story.acts)
    if begun or clause.start > OPENING or any(item.is_a("screw") and item.count for item in clause.items):
        return False
    if moods.phrase("plan_due", clause.text):
        return True
    aim = moods.phrase("plan", clause.text)
    if aim is None:
        return False
    rest = clause.text[aim.start() :].split()
    whole = any(item.is_a("device") for item in clause.items) or "apart" in rest
    named = not any(item.is_a("part", "connector", "screw") for item in clause.items)
    return whole or (
        named and aim[0].split()[-1] in among("open opening rip ripping gut gutting strip tear tearing")
    )


def _chat(mind: Mind, clause: Clause) -> bool:
    """Greetings, calls to subscribe, stories."""
    if any(moods.is_(mood, clause) for mood in ("social", "greet")):
        return not doing.is_work(clause)
    told = moods.is_("story", clause)
    return told and not (doing.is_work(clause) or any(item.is_a("screw") for item in clause.items))
