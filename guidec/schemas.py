"""The name of a published schema -> the schema."""

from __future__ import annotations

import json
from functools import cache
from pathlib import Path
from typing import Any

__all__ = ["FOLDERS", "schema"]

HERE = Path(__file__).parent
FOLDERS = (HERE / "schema", HERE.parent / "schema")
"""Where schemas lie: in the package when it is installed, beside it in a checkout."""


@cache
def schema(name: str) -> Any:
    """The schema in the file `name`, such as `guide.schema.json`. Raises FileNotFoundError."""
    for folder in FOLDERS:
        path = folder / name
        if path.is_file():
            return json.loads(path.read_text(encoding="utf-8"))
    raise FileNotFoundError(f"no schema {name} in {' or '.join(map(str, FOLDERS))}")
