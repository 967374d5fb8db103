"""Front matter against its schema: every fault in our words, at its place; and the schema itself."""

from __future__ import annotations

import json
from pathlib import Path
from typing import Any

import jsonschema
import pytest
from hypothesis import given, settings
from hypothesis import strategies as st
from packaging.licenses import InvalidLicenseExpression, canonicalize_license_expression

from guidec.model.keys import KEYS
from guidec.notes.front_check import SCHEMA, check
from guidec.notes.kinds import FASTENINGS
from guidec.notes.syntax import Located
from guidec.rules.book import wording
from guidec.schemas import FOLDERS, schema
from guidec.source import Span
from guidec.trade import licences
from tests.notes.reading import Read, note


def front(text: str) -> Read:
    return note(f"---\n{text}---\n\n# Lamp\n", plain=True)


def one(text: str) -> tuple[str, str, str, tuple[str, ...]]:
    read = front(text)
    (finding,) = read.findings
    return finding.code, wording(finding).message, read.source.slice(finding.span), finding.suggestions


@pytest.mark.parametrize(
    ("text", "code", "message", "place", "suggestion"),
    [
        ("titel: x\n", "N020", "the front matter has no key `titel`", "titel", "title"),
        ("license: MIT\n", "N020", "the front matter has no key `license`", "license", "licence"),
        ("subject: {modell: x}\n", "N020", "`subject` has no key `modell`", "modell", "model"),
        (
            "scoring: {update_year: 3}\n",
            "N020",
            "`scoring` has no key `update_year`",
            "update_year",
            "update_years",
        ),
        (
            "power: batery\n",
            "N021",
            "`power` is `batery`, and should be `none`, `battery`, `mains`, or a list of these",
            "batery",
            "battery",
        ),
        (
            "power: [mains, atomic]\n",
            "N021",
            "`power` is `atomic`, and should be `none`, `battery` or `mains`",
            "atomic",
            "",
        ),
        ("author: [a, b]\n", "N021", "`author` is a list, and should be a name", "author", ""),
        ("title:\n", "N021", "`title` has no value, and should be the title of the guide", "title", ""),
        (
            "subject: {year: '2023'}\n",
            "N021",
            "`subject.year` is `2023`, and should be a year, such as 2023",
            "'2023'",
            "",
        ),
        (
            "recording: {length: '9:40'}\n",
            "N021",
            "`recording` names neither a `file` nor a `url`",
            "recording",
            "",
        ),
        (
            "recording: {file: a.mp4, length: 580}\n",
            "N021",
            '`recording.length` is `580`, and should be a time in quotes, such as `"9:40"` or `"1:02:03"`',
            "580",
            "",
        ),
        (
            "date: 2023-02-30\n",
            "N021",
            "`date` is `2023-02-30`, and should be a date after ISO 8601, such as `2026-03-01`",
            "2023-02-30",
            "",
        ),
        (
            "language: english_UK\n",
            "N021",
            "`language` is `english_UK`, and should be a language tag after BCP 47, such as `en` or `pt-BR`",
            "english_UK",
            "",
        ),
        (
            "scoring: {foldable: maybe}\n",
            "N021",
            "`scoring.foldable` is `maybe`, and should be `yes` or `no`",
            "maybe",
            "",
        ),
        (
            "licence: CC BY 4.0\n",
            "N022",
            "`CC BY 4.0` is no identifier of the SPDX licence list",
            "CC BY 4.0",
            "CC-BY-4.0",
        ),
    ],
)
def test_a_fault_says_what_is_wrong_and_points_at_it(
    text: str, code: str, message: str, place: str, suggestion: str
) -> None:
    found = one(text)
    assert found[:3] == (code, message, place)
    assert found[3][:1] == ((suggestion,) if suggestion else ())


WHOLE = """\
title: Fernlicht H3 head torch
subject: {maker: Fernlicht, model: H3, variant: b, year: 2023, kind: head torch, identifiers: {gtin: 04012345678}}
author: Workbench Two
licence: CC-BY-4.0 OR LicenseRef-bench
language: en-GB
revision: 1
date: 2026-03-01
recording: {file: h3.mp4, length: 9:40, offset: 0}
power: [battery, mains]
isolate: battery lead, mains plug
parts:
  lid: {details: plastic, qty: 2, class: cover, holds-not: no}
  lens:
  cap: a screw cap
fasteners:
  A: {details: 4x PH0 M2x6, torque: 0.15 N·m, captive: yes, locked: blue, holds: [lid, lens], renew: no}
tools: [card, tweezers]
supplies: {oil: {details: light, link: https://a.example}}
connectors: {lead: {details: press-fit, from: lid, to: lens}}
adhesives: {tape: {renew: yes, amount: 1 ml}}
scoring: {method: eu-2023-1669, foldable: no, spare_parts: [lid], update_years: 6, repair_information: public,
  authorisations: {lid: 1}, absent: [microphone], own_answer: 3}
verdict: {points: 7.5, out_of: 10, why: It opens}
quiet: {M204: it stays in}
"""


