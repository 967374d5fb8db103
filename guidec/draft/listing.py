"""Connectors told one after another ("I pull the plugs one at a time: red is the speaker, …") ->
each is opened, though the verb is said once; and what a plug told without a name belongs to.
"""

from __future__ import annotations

from guidec.draft.acts import undo
from guidec.draft.clauses import Clause
from guidec.draft.item import Item
from guidec.draft.joints import connector, connector_of
from guidec.draft.kinds import is_itself
from guidec.draft.mind import Mind, recent
from guidec.draft.reading import BE, CABLES, OPENING, barred_from, read_verb
from guidec.draft.story import Act, Named, Things
from guidec.draft.verbs import Doing, doings
from guidec.draft.wordset import among

__all__ = ["belongs", "first_of_all", "listed", "opens_list"]

SPAN = 12.0
"""Seconds for which a list goes on after what was named in it last."""
_UNPLUG = Doing("unplug", "", "undo", "Unplug", frozenset({"base"}))
_MANY = among("others following these those them everything all each rest ones both several few few")
_POINTS = among("that's is for goes to this's it's feeds runs from")


def opens_list(mind: Mind, clause: Clause, told: Act | None) -> None:
    """Note that several connectors are opened by one verb: those that are named next are opened too."""
    verb = clause.verb
    if verb is None:
        return
    mind.bare = False
    if barred_from(clause):
        return
    reading = read_verb(clause, verb)
    base = reading[0].base if reading is not None else ""
    words = [item.text for item in clause.items]
    unplugs = base in OPENING or (told is not None and told.do == "unplug")
    plural = any(word in _MANY for word in words) or any(
        item.is_a("connector") and item.plural for item in clause.items
    )
    if _others(clause):
        mind.listing, mind.bare = clause.items[-1].start, True
    elif unplugs and plural:
        mind.listing = clause.items[-1].start
        mind.links = any(item.is_a("connector") and item.plural for item in clause.items) or (
            isinstance(mind.many, Named)
            and mind.many.kind == "connector"
            and told is not None
            and mind.many in told.things
        )


def listed(mind: Mind, clause: Clause) -> Act | None:
    """The connectors that a clause of a list names, opened."""
    start = clause.items[0].start
    last = mind.last
    if mind.listing is None or (
        last is not None and last.do in ("remove", "undo") and not last.implied and last.start > mind.listing + 8
    ):
        return None  # no list, or the work has long gone on
    others = _others(clause)
    if not others and (mind.listing is None or start - mind.listing > SPAN):
        return None
    undone = any(
        row.family in ("undo", "move") for item in clause.items if item.kind == "verb" for row in doings(item.text)
    )
    if barred_from(clause) or (undone and not others):
        return None
    refs = [
        ref
        for at in range(others, len(clause.items))
        if (ref := _link(mind, clause, at, others=bool(others))) is not None
    ]
    refs = list(dict.fromkeys(ref for ref in refs if not ref.gone))
    if not refs:
        return None
    mind.listing = clause.items[-1].start
    things: Things = list(refs)
    return undo(mind, clause, clause.items[0], _UNPLUG, "", things)


def _others(clause: Clause) -> int:
    """`four others were opened in the same manner: the display, the side keys …`: where the names begin, 0 where
    this is not said."""
    verb, items = clause.verb, clause.items
    if verb is None or not any(item.text in ("others", "following", "rest") for item in items[:verb]):
        return 0
    reading = read_verb(clause, verb)
    opened = reading is not None and (reading[0].base in OPENING or reading[0].base in ("open", "pull", "part"))
    return verb + 1 if opened and any(item.text in BE for item in items[:verb]) else 0


def _link(mind: Mind, clause: Clause, at: int, *, others: bool) -> Named | None:
    """The connector that an item of a list means: itself, or that of the part it is for."""
    item = clause.items[at]
    before = clause.items[at - 1].text if at else ""
    if item.kind == "noun" and mind.links and before in _POINTS and item.det in ("the", "his", "her", "its"):
        return mind.names.thing("connector", item, name=f"{item.text} plug")
    if item.kind != "thing" or item.det == "no" or (is_itself(mind, item) and not item.is_a("part")):
        return None
    head = item.head.split()[-1] if item.head else ""
    if item.is_a("connector") or (head in CABLES and item.is_a("part")):
        return connector(mind, clause, item) if before not in ("with", "by", "never") else None
    if not item.is_a("part") or item.is_a("tool"):
        return None
    pointed = mind.links and before in _POINTS
    found = connector_of(mind, clause, item) if pointed or others or (mind.bare and clause.verb is None) else None
    if found is not None and isinstance(mind.many, Named) and item.start - mind.many.heard < 15:
        found.type = found.type or mind.many.type
    return found


def first_of_all(mind: Mind, clause: Clause) -> Act | None:
    """`battery plug first`: the connector is opened, with no verb."""
    items = clause.items
    if clause.verb is not None or items[-1].text != "first" or len(items) > 4 or barred_from(clause):
        return None
    item = next((item for item in items if item.is_a("connector")), None)
    if item is None or items[0].text in ("before", "but", "not"):
        return None
    return undo(mind, clause, item, _UNPLUG, "", [connector(mind, clause, item)])


_PLAIN = among(
    "plug connector cable lead wire ribbon flex white black red blue yellow green grey gray brown big little"
)


def belongs(mind: Mind, clause: Clause) -> None:
    """`this red plug … that goes to the speaker`: the plug told just before is the speaker's."""
    link = recent(mind.link, clause.start, 8)
    lead = clause.items[0].text
    if link is None or lead not in among("that which it this that's it's they'll") or clause.start <= link.heard:
        return
    if not all(
        word in _PLAIN or word.isdigit() or word in among("two three four five six pin wire")
        for word in link.name.split()
    ):
        return
    owner = _owner(clause)
    if owner is not None:
        last = link.name.split()[-1]
        link.name = f"{owner.text} {last}"


def _owner(clause: Clause) -> Item | None:
    items = clause.items
    told = (
        any(item.text in among("goes to for from feeds runs") for item in items[:4]) or items[0].text == "that's"
    )
    things: list[Item] = [item for item in items if item.is_a("part") and not item.is_a("tool", "connector")]
    return things[0] if told and things else None
