"""Entries -> the comparison: one row a device, one table, or one for each kind of device on a long shelf."""

from __future__ import annotations

from collections.abc import Iterator, Sequence
from functools import partial

from markupsafe import Markup

from guidec.shelf.entry import Entry
from guidec.shelf.layout import Page
from guidec.shelf.pages.cells import (
    DASH,
    Shelf,
    count,
    device,
    grouped,
    index,
    links,
    moment,
    paths,
    way,
)
from guidec.shelf.table import PER_PAGE, Cell, Column, cut, paging, table

__all__ = ["pages"]

_WAYS = (("battery", "battery"), ("display", "display"), ("charging-port", "port"))


def pages(shelf: Shelf) -> Iterator[Page]:
    """The comparison's page, and those for kinds of devices where one table would be too long."""
    said, entries = shelf.said, shelf.entries
    if len(entries) <= PER_PAGE:
        yield from _compared(shelf, "compare/index.html", said("compare-title"), entries)
        return
    by_kind = grouped(entries, lambda one: one.kind or said("no-kind"))
    at = paths("compare", by_kind)
    rows = [(at[kind].partition("/")[2], kind, len(by_kind[kind])) for kind in sorted(by_kind, key=str.casefold)]
    top = _head(said("compare-title"), said("compare-split"))
    yield Page("compare/index.html", said("compare-title"), lambda: top + links(rows), said("compare-split"))
    for kind, found in by_kind.items():
        yield from _compared(shelf, at[kind], said("compare-of", name=kind), found)


def _head(title: str, *texts: str) -> Markup:
    lines = Markup("").join(Markup('<p class="lead">{}</p>').format(text) for text in texts)
    return Markup('<header class="title"><h1>{}</h1>{}</header>').format(title, lines)


def _compared(shelf: Shelf, path: str, title: str, entries: Sequence[Entry]) -> Iterator[Page]:
    said = shelf.said
    for own, rows, at, many in cut(path, entries):
        yield Page(
            own,
            title if at == 1 else f"{title}, {at}",
            partial(_body, shelf, title, rows, paging(path, at, many, said)),
            said("compare-text"),
            ("sort.js",),
            wide=True,
            shows=shelf.shows(rows, at, many),
        )


def _body(shelf: Shelf, title: str, rows: Sequence[Entry], around: Markup) -> Markup:
    said = shelf.said
    methods = sorted({one.index.method for one in rows if one.index})
    why = [said("index-why", method=", ".join(methods))] if methods else []
    top = _head(title, said("compare-text"), *why)
    hint = Markup('<p class="hint" hidden>{}</p>').format(said("compare-sort"))
    return top + hint + around + _table(shelf, title, rows) + around


def _table(shelf: Shelf, title: str, entries: Sequence[Entry]) -> Markup:
    said = shelf.said
    columns = [
        Column(said("device-column")),
        Column(said("kind")),
        Column(said("year"), number=True),
        Column(said("index-column"), number=True),
        *(Column(said(f"{name}-{what}"), number=True) for _, name in _WAYS for what in ("steps", "time")),
        Column(said("screws-by-drive")),
        Column(said("glued-share"), number=True),
    ]
    return table(title, columns, [_row(shelf, one) for one in entries], sortable=True)


def _row(shelf: Shelf, entry: Entry) -> list[Cell]:
    said = shelf.said
    ways: list[Cell] = []
    for cls, _ in _WAYS:
        found = way(entry, cls)
        ways += [count(found.steps), moment(found.seconds, said)] if found else [DASH, DASH]
    return [
        device(shelf, 1, entry, entry.device),
        Cell(entry.kind) if entry.kind else DASH,
        Cell(str(entry.year), entry.year) if entry.year else DASH,
        index(entry, said),
        *ways,
        _screws(shelf, entry),
        _glued(shelf, entry),
    ]


def _screws(shelf: Shelf, entry: Entry) -> Cell:
    pieces = [
        Markup('<span class="nb">{} × {}{}</span>').format(
            many, drive or shelf.said("not-known"), "," if at < len(entry.screws) else ""
        )
        for at, (drive, many) in enumerate(entry.screws, 1)
    ]
    return Cell(Markup(" ").join(pieces), sum(many for _, many in entry.screws)) if pieces else Cell("0", 0)


def _glued(shelf: Shelf, entry: Entry) -> Cell:
    if not entry.removed:
        return DASH
    share = entry.glued / entry.removed
    text = shelf.said("glued-of", glued=entry.glued, removed=entry.removed, share=round(100 * share))
    return Cell(Markup('<span class="nb">{}</span>').format(text), round(share, 4))