def test_all_that_the_language_takes_is_taken() -> None:
    assert front(WHOLE.replace(", holds-not: no", "")).codes == []


def test_keys_in_tables_are_left_to_those_who_know_the_kinds() -> None:
    assert front(WHOLE).codes == []
    assert front("parts: {lid: {class: [a]}}\n").codes == ["N021"]
    assert front("parts: 7\n").codes == ["N021"]


def test_forty_faults_give_forty_messages() -> None:
    keys = "".join(f"unknown{k}: {k}\n" for k in range(10))
    lines = "".join(f"{k}. Lift {{part a{k} and {{}} and [x](ftp://{k}) @0:7{k}.\n" for k in range(10))
    read = note(f"---\n{keys}---\n\n{lines}", plain=True)
    assert len(read.findings) == 50
    assert {code: read.codes.count(code) for code in set(read.codes)} == dict.fromkeys(
        ["N020", "N101", "N103", "N210", "N201"], 10
    )
    assert [finding.span for finding in read.findings] == sorted(finding.span for finding in read.findings)


# ---------------------------------------------------------------- the schema itself


def test_the_schema_is_valid_json_schema_2020_12() -> None:
    """Against the reference validator's copy of the metaschema."""
    published = schema(SCHEMA)
    assert published["$schema"] == "https://json-schema.org/draft/2020-12/schema"
    jsonschema.Draft202012Validator.check_schema(published)


def test_every_value_in_the_schema_says_what_it_should_be() -> None:
    def walk(part: Any, path: str) -> None:
        assert part is True or "$ref" in part or part.get("description"), path
        for key, below in part.get("properties", {}).items() if isinstance(part, dict) else ():
            walk(below, f"{path}.{key}")

    published = schema(SCHEMA)
    walk(published, "")
    for name, part in published["$defs"].items():
        walk(part, name)


def test_the_tables_take_the_keys_of_the_kinds() -> None:
    kinds = {"part": "part", "screw": "fastener", "tool": "tool", "supply": "supply"}
    kinds |= {kind: kind for kind in ("connector", "adhesive") if kind in FASTENINGS}
    for kind, name in kinds.items():
        assert set(schema(SCHEMA)["$defs"][name]["properties"]) == {"details", *KEYS[kind]}, kind


KEY = st.sampled_from(
    ["title", "subject", "year", "recording", "file", "length", "parts", "lid", "qty", "scoring", "power", "x"]
)
DATA = st.recursive(
    st.one_of(
        st.integers(-5, 3000), st.booleans(), st.none(), st.sampled_from(["yes", "battery", "9:40", "en", ""])
    ),
    lambda inner: st.one_of(st.lists(inner, max_size=3), st.dictionaries(KEY, inner, max_size=4)),
    max_leaves=10,
)


@settings(max_examples=300, deadline=None)
@given(st.dictionaries(KEY, DATA, max_size=5))
def test_a_finding_is_raised_where_the_reference_validator_has_an_error(data: dict[str, Any]) -> None:
    """Against `jsonschema`, the reference implementation: faults in rows of tables apart, which others raise."""
    errors = list(jsonschema.Draft202012Validator(schema(SCHEMA)).iter_errors(data))
    ours = [error for error in errors if not (error.absolute_path and error.absolute_path[0] == "parts")]
    typed = json.dumps(data)
    findings = [
        one for one in front(f"{typed}\n").findings if one.severity is None and one.code in ("N020", "N021")
    ]
    rows = [one for one in findings if str(one.facts.get("where", one.facts.get("key"))).split(".")[0] == "parts"]
    assert bool(ours) == bool(len(findings) > len(rows))


def test_schemas_are_found_beside_the_package_or_in_it() -> None:
    assert (FOLDERS[1] / SCHEMA).is_file()
    with pytest.raises(FileNotFoundError, match="no schema"):
        schema("nothing.schema.json")
    text = (Path(__file__).parents[2] / "pyproject.toml").read_text(encoding="utf-8")
    assert '"schema" = "guidec/schema"' in text


# ---------------------------------------------------------------- licences


@pytest.mark.parametrize(
    "expression",
    [
        *(
            "MIT",
            "mit",
            "CC-BY-4.0",
            "CC-BY-SA-4.0",
            "GPL-2.0-or-later WITH Classpath-exception-2.0",
            "(MIT OR Apache-2.0)",
        ),
        *(
            "MIT AND (CC0-1.0 OR 0BSD)",
            "LicenseRef-bench",
            "GPL-2.0+",
            "CC BY 4.0",
            "nonsense",
            "MIT OR",
            "MIT MIT",
            "",
        ),
    ],
)
def test_a_licence_is_known_where_the_packaging_library_knows_it(expression: str) -> None:
    """Against `packaging.licenses`, which follows the SPDX licence list."""
    try:
        canonicalize_license_expression(expression)
    except InvalidLicenseExpression:
        known = False
    else:
        known = True
    assert (licences.unknown_in(expression) == ()) == known


def test_nothing_is_said_of_no_front_matter() -> None:
    assert check(Located({}, Span(0, 0))) == ()
