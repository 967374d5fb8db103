"""Clauses -> the same, parted where talk turns to something else in the middle of one.

Captions without stops run `… lifts out for assembly the red wire goes first` together; the words that always turn
the talk (`turns` in `turns-en.yaml`) begin a clause of their own.
"""

from __future__ import annotations

from collections.abc import Iterator, Sequence

from guidec.draft import moods
from guidec.draft.clauses import Clause, clause_of
from guidec.draft.item import Item

__all__ = ["parted"]


def parted(told: Sequence[Clause]) -> tuple[Clause, ...]:
    """The clauses, in order, with every item in one."""
    return tuple(piece for clause in told for piece in _pieces(clause))


def _pieces(clause: Clause) -> Iterator[Clause]:
    first = 0
    for place in _places(clause.items):
        if place > first:
            yield clause_of(clause.items[first:place], fresh=clause.fresh and not first)
            first = place
    yield clause if not first else clause_of(clause.items[first:], fresh=False)


def _places(items: Sequence[Item]) -> list[int]:
    """The items that begin a turn, in order."""
    starts, at = {}, 0
    for number, item in enumerate(items):
        starts[at] = number
        at += len(" ".join(item.words)) + 1
    text = " ".join(word for item in items for word in item.words)
    return sorted({starts[found] for found in moods.places("turns", text) if starts.get(found, 0)})
