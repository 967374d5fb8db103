"""Actions and things -> actions with the drivers they need, and the tools that are then used.

A screw set's driver enters by itself, unless the action marks another tool.
"""

from __future__ import annotations

from collections.abc import Mapping

from guidec.model.things import Declared
from guidec.model.types import Action, Change, ScrewSet, Thing, Tool, Use
from guidec.quick import replace

__all__ = ["used_tools", "with_drivers"]


def with_drivers(actions: Mapping[str, Action], declared: Declared) -> dict[str, Action]:
    """The actions, those that undo screws with no tool marked given the drivers of their sets."""
    return {own: _with_driver(action, declared) for own, action in actions.items()}


def _with_driver(action: Action, declared: Declared) -> Action:
    if action.tools or not action.effects:
        return action
    drivers: dict[str, Use] = {}
    for effect in action.effects:
        thing = declared.things[effect.id]
        if effect.change is Change.UNDONE and isinstance(thing, ScrewSet):
            driver = declared.drivers.get(thing.id)
            if driver is not None:
                drivers.setdefault(driver, Use(driver, effect.span))
    return replace(action, tools=tuple(drivers.values())) if drivers else action


def used_tools(things: Mapping[str, Thing], actions: Mapping[str, Action]) -> dict[str, Thing]:
    """The things without the drivers that no action uses because its line marks another tool."""
    used = {use.id for action in actions.values() for use in action.tools}
    undone = {effect.id for action in actions.values() for effect in action.effects}
    idle = {thing.id for thing in things.values() if isinstance(thing, ScrewSet) and thing.id not in undone}
    kept = {drive for own in idle for drive in _drives(things[own])}
    return {
        own: thing
        for own, thing in things.items()
        if not (isinstance(thing, Tool) and thing.implied and own not in used and thing.drive not in kept)
    }


def _drives(thing: Thing) -> tuple[str, ...]:
    return thing.drives if isinstance(thing, ScrewSet) else ()
