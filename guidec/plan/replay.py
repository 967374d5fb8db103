"""A plan -> what happens on it, operation by operation: turns put in, steps and what ends each, tools taken up."""

from __future__ import annotations

from guidec.model.types import Change
from guidec.plan.arrange import Visit
from guidec.plan.graph import Graph
from guidec.plan.planner import Plan, Planner
from guidec.plan.problem import Task, bits
from guidec.plan.search import Grown, State
from guidec.plan.types import EndsBy, StepEnd, Turn, Visited
from guidec.quick import replace

__all__ = ["Replayer"]


class Replayer:
    """Replays the plans of one planner; operations that several routes go through alike are replayed once."""

    def __init__(self, graph: Graph, planner: Planner) -> None:
        self.graph = graph
        self._walker = planner.arranger.walker
        self._known: dict[int, tuple[Grown, tuple[Visited, ...]]] = {}

    def visits(self, plan: Plan) -> tuple[Visited, ...]:
        """The visits of a plan in order; work pending at its end is its last step."""
        found: list[Visited] = []
        for grown, visit in plan.trail():
            known = self._known.get(id(grown))
            if known is None:
                known = self._known[id(grown)] = (grown, self._visited(grown, visit))
            found += known[1]
        if plan.grown.state.pending and found:
            last = found[-1]
            found[-1] = replace(last, steps=(*last.steps, StepEnd(last.actions[-1], "end")))
        return tuple(found)

    def _visited(self, grown: Grown, visit: Visit) -> tuple[Visited, ...]:
        """One visit; operations that could not be kept apart come out as several."""
        assert grown.before is not None
        state = grown.before.state
        done = visit.done
        for task in visit.tasks:
            done &= ~(1 << task)
        found = []
        for part in _stretches(self.graph, visit.tasks):
            made = _Replay(self, state, done)
            for task in part:
                made.do(task)
            state, done = made.state, made.done
            found.append(made.visited(part))
        return tuple(found)


def _stretches(graph: Graph, tasks: tuple[int, ...]) -> list[list[int]]:
    """Tasks in order, cut where the operation changes."""
    found: list[list[int]] = []
    for task in tasks:
        if not found or graph.problem.tasks[found[-1][-1]].block != graph.problem.tasks[task].block:
            found.append([])
        found[-1].append(task)
    return found


class _Replay:
    """Does tasks one after another and writes down what happens."""

    def __init__(self, replayer: Replayer, state: State, done: int) -> None:
        self.graph = replayer.graph
        self.walker = replayer._walker
        self.state = state
        self.done = done
        self._skipped: set[str] = set()
        self._turns: list[Turn] = []
        self._steps: list[StepEnd] = []
        self._taken: list[tuple[str, str]] = []

    def do(self, at: int) -> None:
        """Do one task."""
        task = self.graph.problem.tasks[at]
        action = self.graph.numbers.actions[at]
        if self.walker.skipped(at, self.done, self.state.side):
            self._skipped.add(action)
        else:
            self._write(action, task)
        _, self.state = self.walker.step(self.state, at, self.done)
        self.done |= 1 << at

    def _write(self, action: str, task: Task) -> None:
        numbers = self.graph.problem_names
        if not task.turn and task.side and self.state.side and task.side != self.state.side:
            self._turns.append(Turn(action, numbers.sides[task.side - 1]))
        if self.state.hand and (new := task.tools & ~self.state.hand):
            self._taken += [(action, numbers.tools[tool]) for tool in bits(new)]
            if self.state.pending:
                self._steps.append(StepEnd(action, "tool"))
        self._steps += [StepEnd(action, "tools")] * max(0, task.tools.bit_count() - 1)
        if task.ends:
            self._steps.append(StepEnd(action, self._ends_by(action)))

    def _ends_by(self, action: str) -> EndsBy:
        one = self.graph.guide.actions[action]
        changes = {effect.change for effect in one.effects}
        if Change.OFF in changes:
            return "removal"
        if Change.MOVED in changes:
            return "move"
        return "clean" if self.graph.is_cleaning(action) else "heat"

    def visited(self, tasks: list[int]) -> Visited:
        """What was written down."""
        operation = self.graph.operations[self.graph.problem.tasks[tasks[0]].block]
        return Visited(
            operation=operation.id,
            number=operation.number,
            actions=tuple(self.graph.numbers.actions[at] for at in tasks),
            skipped=frozenset(self._skipped),
            turns=tuple(self._turns),
            steps=tuple(self._steps),
            tools_taken=tuple(self._taken),
        )
