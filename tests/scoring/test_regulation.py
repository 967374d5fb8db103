"""The index of Commission Delegated Regulation (EU) 2023/1669, Annex IV point 5 and Annex II Table 4.

Weights, points and class limits below are copied from the Regulation by hand, apart from the data file, and the
check cases are worked out by hand from its formulas.
"""

from __future__ import annotations

from fractions import Fraction

import pytest

from guidec.scoring.evidence import Instance
from guidec.scoring.index import class_of, index
from tests.scoring.helpers import ALL, EU, IDS, answers, evidence, met, number, part, steps

STEPS = {"BAT": 7, "DA": 4, "BC": 2, "FFC": 11, "RFC": 11, "EC": 16, "BUT": 16, "MIC": 15, "SPK": 10}
SMALL = ("0.05",) * 6
PLAIN = dict(zip(IDS, ("0.30", "0.30", "0.10", *SMALL, "0"), strict=True))
FOLDABLE = dict(zip(IDS, ("0.25", "0.25", "0.09", *("0.04",) * 6, "0.17"), strict=True))


def check_case() -> dict[str, Instance]:
    return {
        own: part(
            own,
            count,
            "resupplied" if own in ("BAT", "DA", "BC") else "reusable",
            "trade" if own == "BC" else "basic",
        )
        for own, count in STEPS.items()
    }


def test_the_weights_are_those_of_the_annex():
    assert {row.id: row.weights["plain"] for row in EU.parts} == {k: number(v) for k, v in PLAIN.items()}
    assert {row.id: row.weights["foldable"] for row in EU.parts} == {k: number(v) for k, v in FOLDABLE.items()}
    assert {one.id: float(one.weight) for one in EU.criteria} == {
        "SDD": 0.25, "SF": 0.15, "ST": 0.15, "SSP": 0.15, "SSU": 0.15, "SRI": 0.15,
    }  # fmt: skip


@pytest.mark.parametrize(
    ("given", "total", "cls"),
    [((2, 3, 5), "3.3825", "B"), ((5, 5, 5), "4.1325", "A"), ((1, 1, 1), "2.3325", "D")],
)
def test_the_check_case_of_a_plain_phone(given: tuple[int, int, int], total: str, cls: str):
    found = index(EU, evidence(check_case(), answers(*given)))
    assert [found.scores[key].low for key in ("SDD", "SF", "ST")] == [
        number("3.15"),
        number("3.60"),
        number("3.70"),
    ]
    assert (found.total.low, found.total.high, found.cls) == (number(total), number(total), cls)


def test_the_check_case_of_a_foldable_phone():
    parts = {**check_case(), "FM": part("FM", 16, "removable", "trade")}
    found = index(EU, evidence(parts, answers(2, 3, 5, foldable=True)))
    assert [found.scores[key].low for key in ("SDD", "SF", "ST")] == [
        number("2.81"),
        number("3.14"),
        number("3.22"),
    ]
    assert (found.total.low, found.total.known, found.cls) == (number("3.1565"), True, "C")


@pytest.mark.parametrize("score", [1, 2, 3, 4, 5])
def test_all_scores_alike_are_the_index(score: int):
    """R = s where every score is s; from the formula, whose weights add up to 1."""
    total = sum((one.weight * score for one in EU.criteria), Fraction(0))
    assert total == score


@pytest.mark.parametrize(("score", "count", "word", "tool"), [(1, 16, "removable", "trade")])
def test_a_device_that_scores_one_throughout(score: int, count: int, word: str, tool: str):
    parts = {own: part(own, count, word, tool) for own in IDS}
    assert index(EU, evidence(parts, answers(1, 1, 1, foldable=True))).total.low == score


def test_a_device_that_scores_five_throughout():
    parts = {own: Instance(own, steps(2)) for own in IDS}
    found = index(EU, evidence(parts, answers(5, 5, 5, foldable=True)))
    assert (found.total.low, found.cls) == (5, "A")


@pytest.mark.parametrize(
    ("count", "points"),
    [(1, 5), (2, 5), (3, 4), (5, 4), (6, 3), (10, 3), (11, 2), (15, 2), (16, 1), (40, 1)],
)
def test_points_for_depth_at_each_side_of_every_bound(count: int, points: int):
    found = index(EU, evidence({"BAT": part("BAT", count)}, {}))
    assert found.parts["BAT"].points["SDD"].low == points == found.parts["BAT"].points["SDD"].high


@pytest.mark.parametrize(("word", "points"), [("reusable", 5), ("resupplied", 3), ("removable", 1)])
def test_points_for_fasteners(word: str, points: int):
    assert index(EU, evidence({"BAT": part("BAT", 1, word)}, {})).parts["BAT"].points["SF"].low == points


