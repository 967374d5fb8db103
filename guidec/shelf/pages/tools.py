"""Entries -> the tools of the shelf, each with the guides that need it."""

from __future__ import annotations

from collections.abc import Iterator, Sequence
from functools import partial

from markupsafe import Markup

from guidec.shelf.entry import Entry, ToolRow
from guidec.shelf.layout import Page
from guidec.shelf.pages.cells import Shelf, device, paths
from guidec.shelf.table import Cell, Column, cut, paging, table

__all__ = ["pages"]

Found = tuple[Entry, ToolRow]


def pages(shelf: Shelf) -> Iterator[Page]:
    """The list of tools, and a page (or several) for each. Names that differ in case alone are one tool."""
    said = shelf.said
    by_tool: dict[str, list[Found]] = {}
    for entry in shelf.entries:
        for tool in entry.tools:
            by_tool.setdefault(" ".join(tool.name.casefold().split()), []).append((entry, tool))
    at = paths("tools", by_tool)
    rows = [_tool(shelf, at[name], by_tool[name]) for name in sorted(by_tool)]
    for own, part, number, many in cut("tools/index.html", rows):
        body = partial(_listed, shelf, part, paging("tools/index.html", number, many, said))
        yield Page(own, _numbered(said("tools-title"), number), body, said("tools-text"), ("sort.js",))
    for name, found in by_tool.items():
        yield from _guides(shelf, at[name], found)


def _listed(shelf: Shelf, rows: Sequence[Sequence[Cell]], around: Markup) -> Markup:
    said = shelf.said
    columns = [
        Column(said("tools-column")),
        Column(said("drive")),
        Column(said("grade-column")),
        Column(said("count-column"), number=True),
    ]
    top = Markup('<header class="title"><h1>{}</h1><p class="lead">{}</p></header>').format(
        said("tools-title"), said("tools-text")
    )
    return top + around + table(said("tools"), columns, rows, sortable=True) + around


def _numbered(title: str, at: int) -> str:
    return title if at == 1 else f"{title}, {at}"


def _tool(shelf: Shelf, path: str, found: Sequence[Found]) -> list[Cell]:
    said, tools = shelf.said, [tool for _, tool in found]
    grades = sorted({said.named("grade", tool.grade) for tool in tools if tool.grade})
    drives = sorted({tool.drive for tool in tools if tool.drive})
    guides = len({entry.slug for entry, _ in found})
    name = Markup('<a href="{}">{}</a>').format(path.partition("/")[2], tools[0].name)
    return [
        Cell(name, tools[0].name.casefold()),
        Cell(", ".join(drives) or "–"),
        Cell(", ".join(grades) or "–"),
        Cell(str(guides), guides),
    ]


def _guides(shelf: Shelf, path: str, found: Sequence[Found]) -> Iterator[Page]:
    title = shelf.said("tool-title", name=found[0][1].name)
    for own, rows, at, many in cut(path, found):
        body = partial(_needing, shelf, title, rows, paging(path, at, many, shelf.said))
        shows = shelf.shows((entry for entry, _ in rows), [tool.id for _, tool in rows], at, many)
        yield Page(own, _numbered(title, at), body, title, shows=shows)


def _needing(shelf: Shelf, title: str, found: Sequence[Found], around: Markup) -> Markup:
    said = shelf.said
    columns = [Column(said("guide")), Column(said("size")), Column(said("operations-column"), number=True)]
    rows = [
        [device(shelf, 1, entry), Cell(tool.size or "–"), Cell(str(len(tool.operations)), len(tool.operations))]
        for entry, tool in found
    ]
    top = Markup('<header class="title"><h1>{}</h1></header>').format(title)
    return top + around + table(title, columns, rows) + around
