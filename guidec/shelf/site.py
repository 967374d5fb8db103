"""Entries and settings -> all that the guides of a shelf share: pages, index, feed, data. From nothing else."""

from __future__ import annotations

from collections.abc import Callable, Iterator, Mapping, Sequence
from functools import partial
from itertools import pairwise
from pathlib import Path

from markupsafe import Markup

from guidec.notes.markdown import parser
from guidec.quick import dataclass
from guidec.shelf import feed
from guidec.shelf.entry import Entry, seen
from guidec.shelf.frame import Frame
from guidec.shelf.layout import Page, asset, document, stylesheet
from guidec.shelf.pages import classes, compare, data, front, hazards, search, tools
from guidec.shelf.pages.cells import Change, Shelf, title_order
from guidec.shelf.settings import Settings
from guidec.shelf.words import words

__all__ = ["File", "frame", "shared", "taken"]

_SCRIPTS = ("sort.js", "search.js", search.LIBRARY, "minisearch-7.2.0.LICENSE.txt")


@dataclass(frozen=True, slots=True)
class File:
    """A file of the site, not yet made. `shows`: what tells it from another one made of the same program and
    settings, empty where it has to be made to know."""

    name: str
    make: Callable[[], bytes]
    shows: str = ""


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
) -> Iterator[File]:
    """All files of the site but data and guides. `own_pages`: the shelf's Markdown pages, by their
    name. `data_files`: the sizes of the data files, by their name on the site.
    """
    data_files = data_files or {}
    ordered = tuple(sorted(entries, key=title_order))
    names: list[str] = [*data_files]
    for file in _files(ordered, settings, changes, own_pages or {}, data_files):
        names.append(file.name)
        yield file
    yield File("robots.txt", lambda: feed.robots(settings))
    if settings.address:
        yield File("feed.xml", lambda: feed.atom(ordered, settings))
        guides = (f"guides/{one.slug}/{name}" for one in ordered for name in one.files if "/" not in name)
        for name, data in feed.site_maps([*names, *guides], settings).items():
            yield File(name, partial(bytes, data))


def _files(
    ordered: tuple[Entry, ...],
    settings: Settings,
    changes: Sequence[Change],
    own_pages: Mapping[str, str],
    data_files: Mapping[str, int],
) -> Iterator[File]:
    """What the site map lists: the pages, and what they show themselves with."""
    for name in _SCRIPTS:
        yield File(f"assets/{name}", partial(_asset, name), shows=name)
    yield File("assets/shelf.css", lambda: stylesheet(settings.colours).encode(), shows="style")
    digests = {one.slug: seen(one) for one in ordered}
    every = Shelf(ordered, (), words(settings.languages[0]), seen=digests).shows(ordered)
    yield File("assets/search-index.js", lambda: search.script(ordered), shows=every)
    header, footer = _markdown(settings.header), _markdown(settings.footer)
    for language in settings.languages:
        said = words(language)
        prefix = "" if language == settings.languages[0] else f"{language}/"
        shelf = Shelf(ordered, tuple(changes), said, "../" if prefix else "", digests)
        own = () if prefix else tuple(_own(name, text) for name, text in own_pages.items())
        for page in (*_pages(shelf, settings), data.page(shelf, data_files), *own):
            make = partial(document, page, settings, said, prefix, header=header, footer=footer)
            shows = shelf.shows((), page.title, page.text, page.shows) if page.shows else ""
            yield File(f"{prefix}{page.path}", make, shows)


def _asset(name: str) -> bytes:
    return asset(name).encode()


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
    return Page(f"{Path(name).stem}.html", title, lambda: body)


def _markdown(text: str) -> str:
    """Markdown as HTML, raw HTML as text."""
    return str(parser(marks=False).render(text)) if text else ""
