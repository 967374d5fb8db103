"""Two words, or a word and many -> how near they are."""

from __future__ import annotations

from collections.abc import Iterable
from functools import lru_cache
from unicodedata import normalize

__all__ = ["distance", "fold", "nearest"]


@lru_cache(8192)  # a note says most names several times, and each phase asks again
def fold(name: str) -> str:
    """A name with case and white space folded, its letters composed: what decides whether two names are one."""
    return " ".join((name if name.isascii() else normalize("NFC", name)).casefold().split())


def distance(one: str, other: str, limit: int) -> int:
    """Edits (insert, delete, replace, swap of neighbours) between two words, or `limit + 1` where it is more.

    Optimal string alignment: no part is edited twice.
    """
    if abs(len(one) - len(other)) > limit:
        return limit + 1
    before: list[int] = []
    row = list(range(len(other) + 1))
    for at, letter in enumerate(one, 1):
        before, last, row = row, before, [at]
        for to, against in enumerate(other, 1):
            cost = min(before[to] + 1, row[to - 1] + 1, before[to - 1] + (letter != against))
            if at > 1 and to > 1 and letter == other[to - 2] and one[at - 2] == against:
                cost = min(cost, last[to - 2] + 1)
            row.append(cost)
        if min(row) > limit and (not last or min(before) > limit):
            return limit + 1
    return row[-1] if row[-1] <= limit else limit + 1


def nearest(word: str, choices: Iterable[str], count: int = 4) -> tuple[str, ...]:
    """The choices that a word may have been meant for, nearest first: about one slip in three letters."""
    folded = fold(word)
    limit, letters = max(1, len(folded) // 3), set(folded)
    found = []
    for place, choice in enumerate(choices):
        if len(letters.difference(fold(choice))) > limit:  # each letter that the choice has not is an edit
            continue
        away = distance(folded, fold(choice), limit)
        if away <= limit:
            found.append((away, fold(choice)[:1] != folded[:1], place, choice))
    return tuple(choice for *_, choice in sorted(found)[:count])
