"""The planner's search against everything tried, reference libraries, and known numbers."""

from __future__ import annotations

from dataclasses import asdict
from itertools import permutations
from math import comb, factorial
from random import Random

import networkx
import pytest

from guidec.plan.closure import close, find_cycles
from guidec.plan.cost import ORDERS, By, scale
from guidec.plan.count import count_orders
from guidec.plan.planner import Planner
from guidec.plan.problem import Problem, Task, bits, mask
from tests.plan.random_problems import cheapest, cost_of, random_problem, serving_sets, vector

BYS: tuple[By, ...] = ("damage", "steps", "time")


def small_problems(count: int, seed: int = 0):
    """Problems of at most eleven tasks, with up to three other ways."""
    found = 0
    while found < count:
        seed += 1
        random = Random(seed)
        problem = random_problem(random, random.randint(2, 5), 3, random.randint(0, 3))
        if len(problem.tasks) <= 11:
            found += 1
            count_of_targets = random.choice((1, 1, 2))
            targets = [(1 << random.randrange(len(problem.tasks)),) for _ in range(count_of_targets)]
            yield problem, targets


@pytest.mark.parametrize("by", BYS)
def test_the_plan_is_the_cheapest_of_all_sets_and_orders(by: By):
    for problem, targets in small_problems(150):
        plan = Planner(problem, by).plan(targets)
        assert plan is not None
        assert plan.exact
        cost = asdict(scale(by).cost(plan.cost))
        assert vector(cost, by) == cheapest(problem, targets, by)


@pytest.mark.parametrize("by", BYS)
def test_the_cost_told_is_the_cost_counted_along_the_order(by: By):
    for problem, targets in small_problems(150, seed=5000):
        planner = Planner(problem, by)
        plan = planner.plan(targets)
        assert plan is not None
        assert asdict(planner.cost(plan)) == cost_of(problem, planner.order(plan))


def test_a_plan_is_a_smallest_set_that_serves():
    for problem, targets in small_problems(60, seed=9000):
        plan = Planner(problem).plan(targets)
        assert plan is not None
        assert frozenset(bits(plan.tasks)) in serving_sets(problem, targets)


def test_what_is_surely_needed_are_the_ancestors_that_networkx_finds():
    for seed in range(200):
        random = Random(seed)
        count = random.randint(2, 40)
        needs = [random.sample(range(at), min(at, random.choice((0, 1, 1, 2, 3)))) for at in range(count)]
        problem = Problem(
            tuple(Task(at, tuple((1 << other,) for other in needed)) for at, needed in enumerate(needs))
        )
        closure = close(problem)
        graph = networkx.DiGraph((other, at) for at, needed in enumerate(needs) for other in needed)
        graph.add_nodes_from(range(count))
        for at in range(count):
            assert set(bits(closure.forced[at])) == networkx.ancestors(graph, at) | {at}


def test_rings_are_found_where_networkx_finds_them():
    for seed in range(300):
        random = Random(seed)
        count = random.randint(2, 9)
        needs = [random.sample(range(count), random.choice((0, 1, 1, 2))) for _ in range(count)]
        problem = Problem(
            tuple(Task(at, tuple((1 << other,) for other in needed)) for at, needed in enumerate(needs))
        )
        graph = networkx.DiGraph((at, other) for at, needed in enumerate(needs) for other in needed)
        graph.add_nodes_from(range(count))
        in_rings = {at for at in graph if any(at in ring for ring in networkx.simple_cycles(graph))}
        stuck = {at for at in graph if in_rings & (networkx.descendants(graph, at) | {at})}
        closure = close(problem)
        assert {at for at in range(count) if not closure.can >> at & 1} == stuck
        rings = list(find_cycles(problem, stuck))
        assert bool(rings) == bool(in_rings)
        for ring in rings:
            assert all(graph.has_edge(one, two) for one, two in zip(ring, [*ring[1:], ring[0]], strict=True))


def test_a_ring_that_another_way_leads_round_is_none():
    tasks = (
        Task(0, ((0b10, 0b100),)),  # needs task 1, or task 2
        Task(1, ((0b1,),)),  # needs task 0
        Task(2),
    )
    closure = close(Problem(tasks))
    assert closure.can == 0b111
    assert set(bits(Planner(Problem(tasks)).plan([(0b1,)]).tasks)) == {0, 2}


