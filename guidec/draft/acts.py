"""What is done to what -> actions of the story: undone, opened, off, moved, with the tools at hand."""

from __future__ import annotations

import re

from guidec.draft import sets
from guidec.draft.clauses import Clause
from guidec.draft.hands import dress
from guidec.draft.heat import SOLVENTS, soak
from guidec.draft.item import Item
from guidec.draft.joints import soldered
from guidec.draft.mind import Mind
from guidec.draft.reading import DIRECT, PARTICLES, STRONG, UNSURE
from guidec.draft.story import Act, Named, Screws, Things
from guidec.draft.verbs import Doing
from guidec.draft.wordset import among, phrased

__all__ = ["move", "turn", "undo"]


def turn(mind: Mind, clause: Clause) -> Act | None:
    """The device is turned over; nothing where screws turn. Said again within 4 s it is the same turn."""
    if any(item.is_a("screw") for item in clause.items):
        return None
    device = mind.story.device or "device"
    last = mind.last
    if last is not None and last.do == "turn" and clause.start - last.start < 4:
        return last
    act = Act("turn", "Turn over", mind.quote(clause), plain=f"the {device}")
    mind.add(act)
    return act


def undo(mind: Mind, clause: Clause, verb: Item, row: Doing, particle: str, refs: Things) -> Act | None:
    """Screws and other fastenings undone, connectors opened, parts off."""
    if _solvent_before(clause, verb) is not None:
        return soak(mind, clause)
    if row.base in among("desolder unsolder cut snip"):
        refs = [_joint(mind, ref) for ref in refs]
    rows = [ref for ref in refs if isinstance(ref, Screws)]
    things = [ref for ref in refs if isinstance(ref, Named)]
    told: Act | None = None
    if rows:
        told = sets.undo(mind, clause, rows, _undoing(row, particle)) or mind.last
    for kinds, do in _DOES:
        some = [thing for thing in things if thing.kind in kinds and _still(mind, thing, clause.start)]
        if some:
            told = (_off if do == "remove" else _opened)(mind, clause, row, particle, some) or told
    if told is None and things:
        told = mind.last  # said once more: nothing new
    if told is not None and rows:
        dress(mind, told, clause)
    return told


_DOES = (
    (among("clip adhesive fastening solder thermal"), "undo"),
    (among("connector"), "unplug"),
    (among("part"), "remove"),
)


def _solvent_before(clause: Clause, verb: Item) -> int | None:
    """The solvent that is the subject: `a bit of isopropyl loosens the glue`."""
    for at, item in enumerate(clause.items):
        if item.text == "with" or item.first >= verb.first:
            return None
        if item.is_a("supply") and any(word in item.text for word in SOLVENTS):
            return at
    return None


def _joint(mind: Mind, ref: Named | Screws) -> Named | Screws:
    """For a cable that is cut or desoldered, its joints."""
    return soldered(mind, ref) if isinstance(ref, Named) and ref.kind == "part" and ref.cls == "cable" else ref


def _still(mind: Mind, thing: Named, start: float) -> bool:
    """Whether it can be done to a thing: it is not done yet, or there are several and it is long ago."""
    if thing.gone and mind.trip is None and (plan := _plan(mind, thing, start)) is not None:
        plan.things.remove(thing)
        if not plan.things:
            mind.story.acts.remove(plan)
        return True
    return not thing.gone or mind.trip is not None or (thing.plural and start - thing.heard > 120)


def _plan(mind: Mind, thing: Named, start: float) -> Act | None:
    """The action that was only planned for a thing, a while ago."""
    return next(
        (act for act in mind.story.acts if act.planned and thing in act.things and start - act.start > 8), None
    )


def _opened(mind: Mind, clause: Clause, row: Doing, particle: str, some: list[Named]) -> Act:
    """Connectors opened, other fastenings undone."""
    do = "unplug" if some[0].kind == "connector" else "undo"
    return _enter(
        mind, clause, row, Act(do, _verb_words(row, particle, do.capitalize(), do), mind.quote(clause), list(some))
    )


def _off(mind: Mind, clause: Clause, row: Doing, particle: str, some: list[Named]) -> Act | None:
    """Parts off, with what was told to hold them; a button pulled is only pressed, what stays wired is laid
    aside."""
    if row.base in ("loosen", "slacken", "flip") and not particle:
        return None
    sets.implied(mind, clause, some[0])
    mind.part = some[-1]
    if any(said in clause.text for said in phrased("as one|as a unit|in one piece|in one go|as an assembly")):
        some = some[:1]
    if not particle and row.base in DIRECT and some[0].cls == "button" and not _FROM.search(clause.text):
        return None
    if any(said in clause.text for said in phrased("still attached|still connected|still plugged|still wired")):
        act = Act("move", "Lay aside", mind.quote(clause), list(some))
        mind.part = some[0]
        dress(mind, act, clause)
        mind.add(act)
        return act
    return _enter(
        mind,
        clause,
        row,
        Act("remove", _verb_words(row, particle, "Remove", "remove"), mind.quote(clause), list(some)),
    )


