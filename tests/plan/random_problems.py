"""Random small teardowns, and their cheapest route by trying everything.

The brute force shares no code with the planner: sets of names, plain lists, and the counting rules written out
once more from the text.
"""

from __future__ import annotations

import itertools
from collections.abc import Iterator
from random import Random

from guidec.plan.cost import ORDERS, By
from guidec.plan.problem import Problem, Stock, Task, bits, mask


def random_problem(random: Random, blocks: int, most: int = 3, other_ways: int = 1, sides: bool = True) -> Problem:
    """A note-like problem: blocks need earlier ones, whole or in part; some are another way to another."""
    tasks: list[Task] = []
    members: list[list[int]] = []
    group = list(range(blocks))
    for _ in range(other_ways):
        block = random.randrange(1, blocks)
        group[block] = group[random.randrange(block)]
    wholes: list[tuple[int, ...]] = []
    stocks: list[Stock] = []
    main_thing: dict[int, int] = {}
    for block in range(blocks):
        count = random.randint(1, most)
        first = len(tasks)
        mine = list(range(first, first + count))
        members.append(mine)
        rivals = [other for other in range(block) if group[other] == group[block]]
        if rivals:
            shared = tasks[members[rivals[0]][0]].needs
        else:
            shared = tuple(_between(random, members, group, block) for _ in range(random.choice((0, 1, 1, 2))))
        ordered = random.random() < 0.5
        side = random.choice((0, 1, 1, 2)) if sides else 0
        for place, at in enumerate(mine):
            needs = list(shared)
            if place and (ordered or random.random() < 0.3):
                needs.append((1 << random.choice(mine[:place]) if not ordered else 1 << at - 1,))
            takes = []
            if place == count - 1:
                thing = main_thing.get(group[block])
                if thing is None or random.random() < 0.3:
                    thing = len(stocks)
                    stocks.append(Stock())
                    main_thing.setdefault(group[block], thing)
                takes.append((thing, 1))
            elif random.random() < 0.5:
                single = random.random() < 0.6
                stocks.append(Stock(random.randint(1, 4) if single else 1, random.random() < 0.3, single))
                takes.append((len(stocks) - 1, stocks[-1].count))
            ends = place == count - 1 or random.random() < 0.15
            turn = random.choice((1, 2)) if sides and not takes and random.random() < 0.1 else 0
            tasks.append(
                Task(
                    block=block,
                    needs=tuple(needs),
                    tools=0 if turn else mask(random.sample(range(4), random.choice((0, 1, 1, 1, 2)))),
                    side=0 if turn else side,
                    turn=turn,
                    ends=ends and not turn,
                    works=not ends and not turn and random.random() < 0.8,
                    risks=int(random.random() < 0.15),
                    takes=tuple(takes),
                    hand=random.randint(0, 3),
                    wait=random.choice((0, 0, 0, 2)),
                )
            )
        wholes.append(tuple(mine))
    rivals_of = tuple(
        frozenset(other for other in range(blocks) if group[other] == group[block] and other != block)
        for block in range(blocks)
    )
    return Problem(tuple(tasks), tuple(stocks), rivals_of, random.choice((0, 1)), change_time=1, turn_time=1)


def _between(random: Random, members: list[list[int]], group: list[int], block: int) -> tuple[int, ...]:
    """A need of an earlier block, whole or by its last task, served by any block of its group."""
    earlier = random.randrange(block) if block else None
    if earlier is None:
        return (0,)
    pick = (lambda each: mask(each)) if random.random() < 0.6 else (lambda each: 1 << each[-1])
    return tuple(pick(members[other]) for other in range(block) if group[other] == group[earlier])


# ------------------------------------------------------------ everything, tried


def serving_sets(problem: Problem, targets: list[tuple[int, ...]]) -> list[frozenset[int]]:
    """All smallest sets that serve the targets and can be done in some order (subsets of up to 16 tasks)."""
    count = len(problem.tasks)
    good = []
    for tasks in range(1 << count):
        if all(any(not way & ~tasks for way in ways) for ways in targets) and _feasible(problem, tasks):
            good.append(tasks)
    return [frozenset(bits(tasks)) for tasks in good if not any(o != tasks and not o & ~tasks for o in good)]


def _feasible(problem: Problem, tasks: int) -> bool:
    done = 0
    going = True
    while going:
        going = False
        for at in bits(tasks & ~done):
            if all(any(not way & ~done for way in ways) for ways in problem.tasks[at].needs):
                done |= 1 << at
                going = True
    return done == tasks


