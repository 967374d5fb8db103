"""Entries -> the front page, and the pages of makers, kinds and years that it leads to; what changed."""

from __future__ import annotations

from collections.abc import Callable, Iterator, Mapping, Sequence
from functools import partial

from markupsafe import Markup

from guidec.shelf.entry import Entry
from guidec.shelf.layout import Page
from guidec.shelf.pages.cells import (
    DASH,
    Change,
    Shelf,
    count,
    device,
    grouped,
    guide_link,
    index,
    links,
    paths,
    way,
)
from guidec.shelf.settings import Settings
from guidec.shelf.table import Cell, Column, cut, paging, table

__all__ = ["pages"]

MOST_ON_FRONT = 200
"""A shelf up to this size shows all its guides on the front page; a larger one leads to them by maker."""
_NEWEST = 10
_CHANGES = 10


def pages(shelf: Shelf, settings: Settings) -> Iterator[Page]:
    """The front page and those right below it."""
    said = shelf.said
    groups = (
        ("makers", "by-maker", "maker-title", _by(shelf, lambda one: one.maker or said("no-maker"))),
        ("kinds", "by-kind", "kind-title", _by(shelf, lambda one: one.kind or said("no-kind"))),
        ("years", "by-year", "year-title", _by(shelf, lambda one: str(one.year or said("no-year")))),
    )
    found = [(key, title, paths(folder, rows), rows) for folder, key, title, rows in groups]
    yield _front(shelf, settings, [(key, at, rows) for key, _, at, rows in found])
    for _, title, at, rows in found:
        for name, entries in rows.items():
            yield from _group(shelf, at[name], said(title, name=name), entries)
    yield _changes(shelf)


def _by(shelf: Shelf, key: Callable[[Entry], str]) -> Mapping[str, list[Entry]]:
    rows = grouped(shelf.entries, key)
    return dict(sorted(rows.items(), key=lambda one: one[0].casefold()))


def _front(
    shelf: Shelf, settings: Settings, groups: Sequence[tuple[str, Mapping[str, str], Mapping[str, list[Entry]]]]
) -> Page:
    said, entries = shelf.said, shelf.entries
    makers = {one.maker for one in entries if one.maker}
    text = settings.description or said(
        "front-text",
        guides=said("count.guides", count=len(entries)),
        makers=said("count.devices-of", count=len(makers)),
    )
    parts = [
        Markup('<header class="title"><h1>{}</h1><p class="lead">{}</p>{}</header>').format(
            settings.title, text, _search(shelf)
        ),
        _drawer(shelf, groups[0][1], groups[0][2]),
    ]
    lists = [_lists(said(key), at, rows) for key, at, rows in groups]
    parts.append(Markup('<div class="three">{}</div>').format(Markup("").join(lists)))
    parts.append(Markup('<div class="two">{}{}</div>').format(_newest(shelf), _recent(shelf)))
    return Page("index.html", settings.title, partial(Markup("\n").join, parts), text)


def _search(shelf: Shelf) -> Markup:
    said = shelf.said
    return Markup(
        '<form class="find" action="search.html" role="search"><label for="q">{}</label>'
        '<input id="q" name="q" type="search" autocomplete="off"><button>{}</button></form>'
    ).format(said("search-label"), said("search-go"))


def _drawer(shelf: Shelf, at: Mapping[str, str], rows: Mapping[str, list[Entry]]) -> Markup:
    """All guides by maker, each maker a tab; nothing on a shelf too long for it."""
    if len(shelf.entries) > MOST_ON_FRONT:
        return Markup("")
    tabs = [
        Markup('<section class="tab"><h3><a href="{}">{}</a></h3>{}</section>').format(
            at[maker], maker, _table(shelf, 0, maker, entries, maker=False)
        )
        for maker, entries in rows.items()
    ]
    head = Markup("<h2>{}</h2>").format(shelf.said("all-devices"))
    return Markup('<section class="drawer">{}{}</section>').format(head, Markup("").join(tabs))


