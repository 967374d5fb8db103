"""States told without a verb ("the board is out", "same thing") -> actions."""

from __future__ import annotations

from guidec.draft.acts import undo
from guidec.draft.clauses import Clause
from guidec.draft.item import Item
from guidec.draft.joints import connector
from guidec.draft.mind import Mind
from guidec.draft.pronouns import meant
from guidec.draft.reading import BE, NEGATIVE
from guidec.draft.refer import counted, things_of
from guidec.draft.story import Act, Named, Screws, Things
from guidec.draft.verbs import Doing
from guidec.draft.wordset import among, phrased

__all__ = ["likewise", "state"]


def likewise(mind: Mind, clause: Clause) -> Act | None:
    """`there's a touch ribbon as well, same thing`: the last action again, on what is named here."""
    too = (
        clause.text.endswith((" too", " as well", " also"))
        and any(item.is_a("connector") for item in clause.items)
        and mind.last is not None
        and mind.last.do == "unplug"
    )
    if not too and not any(
        said in clause.text
        for said in phrased("same thing|same again|same deal|same way|same for|likewise|same with")
    ):
        return None
    last = mind.last
    if last is None or clause.start - last.start > 15 or last.do not in ("unplug", "remove"):
        return None
    row = Doing("unplug" if last.do == "unplug" else "take", "", "undo", last.verb, frozenset({"base"}))
    refs: Things = []
    for at, item in enumerate(clause.items):
        if item.is_a("part", "connector") and not item.is_a("tool"):
            refs += things_of(mind, clause, at, row)
    return undo(mind, clause, clause.items[0], row, "", refs) if refs else None


def state(mind: Mind, clause: Clause) -> Act | None:
    """`motherboard is out`, `the cover's off`, `all nine out`, `battery out, card out`: done, with no verb."""
    items = clause.items
    if any(item.text in NEGATIVE or item.text in among("if before until unless sticking") for item in items):
        return None
    told: Act | None = None
    for at, item in enumerate(items):
        if not _is_state(clause, at):
            continue
        refs = _whose(mind, clause, at)
        if item.text == "open":
            refs = [ref for ref in refs if isinstance(ref, Screws)]
        particle = "out" if item.text == "out" else "off"
        if refs:
            link = isinstance(refs[0], Named) and refs[0].kind == "connector"
            told = undo(mind, clause, item, _EASE if link else _TAKE, particle, refs) or told
    return told


def _is_state(clause: Clause, at: int) -> bool:
    """Whether an item says that something is off by now, and not where it goes (`out of the`, `off to`)."""
    items = clause.items
    item = items[at]
    if item.text == "go" and item.kind == "verb":
        return at > 0 and items[at - 1].text == "can"
    if item.text == "open":
        return at > 1 and items[at - 2].text in ("they", "these", "those") and items[at - 1].text in BE
    if item.text not in among("out off free loose away removed disconnected unplugged undone clear"):
        return False
    if item.kind == "verb" and item.text == "free":
        return False
    if at == 0 and item.text not in ("out", "off"):
        return False
    if item.text == "out" and "out of the way" in clause.text:
        return clause.verb is None
    after = items[at + 1].text if at + 1 < len(items) else ""
    return not (item.text in among("out off away clear") and after in among("of the to there here on in with"))


_BETWEEN = among("can now just all completely fully right then it's that's is straight easy already come nice 's")


def _whose(mind: Mind, clause: Clause, at: int) -> Things:
    """What a state is said of: the name, number or pronoun before it."""
    items = clause.items
    word = items[at].text
    back = at - 1
    while (
        back >= 0
        and items[back].kind in ("word", "verb")
        and (items[back].text in BE or items[back].text in _BETWEEN or _participle(items[back].text))
    ):
        back -= 1
    if back < 0 or (items[back].kind == "word" and items[back].text in mind.words.small["starters"]):
        return _bare(mind, clause, at)
    subject = items[back]
    if word == "go" and (subject.kind != "thing" or subject.is_a("screw", "tool")):
        return []
    owned = back > 1 and items[back - 1].text in ("for", "to", "of") and items[back - 2].is_a("connector")
    if owned and subject.kind in ("thing", "noun"):
        return [connector(mind, clause, items[back - 2])]
    if subject.kind == "thing":
        before = items[back - 1].text if back else ""
        if before in mind.words.small["prepositions"] and before != "with":
            return []
        if subject.is_a("connector") and not subject.is_a("part"):
            return [connector(mind, clause, subject)]
        return things_of(mind, clause, back, _UNPLUG if word in ("disconnected", "unplugged") else _EASE)
    if subject.text in _GOVERNED and back and _governs(mind, items[back - 1]):
        return []
    return _said(mind, clause, subject)


_GOVERNED = among("it that this them those these")
_HAVING = among("have has had having got get gets getting with all is are was were be now so and then to")


def _governs(mind: Mind, item: Item) -> bool:
    """Whether an item is a verb whose object and particle follow: `switched it off` tells of nothing off."""
    if item.kind not in ("word", "verb") or item.text in _HAVING or item.stop:
        return False
    small = mind.words.small
    return not any(item.text in small[name] for name in ("starters", "adverbs", "prepositions", "subjects", "be"))


_GOES_ON = among("of the to there here in with from by for at a my your his its like under over into onto than as")


def _participle(word: str) -> bool:
    """`clicked off`, `popped out`: how it came off."""
    return word.endswith("ed") and len(word) > 4


def _bare(mind: Mind, clause: Clause, at: int) -> Things:
    """`off.`, `and out`, `that's free`, `they're off`: said of what is in focus."""
    items, small = clause.items, mind.words.small
    lead = [item.text for item in items[:at]]
    idle = small["starters"] | _BETWEEN | BE
    plain = [word for word in lead if word not in idle and not _participle(word)]
    follows = items[at + 1].text if at + 1 < len(items) else ""
    ends = bool(items[at].stop) or follows not in _GOES_ON
    if not ends or items[at].text not in among("out off free loose away clear"):
        return []
    if any(word not in among("that's it's they're and there this's") for word in plain):
        return []
    if not lead and mind.before is not None and clause.start - mind.before.items[-1].start > 12:
        return []
    return meant(mind, clause, "they" if "they're" in lead else "it", _EASE, None)


def _said(mind: Mind, clause: Clause, subject: Item) -> Things:
    """`all nine out`, `that's out`, `that one's out`."""
    if subject.kind == "num" and subject.number:
        refs = counted(mind, subject)
        part = mind.trip is None and bool(refs) and isinstance(refs[0], Named) and refs[0].kind == "part"
        return [] if part else refs
    if subject.text in ("it", "that", "this"):
        return meant(mind, clause, subject.text, _EASE, None)
    if subject.text in among("them those these they one"):
        refs = meant(mind, clause, "them", _TAKE, None)
        lone = [ref for ref in refs if isinstance(ref, Screws) and ref.count == 1]
        return list(lone) if subject.text == "one" else refs
    return []


_TAKE = Doing("take", "", "undo", "", frozenset({"base"}))
_EASE = Doing("come", "", "undo", "Pull off", frozenset({"base"}))
"""What a cable that is "off" or "out" has come: out of its socket, not whole."""


_UNPLUG = Doing("unplug", "", "undo", "Unplug", frozenset({"base"}))
