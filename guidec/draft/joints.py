"""Names of cables, plugs and what they belong to -> the connectors that are opened, the joints that are cut."""

from __future__ import annotations

from guidec.draft.clauses import Clause
from guidec.draft.item import Item
from guidec.draft.kinds import is_itself
from guidec.draft.mind import Mind
from guidec.draft.reading import CABLES
from guidec.draft.story import Named
from guidec.draft.verbs import Doing
from guidec.draft.wordset import among, phrased

__all__ = ["LATCHES", "comes_whole", "connector", "opened", "set_type", "soldered"]


LATCHES = among("latch bar lock flap gate zip tab hasp")


def comes_whole(clause: Clause, item: Item, row: Doing) -> bool:
    """Whether a cable comes out whole rather than out of its socket: `pull the old cable out through the yoke`."""
    text = clause.text
    if (
        any(word in text for word in phrased("through|out of the way|entirely|whole|completely|whole cable"))
        or item.fresh == "old"
    ):
        return True
    if row.base in ("take", "lift", "peel") and "flex" not in item.text and "straight" not in text:
        return row.base in ("take", "peel")
    return row.base == "take"


_PLAIN_CONNECTOR = frozenset(
    [
        "black",
        "blue",
        "board",
        "connector",
        "fit",
        "flat",
        "flip",
        "four",
        "header",
        "jst",
        "little",
        "lock",
        "on",
        "own",
        "pin",
        "plug",
        "press",
        "press-fit",
        "pull",
        "push",
        "red",
        "single",
        "slide",
        "snap",
        "socket",
        "spade",
        "terminal",
        "three",
        "to",
        "two",
        "white",
        "wire",
        "zero",
        "zif",
    ]
)


_BARE = among("connector plug zif jst terminal ffc fpc press_connector header coax")


def connector(mind: Mind, clause: Clause, item: Item, of: str = "") -> Named:
    """The connector that an item is, named after what it belongs to where the words give no better name."""
    name = item.text
    names = mind.names
    if of:
        known = names.find("part", of, item.start)
        base = known.name if known and of in known.name else of
        recent = mind.link
        if recent is not None and not recent.gone and of in recent.name and item.start - recent.heard < 20:
            return recent
        name = f"{base} connector"
        existing = [
            row for row in mind.story.named if row.kind == "connector" and of in row.name.split() and not row.gone
        ]
        if existing:
            return existing[-1]
        found = names.thing("connector", item, name=name)
    else:
        head = name.split()
        plain_name = all(word in _PLAIN_CONNECTOR for word in head)
        pointed = item.det in ("a", "an") or (plain_name and item.det in ("the", "this", "that", ""))
        if (
            pointed
            and clause.items[0].text in among("it's that's this they're these it so")
            and mind.link is not None
            and item.start - mind.link.heard < 12
            and (clause.items[0].text != "so" or "that's" in clause.text)
        ):
            set_type(mind, clause, mind.link, item)
            return mind.link
        plain = all(
            word in _PLAIN_CONNECTOR or word in among("connector plug socket cable ffc fpc terminal coax header")
            for word in head
        )
        known = names.find(
            "connector", name, item.start, definite=item.det not in ("a", "an", "another") and not item.more
        )
        cord = next(
            (
                thing
                for thing in reversed(mind.group)
                if thing.kind == "part" and thing.name.split()[-1] in CABLES and item.start - thing.heard < 15
            ),
            None,
        )
        if known is not None and known.gone and item.count is not None and item.count != known.count:
            known = None
        if (
            known is not None
            and known.gone
            and plain
            and (owner := _owner(mind, clause, item))
            and owner not in known.name
        ):
            known = None
        bare = names.find("part", name, item.start) if known is None and name in CABLES else None
        if bare is not None and item.start - bare.heard < 40:
            found = opened(mind, bare)
        elif known is not None:
            found = names.thing("connector", item, name=known.name)
        elif (
            plain
            and cord is not None
            and not any(
                one.is_a("part") and one is not item
                for one in clause.items[: clause.items.index(item)]
                if one in clause.items
            )
        ):
            found = opened(mind, cord)
        elif plain and (owner := _owner(mind, clause, item)) and owner.split()[-1] in CABLES:
            found = opened(
                mind, mind.names.find("part", owner, item.start) or names.thing("connector", item, name=owner)
            )
        elif plain and (owner := _owner(mind, clause, item)):
            last = "plug" if "plug" in head else "cable" if "cable" in head else "connector"
            found = names.thing("connector", item, name=f"{owner} {last}")
        else:
            cable = next(
                (
                    row
                    for row in mind.story.named
                    if row.kind == "connector" and row.name.split()[0] == head[0] and not row.gone and row.implied
                ),
                None,
            )
            found = cable or names.thing("connector", item)
    set_type(mind, clause, found, item)
    if not found.type and item.start - mind.latched < 8:
        found.type = "flip-lock"
    mind.link = found
    return found


