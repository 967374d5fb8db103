"""Small doors for tests of scoring: a note's text -> its graph and assessment; evidence made by hand."""

from __future__ import annotations

from collections.abc import Mapping
from fractions import Fraction
from textwrap import dedent
from typing import Any

from guidec import model, notes, plan
from guidec.plan import Graph
from guidec.rules.finding import Finding
from guidec.scoring import Assessment, assess
from guidec.scoring.evidence import Evidence, Instance, Met
from guidec.scoring.library import method
from guidec.source import Source

EU = method("eu-2023-1669")
IDS = ("BAT", "DA", "BC", "FFC", "RFC", "EC", "BUT", "MIC", "SPK", "FM")


def graph_of(text: str) -> Graph:
    document, _ = notes.read(Source.of("note.md", dedent(text)))
    guide, _ = model.build(document)
    return plan.graph(guide)


def assessed(text: str) -> Assessment:
    return assess(graph_of(text))[0]


def findings(text: str) -> tuple[Finding, ...]:
    return assess(graph_of(text))[1]


def steps(count: int) -> tuple[tuple[str, str], ...]:
    return tuple((f"work/{at}", "removal") for at in range(count))


def met(word: str | None, name: str = "x") -> Met:
    return Met(name, word, "work/1", False)


def part(own: str, count: int | None, fastening: str | None = "reusable", tool: str | None = "basic") -> Instance:
    """One part of a class, `count` steps away (None: it never comes off), with one fastening and one tool met."""
    if count is None:
        return Instance(own, None)
    return Instance(own, steps(count), fastenings=(met(fastening, f"f-{own}"),), tools=(met(tool, f"t-{own}"),))


def evidence(
    parts: Mapping[str, Instance | tuple[Instance, ...]], answers: Mapping[str, Any], absent: tuple[str, ...] = ()
) -> Evidence:
    found = {own: parts.get(own, ()) for own in IDS}
    return Evidence(
        {own: one if isinstance(one, tuple) else (one,) for own, one in found.items()}, frozenset(absent), answers
    )


ALL = frozenset(row.cls for row in EU.parts)
SPARES = {
    5: ALL,
    4: frozenset({"display", "battery", "cover", "camera-front", "camera-rear"}),
    3: frozenset({"display", "battery", "cover"}),
    2: frozenset({"display", "battery"}),
    1: frozenset({"display"}),
}
YEARS = {5: 7, 3: 6, 1: 5}
INFORMATION = {5: "public", 3: "professionals-free", 1: "professionals-fee"}


def answers(ssp: int, ssu: int, sri: int, foldable: bool = False) -> dict[str, Any]:
    return {
        "spare_parts": SPARES[ssp],
        "update_years": YEARS[ssu],
        "repair_information": INFORMATION[sri],
        "foldable": foldable,
    }


def number(text: str) -> Fraction:
    return Fraction(text)
