"""What a phase found wrong, as data: a code, places, facts. The words live on the code's page."""

from __future__ import annotations

from collections.abc import Iterable, Mapping
from dataclasses import field
from enum import StrEnum
from typing import Any

from guidec.quick import dataclass
from guidec.source import Source, Span

__all__ = ["Finding", "Label", "Severity"]


class Severity(StrEnum):
    """How much a finding weighs: an error makes the note unclean, the others do not."""

    ERROR = "error"
    WARNING = "warning"
    INFO = "info"


@dataclass(frozen=True, slots=True)
class Label:
    """A second place of a finding, with the name of the words for it on the rule's page (`labels:`)."""

    name: str
    span: Span


@dataclass(frozen=True, slots=True)
class Finding:
    """One finding.

    `code` names a page of `rules/pages`. `facts` fill the page's message, help and labels. `variant` picks
    another wording of the same rule (`message.VARIANT` on the page). `severity` is set only where it differs
    from the page's. `source` is the note unless given (a method file, a transcript, …).
    """

    code: str
    span: Span
    facts: Mapping[str, Any] = field(default_factory=dict)
    labels: tuple[Label, ...] = ()
    suggestions: tuple[str, ...] = ()
    variant: str = ""
    severity: Severity | None = None
    source: Source | None = None

    @classmethod
    def at(
        cls,
        code: str,
        span: Span,
        *,
        labels: Mapping[str, Span] | None = None,
        suggest: Iterable[str] = (),
        variant: str = "",
        severity: Severity | None = None,
        source: Source | None = None,
        **facts: Any,
    ) -> Finding:
        """The short way to write one: `Finding.at("M210", span, name=…, labels={"declared": other})`."""
        marks = tuple(Label(name, place) for name, place in (labels or {}).items())
        return cls(code, span, facts, marks, tuple(suggest)[:4], variant, severity, source)
