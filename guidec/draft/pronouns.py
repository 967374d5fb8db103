"""`it`, `them`, `those` -> the things that they mean to a verb: what was spoken of last that it can be said of."""

from __future__ import annotations

from guidec.draft import sets
from guidec.draft.clauses import Clause
from guidec.draft.joints import opened
from guidec.draft.mind import Mind, recent
from guidec.draft.reading import CABLES, EASING, OPENING
from guidec.draft.story import Named, Screws, Things
from guidec.draft.verbs import Doing
from guidec.draft.wordset import among

__all__ = ["meant"]


def meant(mind: Mind, clause: Clause, word: str, row: Doing, count: int | None) -> Things:
    """What a pronoun means to a verb; `count`: how many there are, where it is said."""
    if row.base in among("cut desolder unsolder snip"):
        return _cut(mind, clause.start)
    if word in among("them em these those they both all each everything"):
        return _many(mind, clause.start, word, row, count)
    return _one(mind, clause.start, row)


def _corded(thing: Named) -> bool:
    return thing.name.split()[-1] in CABLES


def _cut(mind: Mind, start: float) -> Things:
    """What can be cut or desoldered: cables, else glue."""
    cords = [thing for thing in mind.group if _corded(thing) and start - thing.heard < 40 and not thing.gone]
    if cords:
        return list(cords)
    found = recent(mind.glue, start, 12) or recent(mind.cord, start, 40)
    return [found] if found else []


# ---------------------------------------------------------------- several


def _many(mind: Mind, start: float, word: str, row: Doing, count: int | None) -> Things:
    waiting = sets.pending(mind, start, 60)
    since = (mind.last.start if mind.last is not None else 0.0) - 1
    group = [thing for thing in mind.group if recent(thing, start, 25) and thing.heard >= since]
    plugs = mind.many if isinstance(mind.many, Named) and mind.many.kind == "connector" else None
    if recent(plugs, start, 12) and plugs is not None and plugs.count == len(group) and all(map(_corded, group)):
        return [plugs]
    if word == "both" and len(group) >= 2:
        both = group[-2:]
        return [opened(mind, thing) for thing in both] if row.base in OPENING else list(both)
    corded = [thing for thing in group if _corded(thing)]
    if corded and row.base in among("pull pop slide lift come snap unplug disconnect flip wiggle"):
        group = corded
    pulled = row.base in among("pull pop slide lift come") and all(map(_corded, group))
    if group and (row.base in ("unplug", "disconnect") or pulled):
        return [opened(mind, thing) for thing in group]
    latest = mind.many if isinstance(mind.many, Named) else None
    newest = recent(latest, start, 60) if latest and (not waiting or latest.heard > waiting[-1].heard) else None
    if newest is not None:
        return [
            opened(mind, newest)
            if newest.kind == "part" and _corded(newest) and start - newest.heard < 40
            else newest
        ]
    if waiting:
        return _waiting(waiting, start, count)
    if group:
        return list(group)
    return [mind.many] if mind.many is not None and not mind.many.gone else []


def _waiting(waiting: list[Screws], start: float, count: int | None) -> Things:
    """The sets told and not yet out: the one with the count said, else all told lately."""
    if count:
        same = [one for one in waiting if one.count == count]
        return [same[-1]] if same else list(waiting[-1:])
    return list([one for one in waiting if start - one.heard < 30] or waiting[-1:])


# ---------------------------------------------------------------- one


def _one(mind: Mind, start: float, row: Doing) -> Things:
    named = mind.named
    if named is not None and named.gone and start - named.heard < 6 and _later(named, mind.part) and row.particle:
        return [named]
    waiting = sets.pending(mind, start, 60)
    lone = waiting[-1] if waiting and waiting[-1].count == 1 else None
    link, part = recent(mind.link, start, 30), recent(mind.part, start, 90)
    if lone and row.base in among("undo unscrew loosen unbolt slacken"):
        return [lone]
    found = _fixing(mind, start) or _cord(mind, start, row) or _connection(mind, start, row, link, part)
    if found is not None:
        return [found]
    glue = recent(mind.glue, start, 12)
    if (
        glue
        and start - glue.heard < 7
        and row.base in ("pull", "peel")
        and any(said in glue.name for said in ("tape", "tab", "strip"))
    ):
        return [glue]
    if lone and _later(lone, part) and _later(lone, link) and not (row.passive and part):
        return [lone]
    if link and (part is None or link.heard > part.heard + 0.01):
        return [link]
    if part:
        return [part]
    if glue and row.base in ("peel", "cut", "slice"):
        return [glue]
    return [link] if link else []


def _later(one: Named | Screws, other: Named | None) -> bool:
    return other is None or one.heard > other.heard


def _fixing(mind: Mind, start: float) -> Named | None:
    """A clip or pin told last of all."""
    fix = recent(mind.fix, start, 12)
    return fix if fix and _later(fix, mind.part) and _later(fix, mind.link) else None


def _cord(mind: Mind, start: float, row: Doing) -> Named | None:
    """A cable told last: opened, or taken out whole."""
    cord = recent(mind.cord, start, 20)
    if cord is None or (mind.link is not None and not mind.link.gone and cord.heard < mind.link.heard):
        return None
    if mind.part is not None and not mind.part.gone and cord.heard < mind.part.heard:
        return None
    late = start - cord.heard > 12 and row.base in among("lift slide come")
    if row.base in OPENING or (row.base in EASING - {"take", "do"} and not late):
        return opened(mind, cord)
    return cord if row.base in ("peel", "remove", "take") else None


def _connection(mind: Mind, start: float, row: Doing, link: Named | None, part: Named | None) -> Named | None:
    """What can be unplugged: the connector told last, else that of the part in focus."""
    done = mind.part
    if row.base in ("unplug", "disconnect") and link is None and done is not None and done.gone:
        first = mind.now is not None and any(word in mind.now.text.split() for word in among("first before had"))
        return opened(mind, done) if first and start - done.heard < 9 else None
    if row.base not in OPENING and row.base != "flip":
        return None
    if link is None and part is not None and row.base in ("unplug", "disconnect"):
        return opened(mind, part)
    return link
