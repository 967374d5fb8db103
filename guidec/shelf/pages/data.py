"""The data files of a shelf -> the page that leads to them."""

from __future__ import annotations

from collections.abc import Mapping
from urllib.parse import quote

from markupsafe import Markup

from guidec.shelf.layout import Page
from guidec.shelf.pages.cells import Shelf
from guidec.shelf.table import Cell, Column, table

__all__ = ["page"]


def page(shelf: Shelf, files: Mapping[str, int]) -> Page:
    """The page. `files`: the sizes of the data files in bytes, by their name on the site."""
    said = shelf.said
    columns = [Column(said("file-column")), Column(said("size-column"), number=True)]
    rows = [[Cell(_link(shelf, name)), Cell(_size(shelf, files[name]), files[name])] for name in sorted(files)]
    top = Markup('<header class="title"><h1>{}</h1><p class="lead">{}</p></header>').format(
        said("data"), said("data-text")
    )
    listed = Markup('<div class="group-table">{}</div>').format(table(said("data"), columns, rows))
    return Page("data.html", said("data"), lambda: top + listed, said("data-text"))


def _link(shelf: Shelf, name: str) -> Markup:
    return Markup('<a href="{}{}" download>{}</a>').format(shelf.root, quote(name), name)


def _size(shelf: Shelf, size: int) -> str:
    return (
        f"{shelf.said.number(max(size / 1000, 0.1), 1)} kB"
        if size < 1e6
        else f"{shelf.said.number(size / 1e6, 1)} MB"
    )
