"""Words of care -> actions that clean, grease, discharge, test and measure."""

from __future__ import annotations

import re

from guidec.draft.clauses import Clause
from guidec.draft.cleaning import cleaned
from guidec.draft.hands import dress
from guidec.draft.heat import supplied
from guidec.draft.kinds import kind_of
from guidec.draft.mind import Mind
from guidec.draft.reading import barred_from
from guidec.draft.refer import part_of
from guidec.draft.story import Act, Things
from guidec.draft.verbs import Doing, doings
from guidec.draft.wordset import among

__all__ = ["GIVE", "discharged", "metered", "treat"]


def discharged(mind: Mind, clause: Clause) -> Act | None:
    """`hold it across both legs for ten seconds`, after a resistor was taken up: a discharge."""
    text = clause.text
    if (
        "across" not in text.split()
        or not any(word in text.split() for word in among("hold holding touch put place bridge lay"))
        or barred_from(clause)
    ):
        return None
    if not any(
        any(word in tool.name for word in among("resistor discharge insulated screwdriver lamp"))
        for _, tool in mind.hand
    ):
        return None
    full = next(
        (row for row in reversed(mind.story.named) if row.kind == "part" and "capacitor" in row.name), None
    )
    if full is None:
        return None
    act = Act("treat", "Discharge", mind.quote(clause), [full])
    dress(mind, act, clause)
    mind.add(act)
    return act


GIVE = re.compile(
    r"\bg[ia]ve (?:it|them|that|this|those|the \w+(?: \w+)?) (?:all )?a (?:\w+ )?"
    r"(?:clean|wipe|brush|dust|scrub|rinse|wash|blow|blast|puff|polish|hoover|vacuum)\b|"
    r"\b(?:go|goes|going|went|gone) over (?:it|them|that|this|those|the \w+(?: \w+)?) with\b"
    r".*\b(?:cleaner|brush|cloth|wipe|swab|alcohol|isopropyl|vacuum|cleaner|eraser|sponge|pen)\b"
)


def metered(mind: Mind, clause: Clause) -> Act | None:
    """`set your meter to ohms`, `put the probes on`: a check of what is in focus."""
    words = clause.text.split()
    if not any(
        item.is_a("tool") and item.head in among("meter multimeter tester voltmeter") for item in clause.items
    ) or barred_from(clause):
        return None
    if not any(
        word in words for word in among("set ohms volts continuity megohms resistance diode put grab get had says")
    ):
        return None
    things: Things = _probed(mind, clause)
    if not things and mind.part is not None:
        things = [mind.part]
    if not things:
        return None
    if any(doing.family == "check" for item in clause.items if item.kind == "verb" for doing in doings(item.text)):
        return None
    act = Act("check", "Measure", mind.quote(clause), things)
    dress(mind, act, clause)
    mind.add(act)
    return act


def _probed(mind: Mind, clause: Clause) -> Things:
    """What the meter is put on: `the meter on the motor`, `across the two pins`."""
    items = clause.items
    meter = next((at for at, item in enumerate(items) if item.is_a("tool")), len(items))
    places = among("on across to over between at")
    for at, item in enumerate(items):
        if at > meter and items[at - 1].text in places and kind_of(mind, clause, at) == "part":
            return [part_of(mind, item)]
    return []


_OTHER = among(
    "apply grease lubricate oil lube discharge drain short power switch shut dry cool bleed insulate turn"
)


def treat(mind: Mind, clause: Clause, verb: int, row: Doing, particle: str) -> Act | None:
    """Cleaning, greasing, discharging, testing, measuring."""
    items = clause.items
    if row.base in among("power switch shut turn cool insulate dry"):
        return None
    if row.base == "apply":
        return supplied(mind, clause, verb, row)
    if row.family == "treat" and row.base not in _OTHER:
        used = particle or any(item.is_a("supply", "tool") for item in items)
        return cleaned(mind, clause, "Clean") if row.base != "blow" or used else None
    things = _parts(mind, clause, verb)
    if row.family == "check":
        return _checked(mind, clause, verb, row, things)
    if not things and mind.part is not None and any(item.text in among("it them that they're") for item in items):
        things = [mind.part]
    return _entered(mind, clause, "treat", row.note or row.base.capitalize(), things) if things else None


def _parts(mind: Mind, clause: Clause, verb: int) -> Things:
    """The parts named in a clause, not those something is done with."""
    found: Things = []
    for at, item in enumerate(clause.items):
        used = at > 0 and clause.items[at - 1].text in ("with", "using")
        if item.kind == "thing" and at != verb and not used and kind_of(mind, clause, at) == "part":
            found.append(part_of(mind, item))
    return found


def _checked(mind: Mind, clause: Clause, verb: int, row: Doing, things: Things) -> Act | None:
    """A check or a measurement; `check it out` and `check that …` are none."""
    items = clause.items
    asks = items[verb + 1 : verb + 2] and items[verb + 1].text in among("if that whether for") and not things
    if row.base == "check" and (asks or (not row.particle and "out" in clause.text.split())):
        return None
    units = among("V mV ohm kohm Mohm A mm uF kV")
    value = any(item.kind == "value" and item.amount and item.amount.unit in units for item in items)
    if not things and mind.part is not None and any(item.text in ("it", "that", "them") for item in items[verb:]):
        things = [mind.part]
    if not things and not value and not any(item.is_a("tool") for item in items):
        return None
    if not things and value and mind.part is not None and clause.start - mind.part.heard < 45:
        things = [mind.part]
    return _entered(mind, clause, "check", "Measure" if row.base == "probe" else row.base.capitalize(), things)


def _entered(mind: Mind, clause: Clause, do: str, verb: str, things: Things) -> Act:
    act = Act(do, verb, mind.quote(clause), things)
    dress(mind, act, clause)
    mind.add(act)
    return act
