"""What is done to what -> actions of the story: undone, opened, off, moved, with the tools at hand."""

from __future__ import annotations

from guidec.draft import sets
from guidec.draft.clauses import Clause
from guidec.draft.hands import dress
from guidec.draft.heat import SOLVENTS, soak
from guidec.draft.item import Item
from guidec.draft.joints import soldered
from guidec.draft.mind import Mind
from guidec.draft.reading import DIRECT, PARTICLES, STRONG, UNSURE
from guidec.draft.story import Act, Named, Screws
from guidec.draft.verbs import Doing
from guidec.draft.wordset import among, phrased

__all__ = ["move", "turn", "undo"]


def turn(mind: Mind, clause: Clause) -> Act | None:
    if any(item.is_a("screw") for item in clause.items):
        return None
    device = mind.story.device or "device"
    last = mind.last
    if last is not None and last.do == "turn" and clause.start - last.start < 4:
        return last
    act = Act("turn", "Turn over", mind.quote(clause), plain=f"the {device}")
    mind.add(act)
    return act


def undo(
    mind: Mind, clause: Clause, verb: Item, row: Doing, particle: str, refs: list[Named | Screws]
) -> Act | None:
    """Screws and other fastenings undone, connectors opened, parts off."""
    first = next(
        (
            n
            for n, item in enumerate(clause.items)
            if item.is_a("supply") and any(word in item.text for word in SOLVENTS)
        ),
        None,
    )
    if (
        first is not None
        and clause.items[first].first < verb.first
        and "with" not in [item.text for item in clause.items[:first]]
    ):
        return soak(mind, clause, first)
    if row.base in among("desolder unsolder cut snip"):
        refs = [
            soldered(mind, ref) if isinstance(ref, Named) and ref.kind == "part" and ref.cls == "cable" else ref
            for ref in refs
        ]
    rows = [ref for ref in refs if isinstance(ref, Screws)]
    things = [ref for ref in refs if isinstance(ref, Named)]
    told: Act | None = None
    if rows:
        told = sets.undo(mind, clause, rows, _verb_words(row, particle, "Undo")) or _again(mind)
    for kinds, do in (
        (("clip", "adhesive", "fastening", "solder", "thermal"), "undo"),
        (("connector",), "unplug"),
        (("part",), "remove"),
    ):
        some = [thing for thing in things if thing.kind in kinds]
        some = [
            thing
            for thing in some
            if not thing.gone or mind.trip is not None or (thing.plural and clause.start - thing.heard > 120)
        ]
        if not some:
            continue
        if do == "remove":
            if row.base in ("loosen", "slacken", "flip") and not particle:
                continue
            sets.implied(mind, clause, some[0])
            mind.part = some[-1] if some[-1].kind == "part" else mind.part
        if (
            do == "remove"
            and len(some) > 1
            and any(
                word in clause.text for word in phrased("as one|as a unit|in one piece|in one go|as an assembly")
            )
        ):
            some = some[:1]
        if do == "remove" and not particle and row.base in DIRECT and some[0].cls == "button":
            continue
        if do == "remove" and any(
            word in clause.text for word in phrased("still attached|still connected|still plugged|still wired")
        ):
            act = Act("move", "Lay aside", mind.quote(clause), list(some))
            mind.part = some[0]
            dress(mind, act, clause)
            mind.add(act)
            told = act
            continue
        default = {"undo": "Undo", "unplug": "Unplug", "remove": "Remove"}[do]
        act = Act(do, _verb_words(row, particle, default, do), mind.quote(clause), list(some))
        if mind.trip is None:
            for thing in some:
                thing.gone = True
        act.optional = any(item.text in UNSURE for item in clause.items) and row.base not in ("come",)
        dress(mind, act, clause)
        mind.add(act)
        told = act
    if told is None and things:
        told = _again(mind)
    if told is not None and rows:
        dress(mind, told, clause)
    return told


def _again(mind: Mind) -> Act | None:
    """Said once more: nothing new."""
    return mind.last


def _verb_words(row: Doing, particle: str, default: str, do: str = "undo") -> str:
    """A verb as a note says it."""
    if row.note:
        words = row.note
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


def move(
    mind: Mind, clause: Clause, verb: int, row: Doing, particle: str, refs: list[Named | Screws]
) -> Act | None:
    if row.base in ("bend", "spread", "hold") and "third" in row.forms and "base" not in row.forms:
        return None
    if row.base in among("open lay bend swing fold hinge tuck tilt set move drop straighten lower flop"):
        parts = [
            ref
            for ref in refs
            if isinstance(ref, Named) and ref.kind in ("part", "connector", "clip") and (not ref.gone)
        ]
        if row.base in ("set", "lay") and not parts:
            return _again(mind) if refs else None
        links = [ref for ref in parts if ref.kind == "connector"]
        if links and row.base == "open":
            act = Act("unplug", "Unlatch", mind.quote(clause), list(links))
            for link in links:
                link.gone = True
            dress(mind, act, clause)
            mind.add(act)
            return act
        parts = [ref for ref in parts if ref.kind == "part"]
        if not parts:
            return None
        if (
            mind.last is not None
            and mind.last.do == "move"
            and mind.last.things == parts
            and clause.start - mind.last.start < 12
        ):
            return mind.last
        if row.base in ("set",):
            sets.implied(mind, clause, parts[0])
            parts[0].gone = True
            act = Act("remove", "Remove", mind.quote(clause), list(parts))
        else:
            if row.base not in ("bend", "straighten"):
                sets.implied(mind, clause, parts[0])
            act = Act(
                "move", row.note or f"{row.base} {particle}".strip().capitalize(), mind.quote(clause), list(parts)
            )
        for part in parts:
            part.shown = True
        mind.part = parts[-1]
        dress(mind, act, clause)
        mind.add(act)
        return act
    return None
