"""What is wiped, scraped, rinsed or blown clean -> actions that clean."""

from __future__ import annotations

from guidec.draft.clauses import Clause
from guidec.draft.hands import dress
from guidec.draft.kinds import kind_of
from guidec.draft.mind import Mind
from guidec.draft.refer import NOT_PARTS, part_of
from guidec.draft.story import Act, Named, Screws, Things
from guidec.draft.wordset import among

__all__ = ["cleaned"]


def cleaned(mind: Mind, clause: Clause, verb: str) -> Act | None:
    """What is cleaned, as an action with this verb: the things that are named, else the plain words for them."""
    things: list[Named | Screws] = []
    plain = ""
    for at, item in enumerate(clause.items):
        before = clause.items[at - 1].text if at else ""
        if before in ("with", "using", "in"):
            continue
        kind = kind_of(mind, clause, at) if item.kind in ("thing", "noun") else ""
        if kind == "part":
            things.append(part_of(mind, item))
        elif kind == "thermal":
            things.append(mind.names.thing("thermal", item))
        elif kind == "adhesive":
            things.append(mind.names.thing("adhesive", item))
        elif (
            kind == "noun"
            and item.head not in NOT_PARTS
            and item.det not in among("a an my no")
            and before != "for"
        ):
            plain = plain or " ".join(item.words)
    if (
        not things
        and not plain
        and (
            (
                any(item.text in among("it that them those") for item in clause.items)
                or not any(
                    item.kind in ("thing", "noun") and kind_of(mind, clause, at) not in ("tool", "supply")
                    for at, item in enumerate(clause.items)
                )
            )
            and mind.part is not None
        )
    ):
        things = [mind.part]
    things, plain = _freed(mind, clause, things, plain)
    if not things and not plain:
        return None
    act = Act("treat", verb, mind.quote(clause), things, plain=plain)
    dress(mind, act, clause)
    last = mind.last
    if last is not None and last.do == "treat" and clause.start - last.start < 8 and (last.things == things):
        last.quote = last.quote.to(act.quote)
        last.tools += [tool for tool in act.tools if tool not in last.tools]
        last.supplies += [one for one in act.supplies if one not in last.supplies]
        return last
    mind.add(act)
    return act


def _freed(mind: Mind, clause: Clause, things: Things, plain: str) -> tuple[Things, str]:
    """`clean the old glue off the frame`: what is cleaned is the frame, also where it stands in a clause apart."""
    after = mind.after
    glue = [thing for thing in things if isinstance(thing, Named) and thing.kind in ("adhesive", "thermal")]
    if not glue or after is None or clause.items[-1].text not in ("off", "from"):
        return things, plain
    item = after.items[0]
    if item.kind not in ("thing", "noun") or item.det not in among("the this that its") or after.verb is not None:
        return things, plain
    kind = kind_of(mind, after, 0)
    if kind == "part":
        return [part_of(mind, item)], ""
    return ([], item.text) if kind == "noun" else (things, plain)
