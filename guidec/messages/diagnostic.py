"""A finding and the source it was found in -> a diagnostic: the same in words, with lines and columns."""

from __future__ import annotations

from collections.abc import Iterable

from guidec.messages.cells import one_line
from guidec.quick import dataclass
from guidec.rules.book import wording
from guidec.rules.finding import Finding, Severity
from guidec.source import Place, Source, Span

__all__ = ["Diagnostic", "Spot", "diagnose"]

_WEIGHT = {Severity.ERROR: 0, Severity.WARNING: 1, Severity.INFO: 2}


@dataclass(frozen=True, slots=True)
class Spot:
    """A place and what is to be said there. `end` is one past the last character."""

    message: str
    span: Span
    start: Place
    end: Place


@dataclass(frozen=True, slots=True)
class Diagnostic:
    """A finding in words. `here` is the main place; `labels` are the others; `help` may be empty.

    `suggestions` are what may have been meant, nearest first, at most four.
    """

    code: str
    severity: Severity
    message: str
    help: str
    source: Source
    here: Spot
    labels: tuple[Spot, ...]
    suggestions: tuple[str, ...]


def diagnose(source: Source, findings: Iterable[Finding]) -> tuple[Diagnostic, ...]:
    """The findings of one note in words, in the order of their places, the same thing said once only.

    `source` is the text that a finding without a source of its own speaks of.
    """
    made: dict[tuple[str, str, Span, str], Diagnostic] = {}
    for finding in findings:
        diagnostic = _diagnostic(finding.source or source, finding)
        made.setdefault((diagnostic.source.name, diagnostic.code, finding.span, diagnostic.message), diagnostic)
    return tuple(sorted(made.values(), key=lambda one: _rank(source, one)))


def _rank(source: Source, one: Diagnostic) -> tuple[bool, str, int, int, str]:
    elsewhere = one.source is not source
    return elsewhere, one.source.name if elsewhere else "", one.here.span.start, _WEIGHT[one.severity], one.code


def _diagnostic(source: Source, finding: Finding) -> Diagnostic:
    words = wording(finding)
    pairs = zip(finding.labels, words.labels, strict=True)
    return Diagnostic(
        code=finding.code,
        severity=words.severity,
        message=one_line(words.message),
        help=one_line(words.help),
        source=source,
        here=_spot(source, finding.span, words.here),
        labels=tuple(_spot(source, label.span, said) for label, said in pairs),
        suggestions=tuple(one_line(suggestion) for suggestion in finding.suggestions[:4]),
    )


def _spot(source: Source, span: Span, message: str) -> Spot:
    size = len(source.text)
    inside = Span(min(max(span.start, 0), size), min(max(span.end, span.start, 0), size))
    return Spot(one_line(message), inside, source.place(inside.start), source.place(inside.end))
