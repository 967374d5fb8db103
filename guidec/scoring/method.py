"""A scoring method as typed values: what it asks, what it measures, and the points for each finding."""

from __future__ import annotations

from collections.abc import Mapping
from dataclasses import field
from fractions import Fraction
from typing import Any

from guidec.quick import dataclass

__all__ = ["Criterion", "Method", "PriorityPart", "Text", "exact", "method_of"]


@dataclass(frozen=True, slots=True)
class Text:
    """Words of a method, by language; the English ones, or the first, serve where a language is missing."""

    by_language: Mapping[str, str]

    def said(self, language: str = "en") -> str:
        """The words in a language."""
        found = self.by_language.get(language.split("-")[0].casefold())
        return found or self.by_language.get("en") or next(iter(self.by_language.values()), "")

    def __str__(self) -> str:
        return self.said()


@dataclass(frozen=True, slots=True)
class PriorityPart:
    """A kind of part the method looks at. `weights`: variant -> its share in each criterion over parts.

    `also`: other names by which answers may call it.
    """

    id: str
    cls: str
    name: Text
    weights: Mapping[str, Fraction]
    also: frozenset[str] = frozenset()


@dataclass(frozen=True, slots=True)
class Criterion:
    """One score. It either measures each part (`measure`) or takes an answer (`answer`).

    `bands`: (highest value, points) in rising order, the last without a bound. `points`: word -> points.
    `at_least`: (value, points) in falling order. `contains`: (classes, points) in falling order, None for all
    priority parts. `shares`: (least share of the classes shown, points) in falling order. `empty`: points where
    nothing was met. `below`: points where an answer reaches no row, None where the text has no score.
    `authorisation`: what each remote authorisation adds to the measure.
    """

    id: str
    name: Text
    weight: Fraction
    measure: str | None = None
    answer: str | None = None
    bands: tuple[tuple[Fraction | None, Fraction], ...] = ()
    points: Mapping[str, Fraction] | None = None
    at_least: tuple[tuple[Fraction, Fraction], ...] = ()
    contains: tuple[tuple[frozenset[str] | None, Fraction], ...] = ()
    shares: tuple[tuple[Fraction, Fraction], ...] = ()
    empty: Fraction | None = None
    below: Fraction | None = None
    authorisation: int = 0


@dataclass(frozen=True, slots=True)
class Method:
    """A whole method. `variants`: answer -> variant; `variant_answer`: the key that is asked, if there are two.

    `classes`: (name, least index) in falling order. `kinds`: kinds of subject it is made for; none: any.
    `endings`: a kind that ends with one of these is of that kind too. `synonyms`: other words for a kind -> the
    kind. `leave_out`: parts that the note does not show are left out, not unknown. `mean`: of several parts of
    a class the mean counts, not the lowest. `whole_route`: fastenings and tools are looked at on the whole way.
    """

    id: str
    title: Text
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
    assumptions: tuple[Text, ...]
    endings: tuple[str, ...] = ()
    synonyms: Mapping[str, str] = field(default_factory=dict)
    leave_out: bool = False
    mean: bool = False
    whole_route: bool = False

    def kind_of(self, kind: str | None) -> str | None:
        """The method's kind that a subject's kind is; None where it is none of them."""
        folded = _folded(kind or "")
        if not folded or folded in self.kinds:
            return folded or None
        ending = next((one for one in self.endings if folded.endswith(f" {one}")), None)
        return ending or self.synonyms.get(folded)

    def applies(self, kind: str | None) -> bool:
        """Whether the method is made for a kind of subject."""
        return not self.kinds or self.kind_of(kind) is not None

    @property
    def variant_names(self) -> tuple[str, ...]:
        """All variants; one without a name where the method has none."""
        if self.variant_answer is None:
            return (next(iter(self.parts[0].weights), "") if self.parts else "",)
        return tuple(sorted(set(self.variants.values())))


def method_of(data: Mapping[str, Any]) -> Method:
    """The method in a file's content, which must have passed the checks of method files."""
    variants = data.get("variants") or {}
    scale = data["scale"]
    applies = data.get("applies") or {}
    return Method(
        id=data["id"],
        title=_text(data["title"]),
        citation=data["citation"],
        status=data["status"],
        kinds=tuple(_folded(kind) for kind in applies.get("kinds", ())),
        low=exact(scale["low"]),
        high=exact(scale["high"]),
        routes=data.get("routes", "steps"),
        variant_answer=variants.get("answer"),
        variants={answer: variant for answer, variant in variants.items() if answer != "answer"},
        parts=tuple(_part(row) for row in data.get("parts", ())),
        criteria=tuple(_criterion(row) for row in data["criteria"]),
        classes=tuple((row["class"], exact(row["at_least"])) for row in data.get("classes", ())),
        tolerance=exact(data["tolerance"]) if "tolerance" in data else None,
        assumptions=tuple(_text(one) for one in data.get("assumptions", ())),
        endings=tuple(_folded(kind) for kind in applies.get("endings", ())),
        synonyms={_folded(word): kind for word, kind in applies.get("also", {}).items()},
        leave_out=data.get("missing") == "leave-out",
        mean=data.get("several") == "mean",
        whole_route=data.get("stretch") == "route",
    )


def exact(number: float | int | str) -> Fraction:
    """A decimal number as it is written, without the noise of binary fractions."""
    return Fraction(str(number))


def _folded(kind: str) -> str:
    return " ".join(kind.casefold().replace("-", " ").split())


def _text(value: str | Mapping[str, str]) -> Text:
    return Text(value if isinstance(value, Mapping) else {"en": str(value)})


def _part(row: Mapping[str, Any]) -> PriorityPart:
    weights = row["weights"] if isinstance(row["weights"], Mapping) else {"": row["weights"]}
    return PriorityPart(
        row["id"],
        row["class"],
        _text(row["name"]),
        {key: exact(value) for key, value in weights.items()},
        frozenset(_folded(name) for name in row.get("also", ())),
    )


def _criterion(row: Mapping[str, Any]) -> Criterion:
    points = row.get("points")
    listed = points if isinstance(points, list) else []
    named = points if isinstance(points, Mapping) else row.get("values")
    return Criterion(
        id=row["id"],
        name=_text(row["name"]),
        weight=exact(row["weight"]),
        measure=row.get("measure"),
        answer=row.get("answer"),
        bands=tuple((exact(one["to"]) if "to" in one else None, exact(one["points"])) for one in listed),
        points={key: exact(value) for key, value in named.items()} if named is not None else None,
        at_least=tuple((exact(one["value"]), exact(one["points"])) for one in row.get("at_least", ())),
        contains=tuple((_classes(one["of"]), exact(one["points"])) for one in row.get("contains", ())),
        shares=tuple((exact(one["share"]), exact(one["points"])) for one in row.get("shares", ())),
        empty=exact(row["empty"]) if "empty" in row else None,
        below=exact(row["below"]) if "below" in row else None,
        authorisation=row.get("authorisation", 0),
    )


def _classes(of: str | list[str]) -> frozenset[str] | None:
    return None if of == "all" else frozenset(of)
