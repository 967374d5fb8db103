"""A set of tasks -> the cheapest orders of it in which each block stays together.

What is forced is not searched: as long as one block needs all the others it stands last and is peeled off, and a
set splits wherever all of one part comes before all of the other. Every set once solved is kept, so that routes
that begin alike share the work. Blocks that are alike in all that matters keep the order of the note.
"""

from __future__ import annotations

from typing import NamedTuple

from guidec.plan.alike import cuts, inward, items, places, twins
from guidec.plan.bound import Bound, Outline
from guidec.plan.closure import Closure
from guidec.plan.cost import Scale
from guidec.plan.groups import groups_of, is_loose, is_served, needed_directly, sure_last
from guidec.plan.problem import Problem, bits, mask, mask_of
from guidec.plan.search import Found, Grown, State, search
from guidec.plan.sums import Sums
from guidec.plan.walk import Walker

__all__ = ["Arranger", "Front", "Visit", "done_in"]


class Visit(NamedTuple):
    """One block in a route: its tasks in order, and all tasks done with it (a bit set).

    `heads`: of each block visited so far its first task taken (a bit set), to count blocks by.
    """

    tasks: tuple[int, ...]
    done: int
    heads: int


class Front(NamedTuple):
    """The cheapest order of a set for each state it can end in; `exact` where nothing was cut short."""

    found: Found
    exact: bool


def done_in(grown: Grown) -> int:
    """All tasks done in a partial order (a bit set)."""
    return grown.placed.done if isinstance(grown.placed, Visit) else 0