def test_shared_work_is_weighed_together():
    """Each part alone is cheaper by its own short way; both together are cheaper by the long one they share."""
    shared = Task(0, risks=3, ends=True)
    own_one = Task(1, risks=2, ends=True)
    own_two = Task(2, risks=2, ends=True)
    one = Task(3, ((0b1, 0b10),), ends=True)
    two = Task(4, ((0b1, 0b100),), ends=True)
    rivals = tuple(map(frozenset, ({1, 2}, {0, 2}, {0, 1}, (), ())))
    planner = Planner(Problem((shared, own_one, own_two, one, two), rivals=rivals))
    alone = [set(bits(planner.plan([(1 << at,)]).tasks)) for at in (3, 4)]
    assert alone == [{1, 3}, {2, 4}]
    assert set(bits(planner.plan([(1 << 3,), (1 << 4,)]).tasks)) == {0, 3, 4}


def test_a_hundred_other_ways_in_a_chain_are_exact():
    """2 to the power of 100 combinations: settled gate by gate."""
    tasks: list[Task] = []
    rivals: list[frozenset[int]] = []
    before: tuple[int, ...] = ()
    for at in range(100):
        first, second = 2 * at, 2 * at + 1
        needs = (before,) if before else ()
        tasks += [Task(first, needs, ends=True, risks=1), Task(second, needs, ends=True, risks=at % 2 * 2)]
        rivals += [frozenset({second}), frozenset({first})]
        before = (1 << first, 1 << second)
    last = Task(200, (before,), ends=True)
    planner = Planner(Problem((*tasks, last), rivals=(*rivals, frozenset())))
    plan = planner.plan([(1 << 200,)])
    assert plan is not None
    assert plan.exact
    assert planner.cost(plan).risks == 50  # the second way where it has no risk, else the first
    assert planner.cost(plan).steps == 101


def test_past_the_bound_the_best_found_is_said_to_be_so():
    """Thirty blocks free of each other, each with a tool, side and end of its own."""
    random = Random(1)
    tasks = [
        Task(at, tools=1 << random.randrange(12), side=random.choice((1, 2)), works=True, hand=at)
        for at in range(30)
    ]
    last = Task(30, tuple((1 << at,) for at in range(30)), ends=True)
    planner = Planner(Problem((*tasks, last), start=1))
    plan = planner.plan([(1 << 30,)])
    assert plan is not None
    assert sorted(planner.order(plan)) == list(range(31))
    assert asdict(planner.cost(plan)) == cost_of(planner_problem(planner), planner.order(plan))
    assert not plan.exact


def planner_problem(planner: Planner) -> Problem:
    problem = planner.problem
    return Problem(problem.tasks, problem.stocks, (frozenset(),) * problem.blocks, problem.start)


# ------------------------------------------------------------ how many orders


def brute_count(before: list[int]) -> int:
    return sum(
        all(not before[item] & ~mask(order[:at]) for at, item in enumerate(order))
        for order in permutations(range(len(before)))
    )


def test_orders_of_small_graphs_are_counted_as_by_trying_them_all():
    for seed in range(120):
        random = Random(seed)
        count = random.randint(1, 7)
        before = [mask(random.sample(range(at), min(at, random.choice((0, 0, 1, 2))))) for at in range(count)]
        assert count_orders(before) == brute_count(before)


def test_orders_of_known_graphs():
    """Known numbers, from memory: n! for an antichain; binomials for two chains; hook lengths for tableaux."""
    assert count_orders([0] * 6) == factorial(6)
    assert count_orders([(1 << at) - 1 for at in range(9)]) == 1
    two_chains = [1 << at - 1 if at % 5 else 0 for at in range(10)]
    assert count_orders(two_chains) == comb(10, 5)


@pytest.mark.parametrize(
    ("rows", "tableaux"),
    [
        ((5, 5), 42),  # Catalan number C5, OEIS A000108, from memory
        ((3, 3, 3), 42),  # OEIS A005789, from memory
        ((4, 4, 4), 462),  # OEIS A005789, from memory
        ((4, 4, 4, 4), 24024),  # OEIS A039622, from memory
        ((5, 4, 3), None),
    ],
)
def test_orders_of_a_grid_are_standard_young_tableaux(rows: tuple[int, ...], tableaux: int | None):
    """The hook length formula (Frame, Robinson and Thrall 1954) gives the same."""
    cells = [(row, column) for row, length in enumerate(rows) for column in range(length)]
    place = {cell: at for at, cell in enumerate(cells)}
    before = [
        mask(place[above] for above in ((row - 1, column), (row, column - 1)) if above in place)
        for row, column in cells
    ]
    hooks = 1
    for row, column in cells:
        arm = rows[row] - column - 1
        leg = sum(1 for length in rows[row + 1 :] if length > column)
        hooks *= arm + leg + 1
    formula = factorial(len(cells)) // hooks
    assert count_orders(before) == formula
    assert tableaux in (None, formula)


def test_too_many_orders_are_not_counted():
    assert count_orders([0] * 40) is None


def test_the_orders_of_cost_hold_the_same_parts():
    everything = {tuple(sorted(set(parts) - {"total"})) for parts in ORDERS.values()}
    assert len(everything) == 1
