"""A graph and parts -> the cheapest route to them; the routes to all parts; the teardown as the note has it."""

from __future__ import annotations

from collections.abc import Iterable, Sequence
from typing import NamedTuple

from guidec.model.types import Guide, Kind
from guidec.plan.cost import By, Cost
from guidec.plan.graph import Graph
from guidec.plan.planner import Plan, Planner
from guidec.plan.problem import bits
from guidec.plan.reach import Reach, reaches
from guidec.plan.replay import Replayer
from guidec.plan.turn_into import renewed
from guidec.plan.types import Alternative, How, Route
from guidec.quick import dataclass

__all__ = ["Row", "UnknownPartError", "route", "routes", "rows"]


class UnknownPartError(KeyError):
    """A target that is no part of the note, or that nothing in it takes off, shows or moves."""


@dataclass(frozen=True, slots=True)
class Row:
    """One line of the table of routes: what `Route` says, without its actions."""

    part: str
    how: How
    cost: Cost
    tools: tuple[str, ...]
    operations: int
    exact: bool


def route(graph: Graph, targets: Sequence[str], by: By = "damage") -> Route | None:
    """The cheapest way to one part, or to several in one visit (ids). None where there is no way.

    Raises UnknownPartError for an id that is no part, or one that nothing takes off, shows or moves.
    """
    known = reaches(graph)
    wanted = []
    for target in dict.fromkeys(targets):
        if target not in known:
            raise UnknownPartError(target)
        wanted.append(known[target])
    return _router(graph, by).route(wanted)


def routes(graph: Graph, by: By = "damage") -> tuple[Route, ...]:
    """The route to every part that is reached, in the order in which the note reaches them."""
    router = _router(graph, by)
    found = (router.route([one]) for one in reaches(graph).values())
    return tuple(one for one in found if one is not None)


def rows(graph: Graph, by: By = "damage") -> tuple[Row, ...]:
    """The table of all routes, without working out what happens on each."""
    planner = graph.planner(by)
    found = []
    for one in reaches(graph).values():
        plan = planner.plan([one.ways])
        if plan is not None:
            used, visits = planner.extent(plan)
            tools = tuple(graph.problem_names.tools[at] for at in bits(used))
            found.append(Row(one.part, one.how, planner.cost(plan), tools, visits, plan.exact))
    return tuple(found)


def _router(graph: Graph, by: By) -> _Router:
    """The router for an order of costs, kept with all its routes: pages, data and score ask for the same ones."""
    return graph.keep(("router", by), lambda: _Router(graph, by))


class _Router:
    """Makes routes of plans."""

    def __init__(self, graph: Graph, by: By) -> None:
        self.graph = graph
        self.by: By = by
        self.planner: Planner = graph.planner(by)
        self.replayer = Replayer(graph, self.planner)
        self._routes: dict[tuple[str, ...], Route | None] = {}
        self._used: dict[str, _Used] = {}

    def route(self, wanted: Sequence[Reach]) -> Route | None:
        """The route to some parts, or None."""
        parts = tuple(one.part for one in wanted)
        if parts not in self._routes:
            self._routes[parts] = self._made(wanted)
        return self._routes[parts]

    def _made(self, wanted: Sequence[Reach]) -> Route | None:
        targets = [one.ways for one in wanted]
        plan = self.planner.plan(targets)
        if plan is None:
            return None
        visits = self.replayer.visits(plan)
        actions = [action for visit in visits for action in visit.actions if action not in visit.skipped]
        used = [self._use(action) for action in actions]
        others, left = self.planner.others(targets, plan)
        return Route(
            targets=tuple(one.part for one in wanted),
            how=tuple(one.how for one in wanted),
            by=self.by,
            visits=visits,
            cost=self.planner.cost(plan),
            tools=self._tools(actions),
            supplies=tuple(dict.fromkeys([own for one in used for own in one.supplies])),
            risks=tuple(action for action in actions for _ in self.graph.guide.actions[action].risks),
            renewals=tuple(dict.fromkeys([own for one in used for own in one.renewals])),
            alternatives=self._alternatives(others),
            exact=plan.exact,
            broken=self._broken(actions),
            others_left=left,
        )

    def _use(self, action: str) -> _Used:
        """What an action uses up: most stand in many routes."""
        if action not in self._used:
            guide = self.graph.guide
            self._used[action] = _Used(_supplies(guide, action), _renewals(guide, action))
        return self._used[action]

    def _tools(self, actions: Iterable[str]) -> tuple[str, ...]:
        numbers, problem = self.graph.numbers, self.graph.problem
        names = self.graph.problem_names.tools
        held = dict.fromkeys([problem.tasks[numbers.task[one]].tools for one in actions])
        return tuple(dict.fromkeys([names[tool] for tools in held for tool in bits(tools)]))

    def _broken(self, actions: Iterable[str]) -> tuple[str, ...]:
        """The actions done on the live device."""
        found = []
        tasks, numbers = self.graph.problem.tasks, self.graph.numbers.task
        for action in actions:
            task = tasks[numbers[action]]
            if task.isolates:
                break
            if task.hot:
                found.append(action)
        return tuple(found)

    def _alternatives(self, others: Sequence[tuple[int, int, Plan]]) -> tuple[Alternative, ...]:
        operations = self.graph.operations
        return tuple(
            Alternative(
                operation=operations[other].id,
                replaces=operations[block].id,
                operations=tuple(
                    operations[self.graph.problem.tasks[visit.tasks[0]].block].id for visit in second.visits()
                ),
                cost=self.planner.cost(second),
                exact=second.exact,
            )
            for other, block, second in others
        )


class _Used(NamedTuple):
    """What an action uses up, as ids."""

    supplies: tuple[str, ...]
    renewals: tuple[str, ...]


def _supplies(guide: Guide, action: str) -> tuple[str, ...]:
    """The supplies used, and those that the refit notes of the action name."""
    one = guide.actions[action]
    uses = (*one.supplies, *(use for note in one.refits for use in note.uses))
    things = [guide.things.get(use.id) for use in uses]
    return tuple([thing.id for thing in things if thing is not None and thing.kind is Kind.SUPPLY])


def _renewals(guide: Guide, action: str) -> tuple[str, ...]:
    """The fastenings undone that need new ones."""
    undone = [effect.id for effect in guide.actions[action].effects]
    return tuple([one for one in undone if renewed(guide.things.get(one))])
