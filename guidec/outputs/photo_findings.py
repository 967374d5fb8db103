"""What came of a guide's photos -> findings at their lines: what could not be read, and what to notice."""

from __future__ import annotations

from collections.abc import Iterable, Iterator, Mapping
from pathlib import PurePath

from guidec.model.types import Shown
from guidec.outputs.figure import box_of
from guidec.pictures.types import Box, Derived
from guidec.rules.finding import Finding

__all__ = ["photo_findings"]

_SUFFIXES = {
    "JPEG": (".jpg", ".jpeg", ".jpe", ".jfif", ".mpo"),
    "PNG": (".png", ".apng"),
    "WEBP": (".webp",),
    "AVIF": (".avif",),
    "GIF": (".gif",),
    "HEIF": (".heic", ".heif", ".hif"),
}
_NOTICED = {"animated": "I106", "cmyk": "I107"}


def photo_findings(
    shown: Iterable[Shown], derived: Mapping[tuple[str, Box | None], Derived], troubles: Mapping[str, str]
) -> tuple[Finding, ...]:
    """Each path once, where it is shown first. `troubles`: why a path gave no picture."""
    found: list[Finding] = []
    seen: set[str] = set()
    for one in shown:
        if one.path in seen:
            continue
        seen.add(one.path)
        if one.path in troubles:
            found.append(Finding.at("N007", one.path_span, path=one.path, reason=troubles[one.path]))
        made = derived.get((one.path, box_of(one.crop)))
        if made is not None:
            found += _noticed(one, made)
    return tuple(found)


def _noticed(shown: Shown, made: Derived) -> Iterator[Finding]:
    format_ = "JPEG" if made.format == "MPO" else made.format
    suffix = PurePath(shown.path).suffix.lower()
    if format_ in _SUFFIXES and suffix not in _SUFFIXES[format_]:
        kind = "HEIC" if format_ == "HEIF" else format_
        yield Finding.at("I105", shown.path_span, path=shown.path, format=kind, suffix=_SUFFIXES[format_][0])
    for fact in made.facts:
        if fact in _NOTICED:
            yield Finding.at(_NOTICED[fact], shown.path_span, path=shown.path)