@pytest.mark.parametrize(
    ("word", "points"), [("basic", 4), ("with-part", 3), ("with-product", 2), ("trade", 1), ("group", 1)]
)
def test_points_for_tools(word: str, points: int):
    assert index(EU, evidence({"BAT": part("BAT", 1, tool=word)}, {})).parts["BAT"].points["ST"].low == points


def test_no_fastener_and_no_tool_on_the_stretch_score_five():
    found = index(EU, evidence({"BAT": Instance("b", steps(1))}, {})).parts["BAT"].points
    assert (found["SF"].low, found["ST"].low) == (5, 5)


def test_the_worst_fastener_and_tool_count():
    both = Instance(
        "b",
        steps(1),
        fastenings=(met("reusable", "a"), met("removable", "b")),
        tools=(met("basic"), met("trade", "y")),
    )
    found = index(EU, evidence({"BAT": both}, {})).parts["BAT"].points
    assert (found["SF"].low, found["ST"].low) == (1, 1)


@pytest.mark.parametrize(("word", "key"), [("neither", "SF"), (None, "SF")])
def test_a_fastening_without_a_score_is_a_range(word: str | None, key: str):
    found = index(EU, evidence({"BAT": part("BAT", 1, word)}, {})).parts["BAT"].points[key]
    assert (found.low, found.high) == (1, 5)


@pytest.mark.parametrize("word", ["maker", None])
def test_a_tool_without_a_score_is_a_range(word: str | None):
    found = index(EU, evidence({"BAT": part("BAT", 1, tool=word)}, {})).parts["BAT"].points["ST"]
    assert (found.low, found.high) == (1, 5)


@pytest.mark.parametrize(
    ("years", "points"), [(0, 1), (4.9, 1), (5, 1), (5.9, 1), (6, 3), (6.9, 3), (7, 5), (12, 5)]
)
def test_points_for_updates_at_each_side_of_every_bound(years: float, points: int):
    assert index(EU, evidence({}, {"update_years": years})).scores["SSU"].low == points


@pytest.mark.parametrize(
    ("listed", "points"),
    [
        (ALL, 5),
        (ALL - {"speaker"}, 4),
        (ALL - {"hinge"}, 5),
        ({"display", "battery", "cover", "camera-front", "camera-rear"}, 4),
        ({"display", "battery", "cover", "camera-front"}, 3),
        ({"display", "battery", "cover"}, 3),
        ({"display", "cover"}, 1),
        ({"display", "battery"}, 2),
        ({"display"}, 1),
        (set(), 1),
    ],
)
def test_points_for_spare_parts_of_a_plain_phone(listed: set[str], points: int):
    found = index(EU, evidence({}, {"spare_parts": frozenset(listed), "foldable": False})).scores["SSP"]
    assert (found.low, found.high) == (points, points)


def test_a_foldable_phone_needs_its_hinge_among_the_spares():
    found = index(EU, evidence({}, {"spare_parts": ALL - {"hinge"}, "foldable": True})).scores["SSP"]
    assert found.low == 4


@pytest.mark.parametrize(("value", "points"), [("public", 5), ("professionals-free", 3), ("professionals-fee", 1)])
def test_points_for_repair_information(value: str, points: int):
    assert index(EU, evidence({}, {"repair_information": value})).scores["SRI"].low == points


@pytest.mark.parametrize(
    ("value", "cls"),
    [
        ("5", "A"), ("4.00", "A"), ("3.9999", "B"), ("3.35", "B"), ("3.3499", "C"), ("2.55", "C"), ("2.5499", "D"),
        ("1.75", "D"), ("1.7499", "E"), ("1.00", "E"),
    ],
)  # fmt: skip
def test_classes_at_each_side_of_every_limit(value: str, cls: str):
    assert class_of(EU, number(value)) == cls


def test_the_lowest_scoring_part_of_a_class_counts():
    pair = (part("front", 2), part("rear", 16, "removable", "trade"))
    found = index(EU, evidence({"SPK": pair}, {})).parts["SPK"]
    assert (found.part, found.steps) == ("rear", 16)
    assert [one.low for one in found.points.values()] == [1, 1, 1]


def test_a_part_that_the_product_has_not_scores_five():
    found = index(EU, evidence({}, {}, absent=("MIC",))).parts["MIC"]
    assert {(one.low, one.high) for one in found.points.values()} == {(5, 5)}


@pytest.mark.parametrize(("count", "extra", "points"), [(2, 0, 5), (2, 1, 3), (5, 1, 3), (6, 1, 2), (6, 2, 1)])
def test_each_remote_authorisation_adds_five_steps(count: int, extra: int, points: int):
    one = Instance("b", steps(count), authorisations=extra)
    found = index(EU, evidence({"BAT": one}, {})).parts["BAT"]
    assert (found.points["SDD"].low, found.steps) == (points, count + 5 * extra)


def test_nothing_known_is_the_whole_scale():
    found = index(EU, evidence({}, {}))
    assert (found.total.low, found.total.high, found.cls, found.classes) == (1, 5, None, ("E", "A"))
