"""A task done in a state -> what it costs, and the state after it. Counts as the language's planning rules say.

Steps are counted after Commission Delegated Regulation (EU) 2023/1669, Annex I (20) and Annex IV: a step finishes
with the removal of a part or with a change of tool; heating and cleaning are steps; tools needed at the same time
are a step each. Picking up the first tool is not counted (the text leaves that open).
"""

from __future__ import annotations

from functools import cached_property

from guidec.plan.cost import Scale
from guidec.plan.problem import Problem, bits
from guidec.plan.search import State

__all__ = ["Walker"]


class Walker:
    """Counts the cost of tasks of one problem."""

    def __init__(self, problem: Problem, scale: Scale) -> None:
        self.problem = problem
        self.scale = scale
        self.step_cost = scale.pack(steps=1)
        self.change = scale.pack(changes=1, hand=problem.change_time)
        self.turn = scale.pack(turns=1, hand=problem.turn_time)
        self.flaw = scale.pack(flaws=1)
        self._most = max((task.tools.bit_count() for task in problem.tasks), default=0)
        self._rests: dict[int, tuple[int, int, int]] = {0: (0, 0, 0)}
        self._slack = self._most * self.change + self.turn

    @cached_property
    def watchful(self) -> int:
        """The tasks whose cost depends on what was done before them (bit set)."""
        found = 0
        problem = self.problem
        for at, task in enumerate(problem.tasks):
            shared = any(problem.takers[thing].bit_count() > 1 for thing, _ in task.takes)
            if shared or task.hot or task.isolates:
                found |= 1 << at
        return found

    @cached_property
    def static(self) -> tuple[int, ...]:
        """What each task costs in any order; of a watchful one only what it costs surely."""
        return tuple(self._static(at) for at in range(len(self.problem.tasks)))

    def _static(self, at: int) -> int:
        task = self.problem.tasks[at]
        if task.turn or self.rivalled >> at & 1:
            return 0
        return self._plain(at) + sum(
            self._taken(thing, count) for thing, count in task.takes if self.problem.takers[thing].bit_count() == 1
        )

    def _plain(self, at: int) -> int:
        """A task's own steps, risks and times."""
        task = self.problem.tasks[at]
        steps = int(task.ends) + max(0, task.tools.bit_count() - 1)
        return self.scale.pack(steps=steps, risks=task.risks, hand=task.hand, wait=task.wait)

    @cached_property
    def rivalled(self) -> int:
        """Tasks that may find their work done by another way."""
        found = 0
        problem = self.problem
        for at, task in enumerate(problem.tasks):
            rivals = problem.rival_members[task.block]
            if task.takes and rivals and all(problem.takers[thing] & rivals for thing, _ in task.takes):
                found |= 1 << at
        return found

    def _taken(self, thing: int, count: int) -> int:
        """The cost of taking so many of a thing."""
        stock = self.problem.stocks[thing]
        single = count if stock.single else 0
        spent = (count if stock.single else 1) if stock.spent else 0
        return self.scale.pack(spent=spent, screws=single)

    def fresh(self, at: int, done: int) -> tuple[tuple[int, int], ...]:
        """What a task takes that was not taken yet: (thing, how many)."""
        return tuple(
            (thing, left)
            for thing, count in self.problem.tasks[at].takes
            if (left := self._left(thing, count, done))
        )

    def _left(self, thing: int, count: int, done: int) -> int:
        """How many of a thing a task still finds, at most `count`."""
        takers = self.problem.takers[thing] & done
        if not takers:
            return count
        stock = self.problem.stocks[thing]
        if not stock.single:
            return 0
        gone = sum(taken for at in bits(takers) for each, taken in self.problem.tasks[at].takes if each == thing)
        return max(0, min(count, stock.count - gone))

    def skipped(self, at: int, done: int, side: int) -> bool:
        """Whether a task finds its work done: by another way, or for a turn, its side up already."""
        task = self.problem.tasks[at]
        if task.turn:
            return task.turn == side
        if not self.rivalled >> at & 1:
            return False
        rivals = self.problem.rival_members[task.block] & done
        return bool(rivals) and all(not self._left(thing, count, rivals) for thing, count in task.takes)

    def step(self, state: State, at: int, done: int) -> tuple[int, State]:
        """Do a task: its cost, and the state after it."""
        task = self.problem.tasks[at]
        hand, side, pending = state
        if task.turn or self.rivalled >> at & 1:
            if self.skipped(at, done, side):
                return 0, state
            cost = self._plain(at)
        else:
            cost = self.static[at]
        if self.watchful >> at & 1:
            cost += self._watched(at, done)
        if task.turn:
            cost += self.scale.pack(turns=1)
            side = task.turn
        elif task.side and task.side != side:
            cost += self.turn if side else 0
            side = task.side
        if task.tools:
            if hand and (new := task.tools & ~hand):
                cost += self.change * new.bit_count()
                if pending:
                    cost += self.step_cost
                    pending = False
            hand = task.tools
        if task.ends:
            pending = False
        elif task.works:
            pending = True
        return cost, State(hand, side, pending)

    def _watched(self, at: int, done: int) -> int:
        """What a watchful task costs after what was done, beyond its own."""
        task = self.problem.tasks[at]
        cost = 0
        if task.hot and not done & self.problem.isolators:
            cost = self.flaw
        static = not self.rivalled >> at & 1
        for thing, count in task.takes:
            alone = self.problem.takers[thing].bit_count() == 1
            if not (alone and static):
                left = self._left(thing, count, done)
                cost += self._taken(thing, left) if left else 0
        return cost

    def bound(self, rest: int, state: State) -> int:
        """A lower bound on what the tasks of `rest` will cost from a state."""
        static, tools, sides = self._rest(rest)
        new = (tools & ~state.hand).bit_count()
        if not state.hand:
            new = max(0, new - self._most)
        turned = (sides & ~(1 << state.side) & ~1).bit_count() - (not state.side)
        return static + new * self.change + max(turned, 0) * self.turn_bound

    @cached_property
    def turn_bound(self) -> int:
        """What bringing up another side costs at least."""
        return self.scale.pack(turns=1)

    def _rest(self, rest: int) -> tuple[int, int, int]:
        """The sure cost, the tools and the sides of a set of tasks, remembered."""
        known = self._rests.get(rest)
        if known is None:
            static = tools = sides = 0
            for at in bits(rest):
                task = self.problem.tasks[at]
                static += self.static[at]
                if not self.rivalled >> at & 1:
                    tools |= task.tools
                    sides |= 1 << task.side
                    sides |= 1 << task.turn
            known = self._rests[rest] = (static, tools, sides)
        return known

    def slack(self, state: State) -> int:
        """How much dearer than from any other state it can get at most to go on from this one."""
        return self._slack + (self.step_cost if state.pending else 0)

    def end(self, state: State) -> int:
        """What ends with a route: pending work is one step."""
        return self.step_cost if state.pending else 0
