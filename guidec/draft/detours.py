"""`If you only need the …, you would …` -> a side trip: where it begins, what it is for, where it ends."""

from __future__ import annotations

from guidec.draft import doing, moods
from guidec.draft.clauses import Clause
from guidec.draft.item import Item
from guidec.draft.mind import Mind
from guidec.draft.story import Named, Trip
from guidec.draft.wordset import among, phrased

__all__ = ["detour"]

TRIP = 35.0
"""Seconds that a side trip lasts at most without a word that says so."""
AHEAD = 3
"""Clauses behind the condition in which its goal, or what is left off, may stand."""


def detour(mind: Mind, clause: Clause) -> None:
    """Begin or end a side trip."""
    if mind.trip is None and _shown(mind, clause):
        _begin(mind, clause, mind.part)
    elif _supposes(mind, clause) and _is_one(mind, clause):
        _begin(mind, clause, _goal(mind, clause))
    elif mind.trip is not None:
        if _ends(clause, mind.trip):
            mind.trip = None
        else:
            mind.trip.quote = mind.trip.quote.to(mind.quote(clause))


def _begin(mind: Mind, clause: Clause, goal: Named | None) -> None:
    if goal is None:
        return
    mind.trip = Trip(mind.quote(clause), goal)
    mind.story.trips.append(mind.trip)


def _shown(mind: Mind, clause: Clause) -> bool:
    """`you'd pull the cap off`: told as what others would do."""
    text = clause.text
    return (
        any(said in text for said in ("you'd ", "you would "))
        and not any(
            said in text for said in phrased("want|need|better|you'd think|be surprised|expect|rather|never")
        )
        and doing.is_work(clause)
    )


def _supposes(mind: Mind, clause: Clause) -> bool:
    """Whether a condition of others begins in a clause; its words may run on into the next two."""
    text = " ".join(one.text for one in (clause, *_ahead(mind)[:2]))
    found = moods.phrase("detour", text)
    return found is not None and found.start() < len(clause.text)


def _is_one(mind: Mind, clause: Clause) -> bool:
    """A condition and no warning: it says `only`, or what may be left off, in the same words or the next."""
    ahead = " ".join(one.text for one in (clause, *_ahead(mind)))
    words = ahead.split()[:12]
    if any(word in among("only just simply merely solely") for word in words) and "have" not in words[:4]:
        return True
    return moods.phrase("detour_skips", ahead) is not None


def _ahead(mind: Mind) -> list[Clause]:
    return list(mind.told[mind.at + 1 : mind.at + 1 + AHEAD])


def _goal(mind: Mind, clause: Clause) -> Named | None:
    """What the trip is for: a part named in the condition or right behind it; else the part spoken of."""
    own = next((item for item in clause.items if _may_be_goal(mind, item)), None)
    if own is None and mind.named is not None and any(item.text in _SAID for item in clause.items):
        return mind.named
    ahead = (item for one in _ahead(mind) for item in one.items if _may_be_goal(mind, item))
    item = own or next(ahead, None)
    return mind.names.thing("part", item) if item is not None else None


_SAID = among("it that that's it's this")


def _may_be_goal(mind: Mind, item: Item) -> bool:
    idle = item.text == "case" and not item.det  # `in case`
    if idle or item.det in ("my", "no") or (item.is_a("device") and item.head == mind.story.device):
        return False
    return item.is_a("part", "connector") and not item.is_a("tool")


def _ends(clause: Clause, trip: Trip) -> bool:
    """Whether a clause is no longer of the side trip."""
    words = clause.text.split()
    mine = any(word in among("i'm i'll we'll we're i we let's i've we've") for word in words[:3])
    return (
        moods.is_("detour_ends", clause)
        or mine
        or clause.start - trip.quote.start > TRIP
        or (clause.fresh and _told_as_done(clause, trip))
    )


def _told_as_done(clause: Clause, trip: Trip) -> bool:
    """A new sentence that no longer speaks to `you`."""
    spoken = any(word in among("you you'd you'll would could can your yours") for word in clause.text.split())
    return not spoken and clause.start - trip.quote.start > 6
