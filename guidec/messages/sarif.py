"""Diagnostics -> SARIF 2.1.0 (OASIS standard), for code-review tools.

Every rule that was met is described with the words of its page. A suggestion becomes a fix where the rule's page
says that its suggestions stand in place of the main span (`replaces: true`).
"""

from __future__ import annotations

import json
from collections.abc import Sequence
from pathlib import Path
from typing import Any
from urllib.parse import quote

from guidec import __version__
from guidec.messages.diagnostic import Diagnostic, Spot
from guidec.rules.book import page
from guidec.rules.finding import Severity

__all__ = ["sarif"]

SCHEMA = "https://docs.oasis-open.org/sarif/sarif/v2.1.0/errata01/os/schemas/sarif-schema-2.1.0.json"
_LEVEL = {Severity.ERROR: "error", Severity.WARNING: "warning", Severity.INFO: "note"}


def sarif(diagnostics: Sequence[Diagnostic]) -> str:
    """A SARIF log with one run. Columns count code points from 1; an end column is one past the last."""
    codes = sorted({one.code for one in diagnostics})
    run = {
        "tool": {"driver": {"name": "guidec", "version": __version__, "rules": [_rule(code) for code in codes]}},
        "columnKind": "unicodeCodePoints",
        "artifacts": [{"location": _artifact(name)} for name in sorted({one.source.name for one in diagnostics})],
        "results": [_result(one, codes.index(one.code)) for one in diagnostics],
    }
    log = {"$schema": SCHEMA, "version": "2.1.0", "runs": [run]}
    return json.dumps(log, ensure_ascii=False, indent=2) + "\n"


def _rule(code: str) -> dict[str, Any]:
    rule = page(code)
    first = rule.prose.split("\n\n", 1)[0].replace("\n", " ")
    return {
        "id": code,
        "name": rule.name,
        "shortDescription": {"text": rule.name.replace("-", " ")},
        "fullDescription": {"text": first, "markdown": first},
        "help": {"text": rule.text, "markdown": rule.text},
        "defaultConfiguration": {"level": _LEVEL[rule.severity]},
    }


def _result(one: Diagnostic, index: int) -> dict[str, Any]:
    words = one.message if not one.help else f"{one.message}\n{one.help}"
    result: dict[str, Any] = {
        "ruleId": one.code,
        "ruleIndex": index,
        "level": _LEVEL[one.severity],
        "message": {"text": words},
        "locations": [_location(one, one.here)],
    }
    if one.labels:
        result["relatedLocations"] = [{"id": at, **_location(one, spot)} for at, spot in enumerate(one.labels)]
    if one.suggestions and page(one.code).replaces:
        result["fixes"] = [_fix(one, suggestion) for suggestion in one.suggestions]
    return result


def _location(one: Diagnostic, spot: Spot) -> dict[str, Any]:
    place: dict[str, Any] = {"artifactLocation": _artifact(one.source.name), "region": _region(spot)}
    location: dict[str, Any] = {"physicalLocation": place}
    if spot.message:
        location["message"] = {"text": spot.message}
    return location


def _fix(one: Diagnostic, suggestion: str) -> dict[str, Any]:
    change = {"deletedRegion": _region(one.here), "insertedContent": {"text": suggestion}}
    files = [{"artifactLocation": _artifact(one.source.name), "replacements": [change]}]
    return {"description": {"text": f"write `{suggestion}`"}, "artifactChanges": files}


def _region(spot: Spot) -> dict[str, int]:
    return {
        "startLine": spot.start.line,
        "startColumn": spot.start.column,
        "endLine": spot.end.line,
        "endColumn": spot.end.column,
    }


def _artifact(name: str) -> dict[str, str]:
    path = Path(name)
    return {"uri": path.as_uri() if path.is_absolute() else quote(path.as_posix())}
