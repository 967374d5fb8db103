"""An action -> what it works on that must be dead first: connectors, solder joints, parts with current in them."""

from __future__ import annotations

from guidec.model.types import Action, Change, Connector, Guide, Part, Solder
from guidec.quick import dataclass
from guidec.source import Span
from guidec.trade.deeds import is_deed

__all__ = ["LIVE_CLASSES", "Touched", "has_power", "touched_live"]

LIVE_CLASSES = frozenset(
    ("board", "display", "camera-front", "camera-rear", "charging-port", "supply-unit", "motor", "speaker")
)
"""The part classes that are not to be worked on while there is power."""


@dataclass(frozen=True, slots=True)
class Touched:
    """What is worked on. `thing`: its id, None for a nameless joint; `proposed`: its class is only proposed."""

    span: Span
    thing: str | None
    proposed: bool = False


def has_power(guide: Guide) -> bool:
    """Whether there is anything to make dead: some power stated other than none, or something that isolates."""
    return bool(guide.isolating) and guide.meta.power != ("none",)


def touched_live(guide: Guide, action: Action) -> Touched | None:
    """What an action works on that must be dead; None for an isolating action, and where there is nothing.

    What is certain counts before what is only proposed.
    """
    if action.id in guide.isolating:
        return None
    found = [
        touched for effect in action.effects if (touched := _touched(guide, effect.id, effect.change, effect.span))
    ]
    if not found and is_deed(action.verb, "solder", guide.meta.language) and not action.effects:
        found.append(Touched(action.verb_span, None))
    return min(found, key=lambda touched: touched.proposed, default=None)


def _touched(guide: Guide, id_: str, change: Change, span: Span) -> Touched | None:
    thing = guide.things.get(id_)
    if isinstance(thing, Connector) and change is Change.OPEN:
        return Touched(span, id_)
    if isinstance(thing, Solder) and change is Change.UNDONE:
        return Touched(span, id_)
    if isinstance(thing, Part) and change in (Change.OFF, Change.MOVED) and thing.cls in LIVE_CLASSES:
        return Touched(span, id_, thing.cls_proposed)
    return None
