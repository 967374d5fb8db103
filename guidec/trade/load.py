"""The name of a data file -> its rows, read once and only when somebody asks."""

from __future__ import annotations

from functools import cache
from pathlib import Path
from typing import Any

import yaml

__all__ = ["DATA", "data", "names"]

DATA = Path(__file__).parent / "data"
_Loader: Any = getattr(yaml, "CSafeLoader", yaml.SafeLoader)


@cache
def data(name: str) -> Any:
    """The content of `data/NAME.yaml`; a folder is written `words/en`. Do not change what you get: it is shared.

    Raises FileNotFoundError for a name without a file.
    """
    return yaml.load((DATA / f"{name}.yaml").read_bytes(), Loader=_Loader)


@cache
def names(folder: str = "") -> tuple[str, ...]:
    """The names that `data` takes, of one folder (`words`) or, without one, of all, in order."""
    files = sorted((DATA / folder).rglob("*.yaml"))
    return tuple(str(path.relative_to(DATA).with_suffix("").as_posix()) for path in files)
