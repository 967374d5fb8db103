"""A clause -> what sort of talk it is: work, sponsor, greeting, story, refit, side trip, risk, hazard, look."""

from __future__ import annotations

import re
from functools import cache

from guidec.draft.clauses import Clause
from guidec.trade.load import data

__all__ = ["is_", "phrase"]


@cache
def _patterns() -> dict[str, re.Pattern[str]]:
    return {name: re.compile(words) for name, words in data("draft/words-en")["patterns"].items()}


def is_(mood: str, clause: Clause) -> bool:
    """Whether a clause has the words of a mood."""
    return phrase(mood, clause.text) is not None


def phrase(mood: str, text: str) -> re.Match[str] | None:
    """Where the words of a mood stand in a text."""
    return _patterns()[mood].search(text.replace(" 's", "'s").replace(" 're", "'re"))
