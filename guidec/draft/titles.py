"""Operations -> their titles, made of the work: what comes off, else what is opened, undone, cleaned, measured."""

from __future__ import annotations

from collections.abc import Sequence

from guidec.draft.job import Job, is_minor, is_slight, is_small, work_of
from guidec.draft.story import Act, Named, Screws, Story

__all__ = ["title", "titled"]

SHOWN = 3
"""Names in a title at most."""

_WORDS = (
    ("remove", "Remove"), ("move", "Open"), ("unplug", "Unplug"), ("undo", "Undo"), ("soften", "Soften"),
    ("treat", "Clean"), ("check", "Check"), ("turn", "Turn over"), ("look", "Look at"),
)  # fmt: skip


def titled(cut: Sequence[Job], story: Story) -> None:
    """Give operations their titles, no two alike."""
    taken: set[str] = set()
    for job, before in zip(cut, (None, *cut), strict=False):
        job.about, job.title = title(job.acts)
        topic = _topic_of(job, before, cut, story)
        if topic is not None:
            job.about, job.title = [topic.name], f"Work at the {topic.name}"
        job.title = _alone(job.title, taken)
        taken.add(job.title.casefold())


def _alone(base: str, taken: set[str]) -> str:
    """A title that no other has."""
    found, number = base, 2
    while found.casefold() in taken:
        found = f"{base}, part {number}"
        number += 1
    return found


def _topic_of(job: Job, before: Job | None, cut: Sequence[Job], story: Story) -> Named | None:
    """What the talk turned to before or in a job that takes off nothing of weight, and no other job handles."""
    if job.isolates or not is_slight(job):
        return None
    first = max((act.start for act in work_of(before)), default=0.0)
    other = {id(thing) for one in cut if one is not job for act in work_of(one) for thing in act.things}
    own = (thing for at, thing in story.topics if first < at <= job.acts[-1].start and thing is not None)
    return next((thing for thing in own if id(thing) not in other and not is_small(thing)), None)


def title(acts: Sequence[Act]) -> tuple[list[str], str]:
    """What an operation is about (the chief thing first), and its title."""
    for do, word in _WORDS:
        rows = [act for act in acts if act.do == do]
        if rows:
            return _told(rows, do, rows[-1].verb.split()[0] if do in ("treat", "soften", "check") else word)
    return [], "Operation"


def _told(rows: Sequence[Act], do: str, word: str) -> tuple[list[str], str]:
    """The title of rows that all do the same."""
    names = _names(rows, do)
    if names:
        return names, f"{word} {_list(names[:SHOWN])}"
    if do == "undo":
        held = [
            thing.holds.name for act in rows for thing in act.things if isinstance(thing, Screws) and thing.holds
        ]
        return held or ["screws"], f"Undo the screws of the {held[0]}" if held else "Undo the screws"
    plain = next((act.plain for act in rows if act.plain), "the device")
    return [plain], f"{word} {plain}"


def _names(rows: Sequence[Act], do: str) -> list[str]:
    """The names, those that weigh first where there are more than a title shows; in the order told."""
    told: list[tuple[str, bool]] = []
    for act in rows:
        for thing in act.things:
            if isinstance(thing, Named) and thing.name not in (name for name, _ in told):
                told.append((thing.name, do == "remove" and (is_minor(act) or thing.cls in ("", "other"))))
    heavy = [name for name, small in told if not small]
    if len(told) <= SHOWN:
        names = [name for name, _ in told]
        return heavy if heavy and len(rows) > 2 else names
    return heavy or [name for name, _ in told][-1:]


def _list(names: Sequence[str]) -> str:
    said = [f"the {name}" for name in names]
    return said[0] if len(said) == 1 else f"{', '.join(said[:-1])} and {said[-1]}"
