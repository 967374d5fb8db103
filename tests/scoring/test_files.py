"""Method and times files: those that come with the program are sound, and slips are shown at their places."""

from __future__ import annotations

import json
from pathlib import Path

import jsonschema
import pytest
import yaml

from guidec.messages import diagnose, text
from guidec.rules.book import lacking
from guidec.rules.finding import Finding
from guidec.scoring.files import read_method, read_times
from guidec.scoring.library import known, method
from guidec.source import Source
from guidec.trade.load import DATA

SCHEMA = Path(__file__).parents[2] / "schema"
OWN = (DATA / "methods" / "eu-2023-1669.yaml").read_text(encoding="utf-8")
TIMES = (DATA / "times.yaml").read_text(encoding="utf-8")


class Plain(yaml.SafeLoader):
    """Dates stay text, as in notes."""


Plain.yaml_implicit_resolvers = {
    key: [(tag, shape) for tag, shape in rows if not tag.endswith("timestamp")]
    for key, rows in yaml.SafeLoader.yaml_implicit_resolvers.items()
}


@pytest.mark.parametrize("own", known())
def test_the_methods_that_come_along_are_sound(own: str):
    source = Source.of(own, (DATA / "methods" / f"{own}.yaml").read_text(encoding="utf-8"))
    found, wrong = read_method(source)
    assert wrong == ()
    assert found == method(own)


@pytest.mark.parametrize("own", known())
def test_another_reader_of_schemas_finds_them_sound(own: str):
    """Against jsonschema and PyYAML's own loader."""
    content = yaml.load((DATA / "methods" / f"{own}.yaml").read_text(encoding="utf-8"), Plain)
    schema = json.loads((SCHEMA / "method.schema.json").read_text(encoding="utf-8"))
    jsonschema.Draft202012Validator.check_schema(schema)
    jsonschema.validate(content, schema)


def test_the_times_that_come_along_are_sound():
    found, wrong = read_times(Source.of("times.yaml", TIMES))
    assert wrong == ()
    assert found is not None


def only(source: Source, found: tuple[Finding, ...], code: str, place: str) -> Finding:
    assert [one.code for one in found] == [code], text(diagnose(source, found))
    assert source.slice(found[0].span).startswith(place), source.slice(found[0].span)
    assert lacking(found[0]) == ()
    return found[0]


@pytest.mark.parametrize(
    ("old", "new", "code", "place", "variant"),
    [
        ("id: eu-2023-1669", "id: [a", "S110", ":", "bracket"),
        ("citation:", "citaton:", "S111", "citaton", ""),
        ("weight: 0.25", "wieght: 0.25", "S111", "wieght", ""),
        ("weight: 0.25", "weight: heavy", "S112", "heavy", ""),
        ("measure: steps", "measure: stepps", "S112", "stepps", ""),
        ("class: battery, name", "class: batery, name", "S112", "batery", ""),
        ("scale: {low: 1, high: 5}", "scale: {low: 1}", "S113", "scale", ""),
        ("scale: {low: 1, high: 5}", "scale: 5", "S112", "5", ""),
        ("weight: 0.25", "weight: 0.35", "S114", "criteria", "sum"),
        ("weights: {plain: 0.10, foldable", "weights: {plain: 0.20, foldable", "S114", "parts", "sum"),
        ("{to: 2, points: 5}", "{to: 12, points: 5}", "S114", "5", "band-order"),
        ("{points: 1}]", "{to: 20, points: 1}]", "S114", "20", "band-open"),
        ("{to: 5, points: 4}", "{points: 4}", "S114", "points", "band-last"),
        ("points: {reusable: 5", "points: {reuseable: 5", "S114", "reuseable", "word"),
        ("reusable: 5, resupplied", "reusable: 6, resupplied", "S114", "6", "scale-points"),
        ("{class: B, at_least: 3.35}", "{class: B, at_least: 4.35}", "S114", "at_least", "falling"),
        ("{class: E, at_least: 1.00}", "{class: E, at_least: 1.10}", "S114", "at_least", "class-low"),
        ("{class: E, at", "{class: D, at", "S114", "D", "twice"),
        ("id: DA,", "id: BAT,", "S114", "BAT", "twice"),
        ("plain: 0.10, foldable: 0.09", "plian: 0.10, plain: 0.10, foldable: 0.09", "S114", "weights", "variant"),
        ("    answer: update_years", "    answer: update_years\n    measure: steps", "S114", "id", "one-of"),
        ("values: {public", "points: {public", "S114", "answer", "answer-points"),
        ("scale: {low: 1, high: 5}", "scale: {low: 5, high: 5}", "S114", "scale", "scale"),
        ("id: eu-2023-1669", "id: eu-2023-1669\nid: two", "S110", "id", "twice"),
    ],
)
def test_a_slip_in_a_method_is_shown_at_its_place(old: str, new: str, code: str, place: str, variant: str):
    assert old in OWN
    source = Source.of("own.yaml", OWN.replace(old, new, 1))
    found, wrong = read_method(source)
    assert found is None
    first = next(one for one in wrong if one.variant == variant and one.code == code)
    assert source.slice(first.span).startswith(place), source.slice(first.span)
    assert lacking(first) == ()
    assert "^" in text(diagnose(source, [first]))


@pytest.mark.parametrize("content", ["", "- a\n- b\n", "just words\n"])
def test_a_file_that_is_no_mapping_is_refused(content: str):
    source = Source.of("own.yaml", content)
    only(source, read_method(source)[1], "S110", "")


@pytest.mark.parametrize(
    ("old", "new", "code", "place"),
    [
        ("turn: A1 B0 G3 M6 X0 I1 A0", "turn: a while", "S115", "a while"),
        ("undo: L10", "undo: L 10", "S115", "L 10"),
        ("undo: L10", "undo: -3", "S112", "-3"),
        ("status: own assumption", "status: guessed", "S112", "guessed"),
        ("{family: turn}", "{familly: turn}", "S111", "familly"),
    ],
)
def test_a_slip_in_a_table_of_times_is_shown_at_its_place(old: str, new: str, code: str, place: str):
    source = Source.of("times.yaml", TIMES.replace(old, new, 1))
    found, wrong = read_times(source)
    assert found is None
    only(source, wrong, code, place)