def _owner(mind: Mind, clause: Clause, item: Item) -> str:
    """What a nameless connector belongs to: `the plug on the pump`; the part in the clause before it (`the camera
    unclips its …`, `the motor's plug`); else the part in focus."""
    for at, one in enumerate(clause.items):
        if at and one is not item and one.first > item.last and one.is_a("part") and not one.is_a("tool"):
            if clause.items[at - 1].text in among("for to of from on in at"):
                return one.text
    for one in clause.items:
        if one is item:
            break
        if one.is_a("part") and not is_itself(mind, one) and not one.is_a("tool"):
            return one.text
    for at, one in enumerate(clause.items):
        if one is not item and one.is_a("part") and at and clause.items[at - 1].text in among("for to of from"):
            return one.text
    if "battery" in clause.text or (mind.part is not None and mind.part.cls == "battery"):
        return "battery"
    if mind.part is not None and item.start - mind.part.heard < 25:
        return mind.part.name
    return ""


def set_type(mind: Mind, clause: Clause, found: Named, item: Item) -> None:
    if found.type:
        return
    text = f" {' '.join(item.words)} {clause.text} "
    for name, phrases in mind.words.types.items():
        for phrase in phrases:
            said = " ".join(phrase)
            if f" {said} " in text or f" {said}s " in text:
                if (
                    said in phrased("latch|slider|flap|plug|locking bar")
                    and said == "plug"
                    and name == "plug"
                    and "plug" not in found.name
                    and "plug" not in item.words
                ):
                    continue
                found.type = name
                return


def opened(mind: Mind, thing: Named) -> Named:
    """The connector of a part or cable that gets unplugged."""
    if thing.kind == "connector":
        return thing
    cable = thing.name.split()[-1] in CABLES
    if cable:
        thing.gone = True
    if not thing.type and thing.heard - mind.latched < 12 and mind.latched - thing.heard < 12:
        thing.type = "flip-lock"
    name = thing.name if cable else f"{thing.name} connector"
    found = mind.names.find("connector", name, thing.heard)
    if found is None:
        found = Named(
            "connector",
            name,
            thing.quote,
            type=thing.type,
            heard=thing.heard,
            plural=thing.plural,
            count=thing.count,
            head=thing.head,
        )
        mind.story.named.append(found)
    if cable and thing in mind.story.named and not thing.shown:
        mind.story.named.remove(thing)
    return found


def soldered(mind: Mind, cord: Named) -> Named:
    """The solder joints of a wire."""
    found = mind.names.find("solder", cord.name, cord.heard)
    if found is None:
        found = Named("solder", cord.name, cord.quote, heard=cord.heard, count=cord.count, plural=cord.plural)
        mind.story.named.append(found)
    if cord in mind.story.named and not cord.shown:
        mind.story.named.remove(cord)
    return found
