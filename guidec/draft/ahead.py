"""Screws where they are named, and the numbers that follow: what belongs together and what it adds up to."""

from __future__ import annotations

from collections.abc import Iterator
from dataclasses import dataclass, replace

from guidec.draft.clauses import Clause
from guidec.draft.item import Item
from guidec.draft.mind import Mind
from guidec.draft.story import Screws
from guidec.draft.wordset import among, phrased

__all__ = ["ROUND", "Said", "announced", "further", "is_said_of", "round_up", "times", "window"]

ROUND = 20.0
"""Seconds within which numbers are taken to fall on the set told last."""


@dataclass(frozen=True, slots=True)
class Said:
    """Screws where they are named: the item, and the set told last with the seconds since."""

    mind: Mind
    clause: Clause
    at: int

    @property
    def item(self) -> Item:
        """The screws."""
        return self.clause.items[self.at]

    @property
    def last(self) -> Screws | None:
        """The set told last, if it is not too long ago."""
        last = self.mind.set
        return last if last is not None and self.item.start - last.heard < ROUND else None

    def after(self, n: int = 1) -> str:
        """The text of the item `n` further on."""
        return self.clause.items[self.at + n].text if self.at + n < len(self.clause.items) else ""

    def has(self, row: str) -> bool:
        """Whether one of these phrases is said in the clause."""
        return any(f" {phrase} " in f" {self.clause.text} " for phrase in phrased(row))


def further(item: Item) -> bool:
    """`two more`, `another`, `a fifth one`."""
    return item.more or item.det == "another" or item.ellipsis == "more"


def announced(one: Said) -> int | None:
    """The sum of the numbers from here on, where the words say it: `… so that's seven`, `… eight altogether`."""
    sums, terms = 0, 0
    told: set[int] = set()
    for item in window(one):
        number = int(item.number or 0) if item.kind == "num" and item.number == int(item.number or 0) else 0
        count = number or (item.count or 0 if item.is_a("screw") else 0)
        alone = item.kind == "num" or item.ellipsis in ("of", "total", "")
        if terms > 1 and alone and (count in told or (count > sums and _summed_up(one, item))):
            return count
        if item.kind == "drive" and terms == 1:
            return None  # `seven along the top, they're T5, and another six`: sets of their own
        if item.is_a("screw") and item.count:
            often = times(list(window(one, item)), 0)
            sums += item.count * often
            terms += often
            told |= {sums} if terms > 1 else set()
    return None


def _summed_up(one: Said, item: Item) -> bool:
    """`which makes seven`, `so that's seven`, `seven altogether`."""
    row = list(window(one))
    at = row.index(item)
    before, after = [word.text for word in row[max(0, at - 2) : at]], [word.text for word in row[at + 1 : at + 3]]
    sums = before[-1:] in (["makes"], ["so"]) or before == ["so", "that's"] or before[-1:] == ["total"]
    return sums or after[:1] == ["altogether"] or after in (["in", "total"], ["in", "all"], ["all", "told"])


def window(one: Said, since: Item | None = None) -> Iterator[Item]:
    """The items of the next seconds, from the screws named or from a later item on."""
    start = since or one.item
    for clause in one.mind.told:
        if clause.items[-1].first >= start.first:
            for item in clause.items:
                if item.first >= start.first:
                    if item.start - one.item.start > ROUND:
                        return
                    yield item


def round_up(one: Said) -> Iterator[tuple[Item, bool]]:
    """The counted screws from here on that belong together, each with whether a drive or size is said of it."""
    last = one.last
    if last is None:
        return
    rows = [item for clause in one.mind.told for item in clause.items if 0 <= item.start - one.item.start < ROUND]
    rows = [item for item in rows if item.first >= one.item.first]
    for at, item in enumerate(rows):
        if item.is_a("screw") and item.count:
            if at and (item.more or (not item.ellipsis and item.det in ("the", "these", "those"))):
                return
            if item.ellipsis and item.det in among("the this that these those") and at:
                continue
            yield replace(item, count=item.count * times(rows, at)), is_said_of(rows, at)
        elif item.is_a("clip", "connector") or (item.kind == "verb" and at > 25):
            return


def times(rows: list[Item], at: int) -> int:
    """`four along each side`: twice as many; `one in each corner`: four times."""
    after = [word for item in rows[at + 1 : at + 5] for word in item.words][:4]
    shared = any(word in among("each every either both") for word in after[:2])
    if not shared or not any(
        word in among("side sides end ends corner corners edge edges leg legs") for word in after
    ):
        return 1
    return 4 if any(word in ("corner", "corners") for word in after) else 2


def is_said_of(rows: list[Item], at: int) -> bool:
    """Whether a drive or size is said of an item: in its name, or right behind (`three of them are T6`)."""
    item = rows[at]
    if item.drive or item.size or item.value:
        return True
    for further in rows[at + 1 : at + 6]:
        if further.is_a("screw"):
            return False
        if further.kind in ("drive", "size"):
            return True
        if further.kind not in ("word", "value") or further.stop == 2:
            return further.kind == "value" and further.amount is not None and further.amount.unit == "mm"
    return False
