"""What an action did to a thing -> the sentences that take it back."""

from __future__ import annotations

import re
from math import isclose
from typing import Any

from guidec.model.printed import thing_text
from guidec.model.types import (
    Action,
    Adhesive,
    Change,
    Clip,
    Connector,
    Effect,
    Fastening,
    Guide,
    Part,
    Quantity,
    RefitNote,
    ScrewSet,
    Solder,
    Thermal,
    Thing,
)
from guidec.plan.turn_into import renewed
from guidec.trade.units import find_quantities, shown

__all__ = ["sentences"]

Words = dict[str, Any]


def sentences(guide: Guide, words: Words, action: Action, effect: Effect) -> list[str]:
    """The sentences for one effect of an action. `words`: the data of `trade/data/refit`."""
    thing = guide.things[effect.id]
    if isinstance(thing, ScrewSet):
        return _screws(guide, words["screws"], action, effect, thing)
    if isinstance(thing, Part):
        return [_part(guide, words, action, effect, thing)]
    if isinstance(thing, Connector):
        return [_said(words["connector"], thing.type).format(name=thing.name)]
    return [_fastening(guide, words, action, thing)]


def _said(words: dict[str, str], key: str) -> str:
    """The sentence for a key, or the usual one."""
    return words.get(key, words["default"])


def _verb(guide: Guide, words: dict[str, str], action: Action) -> str:
    """The verb as the words have it: with its particle, wherever that stands in the line, or alone."""
    verb = action.verb.casefold()
    first = verb.split(" ")[0]
    said = guide.source.slice(action.span).casefold()
    for entry in words:
        word, _, particle = entry.partition(" ")
        if particle and word == first and (entry == verb or re.search(rf"(?<![\w-]){particle}(?![\w-])", said)):
            return entry
    return verb if verb in words else first


def _part(guide: Guide, words: Words, action: Action, effect: Effect, part: Part) -> str:
    if effect.change is Change.MOVED:
        return _said(words["moved"], _verb(guide, words["moved"], action)).format(name=part.name)
    if part.qty > 1:
        count = effect.count if effect.count is not None else part.qty
        return str(words["part"]["count"]).format(count=count, name=part.name)
    return _said(words["part"], _verb(guide, words["part"], action)).format(name=part.name)


def _screws(guide: Guide, words: dict[str, str], action: Action, effect: Effect, screws: ScrewSet) -> list[str]:
    share = effect.count is not None and effect.count != screws.count
    key = {(False, False): "default", (False, True): "share", (True, False): "new", (True, True): "new-share"}
    torque = screws.torque or next(iter(action.torques), None)
    if torque is not None and any(_tells(note, torque) for note in action.refits):
        torque = None
    comma = guide.meta.language.split("-")[0] == "de"
    found = [
        words[key[renewed(screws), share]].format(
            set=thing_text(screws),
            count=effect.count,
            torque=f", {shown(torque, comma)}" if torque is not None else "",
        )
    ]
    if screws.left_hand:
        found.append(words["left-hand"])
    if screws.locked is not None:
        found.append(words["locked"].format(locked=screws.locked) if screws.locked else words["locked-bare"])
    return found


def _tells(note: RefitNote, torque: Quantity) -> bool:
    """Whether a note on putting back says a torque itself."""
    found = find_quantities(note.text, 0, "torque")
    return any(one.dimension == "torque" and isclose(one.low, torque.low, rel_tol=0.01) for one in found)


def _fastening(guide: Guide, words: Words, action: Action, thing: Thing) -> str:
    group = words[_group(thing)]
    key = "new" if renewed(thing) and "new" in group else _verb(guide, group, action)
    return _said(group, key).format(name=thing.name, type=_type(thing))


def _group(thing: Thing) -> str:
    for kind, name in ((Adhesive, "adhesive"), (Thermal, "thermal"), (Clip, "clip"), (Solder, "solder")):
        if isinstance(thing, kind):
            return name
    return "fastening"


def _type(thing: Thing) -> str:
    """What to take and how much of it, with a comma before; nothing where the note does not say."""
    if not isinstance(thing, Fastening):
        return ""
    amount = thing.amount.text if thing.amount else ""
    said = [thing.type] if thing.type else []
    return "".join(f", {each}" for each in [*said, *([amount] if amount and amount not in thing.type else [])])
