"""What is said in a note -> which names are things, and which mark names which of them."""

from __future__ import annotations

from collections.abc import Iterable
from typing import NamedTuple

from guidec.model.said import Said, said_by
from guidec.model.slugs import slug, unique
from guidec.notes.kinds import THINGS
from guidec.notes.syntax import Mark
from guidec.trade.likeness import fold

__all__ = ["Naming", "name_things"]

_THINGS = frozenset(THINGS)


class Naming(NamedTuple):
    """`things`: folded name -> all that is said under it, in note order. `ids`: folded name -> id.

    `strays`: marks without a kind that name nothing.
    """

    things: dict[str, list[Said]]
    ids: dict[str, str]
    strays: tuple[Mark, ...]


def name_things(rows: Iterable[Said], marks: tuple[Mark, ...]) -> Naming:
    """Sort marks by what they name.

    What is declared is read before a kind with a name behind it. What a mark declares is always shorter than the
    whole of it, so wholes are looked up longest first, and each name is known before a mark could need it.
    """
    rows = tuple(rows)
    declared = {fold(row.name) for row in rows}
    wholes: dict[int, str] = {}
    own = [fold(mark.name) if mark.kind in _THINGS else "" for mark in marks]
    lengths = [-len(mark.whole) for mark in marks]
    for place in sorted(range(len(marks)), key=lengths.__getitem__):
        whole = fold(marks[place].whole)
        if whole in declared:
            wholes[place] = whole
        elif own[place]:
            declared.add(own[place])
    things: dict[str, list[Said]] = {}
    strays: list[Mark] = []
    for row in rows:
        things.setdefault(fold(row.name), []).append(row)
    for place, mark in enumerate(marks):
        if place in wholes:
            things.setdefault(wholes[place], []).append(said_by(mark, whole=True))
        elif own[place]:
            things.setdefault(own[place], []).append(said_by(mark))
        elif not mark.kind or mark.kind in _THINGS:
            strays.append(mark)
    return Naming(things, _ids(things), tuple(strays))


def _ids(things: dict[str, list[Said]]) -> dict[str, str]:
    """An id for each name: its slug; where two names share one, the later gets `-2`."""
    taken: dict[str, None] = {}
    ids = {}
    for folded, places in things.items():
        wanted = slug(folded) or next((said.kind for said in places if said.kind), "thing")
        ids[folded] = unique(wanted, taken)
        taken[ids[folded]] = None
    return ids
