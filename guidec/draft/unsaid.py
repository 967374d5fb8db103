"""Work told by its means or its outcome alone ("hot air at ninety, two minutes", "i'm reading three volts")."""

from __future__ import annotations

import re
from itertools import pairwise

from guidec.draft.clauses import Clause
from guidec.draft.finish import MAINS
from guidec.draft.hands import dress
from guidec.draft.heat import soften
from guidec.draft.joints import soldered
from guidec.draft.kinds import is_itself, kind_of
from guidec.draft.mind import Mind, recent
from guidec.draft.reading import barred_from
from guidec.draft.refer import part_of
from guidec.draft.story import Act, Named
from guidec.draft.verbs import Doing, doings
from guidec.draft.wordset import among, phrased

__all__ = ["ironed", "read_off", "traced", "unpowered", "warmed"]

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
    if any(word in among("dry dries dried drying") for word in text.split()):
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


_ALONG = among("along around round across through under underneath beneath between behind")
_GOES = among(
    "run slide go work push drag sweep saw glide move take come insert cut slice get bring wiggle going sliding"
)
_BLADES = phrased(
    "pick|plectrum|card|blade|spudger|wire|floss|film|knife|tool|scraper|fishing line|thread|shim|wedge"
)


def traced(mind: Mind, clause: Clause) -> Act | None:
    """`run the pick along the edge`, where glue or clips hold what comes off: they are undone."""
    words = clause.text.split()
    if barred_from(clause) or not any(word in _ALONG for word in words) or not _goes(clause):
        return None
    if not _in_hand(mind, clause):
        return None
    held = _holding(mind, clause)
    if held is None or (mind.trip is not None):
        return None
    held.gone = True
    act = Act("undo", "Cut" if held.kind == "adhesive" else "Release", mind.quote(clause), [held])
    dress(mind, act, clause)
    mind.add(act)
    return act


def _goes(clause: Clause) -> bool:
    return any(base in _GOES for item in clause.items if item.kind == "verb" for base in _bases(item.text)) or any(
        item.text in _GOES for item in clause.items
    )


def _bases(word: str) -> set[str]:
    return {row.base for row in doings(word)}


def _in_hand(mind: Mind, clause: Clause) -> bool:
    """Whether a pick, card or blade is named here or was taken up just before."""
    named = [item.text for item in clause.items if item.is_a("tool")]
    lately = [tool.name for at, tool in mind.hand if clause.start - at < 15]
    return any(blade in name for name in (*named, *lately) for blade in _BLADES)


def _holding(mind: Mind, clause: Clause) -> Named | None:
    """The glue or clips told last, that still hold."""
    rows = [
        row
        for row in mind.story.named
        if not row.gone
        and (row.kind == "adhesive" or (row.kind == "clip" and (row.plural or row.count)))
        and clause.start - row.heard < 75
    ]
    return max(rows, key=lambda row: row.heard, default=None)


def ironed(mind: Mind, clause: Clause) -> Act | None:
    """`iron on, a touch on each`, `wick up the old solder`, where wires are told to be soldered: desoldered."""
    text = clause.text
    iron = any(item.is_a("tool") and "iron" in item.text.split() for item in clause.items)
    if barred_from(clause) or not (iron or "wick" in text.split() or text.startswith("desoldering")):
        return None
    if iron and not any(word in text.split() for word in among("on at touch put to each hot")):
        return None
    joints = [
        row for row in mind.story.named if row.kind == "solder" and not row.gone and clause.start - row.heard < 40
    ]
    cord = recent(mind.cord, clause.start, 30)
    found = (
        joints[-1]
        if joints
        else soldered(mind, cord)
        if cord is not None and _said_soldered(mind, clause)
        else None
    )
    if found is None or found.gone:
        return None
    found.gone = True
    act = Act("undo", "Desolder", mind.quote(clause), [found])
    dress(mind, act, clause)
    mind.add(act)
    return act


def _said_soldered(mind: Mind, clause: Clause) -> bool:
    """Whether somebody just said that it is soldered."""
    return any("soldered" in one.text for one in mind.told if 0 <= clause.start - one.start < 25)


def unpowered(mind: Mind, clause: Clause) -> Act | None:
    """`it's out of the wall`, `mains lead out first`: the mains plug is pulled."""
    if (
        not (_WALL.search(clause.text) or _device(mind, clause))
        or barred_from(clause)
        or clause.lead in among("if before until unless")
    ):
        return None
    known = [
        row for row in mind.story.named if row.kind == "connector" and any(word in row.name for word in MAINS)
    ]
    if any(row.gone for row in known):
        return mind.last
    if not known:
        item = clause.items[0]
        known = [Named("connector", "mains plug", mind.quote(clause), heard=item.start, type="plug")]
        mind.story.named.append(known[0])
    known[0].gone = True
    act = Act("unplug", "Unplug", mind.quote(clause), [known[0]])
    mind.add(act)
    return act


def _device(mind: Mind, clause: Clause) -> bool:
    """`unplug the machine`: pulled from the wall."""
    items = clause.items
    return any(
        item.text in ("unplug", "unplugged") and is_itself(mind, after)
        for item, after in pairwise(items)
        if after.kind == "thing"
    )


_WALL = re.compile(
    r"\b(?:out of|from|off) (?:the|its) (?:wall|mains|mains socket|wall socket|outlet|power outlet)\b|"
    r"\bplug(?:'s| is)? (?:out|pulled)(?: first)?$|\bmains (?:lead|plug|cord|cable) (?:is )?out\b|"
    r"\bpower (?:lead|cord) (?:is )?out\b|\bunplugged (?:it )?(?:from|at) the (?:wall|mains)"
)
