"""Tools and supplies that a clause names -> things at hand."""

from __future__ import annotations

from guidec.draft.clauses import Clause
from guidec.draft.drivers import driven
from guidec.draft.item import Item
from guidec.draft.kinds import kind_of, tool_name
from guidec.draft.mind import Mind
from guidec.draft.quantities import amounts
from guidec.draft.reading import barred_from, base_of
from guidec.draft.refer import NOT_PARTS
from guidec.draft.verbs import doings
from guidec.draft.wordset import among, phrased

__all__ = ["tools"]


def tools(mind: Mind, clause: Clause) -> None:
    """Tools and supplies named in a clause, whether or not anything is done in it; not those of a `don't`."""
    barred = barred_from(clause)
    for at, item in enumerate(clause.items):
        if item.kind == "noun" and not barred and _serves(clause, at):
            mind.hand.append((item.start, mind.names.thing("tool", item)))
        if item.kind != "thing":
            continue
        kind = kind_of(mind, clause, at, base_of(clause))
        if kind not in ("tool", "supply") or (barred and at >= barred):
            continue
        if kind == "tool" and _idle(clause, at):
            continue
        if kind == "tool" and _only_placed(mind, clause, at):
            continue
        if kind == "supply" and not _supplying(clause, at):
            continue
        if kind == "tool":
            driven(mind, clause, item)
        name = tool_name(item) if kind == "tool" else item.text
        found = mind.names.thing(kind, item, name=name)
        if kind == "supply":
            amounts(mind, clause, found)
        if not any(tool is found for _, tool in mind.hand):
            mind.hand.append((item.start, found))


_HOLDS = among("mat plate supply meter multimeter scope vice vise oven bath pad")
"""What one works on or in, or reads from: `on the heat mat`, `in the vice`, `on the meter`."""


def _only_placed(mind: Mind, clause: Clause, at: int) -> bool:
    """`from the tool`: a place, unless it is known or one works on it; `change to the PH1 bit` is none."""
    item = clause.items[at]
    led = clause.items[at - 1].text if at else ""
    if item.det != "the" or led not in among("for of from on in to") or item.drive:
        return False
    if led in ("on", "in") and item.head.split()[-1:] and item.head.split()[-1] in _HOLDS:
        return False
    return mind.names.find("tool", item.text, item.start) is None


_MANNER = among(
    "twist tug pull push click pop snap wiggle jerk turn bit little noise sound hand finger thumb nail fingernail "
    "help care force pressure pattern grain smile rub jolt bang knock tap quarter half spoonful drop flourish "
    "look touch angle edge new one hole slot label dot sticker friend lot couple movement motion rocking "
    "squeeze press flick lift side spring"
)


def _serves(clause: Clause, at: int) -> bool:
    """`with a matchstick`, `using an old plectrum`: a thing of no lexicon that serves as a tool."""
    item, items = clause.items[at], clause.items
    if item.det not in among("a an my some") or item.head in _MANNER or item.head in NOT_PARTS or item.plural:
        return False
    led = items[at - 1].text if at else ""
    return led in ("with", "using") and any(
        row.family in ("undo", "treat", "soften", "move")
        for one in items[:at]
        if one.kind == "verb"
        for row in doings(one.text)
    )


def _supplying(clause: Clause, at: int) -> bool:
    """Whether a supply is used or put somewhere here, not only named (`it leaks oil`)."""
    before = [item.text for item in clause.items[max(0, at - 6) : at]]
    own = clause.items[at].words
    after = [item.text for item in clause.items[at + 1 : at + 4]]
    if clause.items[at].det in ("that", "this") and not any(word in ("with", "using", "use") for word in before):
        return False
    if _found_there(before, after):
        return False
    if own[-1:] in (("wipe",), ("wipes",)) and len(own) <= 2:
        return any(word in among("with using use get grab need") for word in before[-2:])
    if (
        any(word in _ASKED for word in (*before, *own))
        or clause.items[at].value is not None
        or clause.items[at].fresh in ("new", "fresh")
    ):
        return "leak" not in " ".join(before) and "leaking" not in before
    if clause.verb is None and any(item.is_a("tool") or item.kind == "value" for item in clause.items):
        return True
    return any(
        word in among("along under on around in into loosens softens dissolves works will for and")
        for word in after
    ) or (
        clause.verb is None
        and (all(word in among("then and now so just plus or") for word in before) or _measured(after))
    )


_ASKED = among(
    "with using use used put apply add drop dab bit drops blob splash smear squirt "
    "need needs want wants get grab squirt spray some on take pour drip inject try "
    "got fresh new flood gets goes blast clean wipe have like bead "
    "lick spot dollop smidge tad coat film layer plenty dash dribble touch squeeze smudge spoonful drip pea "
    "dip dipped dips dipping soak soaked soaking wash washed washing rinse rinsed wet wetted dampened damp "
    "moistened soaks dripping spraying squirting dabbing adding applying"
)
"""How a supply is asked for or measured out."""


def _measured(after: list[str]) -> bool:
    """`alcohol, a few drops`"""
    return any(word in among("drop drops dab splash spray squirt few little") for word in after)


def _found_there(before: list[str], after: list[str]) -> bool:
    """`there's a lot of grease in there`, `the grease is like toffee`: what is there, not what is put there."""
    put = among("put apply add use using with need want some squirt smear work pack new fresh get dab bit bead")
    if any(word in put for word in before):
        return False
    return after[:1] in (["is"], ["looks"], ["has"], ["was"]) or after[:2] in (["in", "there"], ["in", "here"])


def _idle(clause: Clause, at: int) -> bool:
    """A tool's word that is none here: `the tip of the tweezers` is, `a quick drill` is not; a `bit` needs a
    drive."""
    item = clause.items[at]
    follows = clause.items[at + 1].text if at + 1 < len(clause.items) else ""
    if _only_likeness(item, follows) or (item.head == "socket" and not _turns_nuts(clause, at)):
        return True
    if item.head == "bit" and not item.drive:
        after = clause.items[at + 1].text if at + 1 < len(clause.items) else ""
        return after in ("of", "more", "and") or not any(
            word in item.words for word in among("long right correct special security proper small extra")
        )
    if (
        item.head in phrased("hot air|water|hook|file|saw|drill|torch|clamp|needle|driver|punch|hammer|razor")
        and len(item.words) == 1
        and item.det == ""
    ):
        return True
    return (
        item.head in among("tester meter probe vice grips")
        and item.det == ""
        and len(item.words) == 1
        and not any(one.text in ("with", "using", "use") for one in clause.items[:at])
    )


def _only_likeness(item: Item, follows: str) -> bool:
    """`razor sharp`, `coin shaped`, `a spoon of bicarb`, `the rubber boot grips it`."""
    if item.head == "grips":
        return len(item.words) > 1 and among("mole vise vice locking pump the some my your a").isdisjoint(
            item.words
        )
    if follows in among("shape shaped sharp thin size sized"):
        return True
    return follows == "of" and item.head in among("spoon card coin pin needle")


def _turns_nuts(clause: Clause, at: int) -> bool:
    """Whether a socket is the tool: by its size or drive, or by being taken or used."""
    item = clause.items[at]
    led = [one.text for one in clause.items[max(0, at - 3) : at]]
    sized = item.value is not None or bool(item.drive)
    return sized or any(word in among("with using use need grab get") for word in led)
