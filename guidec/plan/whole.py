"""A graph -> the whole teardown, in an order that works."""

from __future__ import annotations

from guidec.plan.graph import Graph

__all__ = ["teardown"]


def teardown(graph: Graph) -> tuple[str, ...]:
    """The actions of the whole teardown: note order as far as the needs allow it, the first way of each choice.

    An operation is done in one go wherever that can be. Actions that can never be done are left out.
    """
    walk = _Walk(graph)
    left = [operation for operation in graph.operations if operation.instead_of is None]
    waiting = [[graph.numbers.task[own] for own in operation.actions] for operation in left]
    while waiting:
        for tasks in waiting:
            if walk.whole(tasks):
                waiting.remove(tasks)
                break
        else:
            if not walk.part([task for tasks in waiting for task in tasks]):
                break
            waiting = [rest for tasks in waiting if (rest := [task for task in tasks if not walk.did(task)])]
    return tuple(graph.numbers.actions[at] for at in walk.done)


class _Walk:
    """Does tasks as their needs allow."""

    def __init__(self, graph: Graph) -> None:
        self._tasks = graph.shape.tasks
        self._have = 0
        self.done: list[int] = []

    def did(self, task: int) -> bool:
        """Whether a task is done."""
        return bool(self._have >> task & 1)

    def _ready(self, task: int, have: int) -> bool:
        lacking = ~have
        for ways in self._tasks[task].needs:
            for way in ways:
                if not way & lacking:
                    break
            else:
                return False
        return True

    def whole(self, tasks: list[int]) -> bool:
        """Do all of some tasks, or none; whether they could be done."""
        have, order, left = self._have, list[int](), tasks
        while left:
            now = next((task for task in left if self._ready(task, have)), None)
            if now is None:
                return False
            have |= 1 << now
            order.append(now)
            left = [task for task in left if task != now]
        self._have = have
        self.done += order
        return True

    def part(self, tasks: list[int]) -> bool:
        """Do the first task that can be done; whether there was one."""
        for task in tasks:
            if self._ready(task, self._have):
                self._have |= 1 << task
                self.done.append(task)
                return True
        return False