def _table(shelf: Shelf, depth: int, caption: str, entries: Sequence[Entry], *, maker: bool = True) -> Markup:
    said = shelf.said
    columns = [
        Column(said("guide")),
        *([Column(said("maker"))] if maker else []),
        Column(said("kind")),
        Column(said("year"), number=True),
        Column(said("battery-steps"), number=True),
        Column(said("index-column"), number=True),
    ]
    rows = []
    for entry in entries:
        battery = way(entry, "battery")
        rows.append(
            [
                device(shelf, depth, entry),
                *([Cell(entry.maker) if entry.maker else DASH] if maker else []),
                Cell(entry.kind) if entry.kind else DASH,
                Cell(str(entry.year)) if entry.year else DASH,
                count(battery.steps if battery else None),
                index(entry, said),
            ]
        )
    return table(caption, columns, rows)


def _lists(title: str, at: Mapping[str, str], rows: Mapping[str, list[Entry]]) -> Markup:
    return Markup('<section class="lists"><h2>{}</h2>{}</section>').format(
        title, links([(at[name], name, len(entries)) for name, entries in rows.items()])
    )


def _newest(shelf: Shelf) -> Markup:
    said = shelf.said
    dated = (one for one in shelf.entries if one.date)
    newest = sorted(dated, key=lambda one: str(one.date), reverse=True)[:_NEWEST]
    items = [
        Markup('<li><span class="name">{}</span> <span class="ops">{}</span></li>').format(
            guide_link(shelf, 0, one.slug, one.title), said.date(str(one.date))
        )
        for one in newest
    ]
    body = Markup('<ul class="index">{}</ul>').format(Markup("").join(items))
    body = body if items else Markup("<p>{}</p>").format(said("newest-none"))
    return Markup('<section class="lists"><h2>{}</h2>{}</section>').format(said("newest"), body)


def _recent(shelf: Shelf) -> Markup:
    said = shelf.said
    items = [
        Markup('<li><span class="name">{}</span> <span class="ops">{}</span></li>').format(
            _changed(shelf, one), _said(shelf, one)
        )
        for one in shelf.changes[:_CHANGES]
    ]
    body = Markup('<ul class="index">{}</ul>').format(Markup("").join(items))
    if not items:
        body = Markup("<p>{}</p>").format(said("changes-none"))
    elif len(shelf.changes) > _CHANGES:
        more = said("and-more", count=len(shelf.changes) - _CHANGES)
        body += Markup('<p><a href="changes.html">{}</a></p>').format(more)
    return Markup('<section class="lists"><h2>{}</h2>{}</section>').format(said("changes"), body)


def _changed(shelf: Shelf, change: Change) -> Markup:
    if change.what == "gone":
        return Markup("{}").format(change.title)
    return guide_link(shelf, 0, change.slug, change.title)


def _said(shelf: Shelf, change: Change) -> str:
    word = shelf.said(f"change.{change.what}")
    if change.before and change.revision and change.before != change.revision:
        return f"{word}, {change.before} → {change.revision}"
    return word


def _changes(shelf: Shelf) -> Page:
    said = shelf.said
    columns = [Column(said("guide")), Column(said("change-column"))]
    rows = [[Cell(_changed(shelf, one)), Cell(_said(shelf, one))] for one in shelf.changes]
    body = table(said("changes"), columns, rows) if rows else Markup("<p>{}</p>").format(said("changes-none"))
    top = Markup('<header class="title"><h1>{}</h1><p class="lead">{}</p></header>').format(
        said("changes-title"), said("changes-text")
    )
    return Page("changes.html", said("changes-title"), lambda: top + body, said("changes-text"))


def _group(shelf: Shelf, path: str, title: str, entries: Sequence[Entry]) -> Iterator[Page]:
    for own, rows, at, many in cut(path, entries):
        body = partial(_rows, shelf, title, rows, paging(path, at, many, shelf.said))
        yield Page(own, title if at == 1 else f"{title}, {at}", body, title, shows=shelf.shows(rows, at, many))


def _rows(shelf: Shelf, title: str, entries: Sequence[Entry], around: Markup) -> Markup:
    head = Markup('<header class="title"><h1>{}</h1></header>').format(title)
    return head + around + _table(shelf, 1, title, entries) + around
