"""A clause of work -> what is done in it, with what; and what is only named."""

from __future__ import annotations

from collections.abc import Callable, Sequence

from guidec.draft.acts import move, turn, undo
from guidec.draft.at_hand import tools
from guidec.draft.care import GIVE, discharged, metered, treat
from guidec.draft.clauses import Clause
from guidec.draft.cleaning import cleaned
from guidec.draft.drivers import settled
from guidec.draft.heat import soften, solvent, supplied
from guidec.draft.holding import holds
from guidec.draft.kinds import KINDS
from guidec.draft.listing import belongs, first_of_all, listed, opens_list
from guidec.draft.mentions import named
from guidec.draft.mind import Mind, recent
from guidec.draft.objects import objects
from guidec.draft.quantities import values
from guidec.draft.reading import (
    DIRECT,
    NEGATIVE,
    STRONG,
    is_enough,
    is_forbidden,
    particles_of,
    read_verb,
    turns_over,
)
from guidec.draft.results import result
from guidec.draft.set_details import details
from guidec.draft.states import likewise, state
from guidec.draft.story import Act, Named, Screws
from guidec.draft.unsaid import ironed, read_off, traced, unpowered, warmed
from guidec.draft.verbs import Doing, doings
from guidec.draft.wordset import among, phrased

__all__ = ["is_work", "work"]


def is_work(clause: Clause) -> bool:
    """Whether something is plainly done in a clause: an undoing verb with a thing of the trade, not a `don't`."""
    verb = clause.verb
    if verb is None or any(item.text in NEGATIVE for item in clause.items[:verb]):
        return False
    things = [
        item
        for item in clause.items
        if (item.is_a(*KINDS) and "subscribe" not in item.text and item.head not in ("button",))
        or item.is_a("screw")
    ]
    rows = doings(clause.items[verb].text)
    return bool(things) and any(
        row.family in ("undo", "soften", "turn")
        and (row.base in STRONG or row.base in DIRECT or particles_of(clause, verb))
        for row in rows
    )


def work(mind: Mind, clause: Clause) -> None:
    """Enter what a clause of work says: the first rule that finds something done in it decides."""
    story = mind.story
    start = len(story.screws)
    tools(mind, clause)
    told = _first(_DONE, mind, clause)
    opens_list(mind, clause, told)
    told = told or _first((likewise, result), mind, clause)
    if told is None or (told.do == "undo" and not told.things):
        told = _first((solvent, unpowered, warmed, read_off, ironed, traced), mind, clause) or told
    named(mind, clause, told)
    belongs(mind, clause)
    details(mind, clause)
    settled(mind, clause)
    if len(story.screws) > start:
        holds(mind, clause, story.screws[start:])
    values(mind, clause, told)


def _first(rules: Sequence[_Rule], mind: Mind, clause: Clause) -> Act | None:
    return next((act for rule in rules if (act := rule(mind, clause)) is not None), None)


_LEADING = among("going go get gets got getting use using used put puts need needs stick run runs let lets")


def _verb_of(clause: Clause) -> int | None:
    """The verb that says what is done: `let me get this lifted off` is about lifting."""
    verb = clause.verb
    while (
        verb is not None
        and clause.items[verb].text in _LEADING
        and not (
            clause.items[verb].text.startswith("let")
            and "go" in [one.text for one in clause.items[verb + 1 : verb + 2]]
        )
        and (later := _later_verb(clause, verb)) is not None
    ):
        verb = later
    return verb


def _given(mind: Mind, clause: Clause) -> Act | None:
    return cleaned(mind, clause, "Clean") if GIVE.search(clause.text) else None


def _again(mind: Mind, clause: Clause) -> Act | None:
    return likewise(mind, clause) if _same_deal(mind, clause) else None


def _by_verb(mind: Mind, clause: Clause) -> Act | None:
    verb = _verb_of(clause)
    return _act(mind, clause, verb) if verb is not None else None


def _stated(mind: Mind, clause: Clause) -> Act | None:
    """What is off by now; not where its verb is forbidden or only supposed."""
    verb = _verb_of(clause)
    return None if verb is not None and is_forbidden(mind, clause, verb) else state(mind, clause)


