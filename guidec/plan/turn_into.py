"""A guide -> the small problem that the planner's search works on, with what each number in it stands for."""

from __future__ import annotations

from collections.abc import Mapping, Sequence
from dataclasses import dataclass

from guidec.model.types import (
    Action,
    Change,
    Connector,
    Effect,
    Family,
    Fastening,
    Guide,
    Operation,
    Reuse,
    ScrewSet,
    Thing,
)
from guidec.plan.hot import has_power, touched_live
from guidec.plan.problem import Problem, Stock, Task
from guidec.plan.times import Times, waiting
from guidec.trade.deeds import is_deed
from guidec.trade.load import data
from guidec.trade.phrases import in_language

__all__ = ["Numbers", "ends_step", "is_cleaning", "not_reusable", "real_tools", "turn_into"]

_WORK = (Family.UNDO, Family.SOFTEN, Family.MOVE, Family.TREAT)


@dataclass(frozen=True, slots=True)
class Numbers:
    """What the numbers of a problem stand for: tasks are actions, blocks operations."""

    actions: tuple[str, ...]
    operations: tuple[str, ...]
    tools: tuple[str, ...]
    sides: tuple[str, ...]
    """The side of number n is at place n - 1."""
    task: Mapping[str, int]


def turn_into(guide: Guide, times: Times) -> tuple[Problem, Numbers]:
    """The problem of a guide. `refit only` operations are no part of it."""
    operations = [operation for operation in guide.operations if not operation.refit_only]
    actions = [action for operation in operations for action in operation.actions]
    maker = _Maker(guide, times, operations, actions)
    tasks = tuple(
        maker.task(guide.actions[action], block)
        for block, operation in enumerate(operations)
        for action in operation.actions
    )
    problem = Problem(
        tasks=tasks,
        stocks=tuple(maker.stocks),
        rivals=_rivals(operations),
        change_time=round(times.change * 1000),
        turn_time=round(times.turn * 1000),
    )
    return problem, Numbers(
        tuple(actions),
        tuple(operation.id for operation in operations),
        tuple(maker.tools.names),
        tuple(maker.sides.names)[1:],
        maker.number,
    )


class _Names:
    """Gives names numbers, in the order in which they are met."""

    def __init__(self, *first: str) -> None:
        self.names = {name: at for at, name in enumerate(first)}

    def number(self, name: str) -> int:
        return self.names.setdefault(name, len(self.names))


class _Maker:
    """Makes the tasks of one guide."""

    def __init__(
        self, guide: Guide, times: Times, operations: Sequence[Operation], actions: Sequence[str]
    ) -> None:
        self.guide = guide
        self.times = times
        self.number = {action: at for at, action in enumerate(actions)}
        self.tools = _Names()
        self.sides = _Names("")
        self.stocks: list[Stock] = []
        self._stocks: dict[tuple[str, bool], int] = {}
        self._isolating = frozenset(guide.isolating)
        self._powered = has_power(guide)

    def task(self, action: Action, block: int) -> Task:
        tools = 0
        for tool in real_tools(self.guide, action):
            tools |= 1 << self.tools.number(tool)
        turn = self.sides.number(action.turn) if action.family is Family.TURN and action.turn else 0
        ends = ends_step(self.guide, action)
        return Task(
            block=block,
            needs=tuple(
                ways for need in action.needs if (ways := self._ways(need.ways)) is not None and 0 not in ways
            ),
            tools=tools,
            side=self.sides.number(action.side) if action.side and not turn else 0,
            turn=turn,
            ends=ends,
            works=not ends and action.family not in (Family.LOOK, Family.CHECK, Family.TURN),
            risks=len(action.risks),
            takes=self._takes(action.effects),
            hand=round(self.times.action(self.guide, action) * 1000),
            wait=round(waiting(action) * 1000),
            hot=self._powered and touched_live(self.guide, action) is not None,
            isolates=action.id in self._isolating,
        )

    def _ways(self, ways: tuple[tuple[str, ...], ...]) -> tuple[int, ...] | None:
        """The ways as bit sets, those with an action that is no task left out; None for a need without a way."""
        if not ways:
            return None
        found = []
        for way in ways:
            if all(action in self.number for action in way):
                tasks = 0
                for action in way:
                    tasks |= 1 << self.number[action]
                found.append(tasks)
        return tuple(found)

    def _takes(self, effects: tuple[Effect, ...]) -> tuple[tuple[int, int], ...]:
        """What an action takes off, undoes, opens or moves; the same thing once."""
        found: dict[int, int] = {}
        for effect in effects:
            thing = self.guide.things.get(effect.id)
            if thing is None or effect.change is Change.EXPOSED:
                continue
            key = (effect.id, effect.change is Change.MOVED)
            if key not in self._stocks:
                self._stocks[key] = len(self.stocks)
                self.stocks.append(_stock(thing, moved=key[1]))
            number = self._stocks[key]
            count = effect.count if effect.count is not None else self.stocks[number].count
            found[number] = found.get(number, 0) + (count if self.stocks[number].single else 1)
        return tuple(found.items())


def _stock(thing: Thing, *, moved: bool) -> Stock:
    """Screws count singly; everything else is one thing."""
    if moved:
        return Stock()
    if isinstance(thing, ScrewSet):
        return Stock(thing.count or 1, not_reusable(thing), single=True)
    return Stock(1, not_reusable(thing))


def not_reusable(thing: Thing) -> bool:
    """Whether a thing is a fastening that is spent when it is undone; where nobody knows, it is taken to be."""
    if isinstance(thing, ScrewSet | Fastening):
        return thing.renew or thing.reuse is not Reuse.REUSABLE
    return isinstance(thing, Connector) and thing.reuse is not Reuse.REUSABLE


def real_tools(guide: Guide, action: Action) -> list[str]:
    """The ids of the tools an action needs, each once. Hands are no tool."""
    hands = in_language(data("planning")["hands"], guide.meta.language)
    return [
        use
        for use in dict.fromkeys(use.id for use in action.tools)
        if (thing := guide.things.get(use)) is None or thing.name.casefold() not in hands
    ]


def ends_step(guide: Guide, action: Action) -> bool:
    """Whether an action ends a step by itself: a removal, a part moved out of its place, heating, cleaning."""
    if any(effect.change in (Change.OFF, Change.MOVED) for effect in action.effects):
        return True
    if action.heats or is_cleaning(guide, action):
        return True
    return action.family in _WORK and is_deed(action.verb, "heat", guide.meta.language)


def is_cleaning(guide: Guide, action: Action) -> bool:
    """Whether an action cleans: by its verb, as long as it does not undo something by it."""
    verb = action.verb.split(" ")[0].casefold()
    cleaning = in_language(data("planning")["cleaning"], guide.meta.language)
    return action.family in _WORK and not action.effects and verb in cleaning


def _rivals(operations: Sequence[Operation]) -> tuple[frozenset[int], ...]:
    """For each operation the other ways to the same: all that lead by `instead of` to the same first one."""
    place = {operation.id: at for at, operation in enumerate(operations)}
    roots: list[int] = []
    for at in range(len(operations)):
        seen = {at}
        root = at
        while (target := operations[root].instead_of) in place and place[target or ""] not in seen:
            root = place[target or ""]
            seen.add(root)
        roots.append(root)
    families: dict[int, set[int]] = {}
    for at, root in enumerate(roots):
        families.setdefault(root, set()).add(at)
    return tuple(frozenset(families[root] - {at}) for at, root in enumerate(roots))
