"""The words for a supply -> what solvent it is, and what follows from that."""

from __future__ import annotations

from functools import cache, lru_cache

from guidec.quick import dataclass
from guidec.trade.load import data
from guidec.trade.phrases import first_phrase, in_language

__all__ = ["Solvent", "is_measured_out", "says_dry", "solvent"]


@dataclass(frozen=True, slots=True)
class Solvent:
    """A solvent. `attacks`: symbols of plastics it does not go with; `flash_point_c` None where not known."""

    name: str
    flammable: bool
    flash_point_c: float | None
    attacks: tuple[str, ...]


@lru_cache(1024)  # a note says the names of its supplies again and again
def solvent(words: str) -> Solvent | None:
    """The solvent that a supply's name speaks of, or None."""
    for row in data("solvents")["rows"]:
        if first_phrase(words, row["words"]):
            return Solvent(row["name"], row["flammable"], row.get("flash_point_c"), tuple(row.get("attacks", ())))
    return None


def is_measured_out(words: str) -> bool:
    """Whether a supply is bought by volume or weight, so that its amount is worth a word."""
    table = data("solvents")
    if first_phrase(words, table["counted"]["words"]):
        return False
    return solvent(words) is not None or first_phrase(words, table["measured"]["words"]) is not None


def says_dry(text: str, language: str = "en") -> bool:
    """Whether a text says that a solvent dries or has gone."""
    return first_phrase(text, _drying(language), plural=False) is not None


@cache
def _drying(language: str) -> tuple[str, ...]:
    return in_language(data("solvents")["drying"], language)
