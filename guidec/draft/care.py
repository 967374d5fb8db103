"""Words of care -> actions that clean, grease, discharge, test and measure."""

from __future__ import annotations

import re

from guidec.draft.clauses import Clause
from guidec.draft.hands import dress
from guidec.draft.heat import cleaned, supplied
from guidec.draft.kinds import kind_of
from guidec.draft.mind import Mind
from guidec.draft.objects import part_of
from guidec.draft.reading import barred_from
from guidec.draft.story import Act, Named, Screws
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
    r"\bgive (?:it|them|that|this|those|the \w+(?: \w+)?) (?:all )?a (?:\w+ )?(?:clean|wipe|brush|dust|scrub|rinse|wash|blow)\b"
)


def metered(mind: Mind, clause: Clause) -> Act | None:
    """`set your meter to ohms`, `put the probes on`: a check of what is in focus."""
    words = clause.text.split()
    if not any(
        item.is_a("tool") and item.head in among("meter multimeter tester voltmeter") for item in clause.items
    ) or barred_from(clause):
        return None
    if (
        not any(word in words for word in among("set ohms volts continuity megohms resistance diode put grab get"))
        or mind.part is None
    ):
        return None
    if any(doing.family == "check" for item in clause.items if item.kind == "verb" for doing in doings(item.text)):
        return None
    act = Act("check", "Measure", mind.quote(clause), [mind.part])
    dress(mind, act, clause)
    mind.add(act)
    return act


def treat(mind: Mind, clause: Clause, verb: int, row: Doing, particle: str) -> Act | None:
    """Cleaning, greasing, discharging, testing, measuring."""
    items = clause.items
    text = clause.text
    if row.family == "treat" and row.base not in among(
        "apply grease lubricate oil lube discharge drain short power switch shut dry cool bleed insulate turn"
    ):
        if row.base == "blow" and not any(item.is_a("supply", "tool") for item in items) and not particle:
            return None
        return cleaned(mind, clause, "Clean")
    if row.base in among("power switch shut turn cool insulate"):
        return None
    if row.base == "dry":
        return None
    if row.base == "apply":
        return supplied(mind, clause, verb, row)
    things: list[Named | Screws] = []
    for at, item in enumerate(items):
        if (
            item.kind == "thing"
            and at != verb
            and kind_of(mind, clause, at) == "part"
            and not (at and items[at - 1].text in ("with", "using"))
        ):
            things.append(part_of(mind, item))
    if row.family == "check":
        if row.base == "check" and (
            ("out" in text.split() and row.particle == "")
            or (
                any(item.text in among("if that whether for") for item in items[verb + 1 : verb + 2])
                and not things
            )
        ):
            return None
        value = any(
            item.kind == "value" and item.amount and item.amount.unit in among("V mV ohm kohm Mohm A mm uF kV")
            for item in items
        )
        if (
            not things
            and any(item.text in ("it", "that", "them") for item in items[verb:])
            and mind.part is not None
        ):
            things = [mind.part]
        if not things and not value and not any(item.is_a("tool") for item in items):
            return None
        base = {"probe": "measure"}.get(row.base, row.base)
        act = Act("check", base.capitalize(), mind.quote(clause), things)
        dress(mind, act, clause)
        mind.add(act)
        return act
    if not things and mind.part is not None and any(item.text in among("it them that they're") for item in items):
        things = [mind.part]
    if not things:
        return None
    base = row.note or row.base.capitalize()
    act = Act("treat", base, mind.quote(clause), things)
    dress(mind, act, clause)
    mind.add(act)
    return act
