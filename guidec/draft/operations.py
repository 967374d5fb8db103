"""Actions in the order told -> operations, cut where the work changes, titled by the work."""

from __future__ import annotations

from collections.abc import Iterable, Sequence
from dataclasses import dataclass, field
from itertools import zip_longest

from guidec.draft.story import Act, Aside, Named, Screws, Story, Trip
from guidec.draft.wordset import among

__all__ = ["Job", "jobs"]

MINOR = among(
    "bracket shield gasket washer sticker label tape cap insulator spacer shim "
    "seal ring clip foam grommet spring plate strap retainer pad cover screw tab "
    "film mesh brush lever guard o"
)
PAUSE = 90.0
"""Seconds without an action after which the work is taken to have changed."""

QUICK = 15.0
"""Seconds within which a quick removal belongs to the operation that follows."""


@dataclass(slots=True)
class Job:
    """One operation: its actions, its looks and remarks, what it is about. `trip`: a side trip's own."""

    acts: list[Act] = field(default_factory=list)
    title: str = ""
    about: list[str] = field(default_factory=list)
    hazards: list[Aside] = field(default_factory=list)
    trip: Trip | None = None
    asides: list[Trip] = field(default_factory=list)
    """Side trips that are told in it without a word on how."""
    isolates: bool = False
    free: bool = False
    after: str = ""

    @property
    def start(self) -> float:
        """When it begins."""
        return min((act.start for act in self.acts), default=0.0)


def jobs(story: Story) -> list[Job]:
    """The operations of the main line, in order, titled."""
    cut: list[Job] = []
    now = Job()
    acts = sorted(story.acts, key=lambda act: act.quote.first)
    for at, act in enumerate(acts):
        if now.acts and _changes(now, act, acts[at - 1], story, acts[at + 1 :]):
            cut.append(now)
            now = Job()
        now.acts.append(act)
        now.isolates = now.isolates or story.isolate in act.things
    if now.acts:
        cut.append(now)
    cut = _joined(cut)
    _titled(cut)
    return cut


def _changes(now: Job, act: Act, last: Act, story: Story, later: Sequence[Act]) -> bool:
    """Whether an action begins another operation."""
    if act.do == "look":
        return False
    if story.isolate is not None and story.isolate.kind == "connector":
        if story.isolate in act.things:
            return any(one.do in among("remove move undo unplug") for one in now.acts)
        if story.isolate in last.things:
            return True
    if last.do == "look" and now.acts[-1] is last:
        last = next((one for one in reversed(now.acts) if one.do != "look"), last)
    removed = [one for one in now.acts if one.do in ("remove", "move")]
    if not removed:
        return bool(act.start - last.start > PAUSE and any(one.do in ("undo", "unplug") for one in now.acts))
    if act.do in ("treat", "check") and not _begins(act, story, last):
        return False
    if (
        act.do == "remove"
        and last.do == "remove"
        and _minor(act)
        and act.start - last.start < 20
        and not _topic(story, last, act)
    ):
        return False
    return not (
        all(_minor(one) for one in removed) and act.start - removed[-1].start < 45 and not _topic(story, last, act)
    )


def _begins(act: Act, story: Story, last: Act) -> bool:
    """A check or treatment that stands for itself: of something not yet off, after a word that turns to it."""
    return _topic(story, last, act) and not any(isinstance(thing, Named) and thing.gone for thing in act.things)


def _topic(story: Story, last: Act, act: Act) -> bool:
    return any(last.start < at <= act.start for at, _ in story.topics)


def _minor(act: Act) -> bool:
    return all(
        isinstance(thing, Named) and thing.cls in ("", "other", "shield") and thing.name.split()[-1] in MINOR
        for thing in act.things
    )


def _joined(cut: list[Job]) -> list[Job]:
    """Operations with nothing but looks, turns or tools taken up go with the next one; so do quick ones."""
    done: list[Job] = []
    waiting: list[Act] = []
    for job, after in zip_longest(cut, cut[1:]):
        idle = all(act.do in ("look", "turn", "hand") for act in job.acts)
        if after is not None and (idle or _quick(job, after)):
            waiting += job.acts
            continue
        if idle and done and not waiting:
            done[-1].acts += job.acts
            continue
        job.acts = waiting + job.acts
        waiting = []
        done.append(job)
    return done


def _quick(job: Job, after: Job) -> bool:
    """A part that just lifts off, right before the next: no operation of its own."""
    work = [act for act in job.acts if act.do not in ("look", "hand")]
    if job.isolates or after.isolates or len(work) > 2 or after.start - work[-1].start > QUICK:
        return False
    return not any(
        isinstance(thing, Screws) or thing.kind in ("connector", "adhesive")
        for act in work
        for thing in act.things
    )


def _titled(cut: Iterable[Job]) -> None:
    taken: set[str] = set()
    for job in cut:
        job.about, job.title = title(job.acts)
        base, number = job.title, 2
        while job.title.casefold() in taken:
            job.title = f"{base}, part {number}"
            number += 1
        taken.add(job.title.casefold())


_WORDS = (
    ("remove", "Remove"), ("move", "Open"), ("unplug", "Unplug"), ("undo", "Undo"), ("soften", "Soften"),
    ("treat", "Clean"),
    ("check", "Check"), ("turn", "Turn over"), ("look", "Look at"),
)  # fmt: skip


def title(acts: Sequence[Act]) -> tuple[list[str], str]:
    """What an operation is about (the chief thing first), and its title."""
    for do, word in _WORDS:
        rows = [act for act in acts if act.do == do]
        if not rows:
            continue
        names = _names(rows, do)
        if do in ("treat", "soften", "check"):
            word = rows[-1].verb.split()[0]
        if not names and do == "undo":
            held = [row.holds.name for act in rows for row in act.things if isinstance(row, Screws) and row.holds]
            return held or ["screws"], f"Undo the screws of the {held[0]}" if held else "Undo the screws"
        if not names:
            plain = next((act.plain for act in rows if act.plain), "the device")
            return [plain], f"{word} {plain}"
        shown = names if len(names) < 4 else names[-1:]
        return names, f"{word} {_list(shown)}"
    return [], "Operation"


def _names(rows: Sequence[Act], do: str) -> list[str]:
    names = []
    for act in rows:
        for thing in act.things:
            if isinstance(thing, Named) and thing.name not in names:
                if do == "remove" and len(rows) > 2 and _minor(act):
                    continue
                names.append(thing.name)
    return names


def _list(names: Sequence[str]) -> str:
    said = [f"the {name}" for name in names]
    return said[0] if len(said) == 1 else f"{', '.join(said[:-1])} and {said[-1]}"
