"""A verb said of itself or in the passive -> its subject."""

from __future__ import annotations

from collections.abc import Sequence

from guidec.draft.clauses import Clause
from guidec.draft.item import Item
from guidec.draft.mind import Mind
from guidec.draft.pronouns import meant
from guidec.draft.reading import BE, PARTICLES
from guidec.draft.refer import counted, things_of
from guidec.draft.story import Things
from guidec.draft.verbs import Doing
from guidec.draft.wordset import among

__all__ = ["fronted", "subject"]


def subject(mind: Mind, clause: Clause, verb: int, row: Doing) -> Things:
    """The subject of a verb said of itself or in the passive: `the coil comes off`, `the screws are removed`."""
    items, forms = clause.items, row.forms
    be = any(item.text in BE for item in items[:verb])
    if _by_somebody(items[:verb], be=be):
        return []
    if _goes_on(mind, clause, verb, row):
        plural = any(item.text in ("are", "they") for item in mind.before.items) if mind.before else False
        return meant(mind, clause, "they" if plural else "it", row, None)
    modal = any(item.text in _MODAL for item in items[:verb])
    past = "past" in forms and (be or row.base in ("come", "pop"))
    if not (row.passive or "third" in forms or "base" in forms or past or modal):
        return []
    if "ing" in forms and not row.passive and not be:
        return []
    refs: Things = _relative(mind, clause, row)
    for at in range(0 if not refs else verb, verb):
        refs += _subject_at(mind, clause, at, row, bool(refs))
    if not refs and row.passive:
        refs = _inverted(mind, clause, verb, row)
    return refs


_MODAL = among("can must should will 'll just easily to simply then straight right now it'll they'll all both")


def _by_somebody(before: Sequence[Item], *, be: bool) -> bool:
    """Whether `i`, `we` or `you` do it, so that the verb's subject is nobody's part."""
    said = among("i we you it they that these those this them")
    heads = [item.text for item in before if item.kind in ("thing", "noun") or item.text in said]
    things = bool(before) and before[-1].kind in ("thing", "noun")
    if things or (heads and heads[-1] in among("it they that these those this")):
        return False
    persons = among("i we you i'm i'll we'll you'll we're let's i've we've you've you'd i'd")
    mine = any(item.text in persons for item in before)
    return mine and (not be or any(item.text in among("i've we've i'm we're") for item in before))


def _goes_on(mind: Mind, clause: Clause, verb: int, row: Doing) -> bool:
    """`they are twisted | and pulled`: the subject of the clause before."""
    starters = mind.words.small["starters"]
    bare = clause.lead == "and" and all(item.text in starters for item in clause.items[:verb])
    if not bare or "past" not in row.forms or "base" in row.forms or mind.before is None:
        return False
    return any(item.text in among("are is were was be been") for item in mind.before.items)


def _subject_at(mind: Mind, clause: Clause, at: int, row: Doing, found: bool) -> Things:
    """What an item before the verb adds to the subject."""
    items = clause.items
    item, before = items[at], items[at - 1].text if at else ""
    follow = items[at + 1] if at + 1 < len(items) else None
    if item.kind in ("thing", "noun"):
        led = (
            before in mind.words.small["prepositions"]
            and before not in PARTICLES
            and before not in ("until", "till")
        )
        return [] if led else things_of(mind, clause, at, row)
    if found:
        return []
    if (
        item.kind == "num"
        and item.number
        and (at == 0 or before in among("all those these the both right and so"))
    ):
        return counted(mind, item)
    if item.kind == "word" and item.text in among("it it'll they they'll that this these those them both"):
        named = follow is not None and follow.kind in ("thing", "noun", "num")
        if not named or (follow is not None and (follow.is_a("device") or follow.text == "1")):
            return meant(mind, clause, item.text.removesuffix("'ll"), row, None)
    return []


def _relative(mind: Mind, clause: Clause, row: Doing) -> Things:
    """`the antenna cables | which just pull off`: the last name of the clause before."""
    before = mind.before
    if before is None or clause.items[0].text not in ("which", "that"):
        return []
    last = next(
        (n for n in range(len(before.items) - 1, -1, -1) if before.items[n].kind in ("thing", "noun")), None
    )
    return [] if last is None or before.items[-1].stop == 2 else things_of(mind, before, last, row)


def fronted(mind: Mind, clause: Clause, row: Doing) -> Things:
    """`that one | you lift straight out`, `the bracket | i lift out by hand`: an object said before its verb."""
    items, before = clause.items, mind.before
    persons = among("i you we i'll we'll you'll i'm we're you're i've we've you've")
    if before is None or items[0].text not in persons or before.items[-1].stop == 2:
        return []
    if any(item.kind in ("thing", "noun") or item.text in _OBJECTS for item in items[1:]):
        return []
    last = before.items[-1]
    if last.kind in ("thing", "noun") and last.det in among("the this that these those"):
        return things_of(mind, before, len(before.items) - 1, row)
    words = [item.text for item in before.items[-2:]]
    if words[-1:] and (words[-1] in among("those these this that") or words in (["that", "1"], ["this", "1"])):
        return meant(mind, clause, "them" if words[-1] in ("those", "these") else "it", row, None)
    return []


_OBJECTS = among("it them that those these this him her everything all both each")


def _inverted(mind: Mind, clause: Clause, verb: int, row: Doing) -> Things:
    """`off it comes`, `and off comes the lid`."""
    items = clause.items
    if items[0].text in among("off out and then so") and any(one.text in ("it", "they", "that") for one in items):
        lone = any(one.text in ("it", "that") for one in items)
        if refs := meant(mind, clause, "it" if lone else "they", row, None):
            return refs
    refs = []
    for at in range(verb + 1, len(items)):
        led = items[at - 1].text in mind.words.small["prepositions"] - PARTICLES
        if items[at].kind in ("thing", "noun") and not led:
            refs += things_of(mind, clause, at, row)
    return refs
