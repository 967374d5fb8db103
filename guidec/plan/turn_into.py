"""A guide -> the small problem that the planner's search works on, with what each number in it stands for."""

from __future__ import annotations

from collections.abc import Mapping, Sequence
from functools import cache
from typing import TYPE_CHECKING

from guidec.model.types import (
    Action,
    Adhesive,
    Change,
    Connector,
    Effect,
    Family,
    Fastening,
    Guide,
    Operation,
    Reuse,
    ScrewSet,
    Thermal,
    Thing,
)
from guidec.plan.hot import has_power, touched_live
from guidec.plan.problem import Problem, Stock, Task, mask
from guidec.quick import dataclass
from guidec.trade.deeds import is_deed
from guidec.trade.load import data
from guidec.trade.phrases import in_language

if TYPE_CHECKING:
    from guidec.plan.times import Times

__all__ = [
    "Names",
    "Numbers",
    "ends_step",
    "is_cleaning",
    "not_reusable",
    "real_tools",
    "renewed",
    "shape",
    "turn_into",
]

_SPENT = (Reuse.RESUPPLIED, Reuse.REMOVABLE, Reuse.NEITHER)
_WORK = (Family.UNDO, Family.SOFTEN, Family.MOVE, Family.TREAT)


@dataclass(frozen=True, slots=True)
class Numbers:
    """What the numbers of a problem stand for: tasks are actions, blocks operations."""

    actions: tuple[str, ...]
    operations: tuple[str, ...]
    task: Mapping[str, int]


@dataclass(frozen=True, slots=True)
class Names:
    """The names of a problem's tools and sides. The side of number n is at place n - 1."""

    tools: tuple[str, ...]
    sides: tuple[str, ...]


def shape(guide: Guide) -> tuple[Problem, Numbers]:
    """What needs what in a guide, and nothing else of the work. `refit only` operations are no part of it."""
    operations = [operation for operation in guide.operations if not operation.refit_only]
    actions = [action for operation in operations for action in operation.actions]
    number = {action: at for at, action in enumerate(actions)}
    tasks = tuple(
        Task(block=block, needs=_needs(guide.actions[action], number))
        for block, operation in enumerate(operations)
        for action in operation.actions
    )
    numbers = Numbers(tuple(actions), tuple(operation.id for operation in operations), number)
    return Problem(tasks, rivals=_rivals(operations)), numbers


def _needs(action: Action, number: Mapping[str, int]) -> tuple[tuple[int, ...], ...]:
    """The needs with their ways as bit sets. A way with an action that is no task is none."""
    found = []
    for need in action.needs:
        if need.ways and all(need.ways):
            ways = [way for way in need.ways if all(other in number for other in way)]
            found.append(tuple([_way(way, number) for way in ways]))
    return tuple(found)


def _way(way: tuple[str, ...], number: Mapping[str, int]) -> int:
    return 1 << number[way[0]] if len(way) == 1 else mask(number[other] for other in way)


def turn_into(guide: Guide, bare: Problem, numbers: Numbers, times: Times) -> tuple[Problem, Names]:
    """The whole problem of a guide. `bare`, `numbers`: its shape."""
    maker = _Maker(guide, times)
    tasks = tuple(
        maker.task(guide.actions[action], task) for action, task in zip(numbers.actions, bare.tasks, strict=True)
    )
    problem = Problem(
        tasks=tasks,
        stocks=tuple(maker.stocks),
        rivals=bare.rivals,
        change_time=round(times.change * 1000),
        turn_time=round(times.turn * 1000),
    )
    return problem, Names(tuple(maker.tools.names), tuple(maker.sides.names)[1:])


class _Names:
    """Gives names numbers, in the order in which they are met."""

    def __init__(self, *first: str) -> None:
        self.names = {name: at for at, name in enumerate(first)}

    def number(self, name: str) -> int:
        return self.names.setdefault(name, len(self.names))


class _Maker:
    """Makes the tasks of one guide."""

    def __init__(self, guide: Guide, times: Times) -> None:
        from guidec.plan.times import waiting  # here, not above: a check asks for no times

        self.guide = guide
        self.times = times
        self._waiting = waiting
        self.tools = _Names()
        self.sides = _Names("")
        self.stocks: list[Stock] = []
        self._stocks: dict[tuple[str, bool], int] = {}
        self._isolating = frozenset(guide.isolating)
        self._powered = has_power(guide)

    def task(self, action: Action, bare: Task) -> Task:
        """The task of an action. `bare`: its block and needs."""
        tools = 0
        for tool in real_tools(self.guide, action):
            tools |= 1 << self.tools.number(tool)
        turn = self.sides.number(action.turn) if action.family is Family.TURN and action.turn else 0
        ends = ends_step(self.guide, action)
        return Task(
            block=bare.block,
            needs=bare.needs,
            tools=tools,
            side=self.sides.number(action.side) if action.side and not turn else 0,
            turn=turn,
            ends=ends,
            works=not ends and action.family not in (Family.LOOK, Family.CHECK, Family.TURN),
            risks=len(action.risks),
            takes=self._takes(action.effects),
            hand=round(self.times.action(self.guide, action) * 1000),
            wait=round(self._waiting(action) * 1000),
            hot=self._powered and touched_live(self.guide, action) is not None,
            isolates=action.id in self._isolating,
        )

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
    if not action.tools:
        return []
    hands = _planning_words("hands", guide.meta.language)
    return [
        use
        for use in dict.fromkeys([use.id for use in action.tools])
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
    if action.effects or action.family not in _WORK:
        return False
    return action.verb.split(" ")[0].casefold() in _planning_words("cleaning", guide.meta.language)


@cache
def _planning_words(list_: str, language: str) -> frozenset[str]:
    return frozenset(in_language(data("planning")[list_], language))


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


def renewed(thing: Thing | None) -> bool:
    """Whether a fastening is to be renewed once it was undone: it says so, or says it cannot be used again."""
    if isinstance(thing, Adhesive | Thermal):
        return thing.renew
    if isinstance(thing, ScrewSet | Fastening):
        return thing.renew or (thing.reuse_stated and thing.reuse in _SPENT)
    return False
