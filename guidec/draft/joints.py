"""Names of cables, plugs and what they belong to -> the connectors that are opened, the joints that are cut."""

from __future__ import annotations

from guidec.draft.clauses import Clause
from guidec.draft.item import Item
from guidec.draft.kinds import is_itself
from guidec.draft.mind import Mind, recent
from guidec.draft.reading import CABLES
from guidec.draft.story import Named
from guidec.draft.verbs import Doing
from guidec.draft.wordset import among, phrased

__all__ = ["LATCHES", "comes_whole", "connector", "connector_of", "is_soldered", "opened", "set_type", "soldered"]


LATCHES = among("latch bar lock flap gate zip tab hasp bail locker lever")


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


def connector_of(mind: Mind, clause: Clause, item: Item) -> Named:
    """The connector of a part that is unplugged: one told lately with its name, else `PART connector`."""
    names, of = mind.names, item.text
    link = recent(mind.link, item.start, 20)
    if link is not None and of in link.name:
        return link
    told = [row for row in mind.story.named if row.kind == "connector" and of in row.name.split() and not row.gone]
    if told:
        return told[-1]
    known = names.find("part", of, item.start)
    base = known.name if known and of in known.name else of
    return _met(mind, clause, item, names.thing("connector", item, name=f"{base} connector"))


def connector(mind: Mind, clause: Clause, item: Item) -> Named:
    """The connector that an item is, named after what it belongs to where the words give no better name."""
    if (link := _told_again(mind, clause, item)) is not None:
        set_type(mind, clause, link, item)
        return link
    return _met(mind, clause, item, _known(mind, clause, item) or _called(mind, clause, item))


def _met(mind: Mind, clause: Clause, item: Item, found: Named) -> Named:
    """The connector, with its type, as the one told last."""
    set_type(mind, clause, found, item)
    if not found.type and item.start - mind.latched < 8:
        found.type = "flip-lock"
        mind.latched = -99.0
    mind.link = found
    return found


def _plain(item: Item) -> bool:
    """Whether the words name no owner: `the white connector`, `a press fit plug`."""
    return all(
        word in _PLAIN_CONNECTOR or word in among("cable ffc fpc coax header") for word in item.text.split()
    )


def _told_again(mind: Mind, clause: Clause, item: Item) -> Named | None:
    """`it's the white plug right here`: the connector told just before, in other words."""
    link, lead = mind.link, clause.items[0].text
    pointed = item.det in ("a", "an") or (
        item.det in ("the", "this", "that", "") and all(word in _PLAIN_CONNECTOR for word in item.text.split())
    )
    if not pointed or link is None or item.start - link.heard >= 12:
        return None
    again = lead in among("it's that's this they're these it") or (lead == "so" and "that's" in clause.text)
    return link if again else None


def _known(mind: Mind, clause: Clause, item: Item) -> Named | None:
    """The connector told before under this name, unless another must be meant."""
    fresh = item.det in ("a", "an", "another") or item.more
    known = mind.names.find("connector", item.text, item.start, definite=not fresh)
    if known is None:
        return _link_again(mind, item) or _cable_told(mind, item)
    if _is_another(mind, clause, item, known):
        return _cable_told(mind, item)
    return mind.names.thing("connector", item, name=known.name)


def _link_again(mind: Mind, item: Item) -> Named | None:
    """`the battery plug`, right behind the battery connector: the same."""
    link, owner = mind.link, item.text.split()[:-1]
    same = link is not None and bool(owner) and link.name.split()[:-1] == owner and item.start - link.heard < 12
    return link if same else None


def _cable_told(mind: Mind, item: Item) -> Named | None:
    """The connector of the cable told lately, where only its bare name is said."""
    cable = mind.names.find("part", item.text, item.start) if item.text in CABLES else None
    return opened(mind, cable) if cable is not None and item.start - cable.heard < 40 else None


def _is_another(mind: Mind, clause: Clause, item: Item, known: Named) -> bool:
    """Whether a nameless connector is another than the one told: that one is open, or the talk is of another
    part."""
    part = recent(mind.part, item.start, 10)
    if part is not None and part.heard > known.heard and item.det in ("that", "this") and _plain(item):
        return part.name not in known.name
    if not known.gone:
        return False
    owner = _owner(mind, clause, item) if _plain(item) else ""
    return (item.count is not None and item.count != known.count) or bool(owner and owner not in known.name)


def _called(mind: Mind, clause: Clause, item: Item) -> Named:
    """A connector not told before: named by its words, by the cable told before it, or by its owner."""
    names, items = mind.names, clause.items
    if not _plain(item):
        return names.thing("connector", item)
    cord = next(
        (one for one in reversed(mind.group) if one.kind == "part" and one.name.split()[-1] in CABLES), None
    )
    alone = not any(one.is_a("part") for one in items[: items.index(item)]) if item in items else True
    if cord is not None and item.start - cord.heard < 15 and alone:
        return opened(mind, cord)
    owner = _owner(mind, clause, item)
    if owner and owner.split()[-1] in CABLES:
        return opened(
            mind,
            names.find("part", owner, item.start) or names.thing("connector", item, name=owner),
        )
    head = item.text.split()
    last = "plug" if "plug" in head else "cable" if "cable" in head else "connector"
    plain = not owner or owner.split()[-1] in ("connector", "plug")
    return names.thing("connector", item, name=(owner or item.text) if plain else f"{owner} {last}")


def _owner(mind: Mind, clause: Clause, item: Item) -> str:
    """What a nameless connector belongs to: `the plug on the pump`; the part in the clause before it (`the camera
    unclips its …`, `the motor's plug`); else the part in focus."""
    for at, one in enumerate(clause.items):
        if (
            at
            and one is not item
            and one.first > item.last
            and (one.is_a("part") or (one.kind == "noun" and clause.items[at - 1].text in ("for", "of", "to")))
            and not one.is_a("tool")
            and clause.items[at - 1].text in among("for to of from on in at off")
        ):
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
    """Gives a connector the type that its words or its clause name; a type that is more than `plug` stays."""
    if found.type and found.type != "plug":
        return
    text = f" {' '.join(item.words)} {clause.text} "
    for name, phrases in mind.words.types.items():
        for phrase in phrases:
            said = " ".join(phrase)
            if f" {said} " in text or f" {said}s " in text:
                if said == "plug" and name == "plug" and "plug" not in found.name and "plug" not in item.words:
                    continue
                if name != "plug" or not found.type:
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
        mind.latched = -99.0
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
        mind.link = found
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


def is_soldered(mind: Mind, item: Item) -> bool:
    """Whether the talk of the last moments was of soldered wires and joints."""
    lately = [one.text for one in mind.told if 0 <= item.start - one.start < 15]
    return any(word in text.split() for text in lately for word in ("soldered", "joints", "iron", "solder"))
