"""Reports as programs read them: JSON, and SARIF checked with the standard's own schema."""

from __future__ import annotations

import json
from collections.abc import Callable
from pathlib import Path
from typing import Any

import pytest

from guidec.messages import as_json, diagnose, sarif
from guidec.messages.diagnostic import Diagnostic
from guidec.rules.finding import Finding
from guidec.source import Source, Span

# OASIS SARIF 2.1.0 (release candidate 5 of the schema), as a package of the npm registry ships it.
SCHEMA = Path(".cache/npm/node_modules/@microsoft/jest-sarif/lib/schemas/sarif-2.1.0-rtm.5.json")

PAGE = """---
severity: warning
message: "`$name` is not known"
help: declare it
labels: {here: "here", near: "this one?"}
replaces: true
---
Names must be declared.

More of it.

```note raises
# x
```

```note mended
# x
```
"""


@pytest.fixture
def found(write_page: Callable[[str, str], None]) -> tuple[Diagnostic, ...]:
    write_page("X100-unknown-name", PAGE)
    write_page("X101-bare", "---\nseverity: error\nmessage: bare\n---\nWhy.\n")
    source = Source.of("my notes/rädio.md", "# 漢字 {lid}\n\nthe {lit} is\noff\n")
    unknown = Finding.at("X100", Span(17, 20), labels={"near": Span(6, 9)}, suggest=["lid"], name="lit")
    return diagnose(source, [unknown, Finding.at("X101", Span(12, 28))])


def test_json_has_the_published_fields_with_places_from_1(found: tuple[Diagnostic, ...]):
    data = json.loads(as_json(found))
    assert data["errors"] == 1
    assert data["warnings"] == 1
    assert data["infos"] == 0
    bare, unknown = data["diagnostics"]
    assert unknown == {
        "code": "X100",
        "severity": "warning",
        "message": "`lit` is not known",
        "file": "my notes/rädio.md",
        "line": 3,
        "column": 6,
        "end_line": 3,
        "end_column": 9,
        "help": "declare it",
        "label": "here",
        "labels": [
            {
                "message": "this one?",
                "file": "my notes/rädio.md",
                "line": 1,
                "column": 7,
                "end_line": 1,
                "end_column": 10,
            }
        ],
        "suggestions": ["lid"],
    }
    assert (bare["line"], bare["column"], bare["end_line"], bare["end_column"]) == (3, 1, 4, 4)
    assert bare["help"] is None


def test_sarif_columns_are_code_points_and_places_are_those_of_the_json(found: tuple[Diagnostic, ...]):
    run = json.loads(sarif(found))["runs"][0]
    assert run["columnKind"] == "unicodeCodePoints"
    region = run["results"][1]["locations"][0]["physicalLocation"]
    assert region["region"] == {"startLine": 3, "startColumn": 6, "endLine": 3, "endColumn": 9}
    assert region["artifactLocation"]["uri"] == "my%20notes/r%C3%A4dio.md"


def test_sarif_tells_each_rule_once_and_points_at_it(found: tuple[Diagnostic, ...]):
    run = json.loads(sarif((*found, *found)))["runs"][0]
    rules = run["tool"]["driver"]["rules"]
    assert [rule["id"] for rule in rules] == ["X100", "X101"]
    assert all(rules[result["ruleIndex"]]["id"] == result["ruleId"] for result in run["results"])
    assert rules[0]["fullDescription"]["text"] == "Names must be declared."
    assert rules[0]["defaultConfiguration"]["level"] == "warning"


def test_sarif_offers_a_fix_only_where_the_page_says_that_suggestions_replace(found: tuple[Diagnostic, ...]):
    bare, unknown = json.loads(sarif(found))["runs"][0]["results"]
    change = unknown["fixes"][0]["artifactChanges"][0]["replacements"][0]
    assert change["insertedContent"]["text"] == "lid"
    assert change["deletedRegion"]["startColumn"] == 6
    assert "fixes" not in bare


def test_a_clean_note_gives_whole_documents():
    assert json.loads(as_json(())) == {"diagnostics": [], "errors": 0, "warnings": 0, "infos": 0}
    assert json.loads(sarif(()))["runs"][0]["results"] == []


def test_sarif_passes_the_standards_own_schema(found: tuple[Diagnostic, ...]):
    from jsonschema import Draft4Validator

    schema: dict[str, Any] = json.loads((Path(__file__).parents[2] / SCHEMA).read_text(encoding="utf-8"))
    assert schema["title"].startswith("Static Analysis Results Format (SARIF) Version 2.1.0")
    validator = Draft4Validator(schema)
    for diagnostics in (found, ()):
        assert list(validator.iter_errors(json.loads(sarif(diagnostics)))) == []
    broken = json.loads(sarif(found))
    broken["runs"][0]["results"][0]["level"] = "grave"
    assert list(validator.iter_errors(broken)), "the schema must be able to object"
