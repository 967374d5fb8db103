"""A method file of the right form -> what is wrong with its numbers and names, each at its place."""

from __future__ import annotations

from collections.abc import Iterable, Iterator, Mapping
from fractions import Fraction
from typing import Any

from guidec.notes.syntax import Located
from guidec.rules.finding import Finding
from guidec.scoring.method import exact
from guidec.source import Source, Span

__all__ = ["about_method"]

WORDS = {
    "fastenings": ("reusable", "resupplied", "removable", "neither"),
    "tools": ("basic", "with-part", "with-product", "group", "trade", "maker"),
}
SCORES = ("points", "values", "at_least", "contains", "shares")


def about_method(tree: Located, source: Source) -> Iterator[Finding]:
    """All that is wrong."""
    for span, variant, facts in _faults(tree):
        yield Finding.at("S114", span, variant=variant, source=source, **facts)


Fault = tuple[Span, str, dict[str, Any]]


def _faults(tree: Located) -> Iterator[Fault]:
    low, high = _number(tree, "scale", "low"), _number(tree, "scale", "high")
    if low >= high:
        yield _key(tree, "scale"), "scale", {"low": _shown(low), "high": _shown(high)}
    criteria, parts = _items(tree, "criteria"), _items(tree, "parts")
    yield from _sum(tree, "criteria", [_number(one, "weight") for one in criteria], "")
    yield from _twice(criteria, "id")
    yield from _twice(parts, "id")
    yield from _twice(parts, "class")
    yield from _weights(tree, parts)
    for criterion in criteria:
        yield from _criterion(criterion, low, high)
        if criterion.get("measure") is not None and not parts:
            yield _key(criterion, "measure"), "no-parts", {}
    classes = _items(tree, "classes")
    yield from _falling(classes, "at_least", "class")
    yield from _twice(classes, "class")
    if classes and _number(classes[-1], "at_least") > low:
        yield _key(classes[-1], "at_least"), "class-low", {"low": _shown(low)}


def _weights(tree: Located, parts: list[Located]) -> Iterator[Fault]:
    """Weights of parts: for each variant they add up to 1, unless what is missing is left out."""
    variants = tree.get("variants")
    plain = variants.plain() if variants else {}
    wanted = sorted({value for key, value in plain.items() if key != "answer"}) or [""]
    if variants is not None and wanted == [""]:
        yield _key(tree, "variants"), "no-variant", {}
    sums = dict.fromkeys(wanted, Fraction(0))
    for part in parts:
        weights = part.get("weights")
        given = weights.plain() if weights else {}
        by_variant = given if isinstance(given, dict) else {"": given}
        for variant in by_variant:
            if variant not in sums:
                yield _key(part, "weights"), "variant", {"name": variant, "known": ", ".join(wanted)}
        for variant in sums:
            if variant not in by_variant:
                yield _key(part, "weights"), "variant-missing", {"name": variant}
            sums[variant] += exact(by_variant.get(variant, 0))
    missing = tree.get("missing")
    if parts and not (missing and missing.value == "leave-out"):
        for variant, total in sums.items():
            yield from _sum(tree, "parts", [total], variant)


def _sum(tree: Located, key: str, weights: Iterable[Fraction], variant: str) -> Iterator[Fault]:
    total = sum(weights, Fraction(0))
    if total != 1:
        said = f"{key} ({variant})" if variant else key
        yield _key(tree, key), "sum", {"what": said, "total": _shown(total)}


def _criterion(criterion: Located, low: Fraction, high: Fraction) -> Iterator[Fault]:
    own = criterion.get("id")
    name = own.typed if own else ""
    measure, answer = criterion.get("measure"), criterion.get("answer")
    if (measure is None) == (answer is None):
        yield _start(criterion), "one-of", {"name": name}
        return
    scored = [key for key in SCORES if criterion.get(key) is not None]
    points = criterion.get("points")
    if measure is not None and scored != ["points"]:
        yield _key(criterion, "measure"), "measure-points", {"name": name}
    elif measure is not None and points is not None:
        yield from _of_measure(str(measure.value), points, criterion)
    elif answer is not None and (len(scored) != 1 or scored == ["points"]):
        yield _key(criterion, "answer"), "answer-points", {"name": name}
    for key, rising in (("at_least", "value"), ("shares", "share")):
        yield from _falling(_items(criterion, key), rising, key)
    for place in _points(criterion):
        if not low <= exact(place.plain()) <= high:
            yield place.span, "scale-points", {"typed": place.typed, "low": _shown(low), "high": _shown(high)}


def _of_measure(measure: str, points: Located, criterion: Located) -> Iterator[Fault]:
    words = WORDS.get(measure)
    if words is None:
        if isinstance(points.value, tuple):
            yield from _bands(points.value)
        else:
            yield _key(criterion, "points"), "bands", {"measure": measure}
    elif isinstance(points.value, Mapping):
        for key, entry in points.value.items():
            if key not in words:
                known = ", ".join(f"`{word}`" for word in words)
                yield entry.key_span, "word", {"word": key, "measure": measure, "known": known}
    else:
        yield _key(criterion, "points"), "words", {"measure": measure}


def _bands(bands: tuple[Located, ...]) -> Iterator[Fault]:
    """Bands rise, and only the last has no upper end."""
    ends = [band.get("to") for band in bands]
    if ends[-1] is not None:
        yield ends[-1].span, "band-open", {}
    before: Fraction | None = None
    for end, band in zip(ends[:-1], bands, strict=False):
        if end is None:
            yield _start(band), "band-last", {}
            continue
        value = exact(end.plain())
        if before is not None and value <= before:
            yield end.span, "band-order", {"typed": end.typed}
        before = value


def _falling(rows: list[Located], key: str, what: str) -> Iterator[Fault]:
    before: Fraction | None = None
    for row in rows:
        value = _number(row, key)
        if before is not None and value >= before:
            yield _key(row, key), "falling", {"what": what, "typed": _shown(value)}
        before = value


def _twice(rows: list[Located], key: str) -> Iterator[Fault]:
    seen: set[str] = set()
    for row in rows:
        value = row.get(key)
        if value is not None and value.typed in seen:
            yield value.span, "twice", {"key": key, "typed": value.typed}
        seen.add(value.typed if value else "")


def _points(criterion: Located) -> Iterator[Located]:
    """All points that a criterion gives."""
    for key in ("empty", "below"):
        if (found := criterion.get(key)) is not None:
            yield found
    for key in SCORES:
        rows = criterion.get(key)
        if rows is not None and isinstance(rows.value, Mapping):
            yield from (entry.value for entry in rows.value.values())
        for row in _items(criterion, key):
            if (found := row.get("points")) is not None:
                yield found


# ---------------------------------------------------------------- small doors


def _items(tree: Located, key: str) -> list[Located]:
    found = tree.get(key)
    return list(found.value) if found is not None and isinstance(found.value, tuple) else []


def _number(tree: Located, *keys: str) -> Fraction:
    found: Located | None = tree
    for key in keys:
        found = found.get(key) if found else None
    return exact(found.plain()) if found is not None else Fraction(0)


def _key(tree: Located, key: str) -> Span:
    return tree.value[key].key_span if isinstance(tree.value, Mapping) and key in tree.value else _start(tree)


def _start(tree: Located) -> Span:
    """The start of a mapping: its first key."""
    first = next(iter(tree.value.values()), None) if isinstance(tree.value, Mapping) else None
    return first.key_span if first else tree.span


def _shown(value: Fraction) -> str:
    return f"{float(value):g}"
