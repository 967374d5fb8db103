"""Entries and settings -> all that the guides of a shelf share: pages, index, feed, data. From nothing else."""

from __future__ import annotations

from collections.abc import Callable, Iterator, Mapping, Sequence
from itertools import pairwise
from pathlib import Path

from markupsafe import Markup

from guidec.notes.markdown import parser
from guidec.shelf import feed
from guidec.shelf.entry import Entry
from guidec.shelf.frame import Frame
from guidec.shelf.layout import Page, asset, document, stylesheet
from guidec.shelf.pages import classes, compare, data, front, hazards, search, tools
from guidec.shelf.pages.cells import Change, Shelf
from guidec.shelf.settings import Settings
from guidec.shelf.words import words

__all__ = ["frame", "shared", "taken"]

_SCRIPTS = ("sort.js", "search.js", search.LIBRARY, "minisearch-7.2.0.LICENSE.txt")


def taken(name: str) -> bool:
    """Whether a shelf's own Markdown page would stand where the site has a page of its own."""
    return Path(name).stem in ("index", "search", "changes", "data")


def frame(settings: Settings) -> Frame:
    """What the settings say on the pages of guides."""
    return Frame(
        settings.title, settings.address, _markdown(settings.footer), settings.colours, settings.languages
    )


def shared(
    entries: Sequence[Entry],
    settings: Settings,
    changes: Sequence[Change] = (),
    own_pages: Mapping[str, str] | None = None,
    data_files: Mapping[str, int] | None = None,
) -> dict[str, bytes]:
    """All files of the site but data and guides. `own_pages`: the shelf's Markdown pages, by their
    name. `data_files`: the sizes of the data files, by their name on the site.
    """
    data_files = data_files or {}
    ordered = tuple(sorted(entries, key=lambda one: one.slug))
    made: dict[str, bytes] = {f"assets/{name}": asset(name).encode() for name in _SCRIPTS}
    made["assets/shelf.css"] = stylesheet(settings.colours).encode()
    made["assets/search-index.js"] = search.script(ordered)
    header, footer = _markdown(settings.header), _markdown(settings.footer)
    for language in settings.languages:
        said = words(language)
        prefix = "" if language == settings.languages[0] else f"{language}/"
        shelf = Shelf(ordered, tuple(changes), said, "../" if prefix else "")
        own = () if prefix else tuple(_own(name, text) for name, text in (own_pages or {}).items())
        for page in (*_pages(shelf, settings), data.page(shelf, data_files), *own):
            written = document(page, settings, said, prefix, header=header, footer=footer)
            made[f"{prefix}{page.path}"] = written
    made["robots.txt"] = feed.robots(settings)
    if settings.address:
        made["feed.xml"] = feed.atom(ordered, settings)
        guides = (f"guides/{one.slug}/{name}" for one in ordered for name in one.files if "/" not in name)
        made |= feed.site_maps([*made, *data_files, *guides], settings)
    return made


def _pages(shelf: Shelf, settings: Settings) -> Iterator[Page]:
    yield from front.pages(shelf, settings)
    for kind in (classes, compare, tools, hazards, search):
        pages: Callable[[Shelf], Iterator[Page]] = kind.pages
        yield from pages(shelf)


def _own(name: str, text: str) -> Page:
    """One of the shelf's own Markdown pages. Its title is its first heading, else its name."""
    tokens = parser(marks=False).parse(text)
    heads = [after.content for one, after in pairwise(tokens) if one.tag == "h1"]
    title = heads[0] if heads else Path(name).stem.replace("-", " ").capitalize()
    body = Markup('<article class="prose-page">{}{}</article>').format(
        Markup("") if heads else Markup("<h1>{}</h1>").format(title), Markup(_markdown(text))
    )
    return Page(f"{Path(name).stem}.html", title, body)


def _markdown(text: str) -> str:
    """Markdown as HTML, raw HTML as text."""
    return str(parser(marks=False).render(text)) if text else ""