def _same_deal(mind: Mind, clause: Clause) -> bool:
    """`the screen one and the charge flex, same deal`: behind a connector that was opened."""
    last = mind.last
    again = any(said in clause.text for said in phrased("same deal|same thing|likewise|same again|same way"))
    return again and last is not None and last.do == "unplug" and clause.start - last.start < 15


def _later_verb(clause: Clause, verb: int) -> int | None:
    return next((n for n in range(verb + 1, len(clause.items)) if clause.items[n].kind == "verb"), None)


def _act(mind: Mind, clause: Clause, verb: int) -> Act | None:
    """The action of a clause's verb; None where there is none."""
    if is_forbidden(mind, clause, verb):
        return None
    if turns_over(clause, verb):
        return turn(mind, clause)
    reading = read_verb(clause, verb)
    if reading is None:
        return None
    row, particle = reading
    _latch(mind, clause, row)
    if row.family == "turn":
        return turn(mind, clause)
    if row.family == "supply":
        return supplied(mind, clause, verb, row)
    if row.family == "soften" and (joints := [item for item in clause.items if item.is_a("solder")]):
        found = [mind.names.thing("solder", item) for item in joints[:1]]
        return undo(mind, clause, clause.items[verb], _DESOLDER, "", list(found))
    if row.family == "soften":
        return soften(mind, clause, verb, row)
    if row.family in ("treat", "check"):
        return treat(mind, clause, verb, row, particle)
    if not _does(mind, clause, verb, row, particle):
        return None
    refs = objects(mind, clause, verb, row, particle) or _link_only(mind, clause, verb, row)
    if not refs:
        return cleaned(mind, clause, "Clean") if _mucks_out(clause, row) else None
    if row.family == "move":
        return move(mind, clause, row, particle, refs)
    return undo(mind, clause, clause.items[verb], row, particle, refs)


def _does(mind: Mind, clause: Clause, verb: int, row: Doing, particle: str) -> bool:
    """Whether the verb says that something comes off or out of its place, not only that it is handled."""
    if row.family == "hand" or (row.family == "undo" and not is_enough(clause, verb, row, particle)):
        return False
    return not _only_tugs(mind, clause, verb, row)


def _mucks_out(clause: Clause, row: Doing) -> bool:
    """`scoop out the old grease`: a cleaning, told as a removal."""
    muck = among("grease oil dust fluff hair dirt gunk grime crumbs lint sand limescale scale")
    return row.base in among("scoop dig scrape pick clear suck shake flush tip get") and any(
        word in muck for item in clause.items for word in item.words
    )


def _only_tugs(mind: Mind, clause: Clause, verb: int, row: Doing) -> bool:
    """`pull`, `pull up gently` right after a suction cup was set: a gap opens, nothing is off yet."""
    if row.base not in ("pull", "lift", "tug") or not any("base" in one.forms for one in doings(row.base)):
        return False
    after = clause.items[verb + 1 :]
    if any(item.kind != "word" or item.text in among("off out away it them that") for item in after):
        return False
    return any(
        clause.start - since < 8 and any(word in tool.name for word in ("suction", "sucker"))
        for since, tool in mind.hand
    )


_DESOLDER = Doing("melt", "", "undo", "Desolder", frozenset({"base"}))


def _latch(mind: Mind, clause: Clause, row: Doing) -> None:
    """`lift the latch up`: the connector that is opened next has one."""
    latches = phrased("latch|lock bar|locking bar|flap|lever|locking tab")
    if row.base in among("flip lift open release undo pop push unlock") and any(
        item.text.split()[-1:] and item.text.split()[-1] in latches
        for item in clause.items
        if item.kind in ("noun", "thing", "word")
    ):
        mind.latched = clause.start


def _link_only(mind: Mind, clause: Clause, verb: int, row: Doing) -> list[Named | Screws]:
    """`squeeze the sides and pull`: the connector told just before."""
    link = recent(mind.link, clause.start, 9)
    last = verb == len(clause.items) - 1
    return [link] if link is not None and last and row.base in among("pull lift unplug disconnect wiggle") else []


_Rule = Callable[[Mind, Clause], Act | None]
_DONE: tuple[_Rule, ...] = (
    discharged, _given, metered, _again, _by_verb, first_of_all, _stated, listed,
)  # fmt: skip
