"""Entries -> the hazards that the guides name, gravest first, each with the guides it stands in."""

from __future__ import annotations

from collections.abc import Iterator, Sequence
from functools import partial

from markupsafe import Markup

from guidec.model.types import Signal
from guidec.shelf.entry import Entry
from guidec.shelf.layout import Page
from guidec.shelf.pages.cells import Shelf, guide_link
from guidec.shelf.table import cut, paging

__all__ = ["pages"]

_SHOWN = 12
_PER_PAGE = 150
Hazard = tuple[str, str, bool]


def pages(shelf: Shelf) -> Iterator[Page]:
    """The page (or pages) of hazards. One text in many guides stands once."""
    said = shelf.said
    found: dict[Hazard, list[Entry]] = {}
    for entry in shelf.entries:
        for hazard in entry.hazards:
            found.setdefault(hazard, []).append(entry)
    grave = [one.value for one in Signal]
    order = sorted(found, key=lambda one: (grave.index(one[0]), -len(found[one]), one[1].casefold(), one[2]))
    path = "hazards/index.html"
    for own, rows, at, many in cut(path, order, _PER_PAGE):
        around = paging(path, at, many, said)
        title = said("hazards-title") if at == 1 else f"{said('hazards-title')}, {at}"
        shown = [(one, found[one]) for one in rows]
        yield Page(own, title, partial(_body, shelf, shown, around), said("hazards-text"))


def _body(shelf: Shelf, rows: Sequence[tuple[Hazard, list[Entry]]], around: Markup) -> Markup:
    said = shelf.said
    top = Markup('<header class="title"><h1>{}</h1><p class="lead">{}</p><p class="local">{}</p></header>').format(
        said("hazards-title"), said("hazards-text"), said("local-rules")
    )
    body = Markup("\n").join(_hazard(shelf, one, entries) for one, entries in rows)
    return top + around + body + around


def _hazard(shelf: Shelf, hazard: Hazard, entries: Sequence[Entry]) -> Markup:
    said, (signal, text, added) = shelf.said, hazard
    links = [guide_link(shelf, 1, one.slug, one.device) for one in entries[:_SHOWN]]
    more = Markup(" ") + said("and-more", count=len(entries) - _SHOWN) if len(entries) > _SHOWN else Markup("")
    flag = Markup('<p class="added">{}</p>').format(said("added")) if added else Markup("")
    return Markup(
        '<section class="hazard"><div class="hz {}"><p class="sig">{}</p><div class="say"><p>{}</p>{}</div></div>'
        '<p class="where"><span class="cap">{}</span> {}{}</p></section>'
    ).format(signal.lower(), said(signal), text, flag, said("guides"), Markup("; ").join(links), more)
