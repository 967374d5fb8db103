"""Ranges against brute force over all completions, and that a better answer never lowers the index.

The brute force knows nothing of ranges: it fills in every unknown in every way and scores each with the formula of
Commission Delegated Regulation (EU) 2023/1669, Annex IV point 5, written out here a second time.
"""

from __future__ import annotations

from dataclasses import replace
from fractions import Fraction
from itertools import product
from typing import Any

from hypothesis import given, settings
from hypothesis import strategies as st

from guidec.scoring.evidence import Evidence, Instance
from guidec.scoring.index import index
from tests.scoring.helpers import EU, IDS, INFORMATION, SPARES, YEARS, evidence, part, steps

WEIGHTS = {
    False: dict(zip(IDS, (30, 30, 10, 5, 5, 5, 5, 5, 5, 0), strict=True)),
    True: dict(zip(IDS, (25, 25, 9, 4, 4, 4, 4, 4, 4, 17), strict=True)),
}
FASTENERS = {"reusable": 5, "resupplied": 3, "removable": 1}
TOOLS = {"basic": 4, "with-part": 3, "with-product": 2, "trade": 1, "group": 1}
ENDS = (1, 5)


def depth(count: int) -> int:
    return 5 if count <= 2 else 4 if count <= 5 else 3 if count <= 10 else 2 if count <= 15 else 1


def completions(one: Instance) -> list[tuple[int, int, int]]:
    """The (depth, fastener, tool) points that a part can come to have."""
    if one.steps is None:
        return list(product(ENDS, ENDS, ENDS))
    fastener = [FASTENERS.get(met.word or "") for met in one.fastenings]
    tool = [TOOLS.get(met.word or "") for met in one.tools]
    filled = [[each] if each is not None else list(ENDS) for each in (*fastener, *tool)]
    found = []
    for values in product(*filled):
        first, second = values[: len(fastener)], values[len(fastener) :]
        found.append((depth(len(one.steps)), min(first, default=5), min(second, default=5)))
    return found


def weighed(points: tuple[int, int, int]) -> Fraction:
    return Fraction(25 * points[0] + 15 * points[1] + 15 * points[2], 100)


def brute_force(given: Evidence, foldable: bool) -> tuple[Fraction, Fraction]:
    """The lowest and the highest index over all completions; parts do not hang together, so each by itself."""
    low = high = Fraction(0)
    for own in IDS:
        weight = Fraction(WEIGHTS[foldable][own], 100)
        instances = given.parts[own]
        every = [completions(one) for one in instances] or [list(product(ENDS, ENDS, ENDS))]
        totals = [min(weighed(points) for points in chosen) for chosen in product(*every)]
        low += weight * min(totals)
        high += weight * max(totals)
    for key in ("spare_parts", "update_years", "repair_information"):
        values = [score(key, given.answers[key])] if key in given.answers else list(ENDS)
        low += Fraction(15, 100) * min(values)
        high += Fraction(15, 100) * max(values)
    return low, high


def score(key: str, value: Any) -> int:
    table: dict[int, Any] = {"spare_parts": SPARES, "update_years": YEARS, "repair_information": INFORMATION}[key]
    return next(points for points, each in table.items() if each == value)


def instance(name: str) -> st.SearchStrategy[Instance]:
    known = st.builds(
        lambda count, fastening, tool: part(name, count, fastening, tool),
        st.integers(1, 17),
        st.sampled_from([*FASTENERS, None, "neither"]),
        st.sampled_from([*TOOLS, None, "maker"]),
    )
    return st.one_of(known, known, st.just(Instance(name, None)), st.just(Instance(name, steps(3))))


@st.composite
def cases(draw: st.DrawFn) -> tuple[Evidence, bool]:
    foldable = draw(st.booleans())
    parts = {}
    for own in IDS:
        count = draw(st.sampled_from([0, 1, 1, 1, 2]))
        parts[own] = tuple(draw(instance(f"{own}-{at}")) for at in range(count))
    answers: dict[str, Any] = {"foldable": foldable}
    for key, table in (("spare_parts", SPARES), ("update_years", YEARS), ("repair_information", INFORMATION)):
        if draw(st.booleans()):
            answers[key] = draw(st.sampled_from([*table.values()]))
    return evidence(parts, answers), foldable


@settings(max_examples=150, deadline=None)
@given(cases())
def test_the_range_is_what_all_completions_reach(case: tuple[Evidence, bool]):
    found = index(EU, case[0])
    assert (found.total.low, found.total.high) == brute_force(*case)


@settings(max_examples=60, deadline=None)
@given(cases())
def test_a_score_s_range_holds_every_completion_of_the_parts(case: tuple[Evidence, bool]):
    given_, foldable = case
    found = index(EU, given_)
    for own in IDS:
        every = [completions(one) for one in given_.parts[own]]
        for chosen in product(*every) if every else ():
            counts = min(chosen, key=weighed)
            for key, value in zip(("SDD", "SF", "ST"), counts, strict=True):
                if WEIGHTS[foldable][own]:
                    points = found.parts[own].points[key]
                    alike = [one for one in chosen if weighed(one) == weighed(counts)]
                    assert points.low <= value <= points.high or len(alike) > 1


@settings(max_examples=60, deadline=None)
@given(cases())
def test_what_an_unknown_can_move_is_never_more_than_the_range(case: tuple[Evidence, bool]):
    found = index(EU, case[0])
    for one in found.unknowns:
        assert 0 <= one.moves <= found.total.high - found.total.low
    if not found.unknowns:
        assert found.total.known


@settings(max_examples=60, deadline=None)
@given(cases(), st.sampled_from([*IDS]), st.data())
def test_a_better_finding_never_lowers_the_index(case: tuple[Evidence, bool], own: str, data: st.DataObject):
    given_, _ = case
    before = index(EU, given_, moves=False).total
    better = []
    for one in given_.parts[own]:
        if one.steps is None:
            better.append(one)
            continue
        fewer = one.steps[: max(1, len(one.steps) - data.draw(st.integers(0, 6)))]
        order = [*FASTENERS]
        fastenings = tuple(
            replace(each, word=order[max(0, order.index(each.word) - 1)]) if each.word in order else each
            for each in one.fastenings
        )
        better.append(replace(one, steps=fewer, fastenings=fastenings))
    after = index(EU, replace(given_, parts={**given_.parts, own: tuple(better)}), moves=False).total
    assert after.low >= before.low
    assert after.high >= before.high


@settings(max_examples=60, deadline=None)
@given(cases(), st.sampled_from(["spare_parts", "update_years", "repair_information"]))
def test_a_better_answer_never_lowers_the_index(case: tuple[Evidence, bool], key: str):
    given_, _ = case
    table: dict[int, Any] = {"spare_parts": SPARES, "update_years": YEARS, "repair_information": INFORMATION}[key]
    totals = [
        index(EU, replace(given_, answers={**given_.answers, key: table[points]}), moves=False).total.low
        for points in sorted(table)
    ]
    assert totals == sorted(totals)


def test_without_a_word_on_folding_both_kinds_are_weighed():
    parts = {own: part(own, 2, "reusable", "basic") for own in IDS if own != "FM"}
    worst = {**parts, "FM": part("FM", 20, "removable", "trade")}
    found = index(EU, evidence(worst, {}))
    plain = index(EU, evidence(worst, {"foldable": "no"}))
    folding = index(EU, evidence(worst, {"foldable": "yes"}))
    assert (found.total.low, found.total.high) == (folding.total.low, plain.total.high)
    assert found.unknowns[0].key == "foldable"
    assert found.unknowns[0].moves > 0
