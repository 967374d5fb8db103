"""Work told by its means or its outcome alone ("hot air at ninety, two minutes", "i'm reading three volts")."""

from __future__ import annotations

import re

from guidec.draft.clauses import Clause
from guidec.draft.hands import dress
from guidec.draft.heat import soften
from guidec.draft.kinds import kind_of
from guidec.draft.mind import Mind
from guidec.draft.objects import part_of
from guidec.draft.reading import barred_from
from guidec.draft.story import Act
from guidec.draft.verbs import Doing
from guidec.draft.wordset import among, phrased

__all__ = ["read_off", "warmed"]

_WARM = Doing("warm", "", "soften", "Warm", frozenset({"base"}))
_HEATERS = phrased(
    "heat gun|hot air|warm air|hot plate|heat plate|heat mat|heating mat|heated mat|heat pad|heating pad|"
    "hair dryer|hairdryer|heat bag|heat lamp|heating plate|hot water bottle|warming plate"
)
_HEATS = among("°C °F s min h")


def warmed(mind: Mind, clause: Clause) -> Act | None:
    """`hot air at ninety degrees, two minutes`, `i've had it on the heat mat for five minutes`: a warming."""
    text = clause.text
    if barred_from(clause) or not any(heater in text for heater in _HEATERS):
        return None
    if not any(item.kind == "value" and item.amount and item.amount.unit in _HEATS for item in clause.items):
        return None
    return soften(mind, clause, -1, _WARM)


_READS = re.compile(
    r"\b(?:i|we)(?:'m| am| was|'re| are)? (?:read|reading|getting|get|seeing|measure|measured|measuring)\b|"
    r"\bi(?:'ve| have) (?:got|measured)\b|\b(?:it|meter|mine|multimeter|that|this|cell|one) (?:still )?(?:reads?|"
    r"says|shows?|sat at|sits at|measures|measured)\b|\breads\b"
)
_UNITS = among("V mV ohm kohm Mohm A mA uF")


def read_off(mind: Mind, clause: Clause) -> Act | None:
    """`i'm getting three point eight volts`: a measurement, of what is named or in focus."""
    if not _READS.search(clause.text) or barred_from(clause):
        return None
    if not any(item.kind == "value" and item.amount and item.amount.unit in _UNITS for item in clause.items):
        return None
    last = mind.last
    if last is not None and last.do == "check" and clause.start - last.start < 20:
        return last
    if not _metered_lately(mind, clause):
        return None
    named = [
        part_of(mind, item)
        for at, item in enumerate(clause.items)
        if item.is_a("part") and kind_of(mind, clause, at) == "part"
    ]
    things = named[:1] or ([mind.part] if mind.part is not None else [])
    if not things:
        return None
    act = Act("check", "Measure", mind.quote(clause), list(things))
    dress(mind, act, clause)
    mind.add(act)
    return act


def _metered_lately(mind: Mind, clause: Clause) -> bool:
    """Whether somebody measures here, and does not read a label."""
    says = any(word in clause.text.split() for word in ("says", "say", "label", "printed", "marked", "rated"))
    meter = any(at > clause.start - 40 and "meter" in tool.name for at, tool in mind.hand)
    return meter or not says
