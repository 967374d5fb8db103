"""A name where it stands -> the thing or things that it means as the object of a verb."""

from __future__ import annotations

import re

from guidec.draft import sets
from guidec.draft.clauses import Clause
from guidec.draft.item import Item
from guidec.draft.joints import LATCHES, comes_whole, connector, connector_of, is_soldered
from guidec.draft.kinds import is_itself, kind_of
from guidec.draft.mind import Mind, recent
from guidec.draft.pronouns import meant
from guidec.draft.reading import CABLES, EASING, OPENING, STRONG, particles_of
from guidec.draft.story import Named, Things
from guidec.draft.told import mention
from guidec.draft.verbs import Doing
from guidec.draft.wordset import among, phrased

__all__ = ["NOT_PARTS", "counted", "part_of", "placed", "things_of"]


NOT_PARTS = among(
    "time look moment minute second bit thing way step video photo picture link "
    "note break chance deep breath care job go turn word point place look-see "
    "lunch nap end start side edge corner top bottom middle inside outside wall "
    "bath table bench desk floor fridge lid-off hand finger thumb nail world day "
    "week hour year kid name idea guess reason problem fault question answer "
    "comment description bell subscribe channel code offer deal quarter rest lot "
    "pile trick sound noise dust hair dirt sand gunk crud line direction angle "
    "mess state score measurement reading quote message page box bag pattern "
    "colour color order position location power electricity voltage current "
    "pressure tension slack load clockwise anticlockwise half length width thumb "
    "tray cloth towel seal-off hole slot gap seam recess groove notch surface area "
    "space room spot recording knuckle eye eyebrow skin knee lap elbow palm mouth nose-bleed tongue lip neighbour "
    "neighbor customer owner friend chair saucer plate-full pot-holder drawer-full curtain carpet window sink van "
    "kitchen garage shed workshop bath-tub shoebox sofa money trouble mind breath while bean"
)


def counted(mind: Mind, item: Item) -> Things:
    """`undo all eight`, `take these four out`, `slide all six off`: what was told with that count."""
    number = int(item.number or 0)
    waiting = sets.pending(mind, item.start, 120)
    if rows := [row for row in waiting if row.count == number]:
        return [rows[-1]]
    if waiting and sum(row.count or 0 for row in waiting) == number:
        return list(waiting)
    kinds = among("clip connector part adhesive fastening")
    named = [
        row
        for row in mind.story.named
        if row.count == number and row.kind in kinds and recent(row, item.start, 60)
    ]
    return [named[-1]] if named else []


def things_of(mind: Mind, clause: Clause, at: int, row: Doing) -> Things:
    """The thing that an item is as the object of a verb."""
    item = clause.items[at]
    kind = kind_of(mind, clause, at, row.base)
    head = item.head.split()[-1] if item.head else ""
    if kind in ("noun", "clip") and row.base in ("desolder", "unsolder"):
        return [mind.names.thing("solder", item)]
    if kind == "screw":
        return _sets(mind, clause, at)
    if kind == "noun":
        return _unknown(mind, clause, item, row)
    if kind == "" and item.is_a("device") and item.text in ("thing", "unit", "lot"):
        return meant(mind, clause, "it", row, None)
    if head in LATCHES and not (item.plural and kind == "clip") and row.base not in ("remove", "take", "unscrew"):
        return []
    cable = head in CABLES and kind in ("part", "connector")
    if row.base == "do" and not (cable or kind == "connector"):
        return []
    if row.base == "squeeze" and kind not in ("clip", "fastening"):
        return []
    if cable:
        return [_cable(mind, clause, item, row)]
    if kind == "part":
        return _parts(mind, clause, item, row)
    if kind == "connector":
        return [connector(mind, clause, item)]
    if kind in among("clip adhesive fastening solder thermal"):
        return [mind.names.thing(kind, item, name=placed(mind, clause, item, kind))]
    return []


