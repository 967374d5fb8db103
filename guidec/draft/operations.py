"""Actions in the order told -> operations, cut where the work changes, titled by the work."""

from __future__ import annotations

from itertools import zip_longest

from guidec.draft.job import Job, is_minor, is_slight, work_of
from guidec.draft.story import Act, Named, Screws, Story
from guidec.draft.titles import titled
from guidec.draft.wordset import among

__all__ = ["jobs"]

PAUSE = 90.0
"""Seconds without an action after which the work is taken to have changed."""

QUICK = 15.0
"""Seconds within which a quick removal belongs to the operation that follows."""

SOON = 90.0
"""Seconds within which a slight piece of work belongs to the operation that follows."""


def jobs(story: Story) -> list[Job]:
    """The operations of the main line, in order, titled."""
    cut: list[Job] = []
    now = Job()
    acts = sorted(story.acts, key=lambda act: act.quote.first)
    for at, act in enumerate(acts):
        if now.acts and _changes(now, act, acts[at - 1], story):
            cut.append(now)
            now = Job()
        now.acts.append(act)
        now.isolates = now.isolates or story.isolate in act.things
    if now.acts:
        cut.append(now)
    cut = _joined(cut, story)
    titled(cut, story)
    return cut


def _changes(now: Job, act: Act, last: Act, story: Story) -> bool:
    """Whether an action begins another operation."""
    if act.do in ("look", "hand"):
        return False
    if last.do in ("look", "hand"):
        last = next((one for one in reversed(now.acts) if one.do not in ("look", "hand")), last)
    if story.isolate is not None and story.isolate.kind == "connector":
        if story.isolate in act.things:
            return any(one.do in among("remove move undo unplug") for one in now.acts)
        if story.isolate in last.things:
            return True
    removed = [one for one in now.acts if one.do in ("remove", "move")]
    if not removed:
        return bool(act.start - last.start > PAUSE and any(one.do in ("undo", "unplug") for one in now.acts))
    if act.do in ("treat", "check") and not _begins(act, story, last):
        return False
    if (
        act.do == "remove"
        and last.do == "remove"
        and is_minor(act)
        and act.start - last.start < 20
        and not _topic(story, last, act)
    ):
        return False
    return not (
        all(is_minor(one) for one in removed)
        and act.start - removed[-1].start < 45
        and not _topic(story, last, act)
    )


def _begins(act: Act, story: Story, last: Act) -> bool:
    """A check or treatment that stands for itself: of something not yet off, after a word that turns to it."""
    return _topic(story, last, act) and not any(isinstance(thing, Named) and thing.gone for thing in act.things)


def _topic(story: Story, last: Act, act: Act) -> bool:
    return any(last.start < at <= act.start for at, _ in story.topics)


def _joined(cut: list[Job], story: Story) -> list[Job]:
    """What is no operation of its own goes with the one it leads to, the last one with the one before."""
    done: list[Job] = []
    waiting: list[Act] = []
    for job, after in zip_longest(cut, cut[1:]):
        if after is not None and _leads_on(job, after, story):
            waiting += job.acts
            continue
        job.acts = waiting + job.acts
        job.isolates = job.isolates or any(row.isolates for row in cut if row.acts[0] in job.acts)
        waiting = []
        if after is None and done and is_slight(job) and not done[-1].isolates:
            done[-1].acts += job.acts
            continue
        done.append(job)
    return done


def _leads_on(job: Job, after: Job, story: Story) -> bool:
    """Whether a job is the first part of the next: nothing done, or only something slight or quick."""
    if all(act.do in ("look", "turn", "hand") for act in job.acts):
        return True
    if job.isolates or after.isolates:
        return False
    if _announced(job, after, story):
        return False
    if _quick(job, after):
        return True
    return is_slight(job) and after.start - work_of(job)[-1].start < SOON


def _announced(job: Job, after: Job, story: Story) -> bool:
    """Whether the talk turns to what the next job takes off, between the two."""
    own = {
        id(thing)
        for act in after.acts
        if act.do in ("remove", "move") and not is_minor(act)
        for thing in act.things
    }
    last = work_of(job)[-1].start
    return any(last < at and id(thing) in own for at, thing in story.topics if at <= after.acts[-1].start)


def _quick(job: Job, after: Job) -> bool:
    """A part that just lifts off, right before the next: no operation of its own."""
    work = work_of(job)
    if job.isolates or after.isolates or len(work) > 2 or after.start - work[-1].start > QUICK:
        return False
    return not any(
        isinstance(thing, Screws) or thing.kind in ("connector", "adhesive")
        for act in work
        for thing in act.things
    )
