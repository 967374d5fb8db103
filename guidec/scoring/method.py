"""A scoring method as typed values: what it asks, what it measures, and the points for each finding."""

from __future__ import annotations

from collections.abc import Mapping
from dataclasses import dataclass
from fractions import Fraction
from typing import Any

__all__ = ["Criterion", "Method", "PriorityPart", "method_of"]


@dataclass(frozen=True, slots=True)
class PriorityPart:
    """A kind of part the method looks at. `weights`: variant -> its share in each criterion over parts."""

    id: str
    cls: str
    name: str
    weights: Mapping[str, Fraction]


@dataclass(frozen=True, slots=True)
class Criterion:
    """One score. It either measures each part (`measure`) or takes an answer (`answer`).

    `bands`: (highest value, points) in rising order, the last without a bound. `points`: word -> points.
    `at_least`: (value, points) in falling order. `contains`: (classes, points) in falling order. `empty`: points
    where nothing was met. `below`: points where an answer reaches no row, None where the text has no score.
    `authorisation`: what each remote authorisation adds to the measure.
    """

    id: str
    name: str
    weight: Fraction
    measure: str | None = None
    answer: str | None = None
    bands: tuple[tuple[Fraction | None, Fraction], ...] = ()
    points: Mapping[str, Fraction] | None = None
    at_least: tuple[tuple[Fraction, Fraction], ...] = ()
    contains: tuple[tuple[frozenset[str], Fraction], ...] = ()
    empty: Fraction | None = None
    below: Fraction | None = None
    authorisation: int = 0


@dataclass(frozen=True, slots=True)
class Method:
    """A whole method. `variants`: answer -> variant; `variant_answer`: the key that is asked, if there are two.

    `classes`: (name, least index) in falling order. `kinds`: kinds of subject it is made for; none: any.
    """

    id: str
    title: str
    citation: str
    status: str
    kinds: tuple[str, ...]
    low: Fraction
    high: Fraction
    routes: str
    variant_answer: str | None
    variants: Mapping[str, str]
    parts: tuple[PriorityPart, ...]
    criteria: tuple[Criterion, ...]
    classes: tuple[tuple[str, Fraction], ...]
    tolerance: Fraction | None
    assumptions: tuple[str, ...]

    def applies(self, kind: str | None) -> bool:
        """Whether the method is made for a kind of subject."""
        return not self.kinds or (kind is not None and " ".join(kind.casefold().split()) in self.kinds)


def method_of(data: Mapping[str, Any]) -> Method:
    """The method in a file's content, which must have passed the schema of method files."""
    variants = data.get("variants") or {}
    scale = data["scale"]
    return Method(
        id=data["id"],
        title=data["title"],
        citation=data["citation"],
        status=data["status"],
        kinds=tuple(kind.casefold() for kind in data.get("applies", {}).get("kinds", ())),
        low=_exact(scale["low"]),
        high=_exact(scale["high"]),
        routes=data.get("routes", "steps"),
        variant_answer=variants.get("answer"),
        variants={answer: variant for answer, variant in variants.items() if answer != "answer"},
        parts=tuple(_part(row) for row in data.get("parts", ())),
        criteria=tuple(_criterion(row) for row in data["criteria"]),
        classes=tuple((row["class"], _exact(row["at_least"])) for row in data.get("classes", ())),
        tolerance=_exact(data["tolerance"]) if "tolerance" in data else None,
        assumptions=tuple(data.get("assumptions", ())),
    )


def _exact(number: float | int | str) -> Fraction:
    """A decimal number as it is written, without the noise of binary fractions."""
    return Fraction(str(number))


def _part(row: Mapping[str, Any]) -> PriorityPart:
    weights = row["weights"] if isinstance(row["weights"], Mapping) else {"": row["weights"]}
    return PriorityPart(
        row["id"], row["class"], row["name"], {key: _exact(value) for key, value in weights.items()}
    )


def _criterion(row: Mapping[str, Any]) -> Criterion:
    points = row.get("points")
    listed = points if isinstance(points, list) else []
    named = points if isinstance(points, Mapping) else row.get("values")
    return Criterion(
        id=row["id"],
        name=row["name"],
        weight=_exact(row["weight"]),
        measure=row.get("measure"),
        answer=row.get("answer"),
        bands=tuple((_exact(one["to"]) if "to" in one else None, _exact(one["points"])) for one in listed),
        points={key: _exact(value) for key, value in named.items()} if named is not None else None,
        at_least=tuple((_exact(one["value"]), _exact(one["points"])) for one in row.get("at_least", ())),
        contains=tuple((frozenset(one["of"]), _exact(one["points"])) for one in row.get("contains", ())),
        empty=_exact(row["empty"]) if "empty" in row else None,
        below=_exact(row["below"]) if "below" in row else None,
        authorisation=row.get("authorisation", 0),
    )
