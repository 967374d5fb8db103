"""A clause -> what sort of talk it is: work, sponsor, greeting, story, going back, side trip, look."""

from __future__ import annotations

import re
from functools import cache

from guidec.draft.clauses import Clause
from guidec.trade.load import data

__all__ = ["is_", "phrase", "places"]

LEAD = "(?:so|okay|ok|and|now|right|then|alright|well|but|oh|yeah|of course|just|also|good|anyway|again|finally)"


@cache
def _pattern(mood: str) -> re.Pattern[str]:
    """The pattern of a mood; the turns of speech are one a line, `<lead>` a word that a clause may start with."""
    turns = data("draft/turns-en").get(mood)
    if turns is None:
        return re.compile(data("draft/words-en")["patterns"][mood])
    return re.compile("|".join(f"(?:{turn})" for turn in turns.replace("<lead>", LEAD).splitlines()))


def is_(mood: str, clause: Clause) -> bool:
    """Whether a clause has the words of a mood."""
    return phrase(mood, clause.text) is not None


def phrase(mood: str, text: str) -> re.Match[str] | None:
    """Where the words of a mood stand in a text."""
    return _pattern(mood).search(text.replace(" 's", "'s").replace(" 're", "'re"))


def places(mood: str, text: str) -> list[int]:
    """Where in a text the words of a mood begin, each time."""
    return [found.start() for found in _pattern(mood).finditer(text)]
