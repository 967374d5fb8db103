"""What things and operations say that they were -> earlier names that cannot be theirs alone."""

from __future__ import annotations

import re
from collections.abc import Iterator, Sequence
from typing import NamedTuple

from guidec.model.types import Guide
from guidec.plan import Graph
from guidec.rules.finding import Finding, Severity
from guidec.source import Span

__all__ = ["check"]

_KEY = re.compile(r";\s*was\s*=\s*([^;}]*[^;}\s])", re.I)
_MARK = re.compile(r"\{\s*was\s+([^}]*[^}\s])", re.I)


class _Named(NamedTuple):
    id: str
    name: str
    was: tuple[str, ...]
    span: Span
    said: Span


def check(guide: Guide, graph: Graph) -> Iterator[Finding]:
    """M116."""
    yield from _clashes(
        [
            _Named(one.id, one.name, one.was, one.span, _said(guide, _KEY, one.places) if one.was else one.span)
            for one in guide.things.values()
        ]
    )
    yield from _clashes(
        [
            _Named(
                one.id,
                one.title,
                one.was,
                one.heading_span,
                _said(guide, _MARK, (one.span,)) if one.was else one.span,
            )
            for one in guide.operations
        ]
    )


def _said(guide: Guide, wanted: re.Pattern[str], places: Sequence[Span]) -> Span:
    """Where the earlier names stand; the first place where that cannot be told, as in a table."""
    for place in places:
        found = wanted.search(guide.source.slice(place))
        if found:
            return Span(place.start + found.start(1), place.start + found.end(1))
    return places[0]


def _clashes(named: Sequence[_Named]) -> Iterator[Finding]:
    """Earlier ids that are still somebody's, or that two claim."""
    now = {one.id: one for one in named}
    claimed: dict[str, _Named] = {}
    for one in named:
        for was in one.was:
            if was == one.id:
                yield Finding.at(
                    "M116", one.said, variant="itself", severity=Severity.WARNING, name=one.name, was=was
                )
            elif was in now:
                yield Finding.at("M116", one.said, labels={"first": now[was].span}, name=one.name, was=was)
            elif was in claimed:
                other = claimed[was]
                labels = {"other": other.said}
                yield Finding.at(
                    "M116", one.said, variant="twice", labels=labels, name=one.name, other=other.name, was=was
                )
            claimed.setdefault(was, one)
