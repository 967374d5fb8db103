"""What a build did -> a value that says so, to be printed by whoever called it."""

from __future__ import annotations

from dataclasses import field
from typing import Any

from guidec.quick import dataclass
from guidec.shelf.settings import Settings

__all__ = ["Report", "Row"]

Row = dict[str, Any]
"""A diagnostic as `check --format json` has it."""


@dataclass(slots=True)
class Report:
    """What a build did. `diagnostics`: by note, those of `shelf.yaml` under its name; `drafts`: left out.

    `made`, `gone`: guides made anew and taken away; `stayed`: guides of notes that were not touched; `old`: notes
    of which an older page stays; `out`: notes with errors that have no page; `wrote`: shared files written;
    `undated`: guides that the feed leaves out.
    """

    settings: Settings
    diagnostics: dict[str, tuple[Row, ...]] = field(default_factory=dict)
    made: list[str] = field(default_factory=list)
    stayed: int = 0
    gone: list[str] = field(default_factory=list)
    old: list[str] = field(default_factory=list)
    out: list[str] = field(default_factory=list)
    drafts: list[str] = field(default_factory=list)
    wrote: int = 0
    undated: int = 0
    guides: int = 0
    stopped: bool = False

    @property
    def errors(self) -> int:
        """How many errors there are in all."""
        return sum(one["severity"] == "error" for rows in self.diagnostics.values() for one in rows)
