"""Entries -> a page for each class of parts: every battery of the shelf, with the way to it."""

from __future__ import annotations

from collections.abc import Iterator, Sequence
from functools import partial

from markupsafe import Markup

from guidec.shelf.entry import Entry, PartRow
from guidec.shelf.layout import Page
from guidec.shelf.pages.cells import DASH, Shelf, count, guide_link, index, links, moment
from guidec.shelf.table import Cell, Column, cut, paging, table

__all__ = ["pages"]

Found = tuple[Entry, PartRow]


def pages(shelf: Shelf) -> Iterator[Page]:
    """The list of classes, and a page (or several) for each. Parts of no class, or of class `other`, have none."""
    said = shelf.said
    by_class: dict[str, list[Found]] = {}
    for entry in shelf.entries:
        for part in entry.parts:
            if part.cls and part.cls != "other":
                by_class.setdefault(part.cls, []).append((entry, part))
    named = sorted(by_class, key=lambda cls: said.named("class", cls).casefold())
    rows = [(f"{cls}.html", said.named("class", cls), len(by_class[cls])) for cls in named]
    top = Markup('<header class="title"><h1>{}</h1><p class="lead">{}</p></header>').format(
        said("classes"), said("classes-text")
    )
    yield Page("parts/index.html", said("classes"), lambda: top + links(rows), said("classes-text"))
    for cls in named:
        yield from _class(shelf, cls, by_class[cls])


def _class(shelf: Shelf, cls: str, found: Sequence[Found]) -> Iterator[Page]:
    said, path = shelf.said, f"parts/{cls}.html"
    title = said("class-title", name=said.named("class", cls))
    text = said("class-count", count=len(found))
    for own, rows, at, many in cut(path, found):
        yield Page(
            own,
            title if at == 1 else f"{title}, {at}",
            partial(_body, shelf, title, text, rows, paging(path, at, many, said)),
            f"{title}: {text}",
            ("sort.js",),
            wide=True,
            shows=shelf.shows((entry for entry, _ in rows), [part.id for _, part in rows], at, many),
        )


def _body(shelf: Shelf, title: str, text: str, rows: Sequence[Found], around: Markup) -> Markup:
    said = shelf.said
    top = Markup('<header class="title"><h1>{}</h1><p class="lead">{}</p></header>').format(title, text)
    columns = [
        Column(said("device-column")),
        Column(said("part-column")),
        Column(said("steps"), number=True),
        Column(said("screws"), number=True),
        Column(said("time-needed"), number=True),
        Column(said("tools-column")),
        Column(said("glue-column")),
        Column(said("index-column"), number=True),
    ]
    whole = table(title, columns, [_row(shelf, entry, part) for entry, part in rows], sortable=True)
    return top + around + whole + around


def _row(shelf: Shelf, entry: Entry, part: PartRow) -> list[Cell]:
    said = shelf.said
    tools = Cell(", ".join(part.tools) or said("bare")) if part.steps is not None else DASH
    return [
        Cell(guide_link(shelf, 1, entry.slug, entry.device), entry.device.casefold()),
        Cell(_part(shelf, entry, part), part.name.casefold()),
        count(part.steps),
        count(part.screws),
        moment(part.seconds, said),
        tools,
        _glue(shelf, part),
        index(entry, said),
    ]


def _part(shelf: Shelf, entry: Entry, part: PartRow) -> Markup:
    page, text = part.page, part.name if part.qty == 1 else f"{part.qty} × {part.name}"
    shown = guide_link(shelf, 1, entry.slug, text, page) if page else Markup("{}").format(text)
    if part.reached in ("exposed", "moved"):
        return Markup('{} <span class="flag">{}</span>').format(shown, shelf.said(f"reached.{part.reached}"))
    if part.reached is None:
        return Markup('{} <span class="flag">{}</span>').format(shown, shelf.said("stays"))
    return shown


def _glue(shelf: Shelf, part: PartRow) -> Cell:
    if part.adhesives is None:
        return DASH
    said = shelf.said
    return Cell(said("glue-count", count=part.adhesives) if part.adhesives else said("glue.0"), part.adhesives)