class Arranger:
    """Arranges sets of one problem by one scale, and remembers."""

    def __init__(self, problem: Problem, closure: Closure, scale: Scale) -> None:
        self.problem = problem
        self.closure = closure
        self.walker = Walker(problem, scale)
        self._distance = scale.pack(distance=1)
        self._shuffle = scale.pack(shuffle=1)
        self._tangled = problem.tangled
        first = Grown(0, State(0, problem.start, False), None, None)
        self._known: dict[int, Front] = {0: Front({first.state: first}, exact=True)}
        self._inner: dict[tuple[int, State], tuple[tuple[int, State, tuple[int, ...]], ...]] = {}
        self._shapes: dict[int, tuple[object, ...] | None] = {}
        self._outlines: dict[int, Outline] = {}
        self._inexact = 0
        self.placed = 0
        """Blocks placed so far, in all searches."""
        self.inward = inward(problem)

    def front(self, tasks: int) -> Front:
        """The cheapest orders of a set that serves itself. Empty where none is possible."""
        peeled: list[tuple[int, int]] = []
        front = self._known.get(tasks)
        at = tasks
        while front is None:
            last = sure_last(self.problem, self.closure, at)
            if not last:
                front = self._search(at)
                self._known[at] = front
                break
            peeled.append((at, last))
            at &= ~last
            front = self._known.get(at)
        for whole, last in reversed(peeled):
            front = self.append(front, last)
            self._known[whole] = front
        return front

    def append(self, front: Front, acts: int) -> Front:
        """Put one block behind all orders of a front."""
        best: Found = {}
        for grown in front.found.values():
            for after in self._place(grown, acts, done_in(grown)):
                known = best.get(after.state)
                if known is None or after.cost < known.cost:
                    best[after.state] = after
        return Front(best, front.exact and not acts & self._inexact)

    # ------------------------------------------------------------ one block

    def _place(self, grown: Grown, acts: int, done: int) -> list[Grown]:
        """A block behind an order: one result for each state that it can end in."""
        block = self.problem.tasks[acts.bit_length() - 1].block
        heads = grown.placed.heads if isinstance(grown.placed, Visit) else 0
        away = self._distance * (heads >> self.problem.members[block].bit_length()).bit_count()
        heads |= acts & -acts
        return [
            Grown(grown.cost + cost + away, state, grown, Visit(order, done | acts, heads))
            for cost, state, order in self._block(acts, grown.state, done)
        ]

    def _block(self, acts: int, state: State, done: int) -> tuple[tuple[int, State, tuple[int, ...]], ...]:
        """The cheapest orders within a block: (cost, end state, order) for each end state."""
        settled = not acts & (self.walker.watchful | self.inward)
        key = (acts, state)
        if settled and key in self._inner:
            return self._inner[key]
        found = self._within(acts, state, done)
        if settled:
            self._inner[key] = found
        return found

    def _within(self, acts: int, state: State, done: int) -> tuple[tuple[int, State, tuple[int, ...]], ...]:
        members = list(bits(acts))
        before = self._before(members, acts, done)
        if all(before[at] >> at - 1 & 1 for at in range(1, len(members))):
            return (self._straight(members, state, done),)
        within = bool(acts & self.inward)
        if not within:
            twins(members, before, [self._task_shape(task) for task in members])
        sets = Sums([1 << task for task in members])

        def place(grown: Grown, item: int, placed: int) -> list[Grown]:
            more, after = self.walker.step(grown.state, members[item], done | sets.of(placed))
            late = (placed >> item + 1).bit_count()
            return [Grown(grown.cost + more + late * self._shuffle, after, grown, members[item])]

        def bound(placed: int, now: State) -> int:
            return self.walker.bound(acts & ~sets.of(placed), now)

        def allowed(item: int, placed: int) -> bool:
            return is_served(self.problem, members[item], done | sets.of(placed))

        start = Grown(0, state, None, ())
        found, exact = search(before, [start], place, bound, self.walker.slack, allowed if within else None)
        if not exact:
            self._inexact |= acts
        return tuple((grown.cost, grown.state, items(grown)) for grown in found.values())

    def _straight(self, members: list[int], state: State, done: int) -> tuple[int, State, tuple[int, ...]]:
        """A block whose order is forced, and is the note's."""
        cost = 0
        for task in members:
            more, state = self.walker.step(state, task, done)
            cost += more
            done |= 1 << task
        return cost, state, tuple(members)

    def _before(self, members: list[int], acts: int, done: int) -> list[int]:
        """For each member, the members (by place) that are surely before it."""
        place = {task: at for at, task in enumerate(members)}
        before = []
        for task in members:
            needed = self.closure.forced[task] & acts & ~(1 << task)
            if self.inward >> task & 1:
                needed |= needed_directly(self.problem, 1 << task, acts | done) & acts
            before.append(mask(place[other] for other in bits(needed)))
        return before

    # ------------------------------------------------------------ several blocks

    def _search(self, tasks: int) -> Front:
        """Search the orders of a set, one stretch after the other between the places where it splits."""
        groups = groups_of(self.problem, tasks)
        upto = [0]
        for acts, _ in groups:
            upto.append(upto[-1] | acts)
        ends = [0, *cuts(groups, upto), len(groups)]
        first = max(at for at, cut in enumerate(ends) if upto[cut] in self._known)
        front = self._known[upto[ends[first]]]
        for start, end in zip(ends[first:], ends[first + 1 :], strict=False):
            if end - start == 1:
                front = self.append(front, groups[start][0])
            else:
                front = self._segment(groups[start:end], upto[start], front, upto[end])
            self._known[upto[end]] = front
        return front

    def _segment(self, groups: list[tuple[int, int]], base: int, front: Front, tasks: int) -> Front:
        """Search the orders of groups that all come after `base`."""
        blocks = [acts for acts, _ in groups]
        before = [places(blocks, needed & ~base) for _, needed in groups]
        loose = [[task for task in bits(acts) if is_loose(self.problem, task, tasks)] for acts in blocks]
        if not any(loose):
            twins(blocks, before, [self._shape(acts) for acts in blocks])
        sets = Sums(blocks)

        def place(grown: Grown, item: int, placed: int) -> list[Grown]:
            self.placed += 1
            return self._place(grown, blocks[item], base | sets.of(placed))

        bound = Bound([self._outline(acts) for acts in blocks], self.walker.change, self.walker.turn).of

        def allowed(item: int, placed: int) -> bool:
            done = base | sets.of(placed) | blocks[item]
            return all(is_served(self.problem, task, done) for task in loose[item])

        found, exact = search(
            before, front.found.values(), place, bound, self.walker.slack, allowed if any(loose) else None
        )
        return Front(found, exact and front.exact and not tasks & self._inexact)

    def _outline(self, acts: int) -> Outline:
        """A block as it looks from outside, remembered."""
        if acts not in self._outlines:
            self._outlines[acts] = self._drawn(acts)
        return self._outlines[acts]

    def least(self, tasks: int) -> int:
        """A lower bound on the cost of a set, whatever its order."""
        if tasks & self._tangled:
            return sum(self.walker.static[at] for at in bits(tasks))
        rest, blocks = tasks, []
        while rest:
            acts = rest & self.problem.members[self.problem.tasks[rest.bit_length() - 1].block]
            blocks.append(acts)
            rest &= ~acts
        outlines = [self._outline(acts) for acts in blocks]
        return Bound(outlines, self.walker.change, self.walker.turn).of(
            0, State(0, self.problem.start, pending=False)
        )

    def _drawn(self, acts: int) -> Outline:
        tasks = [self.problem.tasks[at] for at in bits(acts)]
        tools = mask_of(task.tools for task in tasks)
        sides = mask_of(1 << task.side for task in tasks if task.side)
        sides |= mask_of(1 << task.turn for task in tasks if task.turn)
        if acts & (self.walker.watchful | self.inward) or any(task.turn for task in tasks):
            return Outline(sum(self.walker.static[at] for at in bits(acts)), 0, tools, 0, sides)
        ways = self._block(acts, State(0, 0, pending=False), 0)
        least = min(cost for cost, _, _ in ways)
        if len(ways) > 1 or len({order for _, _, order in ways}) > 1 or not self._is_straight(acts):
            return Outline(least, 0, tools, 0, sides)
        first = next((task.tools for task in tasks if task.tools), 0)
        side = next((task.side for task in tasks if task.side), 0)
        end = ways[0][1]
        return Outline(least, first, end.hand, side, 1 << end.side if end.side else 0)

    def _is_straight(self, acts: int) -> bool:
        members = list(bits(acts))
        before = self._before(members, acts, 0)
        return all(before[at] >> at - 1 & 1 for at in range(1, len(members)))

    # ------------------------------------------------------------ what is alike

    def _task_shape(self, task: int) -> tuple[object, ...] | None:
        """All of a task that an order's cost depends on; None where it is like no other."""
        if self.walker.watchful >> task & 1:
            return None
        one = self.problem.tasks[task]
        return (one.tools, one.side, one.turn, one.ends, one.works)

    def _shape(self, acts: int) -> tuple[object, ...] | None:
        """All of a group that an order's cost depends on; None where it is like no other."""
        if acts in self._shapes:
            return self._shapes[acts]
        members = list(bits(acts))
        shapes = [self._task_shape(task) for task in members]
        found: tuple[object, ...] | None = None
        if not acts & self.inward and None not in shapes:
            found = (tuple(shapes), tuple(self._before(members, acts, 0)))
        self._shapes[acts] = found
        return found
