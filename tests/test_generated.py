"""Generated notes, which the benchmarks and the planner's tests use: clean, varied, the same for the same seed."""

from __future__ import annotations

from pathlib import Path

import pytest

from bench.notes import note
from bench.row import Ratio, Row
from guidec import compile as compiler
from guidec.edge.load import of_bytes
from guidec.messages import diagnose, text
from guidec.model.types import Adhesive, Clip, Connector, Guide, Part, ScrewSet
from guidec.rules.finding import Severity


def guide(source: str) -> Guide:
    bundle = of_bytes("generated.md", source.encode(), Path())
    checked = compiler.check(bundle)
    loud = [one for one in diagnose(bundle.source, checked.findings) if one.severity is not Severity.INFO]
    assert not loud, text(loud)
    assert checked.model
    return checked.model.guide


@pytest.mark.parametrize("seed", range(6))
@pytest.mark.parametrize("actions", [10, 60, 400])
def test_a_generated_note_is_clean_and_as_long_as_asked(actions: int, seed: int):
    made = guide(note(actions, seed, other_ways=seed))
    assert actions <= len(made.actions) <= actions * 1.1 + 9 + 5 * seed
    assert sum(operation.instead_of is not None for operation in made.operations) == seed


def test_the_same_arguments_give_the_same_note_and_others_another():
    assert note(60, 1) == note(60, 1)
    assert len({note(60, seed) for seed in range(20)}) == 20


def test_a_long_note_holds_things_of_many_kinds():
    made = guide(note(400))
    kinds = {type(thing) for thing in made.things.values()}
    assert {Part, ScrewSet, Connector, Clip, Adhesive} <= kinds
    assert any(action.free for action in made.actions.values())
    assert any(action.heats for action in made.actions.values())
    assert any(action.measures for action in made.actions.values())
    assert any(operation.after for operation in made.operations)


def test_a_ratio_that_is_over_its_bound_is_called_so(monkeypatch: pytest.MonkeyPatch):
    clock = [0.0]
    monkeypatch.setattr("bench.row.time.perf_counter", lambda: clock[0])

    def slow() -> None:
        clock[0] += 3.0

    def fast() -> None:
        clock[0] += 1.0

    over = Ratio("slow / fast", slow, fast, bound=2.5, runs=3).row()
    assert (over.measured, over.floor, over.ratio, over.verdict) == (3000.0, 1000.0, 3.0, "OVER")
    assert Ratio("slow / fast", slow, fast, bound=3.0, runs=3).row().verdict == "ok"
    assert Row("a figure without a bound", 1.0, "MB").verdict == ""
    assert Row("a figure over its bound", 3.0, "", bound=1.1).verdict == "OVER"
