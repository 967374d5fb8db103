"""What several pages show of a guide, as cells and links: names, times, indices, grouped lists."""

from __future__ import annotations

import hashlib
import json
from collections.abc import Callable, Hashable, Iterable, Mapping, Sequence
from dataclasses import field
from typing import TypeVar
from urllib.parse import quote

from markupsafe import Markup, escape

from guidec.model.slugs import slug
from guidec.quick import dataclass
from guidec.shelf.entry import Entry, PartRow
from guidec.shelf.table import Cell
from guidec.shelf.words import Words

__all__ = [
    "DASH",
    "Change",
    "Shelf",
    "count",
    "device",
    "grouped",
    "guide_link",
    "index",
    "links",
    "moment",
    "paths",
    "title_order",
    "way",
]

DASH = Cell(Markup('<span class="none">–</span>'))
_T = TypeVar("_T")
_K = TypeVar("_K", bound=Hashable)


@dataclass(frozen=True, slots=True)
class Change:
    """What became of a guide between two builds: `new`, `revised` or `gone`; its title and revision now."""

    what: str
    slug: str
    title: str
    revision: str | None = None
    before: str | None = None


@dataclass(frozen=True, slots=True)
class Shelf:
    """What pages are made of: the entries in the order of their titles. `seen`: a digest of each, by its slug.

    `root`: from the language's folder to the site's (`` or `../`).
    """

    entries: tuple[Entry, ...]
    changes: tuple[Change, ...]
    said: Words
    root: str = ""
    seen: Mapping[str, str] = field(default_factory=dict)

    def shows(self, entries: Iterable[Entry], *facts: object) -> str:
        """The digest of a page that shows these entries, in their order, and some facts (of plain data)."""
        shown = [facts, *(self.seen[one.slug] for one in entries)]
        return hashlib.sha256(json.dumps(shown).encode()).hexdigest()


def title_order(entry: Entry) -> tuple[str, str]:
    """Guides in the order of their titles, whatever the case."""
    return entry.title.casefold(), entry.slug


def guide_link(shelf: Shelf, depth: int, own: str, text: str, page: str = "index.html") -> Markup:
    """A link to a guide's page, from a page that lies `depth` folders down in its language's."""
    top = "../" * depth + shelf.root
    return Markup(f'<a href="{top}guides/{quote(own)}/{quote(page)}">{escape(text)}</a>')


def device(shelf: Shelf, depth: int, entry: Entry, text: str | None = None) -> Cell:
    """A guide by its device, with a word where it is not clean."""
    shown: str | Markup = guide_link(shelf, depth, entry.slug, text or entry.title)
    if not entry.clean:
        shown = Markup('{} <span class="flag">{}</span>').format(shown, shelf.said("not-clean-short"))
    return Cell(shown, (text or entry.title).casefold())


def count(value: float | None) -> Cell:
    """A number, or a dash."""
    return DASH if value is None else Cell(f"{value:g}", value)


def moment(seconds: float | None, said: Words) -> Cell:
    """A time in minutes, or seconds below one; a dash where it is not known."""
    if seconds is None:
        return DASH
    words = said("seconds", count=round(seconds)) if seconds < 60 else said("minutes", count=round(seconds / 60))
    return Cell(Markup('<span class="nb">{}</span>').format(words), seconds)


def index(entry: Entry, said: Words) -> Cell:
    """An index with its range and class; sorted by its lower end."""
    found = entry.index
    if found is None:
        return DASH
    low, high = said.number(found.low), said.number(found.high)
    text = low if low == high else f"{low}–{high}"
    shown = Markup('<span class="nb">{}</span>').format(text)
    return Cell(Markup("{} <strong>{}</strong>").format(shown, found.cls) if found.cls else shown, found.low)


def way(entry: Entry, cls: str) -> PartRow | None:
    """The part of a class that takes the fewest steps; None where none of the class is reached."""
    rows = [one for one in entry.parts if one.cls == cls and one.steps is not None]
    return min(rows, key=lambda one: (one.reached != "removed", one.steps), default=None)


def grouped(rows: Iterable[_T], key: Callable[[_T], _K]) -> dict[_K, list[_T]]:
    """Rows by a key, in the order in which the keys are first met."""
    found: dict[_K, list[_T]] = {}
    for row in rows:
        found.setdefault(key(row), []).append(row)
    return found


def links(rows: Sequence[tuple[str, str, int]]) -> Markup:
    """A list of (address, name, how many)."""
    items = [
        Markup('<li><a href="{}">{}</a> <span class="many">{}</span></li>').format(href, name, many)
        for href, name, many in rows
    ]
    return Markup('<ul class="index many-of">{}</ul>').format(Markup("").join(items))


def paths(folder: str, names: Iterable[str]) -> Mapping[str, str]:
    """A page for each name, `folder/SLUG.html`; names with one slug are told apart by a number, in their order."""
    taken: dict[str, int] = {"index": 1}
    found = {}
    for name in sorted(set(names), key=lambda one: (one.casefold(), one)):
        own = slug(name) or "other"
        taken[own] = taken.get(own, 0) + 1
        found[name] = f"{folder}/{own}.html" if taken[own] == 1 else f"{folder}/{own}--{taken[own]}.html"
    return found
