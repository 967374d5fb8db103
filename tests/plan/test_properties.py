"""What must hold of every route and every way back, on random notes."""

from __future__ import annotations

from dataclasses import replace
from random import Random

from hypothesis import example, given, settings
from hypothesis import strategies as st

from guidec import plan
from guidec.model.types import Guide
from guidec.plan import Graph, Route
from guidec.plan.simulator import Bench, Objection, State
from tests.plan.random_notes import graph_of, random_note

EMPTY = State(frozenset(), frozenset(), frozenset(), frozenset())
some_notes = st.tuples(st.integers(0, 10_000), st.integers(1, 8), st.integers(0, 4))


def note_of(drawn: tuple[int, int, int]):
    seed, parts, other_ways = drawn
    random = Random(seed)
    return random, random_note(random, parts, other_ways)


def served(graph: Graph, done: list[str], action: str) -> bool:
    return all(any(set(way) <= set(done) for way in need.ways) for need in graph.needs(action))


def taken_apart(graph: Graph, actions: tuple[str, ...]) -> Bench:
    bench = Bench(graph.guide)
    for action in actions:
        bench.apart(action, graph.guide.actions[action].effects)
    return bench


@settings(max_examples=80, deadline=None)
@given(some_notes)
def test_no_action_of_a_route_lacks_what_it_needs(drawn):
    _, written = note_of(drawn)
    graph = graph_of(written.text())
    for route in plan.routes(graph):
        done: list[str] = []
        for visit in route.visits:
            for action in visit.actions:
                assert served(graph, done, action)
                done.append(action)


@settings(max_examples=80, deadline=None)
@given(some_notes)
def test_an_operation_stays_together(drawn):
    _, written = note_of(drawn)
    for route in plan.routes(graph_of(written.text())):
        assert len(set(route.operations)) == len(route.operations)


@settings(max_examples=60, deadline=None)
@given(some_notes)
def test_a_route_without_one_of_its_actions_is_broken(drawn):
    """Nothing can be left out: some later action would lack a need, or the part would not be reached."""
    _, written = note_of(drawn)
    graph = graph_of(written.text())
    for route in plan.routes(graph):
        whole = [action for visit in route.visits for action in visit.actions]
        for left_out in whole[:-1]:
            done: list[str] = []
            broken = False
            for action in whole:
                if action != left_out:
                    broken = broken or not served(graph, done, action)
                    done.append(action)
            assert broken, left_out


@settings(max_examples=60, deadline=None)
@given(some_notes)
def test_the_way_back_puts_everything_back(drawn):
    _, written = note_of(drawn)
    graph = graph_of(written.text())
    for route in (*plan.routes(graph), None):
        bench = taken_apart(graph, route.actions if route else plan.teardown(graph))
        assert not bench.objections
        for line in plan.refit(graph, route).lines:
            if line.effect is not None:
                bench.together(line.action or "", [line.effect])
        assert not bench.objections
        assert bench.state == EMPTY


@settings(max_examples=60, deadline=None)
@given(some_notes, st.randoms(use_true_random=False))
def test_the_order_of_operations_in_the_note_does_not_change_what_a_route_costs(drawn, shuffled):
    """All orders are said in words; only the distance from the note's own order may differ."""
    _, written = note_of(drawn)
    order = list(range(len(written.operations)))
    roots = [at for at in order if "instead of" not in written.operations[at].split("\n")[0]]
    shuffled.shuffle(order)
    # another way may not come to stand before the way it replaces: the first is the note's own
    order.sort(key=lambda at: at not in roots)
    one, two = graph_of(written.text()), graph_of(written.text(order))
    costs = [
        {route.targets: replace(route.cost, distance=0, shuffle=0) for route in plan.routes(graph)}
        for graph in (one, two)
    ]
    assert costs[0] == costs[1]


def _held_first(route: Route) -> str | None:
    return route.tools[0] if route.tools else None


def _held_last(route: Route) -> str | None:
    taken = [tool for visit in route.visits for _, tool in visit.tools_taken]
    return taken[-1] if taken else _held_first(route)


