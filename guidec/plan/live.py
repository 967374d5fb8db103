"""A graph -> what can be done while the device is not dead, and on which way."""

from __future__ import annotations

from functools import cached_property

from guidec.model.types import Operation
from guidec.plan.closure import Closure, close
from guidec.plan.graph import Graph
from guidec.plan.hot import has_power, touched_live
from guidec.plan.problem import bits
from guidec.quick import dataclass

__all__ = ["Live", "touched_before_isolation"]


@dataclass(frozen=True)
class Live:
    """`possible`: the actions that can be done with none of the isolating ones done."""

    graph: Graph
    possible: frozenset[str]

    @classmethod
    def of(cls, graph: Graph) -> Live:
        """Take the isolating actions out of the graph, and see what is still possible."""
        return cls(graph, graph.possible(without=graph.guide.isolating))

    @cached_property
    def _early(self) -> frozenset[str]:
        """The actions that every way to some isolating action needs."""
        numbers, closure = self.graph.numbers, self.graph.closure
        found = 0
        for own in self.graph.guide.isolating:
            if own in numbers.task:
                found |= closure.forced[numbers.task[own]]
        return frozenset(numbers.actions[at] for at in bits(found))

    def needed_for_isolation(self, action: str) -> bool:
        """Whether isolation needs an action done before it."""
        return action in self._early

    @cached_property
    def _closure(self) -> Closure:
        numbers = self.graph.numbers
        without = sum(1 << numbers.task[own] for own in self.graph.guide.isolating if own in numbers.task)
        return close(self.graph.shape, without)

    def way(self, action: str) -> tuple[Operation, ...]:
        """The operations of a way to an action on which the device is live, in note order."""
        closure = self._closure
        tasks, choices = closure.of(1 << self.graph.numbers.task[action])
        while choices:
            number = next(bits(choices))
            choices &= ~(1 << number)
            if all(way & ~tasks for way in closure.choices[number]):
                more, opened = closure.of(closure.choices[number][0])
                tasks, choices = tasks | more, choices | opened
        blocks = sorted({self.graph.shape.tasks[at].block for at in bits(tasks)})
        return tuple(self.graph.operations[block] for block in blocks)


def touched_before_isolation(graph: Graph) -> tuple[str, ...]:
    """The actions that work on what should be dead, and that isolation itself needs done before it (ids).

    A guide shows a caution at each.
    """
    guide = graph.guide
    if not has_power(guide):
        return ()
    live = Live.of(graph)
    return tuple(
        own
        for own in graph.numbers.actions
        if own in live.possible and live.needed_for_isolation(own) and touched_live(guide, guide.actions[own])
    )