def _sets(mind: Mind, clause: Clause, at: int) -> Things:
    """The set that is named; `the screws` are all that are still in."""
    item = clause.items[at]
    found = mention(mind, clause, at)
    if found is None:
        return []
    every = item.det in among("the those these all") and item.count is None and item.plural and not item.drive
    others = [one for one in sets.pending(mind, item.start, 45) if one is not found] if every else []
    return [*others, found]


def _unknown(mind: Mind, clause: Clause, item: Item, row: Doing) -> Things:
    """A name that no lexicon has: a part, if the verb is plain enough and the name is none of common things."""
    weak = row.family == "undo" and not (row.base in STRONG or particles_of(clause, clause.verb or 0))
    if weak or item.head in LATCHES or item.head in NOT_PARTS or item.det == "no" or "way" in item.words:
        return []
    if item.det in among("my his her our") and row.family != "move":
        return []
    things = among("ring spring bearing housing bushing casing fitting coating lining string wing")
    if item.head.endswith(("ing", "ness", "tion")) and item.head not in things:
        return []
    if row.base in among("get come go pick") and item.det not in ("the", "this", "that"):
        return []
    thing = mind.names.thing("part", item)
    thing.cls = thing.cls or "other"
    thing.certain = False
    return [thing]


def _cable(mind: Mind, clause: Clause, item: Item, row: Doing) -> Named:
    """A cable: opened, desoldered, laid aside, or taken out whole."""
    eased = row.base in EASING or row.base in ("remove", "cut")
    if row.base in among("desolder unsolder cut snip melt") or (eased and is_soldered(mind, item)):
        return mind.names.thing("solder", item)
    if row.family == "move":
        return part_of(mind, item, "cable")
    eases = row.base in EASING
    if row.base in OPENING or (eases and not comes_whole(clause, item, row)) or _off_its_board(clause, item, row):
        return connector(mind, clause, item)
    return part_of(mind, item, "cable")


def _off_its_board(clause: Clause, item: Item, row: Doing) -> bool:
    """`take the fan cable off the board`, `remove the ribbon from its socket`: only its end comes off."""
    return (
        row.base in ("take", "remove", "free", "get") and bool(_FROM.search(clause.text)) and item.fresh != "old"
    )


_FROM = re.compile(
    r"\b(?:off|from|out of) (?:of )?(?:the|its|their|his) (?:\w+ )?"
    r"(?:board|sockets?|headers?|terminals?|motherboard|pcb)\b"
)


def _parts(mind: Mind, clause: Clause, item: Item, row: Doing) -> Things:
    """A part; to unplug it is to open its connector, to release a lever takes nothing off."""
    if row.base in ("unplug", "disconnect", "unseat"):
        return [connector_of(mind, clause, item)]
    if item.head == "lever" and row.base in among("unclip unlatch release unhook"):
        return []
    return [part_of(mind, item)]


def part_of(mind: Mind, item: Item, cls: str = "") -> Named:
    """The part that an item names; its class is set where it had none."""
    found = mind.names.thing("part", item)
    if cls and not found.cls:
        found.cls = cls
    return found


def placed(mind: Mind, clause: Clause, item: Item, kind: str) -> str:
    """The name of glue, tape or clips, with the part they hold where the words give none: `battery tape`."""
    if kind not in among("adhesive clip fastening solder"):
        return item.text
    known = mind.names.find(kind, item.text, item.start)
    if known is not None and not known.gone and item.det in ("the", "that", "this", "all", "those", "these", ""):
        return known.name
    bare = phrased(
        "adhesive|glue|tape|double sided tape|adhesive strip|sticky tape|hot glue|clip|tab|plastic clip|catch"
    )
    owner = _held(mind, clause, item) if kind in ("adhesive", "clip") and item.text in bare else ""
    return f"{owner} {item.text}" if owner else item.text


def _held(mind: Mind, clause: Clause, item: Item) -> str:
    """The part that glue or clips hold: the subject of the clause, else the part in focus."""
    for one in clause.items[: clause.items.index(item)]:
        if one.is_a("part") and not is_itself(mind, one) and not one.is_a("tool") and not one.stop:
            return one.text
    part = recent(mind.part, item.start, 30)
    return part.name if part else ""
