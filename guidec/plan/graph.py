"""A guide -> its graph: what each action needs, by which words of the note, and what can be done at all."""

from __future__ import annotations

from collections.abc import Callable, Collection, Iterator, Mapping
from dataclasses import field
from functools import cached_property
from typing import TYPE_CHECKING, Any, TypeVar

from guidec.model.types import Guide, Need, Operation
from guidec.plan.closure import Closure, close, find_cycles
from guidec.plan.problem import Problem, bits
from guidec.plan.turn_into import Names, Numbers, is_cleaning, shape, turn_into
from guidec.plan.types import By, Edge
from guidec.quick import dataclass

if TYPE_CHECKING:
    from guidec.plan.planner import Planner
    from guidec.plan.times import Times

__all__ = ["Graph", "graph"]

Kept = TypeVar("Kept")


@dataclass(frozen=True)
class Graph:
    """The graph of a guide. Its nodes are all actions but those of `refit only` operations.

    Everything is worked out when it is first asked for, and kept.
    """

    guide: Guide
    times: Times | None = None
    """How long work takes; None: as is assumed."""
    _kept: dict[object, Any] = field(default_factory=dict, init=False, repr=False, compare=False)

    @cached_property
    def _shaped(self) -> tuple[Problem, Numbers]:
        return shape(self.guide)

    @property
    def shape(self) -> Problem:
        """What needs what, as a problem without tools, things and times: all that a check asks."""
        return self._shaped[0]

    @property
    def numbers(self) -> Numbers:
        """What the numbers of the problem stand for."""
        return self._shaped[1]

    @cached_property
    def _turned(self) -> tuple[Problem, Names]:
        times = self.times
        if times is None:
            from guidec.plan.times import assumed  # here, not above: a check asks for no times

            times = assumed()
        return turn_into(self.guide, self.shape, self.numbers, times)

    @property
    def problem(self) -> Problem:
        """The guide as the planner's small problem."""
        return self._turned[0]

    @property
    def problem_names(self) -> Names:
        """The names of the problem's tools and sides."""
        return self._turned[1]

    @cached_property
    def closure(self) -> Closure:
        """What surely comes before each action, and what can be done."""
        return close(self.shape)

    def possible(self, without: Collection[str] = ()) -> frozenset[str]:
        """The actions that can be done in some order in which none of `without` is done."""
        numbers = self.numbers
        left_out = [numbers.task[action] for action in without if action in numbers.task]
        return frozenset([numbers.actions[at] for at in self.shape.wires.order(left_out)])

    @cached_property
    def operations(self) -> tuple[Operation, ...]:
        """The operations that routes are made of, in note order."""
        return tuple(operation for operation in self.guide.operations if not operation.refit_only)

    @cached_property
    def impossible(self) -> frozenset[str]:
        """The actions that can never be done: in a cycle, behind one, or needing what nobody does."""
        return frozenset(self.numbers.actions) - self.possible()

    @cached_property
    def cycles(self) -> tuple[tuple[Edge, ...], ...]:
        """Rings of actions, each of which needs the next and the last the first, whatever ways are taken."""
        stuck = {self.numbers.task[action] for action in self.impossible}
        return tuple(self._ring(walk) for walk in find_cycles(self.shape, stuck))

    def _ring(self, walk: list[int]) -> tuple[Edge, ...]:
        actions = self.numbers.actions
        following = [*walk[1:], *walk[:1]]
        return tuple(
            self._edge(actions[task], actions[other]) for task, other in zip(walk, following, strict=True)
        )

    def _edge(self, action: str, other: str) -> Edge:
        """The edge between two actions of which one needs the other."""
        return next(edge for edge in self.edges_of(action) if edge.needed == other)

    def needs(self, action: str) -> tuple[Need, ...]:
        """The needs of an action."""
        return self.guide.actions[action].needs

    def edges_of(self, action: str) -> Iterator[Edge]:
        """The edges from an action to those it needs."""
        for need in self.needs(action):
            for number, way in enumerate(need.ways, 1):
                for other in way:
                    yield Edge(action, other, need.reason, need.span, need.thing, number, len(need.ways))

    @cached_property
    def edges(self) -> tuple[Edge, ...]:
        """All edges, in note order."""
        return tuple(edge for action in self.numbers.actions for edge in self.edges_of(action))

    def before(self, action: str) -> frozenset[str]:
        """All actions that are surely done before one, whichever ways are taken."""
        forced = self.closure.forced[self.numbers.task[action]]
        return frozenset(self.numbers.actions[at] for at in bits(forced)) - {action}

    def is_cleaning(self, action: str) -> bool:
        """Whether an action cleans, which is a step of its own."""
        return is_cleaning(self.guide, self.guide.actions[action])

    @cached_property
    def names(self) -> Mapping[str, str]:
        """The name of each thing and the title of each operation, by id; a thing's before an operation's."""
        return {**self.names_of_operations, **{thing.id: thing.name for thing in self.guide.things.values()}}

    @cached_property
    def names_of_operations(self) -> Mapping[str, str]:
        """The title of each operation by id."""
        return {operation.id: operation.title for operation in self.guide.operations}

    def keep(self, key: object, make: Callable[[], Kept]) -> Kept:
        """What others work out from the graph alone: made when it is first asked for, and kept under its key."""
        if key not in self._kept:
            self._kept[key] = make()
        found: Kept = self._kept[key]
        return found

    def planner(self, by: By) -> Planner:
        """The planner for an order of costs, kept with all that it worked out."""
        from guidec.plan.planner import Planner  # here, not above: a check plans nothing

        return self.keep(("planner", by), lambda: Planner(self.problem, by, closure=self.closure))


def graph(guide: Guide, times: Times | None = None) -> Graph:
    """The graph of a guide. `times`: how long work takes, else what is assumed."""
    return Graph(guide, times)