_FROM = re.compile(r"\b(?:from|off) (?:the|its|their)\b")
"""`pull the knobs from the front`: not only pressed."""


def _enter(mind: Mind, clause: Clause, row: Doing, act: Act) -> Act:
    """The action, entered, with its tools; in a side trip nothing is gone by it."""
    if mind.trip is None:
        for thing in act.things:
            thing.gone = True
    act.planned = any(said in f" {clause.text} " for said in _PLANS)
    act.optional = any(item.text in UNSURE for item in clause.items) and row.base != "come"
    dress(mind, act, clause)
    mind.add(act)
    return act


_PLANS = phrased(
    " has to | have to | needs to | need to | must | want to | wanna | wants to | got to | gotta | let's |"
    " going to | gonna | we'll | i'll | to get | in order to | should "
)


def _undoing(row: Doing, particle: str) -> str:
    """How screws come out: a lid lifts off, its screws do not."""
    words = _verb_words(row, particle, "Undo")
    own = among("Undo Unscrew Take Remove Loosen Slacken Back Spin Twist Unbolt Pull Wind Crack Release Unfasten")
    return words if words.split()[0] in own else "Undo"


def _verb_words(row: Doing, particle: str, default: str, do: str = "undo") -> str:
    """A verb as a note says it."""
    if row.note:
        words = row.note
    elif row.base in STRONG and row.particle != particle and particle not in ("", "up", "off", "out"):
        words = row.base.capitalize()
    elif particle and particle in PARTICLES and row.particle in ("", particle):
        words = f"{row.base} {particle}".capitalize()
    elif row.base in STRONG or row.base in among("lift pull slide pop ease slip free"):
        words = row.base.capitalize()
    else:
        words = default
    if (
        words.split()[0] in among("Take Twist Rotate Pull Lift Slide Press Push Tip Pop Pick Tap Slip Peel")
        and len(words.split()) == 1
    ):
        words = (
            {"undo": "Undo", "unplug": "Unplug", "remove": words + " off"}[do]
            if words.split()[0] != "Pull"
            else words + " off"
        )
    if words.split()[-1] in among("through over aside down around onto upside"):
        words = words.split()[0]
    return words


def _laid_off(clause: Clause) -> bool:
    """`lay it on the bench`: nothing holds it any more."""
    text = f"{clause.text} "
    return any(f" {place}" in text for place in _PLACES)


_PLACES = phrased(
    "on the table|on the bench|on the mat|on the tray|on the cloth|on the side|on the counter|on the desk|"
    "on a saucer|on a cloth|on a towel|to one side|in the tray|in a tray|in the dish|in a dish|on the magnet"
)


_WIRED = re.compile(
    r"\b(?:wires?|cables?|leads?|flex|ribbon|tubes?|hoses?) (?:is |are )?still in\b|"
    r"\bstill (?:on|attached|connected|wired|plugged|hanging)\b"
)


def move(mind: Mind, clause: Clause, row: Doing, particle: str, refs: Things) -> Act | None:
    """Parts out of their places, still there; connectors opened by their latch."""
    if row.base not in among("open lay bend swing fold hinge tuck tilt set move drop straighten lower flop push"):
        return None
    if row.base == "bend" and "base" not in row.forms and "third" in row.forms:
        return None
    before = [item.text for item in clause.items]
    if row.base == "lay" and any(
        word in among("beneath underneath under below inside behind there") for word in before[:3]
    ):
        return None  # `beneath lay two covers`
    things = [ref for ref in refs if isinstance(ref, Named) and not ref.gone]
    links = [ref for ref in things if ref.kind == "connector"]
    parts = [ref for ref in things if ref.kind == "part"]
    if links and row.base == "open":
        return _enter(mind, clause, row, Act("unplug", "Unlatch", mind.quote(clause), list(links)))
    if not parts:
        return mind.last if row.base in ("set", "lay") and refs else None
    last = mind.last
    if last is not None and last.do == "move" and last.things == parts and clause.start - last.start < 12:
        return last
    if row.base not in ("bend", "straighten"):
        sets.implied(mind, clause, parts[0])
    wired = _WIRED.search(clause.text) is not None
    aside = not wired and (row.base == "set" or (row.base == "lay" and _laid_off(clause)))
    words = "Remove" if aside else row.note or f"{row.base} {particle}".strip().capitalize()
    act = Act("remove" if aside else "move", words, mind.quote(clause), list(parts))
    for part in parts:
        part.shown = True
        part.gone = part.gone or aside
    mind.part = parts[-1]
    dress(mind, act, clause)
    mind.add(act)
    return act
