"""An action -> the seconds it takes by hand, and the seconds it makes one wait.

The hand times here are the project's own assumptions (`trade/data/planning.yaml`); whoever has better ones passes
a `Times` of their own to `plan.graph`.
"""

from __future__ import annotations

from collections.abc import Callable
from dataclasses import dataclass

from guidec.model.types import Action, Family, Guide, ScrewSet
from guidec.trade.load import data

__all__ = ["Times", "assumed", "waiting"]


@dataclass(frozen=True, slots=True)
class Times:
    """`action(guide, action)`: seconds by hand. `change`, `turn`: seconds of a change of tool, of a turn-over."""

    action: Callable[[Guide, Action], float]
    change: float
    turn: float


def assumed() -> Times:
    """The times assumed where nobody gives others."""
    seconds = data("planning")["seconds"]
    return Times(_by_hand, seconds["change"], seconds["turn"])


def _by_hand(guide: Guide, action: Action) -> float:
    """So much for each screw, else so much for what kind of action it is."""
    seconds = data("planning")["seconds"]
    screws = 0
    for effect in action.effects:
        thing = guide.things.get(effect.id)
        if isinstance(thing, ScrewSet):
            screws += effect.count if effect.count is not None else thing.count or 1
    if screws:
        return float(screws * seconds["screw"])
    if action.family is Family.TURN:
        return float(seconds["turn"])
    return float(seconds[action.family.value])


def waiting(action: Action) -> float:
    """The seconds of an action's `wait` and `heat` values; of a range the upper end."""
    waits = [wait.duration for wait in action.waits] + [heat.duration for heat in action.heats]
    return sum(duration.high for duration in waits if duration is not None)
