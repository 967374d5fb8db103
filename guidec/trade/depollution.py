"""A part's name, class and material -> what Directive 2012/19/EU, Annex VII, says must come out first."""

from __future__ import annotations

from typing import Any

from guidec.quick import dataclass
from guidec.trade.load import data
from guidec.trade.phrases import first_phrase, in_language
from guidec.trade.plastics import read_mark

__all__ = ["Listed", "depollution", "depollution_source"]


@dataclass(frozen=True, slots=True)
class Listed:
    """An item of the list that a part falls under. `condition`: what has to be so as well, or empty."""

    id: str
    item: str
    condition: str


def depollution_source() -> str:
    """The citation."""
    return str(data("depollution")["source"])


def depollution(
    name: str,
    cls: str | None = None,
    *,
    material: str | None = None,
    details: str = "",
    subject_kind: str = "",
    area_cm2: float | None = None,
    language: str = "en",
) -> tuple[Listed, ...]:
    """The items that a part falls under, in the list's order; an area known settles the conditions about size.

    `area_cm2` is of the board or the display.
    """
    words = f"{name} {details}"
    short = "de" if language.casefold().startswith("de") else "en"
    found = []
    for row in data("depollution")["rows"]:
        if not _is_about(row, words, cls, material, language):
            continue
        condition = row.get("condition", {}).get(short, "")
        if first_phrase(subject_kind, in_language(row.get("unconditional_kinds", {}), language)):
            condition = ""
        elif area_cm2 is not None and "over_cm2" in row:
            if area_cm2 <= row["over_cm2"]:
                continue
            condition = ""
        found.append(Listed(row["id"], row[short], condition))
    return tuple(found)


def _is_about(row: Any, words: str, cls: str | None, material: str | None, language: str) -> bool:
    if row.get("material") == "brominated":
        mark = read_mark(material or "")
        return bool(mark and mark.brominated)
    classes = row.get("classes", ())
    if cls in classes:
        return not _other_kind(row, words)
    if classes and cls not in (None, "other"):
        return False
    named = first_phrase(words, in_language(row.get("words", {}), language)) is not None
    return named and not first_phrase(words, in_language(row.get("except", {}), language))


def _other_kind(row: Any, words: str) -> bool:
    """A display that is of another kind than liquid crystal, by its own words."""
    kinds = ("oled", "amoled", "e-paper", "e-ink", "led display")
    return row["id"] == "display" and first_phrase(words, kinds) is not None
