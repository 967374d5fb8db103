"""Operations of the main line -> the same with hazards at their places and side trips behind them.

A side trip ("if you only need the port, you would …") is another way, or one that starts after something in the
main
line; it stands at the end, so that nothing of the main line waits for it.
"""

from __future__ import annotations

from guidec.draft.job import Job
from guidec.draft.story import Named, Story, Trip

__all__ = ["with_trips"]


def with_trips(story: Story, work: list[Job]) -> list[Job]:
    """All operations, in the order in which they are written."""
    _hazards(story, work)
    for trip in story.trips:
        job = _trip(trip, work)
        if job is not None:
            work.append(job)
    return work


def _hazards(story: Story, work: list[Job]) -> None:
    """Each hazard to the operation in which it is spoken, or the one that follows."""
    for aside in story.hazards:
        home = None
        for job in work:
            if job.start <= aside.quote.start + 12:
                home = job
        home = home or (work[0] if work else None)
        if home is not None:
            home.hazards.append(aside)


def _trip(trip: Trip, work: list[Job]) -> Job | None:
    """The operation of a side trip: another way to what the main line does too, else one that starts after it."""
    acts = [act for act in trip.acts if act.things]
    before = [job for job in work if job.trip is None and job.start <= trip.quote.start]
    if not acts:
        if trip.goal is not None and before:
            before[-1].asides.append(trip)  # told and not described: only the words are kept
        return None
    own = {id(thing) for act in acts for thing in act.things if isinstance(thing, Named)}
    main = next((job for job in work if job.trip is None and _does(job, own)), None)
    name = trip.goal.name if trip.goal is not None else ""
    job = Job(acts, f"Only the {name}" if name else "A shorter way", [name], trip=trip)
    if main is not None:
        job.after = f"{{instead of {main.title}}}"
    elif before:
        job.after = f"{{after operation {before[-1].title}}}"
    taken = {one.title for one in work}
    while job.title in taken:
        job.title += ", again"
    return job


def _does(job: Job, things: set[int]) -> bool:
    """Whether an operation does something to one of the things."""
    return any(id(thing) in things for act in job.acts if act.do != "look" for thing in act.things)
