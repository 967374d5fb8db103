"""What is needed -> the cheapest orders of any set of tasks that serves it, choices among ways settled one by one.

A block that surely stands last is a gate: what lies before it can be solved by itself, whatever is chosen there,
and only the state in which it ends matters behind it. So a chain of many operations with another way each takes
time in proportion to its length, not to the number of combinations. Where choices hang together, all combinations
are weighed.
"""

from __future__ import annotations

from guidec.plan.arrange import Arranger, Front
from guidec.plan.choose import smallest_sets
from guidec.plan.closure import Closure
from guidec.plan.problem import Problem, bits, mask_of
from guidec.plan.search import Found

__all__ = ["Gates"]

BUDGET = 40_000
"""So many blocks are placed in all for the combinations of one route; past it the best found is taken."""
SET = 20
"""A set of tasks counts like so many blocks placed."""
DEEP = 40
"""With more choices than this they are solved from the first on, so that none is met deep inside another."""


class Gates:
    """Solves requirements of one problem, and remembers."""

    def __init__(self, problem: Problem, closure: Closure, arranger: Arranger) -> None:
        self.problem = problem
        self.closure = closure
        self.arranger = arranger
        self._known: dict[tuple[int, int], Front] = {}
        self._warm = False
        self._reach = None if problem.tangled else closure.reach
        self._choice_reach = [
            mask_of(self._universe(way, 0) for way in ways) if self._reach else 0 for ways in closure.choices
        ]

    def front(self, wanted: int) -> Front:
        """The cheapest orders that end with all of `wanted` done, for each state that they can end in."""
        if self._reach is not None and len(self.closure.choices) > DEEP and not self._warm:
            self._warm = True
            for ways in sorted(self.closure.choices, key=max):
                for way in ways:
                    self._solve(way, 0)
        return self._solve(wanted, 0)

    def _solve(self, wanted: int, asked: int) -> Front:
        """Solve for tasks wanted and choices asked for, peeling gates without recursion."""
        gates: list[tuple[tuple[int, int], int]] = []
        while True:
            tasks, choices = self._open(wanted, asked)
            if (tasks, choices) in self._known:
                front = self._known[tasks, choices]
                break
            gate = self._gate(tasks, choices) if choices else 0
            if not gate:
                front = self._known[tasks, choices] = self._branch(wanted, tasks, choices)
                break
            gates.append(((tasks, choices), gate))
            wanted, asked = self._before(wanted & ~gate, choices, gate)
        for key, gate in reversed(gates):
            front = self._known[key] = self.arranger.append(front, gate)
        return front

    def _open(self, wanted: int, asked: int) -> tuple[int, int]:
        """All that is surely done, and the choices that it leaves open."""
        tasks, choices = self.closure.of(wanted)
        left = 0
        for number in bits(choices | asked):
            if all(way & ~tasks for way in self.closure.choices[number]):
                left |= 1 << number
        return tasks, left

    def _before(self, wanted: int, choices: int, gate: int) -> tuple[int, int]:
        """What is wanted before a gate: the needs of its tasks, and what else was wanted."""
        asked = 0
        for task in bits(gate):
            wanted |= self.closure.direct[task]
            asked |= self.closure.asks[task]
        return wanted & ~gate, asked & choices

    def _gate(self, tasks: int, choices: int) -> int:
        """The tasks of the block that stands last whatever is chosen, 0 where none does."""
        if self._reach is None or not tasks:
            return 0
        block = self.problem.tasks[tasks.bit_length() - 1].block
        mine = tasks & self.problem.members[block]
        needed = self.closure.of(mine)[1]
        if choices & ~needed or mine & self.arranger.inward:
            return 0
        covered = mask_of(self.closure.blocks[task] for task in bits(mine))
        before = mask_of(self._choice_reach[number] for number in bits(choices)) | tasks & ~mine
        first = (mine & -mine).bit_length() - 1
        if tasks & ~covered or before >> first:
            return 0
        return 0 if self._watched(mine, before, tasks & ~mine) else mine

    def _watched(self, mine: int, before: int, surely: int) -> bool:
        """Whether what some of `mine` costs depends on what is chosen before it."""
        maybe = before & ~surely
        for at in bits(mine & self.arranger.walker.watchful):
            task = self.problem.tasks[at]
            if any(self.problem.takers[thing] & maybe for thing, _ in task.takes):
                return True
            if task.hot and self.problem.isolators & maybe and not self.problem.isolators & surely:
                return True
        return False

    # ------------------------------------------------------------ choices

    def _branch(self, wanted: int, tasks: int, choices: int) -> Front:
        """Settle the choice that stands last, if one does and touches no other, or weigh all combinations."""
        if not choices:
            return self.arranger.front(tasks)
        for number in sorted(bits(choices), key=lambda number: -max(self.closure.choices[number])):
            if self._stands_last(tasks, choices, number) and self._apart(tasks, choices, number):
                ways = self.closure.choices[number]
                return _merged([self._solve(wanted | way, choices & ~(1 << number)) for way in ways])
        return self._combinations(tasks, choices)

    def _stands_last(self, tasks: int, choices: int, number: int) -> bool:
        """Whether each way of a choice comes after all else that is wanted, so that it will be a gate."""
        for way in self.closure.choices[number]:
            forced, opened = self.closure.of(way)
            if tasks & ~forced or choices & ~opened & ~(1 << number):
                return False
        return True

    def _apart(self, tasks: int, choices: int, number: int) -> bool:
        """Whether going one way of a choice can never bring in another of its ways as well."""
        if self._reach is None:
            return False
        others = mask_of(self._choice_reach[other] for other in bits(choices) if other != number) | tasks
        ways = self.closure.choices[number]
        for way in ways:
            reached = self._universe(way, 0) | others
            if any(other != way and not other & ~reached for other in ways):
                return False
        return True

    def _combinations(self, tasks: int, choices: int) -> Front:
        """All smallest sets, each in its cheapest orders."""
        static = self.arranger.walker.static
        sets = smallest_sets(
            self.problem,
            self.closure,
            (tasks, choices),
            lambda some: sum(static[at] for at in bits(some)),
            check=bool(self.problem.tangled),
        )
        fronts: list[Front] = []
        limit: int | None = None
        exact = sets.complete
        start = self.arranger.placed
        for least, each in sorted((self.arranger.least(each), each) for each in sets.sets):
            if limit is not None and least > limit:
                break  # dearer than the best by more than any state could save later
            if limit is not None and self.arranger.placed - start > BUDGET:
                exact = False
                break
            self.arranger.placed += SET
            front = self.arranger.front(each)
            fronts.append(front)
            for state, grown in front.found.items():
                ahead = grown.cost + self.arranger.walker.slack(state)
                limit = ahead if limit is None else min(limit, ahead)
        front = _merged(fronts) if fronts else Front({}, exact=True)
        return Front(front.found, front.exact and exact)

    def _universe(self, tasks: int, found: int) -> int:
        """All that any way could bring in."""
        assert self._reach is not None
        for task in bits(tasks):
            found |= self._reach[task]
        return found


def _merged(fronts: list[Front]) -> Front:
    """The cheapest of several fronts for each end state."""
    if len(fronts) == 1:
        return fronts[0]
    best: Found = {}
    for front in fronts:
        for state, grown in front.found.items():
            if state not in best or grown.cost < best[state].cost:
                best[state] = grown
    return Front(best, all(front.exact for front in fronts))
