"""Diagnostics -> JSON for programs."""

from __future__ import annotations

import json
from collections.abc import Sequence
from typing import Any

from guidec.messages.diagnostic import Diagnostic, Spot
from guidec.rules.finding import Severity

__all__ = ["as_data", "as_json"]


def as_json(diagnostics: Sequence[Diagnostic]) -> str:
    """`{"diagnostics": […], "errors": n, "warnings": n, "infos": n}`.

    Lines and columns count from 1, columns in code points; `end_column` is one past the last character.
    """
    number = {f"{severity}s": sum(one.severity == severity for one in diagnostics) for severity in Severity}
    data = {"diagnostics": [as_data(one) for one in diagnostics], **number}
    return json.dumps(data, ensure_ascii=False, indent=2) + "\n"


def as_data(one: Diagnostic) -> dict[str, Any]:
    """One diagnostic as plain data; `help` is None where there is nothing to add."""
    return {
        "code": one.code,
        "severity": str(one.severity),
        "message": one.message,
        "file": one.source.name,
        **_place(one.here),
        "help": one.help or None,
        "label": one.here.message or None,
        "labels": [{"message": spot.message, "file": one.source.name, **_place(spot)} for spot in one.labels],
        "suggestions": list(one.suggestions),
    }


def _place(spot: Spot) -> dict[str, int]:
    return {
        "line": spot.start.line,
        "column": spot.start.column,
        "end_line": spot.end.line,
        "end_column": spot.end.column,
    }
