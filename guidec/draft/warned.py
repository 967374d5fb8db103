"""Clauses that warn -> risks (of damage to a thing) and hazards (of harm to a person), with the words around."""

from __future__ import annotations

from collections.abc import Sequence

from guidec.draft.caution import harms_person, harms_thing, signal_of
from guidec.draft.clauses import Clause
from guidec.draft.mind import Mind
from guidec.draft.story import Aside, Named, Screws
from guidec.draft.wordset import among

__all__ = ["warn"]

SHORT = 4
"""Words below which a warning is told with what stands beside it."""
LONG = 30
"""Words that a warning has at most before another clause is added."""
PAUSE = 6.0
"""Seconds between two clauses that are one warning at most."""


def warn(mind: Mind, clause: Clause) -> None:
    """Enter what a clause warns of."""
    if harms_person(clause.text):
        _enter(mind, mind.story.hazards)
    elif harms_thing(clause.text):
        _enter(mind, mind.story.remarks)


def _enter(mind: Mind, row: list[Aside]) -> None:
    """A warning with its neighbours; one that goes on from the last is a part of it."""
    first, last = _stretch(mind)
    told = mind.told[first : last + 1]
    quote = mind.quote(told[0]).to(mind.quote(told[-1]))
    before = row[-1] if row else None
    if before is not None and quote.first <= before.quote.last + 1 and _fits(before, told):
        fresh = [one.text for one in told if one.items[0].first > before.quote.last]
        before.text = " ".join([before.text, *fresh])
        before.quote = before.quote.to(quote)
        before.thing = before.thing or _about(mind, told)
        before.signal = signal_of(before.text)
        return
    if before is not None and quote.first <= before.quote.last:
        told = [one for one in told if one.items[0].first > before.quote.last]
        if not told:
            return
        quote = mind.quote(told[0]).to(mind.quote(told[-1]))
    text = " ".join(one.text for one in told)
    row.append(Aside(quote, text, _about(mind, told), signal_of(text)))


def _fits(before: Aside, told: Sequence[Clause]) -> bool:
    """Whether one warning takes another in: they overlap, and are not long, and no sentence ends between them."""
    overlaps = told[0].items[0].first <= before.quote.last
    length = len(before.text.split()) + sum(len(one.text.split()) for one in told)
    return length <= 2 * LONG and (overlaps or (not told[0].fresh and length <= LONG))


def _stretch(mind: Mind) -> tuple[int, int]:
    """From which to which clause a warning goes: back while it hangs on what was said, and on."""
    told, at = mind.told, mind.at
    first = last = at
    harm = harms_person(told[at].text) is not None
    while (
        not mind.refitting
        and first > 0
        and _hangs_on(told[first - 1], told[first])
        and _words(told, first - 1, last) <= LONG
    ):
        if not harm and harms_person(told[first - 1].text):
            break
        first -= 1
    while last + 1 < len(told) and _led_on(told[last], told[last + 1], alone=first == last):
        if _words(told, first, last + 1) > 2 * LONG:
            break
        last += 1
    return first, last


def _words(told: Sequence[Clause], first: int, last: int) -> int:
    return sum(len(one.text.split()) for one in told[first : last + 1])


_BACK = among("or otherwise else because cause cos so and you'll it'll they'll that'll they it which that you if")
_TURN = among("or otherwise else because cause cos")


def _hangs_on(before: Clause, clause: Clause) -> bool:
    """Whether a warning needs the clause before it: `or it snaps`, `because they chip`, `it'll tear`."""
    if clause.start - before.start > PAUSE or _turns(before):
        return False
    start = clause.items[0].text
    if clause.fresh:
        return start in among("or otherwise else because") or len(clause.text.split()) < SHORT - 1
    return start in _BACK or clause.lead in _BACK or len(clause.text.split()) < SHORT


def _led_on(clause: Clause, after: Clause, *, alone: bool) -> bool:
    """Whether what follows belongs to a warning: a reason, what happens else, what a condition brings."""
    if after.start - clause.start > PAUSE or _turns(after):
        return False
    start = after.items[0].text
    if start in _TURN or after.lead in _TURN:
        return True
    if after.fresh:
        return False
    if clause.lead == "if" or len(clause.text.split()) < SHORT or clause.text.endswith((" the", " a", " that")):
        return True
    tied = start in among("it'll they'll you'll that'll it's they're until till before when if with than from by")
    return tied or (alone and start in among("it they that you") and harms_thing(after.text) is not None)


def _turns(clause: Clause) -> bool:
    """Whether a clause turns to something new."""
    return clause.items[0].text in among("okay ok alright right next anyway now")


def _about(mind: Mind, told: Sequence[Clause]) -> Named | Screws | None:
    """What a warning is about: a known thing named in it, else the thing in focus."""
    for clause in told:
        for item in clause.items:
            kinds = [kind for kind in ("part", "connector", "clip", "adhesive", "fastening") if item.is_a(kind)]
            found = next(
                (thing for kind in kinds if (thing := mind.names.find(kind, item.text, item.start))), None
            )
            if found is not None:
                return found
            if item.is_a("screw") and mind.story.screws:
                return mind.story.screws[-1]
    plural = any(item.text in among("them they they're these those") for clause in told for item in clause.items)
    if mind.many is not None and plural:
        return mind.many
    return None
