"""A problem and targets -> the cheapest way to reach them, and what the other ways would cost."""

from __future__ import annotations

from collections.abc import Iterator, Sequence
from itertools import islice, product

from guidec.plan.arrange import Arranger, Visit, done_in
from guidec.plan.closure import Closure, close
from guidec.plan.cost import By, Cost, scale
from guidec.plan.gates import Gates
from guidec.plan.problem import Problem
from guidec.plan.search import Grown
from guidec.quick import dataclass

__all__ = ["Plan", "Planner"]

COMBINATIONS = 64
"""So many combinations of removing actions are weighed for a set of targets; past it the plan is not exact."""

OTHERS = 60_000
"""So many blocks are placed to find out what the other ways of one plan would cost."""

Targets = Sequence[tuple[int, ...]]


@dataclass(frozen=True, slots=True)
class Plan:
    """One order of one set of tasks. `grown` leads back through its visits; `cost` is packed, the end included."""

    tasks: int
    grown: Grown
    cost: int
    exact: bool

    def visits(self) -> tuple[Visit, ...]:
        """The visits of blocks, in order."""
        return tuple(visit for _, visit in self.trail())

    def trail(self) -> list[tuple[Grown, Visit]]:
        """Each visit with the partial order that it ends, in order."""
        found = []
        at: Grown | None = self.grown
        while at is not None and isinstance(at.placed, Visit):
            found.append((at, at.placed))
            at = at.before
        return found[::-1]


class Planner:
    """Plans for one problem by one order of costs; what was worked out once is kept.

    Targets are needs: each with its ways as bit sets of tasks. `without`: tasks that no plan may hold. `arranger`:
    another planner's of the same problem and costs, to share what it worked out.
    """

    def __init__(
        self,
        problem: Problem,
        by: By = "damage",
        *,
        closure: Closure | None = None,
        without: int = 0,
        arranger: Arranger | None = None,
    ) -> None:
        self.problem = problem
        self.by = by
        self.scale = scale(by)
        self.closure = closure or close(problem, without)
        self.arranger = arranger or Arranger(problem, self.closure, self.scale)
        self._gates = Gates(problem, self.closure, self.arranger)
        self._others: dict[int, Planner] = {}
        self._extents: dict[int, tuple[Grown, tuple[int, int]]] = {}

    def plan(self, targets: Targets) -> Plan | None:
        """The cheapest plan; None where the targets cannot be reached."""
        best: tuple[int, int, Grown] | None = None
        exact = True
        for wanted, complete in self._wanted(targets):
            front = self._gates.front(wanted)
            exact = exact and front.exact and complete
            for state, grown in front.found.items():
                cost = grown.cost + self.arranger.walker.end(state)
                entry = (cost, done_in(grown).bit_count(), grown)
                if best is None or entry[:2] < best[:2]:
                    best = entry
        return Plan(done_in(best[2]), best[2], best[0], exact) if best else None

    def _wanted(self, targets: Targets) -> Iterator[tuple[int, bool]]:
        """Each combination of the targets' ways as one set of tasks wanted."""
        alive = [[way for way in ways if not way & ~self.closure.can] for ways in targets]
        count = 1
        for ways in alive:
            count *= len(ways)
        for combination in islice(product(*alive), COMBINATIONS):
            wanted = 0
            for way in combination:
                wanted |= way
            yield wanted, count <= COMBINATIONS

    def others(self, targets: Targets, plan: Plan) -> tuple[list[tuple[int, int, Plan]], bool]:
        """What each other way would cost: (block gone instead, block it stands for, its plan), cheapest first.

        An other way is a block that the plan does not use, and that can serve where all its rivals are left out.
        Past a bound (`OTHERS`) the rest of them is left out; then the second value is true.
        """
        found, left = [], False
        start = self.arranger.placed
        for block in self._rivalled(plan.tasks):
            for other in sorted(self.problem.rivals[block]):
                if plan.tasks & self.problem.members[other]:
                    continue
                if self.arranger.placed - start > OTHERS:
                    left = True
                    continue
                family = self.problem.rivals[other] | {other}
                without = sum(self.problem.members[each] for each in family if each != other)
                second = self._without(without).plan(targets)
                if second is not None and second.tasks & self.problem.members[other]:
                    found.append((other, block, second))
        return sorted(found, key=lambda entry: entry[2].cost), left

    def _rivalled(self, tasks: int) -> list[int]:
        """The blocks of a set that have other ways."""
        if not any(self.problem.rivals):
            return []
        return sorted(
            block
            for block, rivals in enumerate(self.problem.rivals)
            if rivals and tasks & self.problem.members[block]
        )

    def _without(self, tasks: int) -> Planner:
        """A planner that never does some tasks, kept for the next time."""
        if tasks not in self._others:
            self._others[tasks] = Planner(self.problem, self.by, without=tasks, arranger=self.arranger)
        return self._others[tasks]

    def cost(self, plan: Plan) -> Cost:
        """A plan's cost, taken apart."""
        return self.scale.cost(plan.cost)

    def extent(self, plan: Plan) -> tuple[int, int]:
        """All tools of a plan (a bit set), and how many visits it has."""
        behind: list[tuple[Grown, Visit]] = []
        at: Grown | None = plan.grown
        while at is not None and isinstance(at.placed, Visit) and id(at) not in self._extents:
            behind.append((at, at.placed))
            at = at.before
        tools, count = self._extents[id(at)][1] if id(at) in self._extents else (0, 0)
        for grown, visit in reversed(behind):
            for task in visit.tasks:
                tools |= self.problem.tasks[task].tools
            count += 1
            self._extents[id(grown)] = (grown, (tools, count))
        return tools, count

    def order(self, plan: Plan) -> list[int]:
        """All tasks of a plan in order."""
        return [task for visit in plan.visits() for task in visit.tasks]
