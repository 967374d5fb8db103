"""Numbers of safety signs -> their names in words, and what the signal words mean."""

from __future__ import annotations

from guidec.trade.load import data

__all__ = ["sign_name", "signal_meaning"]


def _short(language: str) -> str:
    return "de" if language.casefold().startswith("de") else "en"


def sign_name(number: str, language: str = "en") -> str:
    """The name of an ISO 7010 sign, or of another one of the data. Raises KeyError for an unknown number."""
    table = data("signs")
    rows = {**table["rows"], **{row["number"]: row for row in table["others"]}}
    return str(rows[number][_short(language)])


def signal_meaning(word: str) -> str:
    """What a signal word says, after ANSI Z535.6. Raises KeyError for another word."""
    return str(data("signs")["signal_words"][word]["en"])
