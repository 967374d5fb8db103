"""Drivers, bits and sockets as they are named -> the drive of the set that they are for."""

from __future__ import annotations

from guidec.draft.clauses import Clause
from guidec.draft.item import Item
from guidec.draft.mind import Mind
from guidec.draft.story import Screws
from guidec.draft.wordset import among

__all__ = ["driven", "elliptic", "settled", "taken"]

BEFORE = 20.0
"""Seconds for which a driver taken up is taken to be for the next set that comes out."""
AFTER = 15.0
"""Seconds within which a driver is for the set told before it."""


_USED = among("with use using need needs get grab take want from")


def code_of(item: Item) -> str:
    """The drive that a tool turns: `T6`, `H5` for a 5 mm key, `NUT10` for a 10 mm socket; `` if none is said."""
    head = item.head.split()[-1] if item.head else ""
    size = f"{item.value.low:g}" if item.value is not None and item.value.unit == "mm" else ""
    if head in among("socket spanner wrench spinner") or item.head in ("nut driver", "socket wrench"):
        return "" if item.drive else f"NUT{size}"
    if head == "blade" and size:
        return f"SL{size}"
    if item.head in ("allen key", "hex key", "hex driver", "hex bit") or item.drive == "H":
        return f"H{size}"
    return item.drive


def fits(row: Screws, code: str) -> bool:
    """Whether a driver says more of a set's drive than is known."""
    return bool(code) and code != row.drive and code.startswith(row.drive)


def driven(mind: Mind, clause: Clause, item: Item) -> None:
    """A driver is named: for the set told just before, else for the next one that comes out."""
    code = code_of(item)
    words = [one.text for one in clause.items[: clause.items.index(item)]]
    if not code or (code == "NUT" and not any(word in words for word in _USED)):
        return
    row = mind.set
    if "all" in words or "both" in words:
        for told in mind.story.screws:
            if not told.drive and item.start - told.heard < 25:
                told.drive = code
    again = row is not None and row.gone and item.start - row.heard > 8
    if row is not None and not again and item.start - row.heard < AFTER:
        if fits(row, code) and not (code == "SL" and row.gone):
            row.drive = code
            return
        if row.drive == code:
            return
    mind.driver = (code, item.start)


def elliptic(mind: Mind, clause: Clause, at: int) -> bool:
    """`you need a long T20`, `grab your T5`: a driver, though nobody says the word; it is taken up."""
    item = clause.items[at]
    before = [one.text for one in clause.items[max(0, at - 4) : at]]
    asks = any(word in among("need needs using use with grab take takes want get switch swap") for word in before)
    article = any(word in among("a an my your the this") for word in before[-2:])
    counted = any(one.kind == "num" for one in clause.items[max(0, at - 1) : at])
    if item.text.startswith("NUT") or not (asks and article) or counted:
        return False
    named = mind.names.thing("tool", item, name=f"{item.text} driver")
    mind.hand.append((item.start, named))
    row = mind.set
    if row is not None and item.start - row.heard < BEFORE and fits(row, item.text):
        row.drive = item.text
    else:
        mind.driver = (item.text, item.start)
    return True


def settled(mind: Mind, clause: Clause) -> None:
    """`four cap screws, 5 mm hex key`: the driver named in one breath with a set."""
    row, driver, here = mind.set, mind.driver, clause.items[0].start
    if row is None or driver is None or row.quote.start < here or driver[1] < here:
        return
    if driver[0] != "SL" and fits(row, driver[0]):
        row.drive = driver[0]
        mind.driver = None


def taken(mind: Mind, row: Screws, start: float) -> None:
    """A set that comes out without a drive said takes that of the driver taken up before it."""
    if mind.driver is None or row.gone or start - mind.driver[1] > BEFORE:
        return
    code, _ = mind.driver
    if fits(row, code) and code != "SL":
        row.drive = code
        mind.driver = None
