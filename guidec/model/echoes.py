"""Findings -> the same without those that only follow from another one's slip.

A line that was doubted may be meant to do what others then miss; a count that two declarations disagree on is not
also held against the actions.
"""

from __future__ import annotations

from collections.abc import Iterable

from guidec.rules.finding import Finding

__all__ = ["without_echoes"]

_MISSED = frozenset(("M302", "M304", "M306"))


def without_echoes(findings: Iterable[Finding], doubted: frozenset[str]) -> tuple[Finding, ...]:
    """The findings that stand for themselves. `doubted`: names of the things in lines that were doubted."""
    findings = tuple(findings)
    counts = {one.facts["name"] for one in findings if one.code == "M103" and one.facts.get("what") == "count"}
    return tuple(
        one
        for one in findings
        if not (one.code == "M203" and one.facts["name"] in counts)
        and not (one.code in _MISSED and one.facts.get("name") in doubted)
    )