def orders(problem: Problem, tasks: frozenset[int]) -> Iterator[list[int]]:
    """All orders of a set in which blocks stay together and every need is served in time."""
    by_block: dict[int, list[int]] = {}
    for at in sorted(tasks):
        by_block.setdefault(problem.tasks[at].block, []).append(at)

    def go(done: list[int], left: list[int]) -> Iterator[list[int]]:
        if not left:
            yield done
        for block in left:
            for inner in itertools.permutations(by_block[block]):
                order = list(done)
                for at in inner:
                    have = mask(order)
                    if not all(any(not way & ~have for way in ways) for ways in problem.tasks[at].needs):
                        break
                    order.append(at)
                else:
                    yield from go(order, [other for other in left if other != block])

    yield from go([], sorted(by_block))


PARTS = ("flaws", "risks", "spent", "steps", "changes", "turns", "hand", "wait", "distance", "shuffle", "screws")


class _Walk:
    """Walks along an order and counts, by the rules as they are written."""

    def __init__(self, problem: Problem) -> None:
        self.problem = problem
        self.count = dict.fromkeys(PARTS, 0)
        self.hand: frozenset[int] | None = None
        self.side, self.pending = problem.start, False
        self.dead = False
        self.taken: dict[int, int] = {}
        self.taken_by: dict[int, list[tuple[int, int]]] = {}

    def add(self, **parts: int) -> None:
        for part, count in parts.items():
            self.count[part] += count

    def done_by_a_rival(self, task: Task) -> bool:
        """All that the task takes was taken by another way."""
        rivals = self.problem.rivals[task.block]
        by_rivals = {
            thing: sum(count for block, count in self.taken_by.get(thing, []) if block in rivals)
            for thing, _ in task.takes
        }
        return bool(by_rivals) and all(
            count >= self.problem.stocks[thing].count for thing, count in by_rivals.items()
        )

    def do(self, task: Task) -> None:
        if task.turn:
            if task.turn != self.side:
                self.add(turns=1, hand=task.hand, wait=task.wait, risks=task.risks)
                self.side = task.turn
            return
        if self.done_by_a_rival(task):
            return
        if task.side and task.side != self.side:
            if self.side:
                self.add(turns=1, hand=self.problem.turn_time)
            self.side = task.side
        self.use(frozenset(bits(task.tools)))
        if task.ends:
            self.add(steps=1)
            self.pending = False
        elif task.works:
            self.pending = True
        self.add(risks=task.risks, hand=task.hand, wait=task.wait, flaws=int(task.hot and not self.dead))
        self.dead = self.dead or task.isolates
        for thing, number in task.takes:
            self.take(thing, number, task.block)

    def use(self, tools: frozenset[int]) -> None:
        if not tools:
            return
        new = tools - self.hand if self.hand is not None else frozenset()
        self.add(changes=len(new), hand=self.problem.change_time * len(new))
        if new and self.pending:
            self.add(steps=1)
            self.pending = False
        self.hand = tools
        self.add(steps=len(tools) - 1)

    def take(self, thing: int, number: int, block: int) -> None:
        stock = self.problem.stocks[thing]
        fresh = min(number, stock.count - self.taken.get(thing, 0))
        if fresh > 0:
            self.taken[thing] = self.taken.get(thing, 0) + fresh
            self.add(screws=fresh if stock.single else 0)
            if stock.spent:
                self.add(spent=fresh if stock.single else 1)
        self.taken_by.setdefault(thing, []).append((block, number))


def cost_of(problem: Problem, order: list[int]) -> dict[str, int]:
    """The cost of an order, counted by the rules as they are written."""
    walk = _Walk(problem)
    for at in order:
        walk.do(problem.tasks[at])
    walk.add(steps=int(walk.pending))
    firsts = list(dict.fromkeys(problem.tasks[at].block for at in order))
    walk.add(distance=sum(a > b for a, b in itertools.combinations(firsts, 2)))
    walk.add(
        shuffle=sum(
            problem.tasks[a].block == problem.tasks[b].block and b < a for a, b in itertools.combinations(order, 2)
        )
    )
    return walk.count


def vector(count: dict[str, int], by: By) -> tuple[int, ...]:
    """The parts of a cost in the order in which they weigh."""
    return tuple(count["hand"] + count["wait"] if name == "total" else count[name] for name in ORDERS[by])


def cheapest(problem: Problem, targets: list[tuple[int, ...]], by: By) -> tuple[int, ...] | None:
    """The least cost over all smallest sets and all their orders."""
    found = None
    for tasks in serving_sets(problem, targets):
        for order in orders(problem, tasks):
            cost = vector(cost_of(problem, order), by)
            if found is None or cost < found:
                found = cost
    return found
