"""The words for a device and its parts -> the kinds of danger that stay after the plug is pulled."""

from __future__ import annotations

from collections.abc import Iterable

from guidec.quick import dataclass
from guidec.trade.load import data
from guidec.trade.phrases import first_phrase, in_language

__all__ = ["Danger", "dangers", "speaks_of_mains", "stored_charge_limit_v"]


@dataclass(frozen=True, slots=True)
class Danger:
    """A kind of danger: the id of its caution, and the words that told of it."""

    caution: str
    words: str


def dangers(subject: str, parts: Iterable[str], language: str = "en") -> tuple[Danger, ...]:
    """The dangers that a subject's kind and title, or the names of its parts, speak of, in the data's order."""
    names = "\n".join(parts)
    found = []
    for row in data("stored-charge")["kinds"]:
        other = first_phrase(subject, in_language(row.get("except", {}), language))
        hit = None if other else first_phrase(subject, in_language(row["words"], language))
        hit = hit or first_phrase(names, in_language(row["parts"], language))
        if hit:
            found.append(Danger(row["caution"], hit[0]))
    return tuple(found)


def speaks_of_mains(text: str, language: str = "en") -> bool:
    """Whether a text speaks of the mains lead, plug or socket."""
    return first_phrase(text, in_language(data("stored-charge")["plugs"], language)) is not None


def stored_charge_limit_v() -> float:
    """The voltage (V) that stored charge has to have fallen to before anybody touches."""
    return float(data("stored-charge")["limits"]["supply"]["volts"])
