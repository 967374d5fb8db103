"""What is known at a place of the talk: the things in focus, what is pending, which sort of talk it is."""

from __future__ import annotations

from collections.abc import Sequence
from typing import TypeVar

from guidec.draft.clauses import Clause
from guidec.draft.item import Amount
from guidec.draft.naming import Names
from guidec.draft.story import Act, Named, Quote, Screws, Story, Trip
from guidec.draft.vocabulary import Vocabulary

__all__ = ["Mind", "recent"]

Told = TypeVar("Told", Named, Screws)


class Mind:
    """What is known at a place of the talk: the things in focus, what is pending, which sort of talk it is."""

    def __init__(self, words: Vocabulary) -> None:
        self.words = words
        self.story = Story()
        self.names = Names(self.story, words)
        self.told: Sequence[Clause] = ()
        self.at = 0
        self.part: Named | None = None
        self.link: Named | None = None
        self.glue: Named | None = None
        self.cord: Named | None = None
        self.named: Named | None = None
        self.iron: Amount | None = None
        self.ironed: Quote | None = None
        self.latched = -99.0
        self.listing: float | None = None
        self.links = self.bare = False
        self.fix: Named | None = None
        self.set: Screws | None = None
        self.spread = self.spread_of = 0
        self.driver: tuple[str, float] | None = None
        self.group: list[Named] = []
        self.many: Named | Screws | None = None
        self.met: dict[int, Screws] = {}
        self.hand: list[tuple[float, Named]] = []
        self.last: Act | None = None
        self.trip: Trip | None = None
        self.sponsor = -1.0
        self.refitting = False
        self.put_back = -9
        """The clause that last spoke of putting back, by number."""
        self.before: Clause | None = None
        self.now: Clause | None = None
        self.after: Clause | None = None
        self.overview = False
        self.negated = False

    def quote(self, clause: Clause) -> Quote:
        """The words of a clause."""
        return Quote(clause.start, clause.items[0].first, clause.items[-1].last)

    def scored_in(self, clause: Clause) -> bool:
        """Whether a clause says the verdict, or a part of it."""
        verdict = self.story.verdict
        return bool(
            verdict
            and clause.items[0].first <= verdict.quote.last
            and clause.items[-1].last >= verdict.quote.first
        )

    def add(self, act: Act) -> None:
        """Enter an action: in the main line, or in the side trip that is on."""
        if self.trip is not None:
            self.trip.acts.append(act)
            return
        self.story.acts.append(act)
        self.last = act


def recent(thing: Told | None, at: float, span: float) -> Told | None:
    """The thing, if it is there, not gone, and was heard of within a span (seconds)."""
    return thing if thing is not None and not thing.gone and at - thing.heard < span else None
