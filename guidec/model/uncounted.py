"""A screw set whose details do not count, and the lines that undo it -> the finding, with the count that is meant.

That one stands right before or behind the mark (`2x {screw F: PH0}`, `{screw F: PH0} x 2`), or is a share that the
line takes. Of a set without any details nothing is said: its name alone may be all that is known.
"""

from __future__ import annotations

import re
from collections.abc import Sequence

from guidec.model.context import Context
from guidec.model.types import Action, Effect, ScrewSet
from guidec.rules.finding import Finding
from guidec.source import Span
from guidec.trade.numbers import read_count

__all__ = ["check_uncounted"]

_BEFORE = re.compile(
    r"(?:(?<![\w.,])(\d{1,3})\s?[x×*]|(?<![\w.,])(\d{1,3}|[^\W\d_]+))\s*(?:of\s+|von\s+)?(?:the\s+|den\s+|der\s+)?$"
)
_BEHIND = re.compile(
    r"\s?(?:[x×*]\s?(\d{1,3})(?![\w,]|\.\d)|\((\d{1,3})\s?[x×]?\)|\((?:[x×]\s?)?(\d{1,3})\)|(\d{1,3})\s?[x×](?!\w))"
)
_AS_KEY = re.compile(r";\s*(?:qty|quantity|count|anzahl|menge|stück|stk)\s*=", re.I)
_REACH = 24
"""How many characters before a mark are looked at."""


def check_uncounted(thing: ScrewSet, takes: Sequence[tuple[Action, Effect]], context: Context) -> None:
    """Report, once for a set, that nobody says how many there are."""
    if _AS_KEY.search(context.source.slice(thing.span)):  # which has been said
        return
    beside = next((number for _, effect in takes if (number := _beside(effect.span, context))), 0)
    shares = [effect.count for _, effect in takes if effect.count is not None]
    count = beside or (sum(shares) if len(shares) == len(takes) else 0)
    typed = " ".join(thing.details.split())
    suggest = (f"{count}x {typed}".strip(),) if count else ()
    if not count and not typed:
        return
    context.report(
        Finding.at(
            "M124",
            thing.span,
            variant="beside" if count else "",
            suggest=suggest,
            name=thing.name,
            example=f"4x {typed}",
        )
    )


def _beside(mark: Span, context: Context) -> int:
    """The count that stands right before or behind a mark; 0 where none does."""
    text = context.source.text
    behind = _BEHIND.match(text, mark.end)
    if behind:
        return int(next(number for number in behind.groups() if number))
    before = _BEFORE.search(text[max(0, mark.start - _REACH) : mark.start])
    if before is None:
        return 0
    if before[1]:
        return int(before[1])
    word = before[2].casefold()
    numbers = context.lexicon.determiners if context.lexicon else frozenset()
    return 0 if word in numbers else read_count(word) or 0
