"""A problem and targets -> the cheapest way to reach them, and what the other ways would cost."""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import dataclass

from guidec.plan.arrange import Arranger, Visit
from guidec.plan.choose import Sets, smallest
from guidec.plan.closure import Closure, close, tangled
from guidec.plan.cost import By, Cost, scale
from guidec.plan.problem import Problem
from guidec.plan.search import Grown

__all__ = ["Found", "Plan", "Planner"]


@dataclass(frozen=True, slots=True)
class Plan:
    """One order of one set of tasks. `grown` leads back through its visits; `cost` is packed, the end included."""

    tasks: int
    grown: Grown
    cost: int


@dataclass(frozen=True, slots=True)
class Found:
    """The cheapest plan and the others, cheapest first, each of another smallest set.

    `best` is None where the targets cannot be reached. `exact`: no cheaper plan exists.
    """

    best: Plan | None
    others: tuple[Plan, ...]
    exact: bool


class Planner:
    """Plans for one problem by one order of costs; what was worked out once is kept."""

    def __init__(self, problem: Problem, by: By = "damage", closure: Closure | None = None) -> None:
        self.problem = problem
        self.scale = scale(by)
        self.closure = closure or close(problem)
        self._tangled = tangled(problem)
        self.arranger = Arranger(problem, self.closure, self.scale, self._tangled)

    def plan(self, targets: Sequence[tuple[int, ...]]) -> Found:
        """Targets (needs with their ways, as bit sets) -> the plans."""
        sets = self.sets(targets)
        plans = []
        exact = sets.complete
        for tasks in sets.sets:
            front = self.arranger.front(tasks)
            exact = exact and front.exact
            ended = [(grown.cost + self.arranger.walker.end(state), grown) for state, grown in front.found.items()]
            if ended:
                cost, grown = min(ended, key=lambda entry: entry[0])
                plans.append(Plan(tasks, grown, cost))
        plans.sort(key=lambda plan: (plan.cost, plan.tasks.bit_count()))
        return Found(plans[0] if plans else None, tuple(plans[1:]), exact)

    def sets(self, targets: Sequence[tuple[int, ...]]) -> Sets:
        """The smallest sets of tasks that serve the targets."""
        return smallest(self.problem, self.closure, targets, bool(self._tangled))

    def cost(self, plan: Plan) -> Cost:
        """A plan's cost, taken apart."""
        return self.scale.cost(plan.cost)

    @staticmethod
    def visits(plan: Plan) -> tuple[Visit, ...]:
        """A plan's visits of blocks, in order."""
        found = []
        at: Grown | None = plan.grown
        while at is not None and at.before is not None:
            assert isinstance(at.placed, Visit)
            found.append(at.placed)
            at = at.before
        return tuple(reversed(found))
