"""The planner against an exact integer model (OR-tools CP-SAT), on random notes with two to eight other ways."""

from __future__ import annotations

from dataclasses import replace
from random import Random

import pytest

from guidec.plan import By
from guidec.plan.cost import scale
from guidec.plan.planner import Planner
from guidec.plan.problem import Problem
from tests.plan.cp_sat import LEFT_OUT, Model
from tests.plan.random_notes import graph_of, random_note


def coarse(problem: Problem) -> Problem:
    """Times in units of ten seconds, so that the model's numbers stay small."""
    tasks = tuple(replace(task, hand=task.hand // 10_000 + 1, wait=task.wait // 10_000) for task in problem.tasks)
    return replace(problem, tasks=tasks, change_time=1, turn_time=1)


@pytest.mark.parametrize("other_ways", range(2, 9))
def test_routes_cost_what_the_exact_model_says(other_ways: int):
    compared = 0
    for seed in range(30):
        random = Random(f"{other_ways}-{seed}")
        parts = max(2, 7 - other_ways // 2)
        graph = graph_of(random_note(random, parts, other_ways).text())
        problem = coarse(graph.problem)
        removals = [
            tuple(1 << at for at, task in enumerate(problem.tasks) if any(thing == own for own, _ in task.takes))
            for thing in {task.takes[0][0] for task in problem.tasks if task.ends and task.takes}
        ]
        targets = random.sample(removals, random.choice((1, 1, 2)) if len(removals) > 1 else 1)
        by: By = random.choice(("damage", "steps", "time"))
        plan = Planner(problem, by).plan(targets)
        assert plan is not None
        assert plan.exact
        parts_of = scale(by).cost(plan.cost)
        least = Model(problem, targets).least(by)
        assert least is not None
        least.pop("total", None)
        assert {name: getattr(parts_of, name) for name in least} == least, (other_ways, seed, by)
        compared += 1
    assert compared == 30
    assert "shuffle" in LEFT_OUT
