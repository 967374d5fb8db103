"""Words for an adhesive -> at what temperature it softens, and whether they say what renews it."""

from __future__ import annotations

from guidec.quick import dataclass
from guidec.trade.load import data
from guidec.trade.phrases import first_phrase, in_language

__all__ = ["Softening", "softening", "tells_what_renews"]


@dataclass(frozen=True, slots=True)
class Softening:
    """A kind of adhesive and the highest temperature (°C) it is usually softened at."""

    name: str
    high_c: float
    usual: bool


def softening(words: str) -> Softening:
    """The kind that a name and type speak of; pressure-sensitive tape where they do not say."""
    for row in data("adhesives")["others"]:
        if first_phrase(words, row["words"]):
            return Softening(row["name"], float(row["high"]), False)
    usual = data("adhesives")["usual"]
    return Softening(usual["name"], float(usual["high"]), True)


def tells_what_renews(words: str, language: str = "en") -> bool:
    """Whether a name or type says by itself what has to be bought again (`double-sided tape`)."""
    folded = words.casefold()
    telling = in_language(data("adhesives")["telling"], language)
    return bool(first_phrase(folded, telling)) or any(word.strip("s").endswith(telling) for word in folded.split())
