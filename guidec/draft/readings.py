"""Readings of a meter or a rule, said with or without their unit -> the measurement that they belong to."""

from __future__ import annotations

import re

from guidec.draft.clauses import Clause
from guidec.draft.hands import dress
from guidec.draft.item import Amount, Item
from guidec.draft.mind import Mind
from guidec.draft.story import Act, Named, Screws
from guidec.draft.wordset import among, phrased

__all__ = ["bare_reading", "checking", "is_reading", "measured", "metered"]

SPAN = 22.0
"""Seconds for which a number without a unit is another reading."""

_METER = phrased(
    "measur|meter|reads|read |across|should be|wants to be|under|less than|below|says|i'm getting|i got|i get|"
    "showing|supposed to|ought to|expect|draws|drew|takes|should give|should say|should show"
)
_SAYS = re.compile(
    r"\b(?:say|says|said|read|reads|reading|measures?|measured|gives|shows?|showing|getting|got|get|seeing|"
    r"mine(?:'s| is)?|it's|it is|that's|this one's|this one is|comes to|down to|should be|ought to be|"
    r"on the other|below|under|above)\b"
)


def metered(clause: Clause) -> bool:
    """Whether the words speak of a meter or of what it should show."""
    return any(word in clause.text for word in _METER)


def checking(mind: Mind, clause: Clause, told: Act | None, span: float) -> bool:
    """Whether something is being measured: here, or a moment ago."""
    last = mind.last
    return (told is not None and told.do == "check") or (
        last is not None and last.do == "check" and clause.start - last.quote.start < span
    )


def is_reading(mind: Mind, clause: Clause, amount: Amount, told: Act | None) -> bool:
    """Whether a value is one that a meter or a rule shows; not the rating of a part."""
    if amount.unit == "kohm":
        rated = any(item.value == amount for item in clause.items)
        return not rated and (checking(mind, clause, told, SPAN) or metered(clause))
    if amount.unit == "mm":
        return (told is not None and told.do == "check") or (
            checking(mind, clause, told, 8) and ("should" in clause.text or "than" in clause.text)
        )
    if amount.unit == "uF" and any(item.amount is not None and item.amount.unit == "V" for item in clause.items):
        return False  # what is printed on a capacitor
    if amount.unit in ("uF", "A", "mA"):
        return checking(mind, clause, told, SPAN) or metered(clause) or "should" in clause.text
    return amount.unit in among("ohm Mohm")


def measured(mind: Mind, clause: Clause, amount: Amount) -> None:
    """The value, to the measurement that is on, else to one of its own."""
    last = mind.last
    if last is None or last.do != "check" or clause.start - last.start > SPAN + 8:
        things: list[Named | Screws] = [mind.part] if mind.part is not None else []
        last = Act("check", "Measure", mind.quote(clause), things)
        dress(mind, last, clause)
        mind.add(last)
    if not any(value == amount for value in last.measures):
        last.measures.append(amount)
        last.quote = last.quote.to(mind.quote(clause))
    if "across" in clause.text and not last.where:
        last.where = "across " + clause.text.split("across ", 1)[1].split(" with ")[0].split(" is ")[0]


def bare_reading(mind: Mind, clause: Clause) -> None:
    """`mine says seventy four`, `nine mil on this one, seven on the other`: readings without their unit."""
    last = mind.last
    for at, item in enumerate(clause.items):
        if not _counts_nothing(clause, at):
            continue
        if last is not None and last.do == "check" and last.measures and clause.start - last.quote.start < 40:
            kilo = _kilo(clause, at)
            if clause.start - _end(mind, last) < SPAN and (kilo or _like(clause, item, last.measures)):
                last.measures.append(Amount(item.number or 0.0, "kohm" if kilo else last.measures[-1].unit))
                last.quote = last.quote.to(mind.quote(clause))
        elif item.number != int(item.number or 0) and _cell_read(clause):
            measured(mind, clause, Amount(item.number or 0.0, "V"))


def _kilo(clause: Clause, at: int) -> bool:
    """`five k`: kilohms."""
    return at + 1 < len(clause.items) and clause.items[at + 1].text == "k"


def _end(mind: Mind, act: Act) -> float:
    return max(
        (one.items[0].start for one in mind.told if one.items[0].first <= act.quote.last), default=act.start
    )


def _counts_nothing(clause: Clause, at: int) -> bool:
    """Whether a number stands for itself: nothing follows that it counts, and it is no `this one`."""
    items, item = clause.items, clause.items[at]
    if item.kind != "num" or item.number is None:
        return False
    before = items[at - 1].text if at else ""
    if before in among("this that the number step of point out first second last other each no part page"):
        return False
    follow = items[at + 1] if at + 1 < len(items) and not item.stop else None
    plain = among("on at when so and good which but that's is here there for or to in with k yeah then now of as")
    return follow is None or (follow.kind == "word" and follow.text in plain and follow.text not in ("of", "to"))


def _like(clause: Clause, item: Item, told: list[Amount]) -> bool:
    """Whether a number is of the size of what was read, and the words read it out or nothing else is said."""
    number, last = item.number or 0.0, told[-1].low or 1.0
    near = 0.1 <= abs(number / last) <= 8 if last else True
    short = len(clause.items) <= 3
    return near and number != 1 and (short or _SAYS.search(clause.text) is not None or item.number != int(number))


def _cell_read(clause: Clause) -> bool:
    """`the cell reads 3.85`, `i read 2.41 at rest`: volts."""
    cell = any(item.is_a("part") and item.kinds.get("part") == "battery" for item in clause.items)
    meter = any(item.is_a("tool") and item.head.endswith("meter") for item in clause.items)
    reads = re.search(r"\b(?:reads?|reading|measures?|measured|sits? at|sat at)\b", clause.text) is not None
    return reads and (cell or meter or "at rest" in clause.text)