def _change_between(first: Route, then: Route) -> int:
    """One more change of tool, and so at most one more step, where a visit goes on with another tool than in hand.

    A change of tool ends a step (Commission Delegated Regulation (EU) 2023/1669, Annex I (20)). The first tool
    that a route takes up is read as no change; taken up behind another route's tool, it is one.
    """
    last, next_one = _held_last(first), _held_first(then)
    return int(last is not None and next_one is not None and last != next_one)


@settings(max_examples=60, deadline=None)
@given(some_notes)
@example((2716, 3, 1))
def test_several_parts_in_one_visit_cost_no_more_than_one_after_the_other(drawn):
    random, written = note_of(drawn)
    graph = graph_of(written.text())
    parts = [route.targets[0] for route in plan.routes(graph, "steps")]
    chosen = random.sample(parts, min(2, len(parts)))
    both = plan.route(graph, chosen, "steps")
    assert both is not None
    each = [one for part in chosen if (one := plan.route(graph, [part], "steps"))]
    between = min(_change_between(*each), _change_between(*reversed(each))) if len(each) == 2 else 0
    assert both.cost.steps <= sum(one.cost.steps for one in each) + between
    assert both.cost.steps >= max(one.cost.steps for one in each)


@settings(max_examples=60, deadline=None)
@given(some_notes)
def test_steps_end_as_often_as_they_are_counted(drawn):
    _, written = note_of(drawn)
    for route in plan.routes(graph_of(written.text()), "steps"):
        assert len(route.steps) == route.cost.steps
        assert sum(len(visit.tools_taken) for visit in route.visits) == route.cost.changes
        assert sum(len(visit.turns) for visit in route.visits) == route.cost.turns


# ------------------------------------------------------------ a note where everything is a fact


def linear_note(parts: int, seed: int = 0) -> str:
    """Each part lies under the one before it, is held by a set of its own, and has a lead to the one behind it."""
    random = Random(seed)
    lines = ["# Device", ""]
    for at in range(parts):
        under = f"; under=part {at - 1}" if at else ""
        lines += [
            f"## Off {at}",
            "",
            f"1. Undo {{screw set {at}: {random.randint(1, 6)}x PH0 M2x4; holds=part {at}}}.",
            f"2. Unplug {{connector lead {at}: plug; from=part {at}; to=part {at + 1}}}.",
            f"3. Lift off {{part part {at}{under}}}.",
            "",
        ]
    return "\n".join([*lines, "## Last", "", f"1. Lift out {{part part {parts}; under=part {parts - 1}}}.", ""])


def objections_without(guide: Guide, route: Route, left_out: str) -> list[Objection]:
    bench = Bench(guide)
    for action in route.actions:
        if action != left_out:
            bench.apart(action, guide.actions[action].effects)
    return bench.objections


def test_the_simulator_objects_when_a_line_is_left_out():
    for seed in range(8):
        graph = graph_of(linear_note(6, seed))
        route = plan.route(graph, ["part-6"])
        assert route is not None
        assert len(route.actions) == 19
        assert objections_without(graph.guide, route, "") == []
        for action in route.actions[:-1]:
            assert objections_without(graph.guide, route, action), action


def test_the_simulator_objects_to_a_way_back_in_the_order_of_the_way_in():
    graph = graph_of(linear_note(4))
    bench = taken_apart(graph, plan.teardown(graph))
    for action in plan.teardown(graph):
        bench.together(action, graph.guide.actions[action].effects)
    faults = {objection.fault for objection in bench.objections}
    assert {"covered before it is in", "fastened before it is in"} & faults


def test_the_simulator_counts_screws():
    graph = graph_of(
        "# Radio\n\n## Back\n\n1. Undo {screw A: 4x PH0 M2x4; holds=back}.\n2. Lift off {part back}.\n"
    )
    effects = graph.guide.actions["back/1"].effects
    bench = Bench(graph.guide)
    bench.apart("one", effects)
    bench.apart("two", effects)
    assert [objection.fault for objection in bench.objections] == ["more out than there are"]
    bench = Bench(graph.guide)
    bench.together("one", effects)
    assert [objection.fault for objection in bench.objections] == ["more in than are out"]
