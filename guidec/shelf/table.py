"""Columns and rows -> a ruled table, and long tables -> several pages of them."""

from __future__ import annotations

from collections.abc import Iterator, Sequence
from typing import TypeVar

from markupsafe import Markup, escape

from guidec.quick import dataclass
from guidec.shelf.words import Words

__all__ = ["PER_PAGE", "Cell", "Column", "cut", "paging", "table"]

PER_PAGE = 400
"""So many rows stand on one page: what a phone still scrolls through, and some 150 KB."""

_T = TypeVar("_T")


@dataclass(frozen=True, slots=True)
class Column:
    """A column. `number`: set to the right, and sorted by size, the largest last."""

    label: str
    number: bool = False


@dataclass(frozen=True, slots=True)
class Cell:
    """A cell. `html`: escaped or Markup; `value`: what it is sorted by, its text unless given."""

    html: str | Markup
    value: str | float | None = None


def table(
    caption: str, columns: Sequence[Column], rows: Sequence[Sequence[Cell]], *, sortable: bool = False
) -> Markup:
    """A table of which each row can be read by itself. A sortable one has its sorting put in by a script."""
    heads = "".join(
        f'<th scope="col"{" class=right" if one.number else ""}>{escape(one.label)}</th>' for one in columns
    )
    ends = _ends(columns)
    body = "".join(_row(ends, row) for row in rows)
    kind = "table sortable" if sortable else "table"
    whole = (
        f'<table class="{kind}"><caption>{escape(caption)}</caption>\n'
        f"<thead><tr>{heads}</tr></thead>\n<tbody>\n{body}</tbody></table>"
    )
    if not sortable:
        return Markup(whole)
    return Markup(f'<div class="scroll" role="region" tabindex="0" aria-label="{escape(caption)}">{whole}</div>')


def _ends(columns: Sequence[Column]) -> list[tuple[str, str, str]]:
    """What stands before a cell's value, between that and its text, and after it: the same in all rows."""
    found = []
    for at, column in enumerate(columns):
        tag = "th" if at == 0 else "td"
        kind = ' scope="row"' if at == 0 else ' class="right"' if column.number else ""
        found.append((f"<{tag}{kind}", f' data-label="{escape(column.label)}">', f"</{tag}>"))
    return found


def _row(ends: Sequence[tuple[str, str, str]], row: Sequence[Cell]) -> str:
    cells = []
    for (before, between, after), cell in zip(ends, row, strict=True):
        value = "" if cell.value is None else f' data-v="{escape(cell.value)}"'
        text = cell.html if cell.html.__class__ is Markup else escape(cell.html)
        cells.append(f"{before}{value}{between}{text}{after}")
    return f"<tr>{''.join(cells)}</tr>\n"


def cut(path: str, rows: Sequence[_T], per: int = PER_PAGE) -> Iterator[tuple[str, Sequence[_T], int, int]]:
    """The pages of a long list: (path, its rows, its number from 1, how many there are). One page at least."""
    count = max(-(-len(rows) // per), 1)
    for at in range(count):
        yield numbered(path, at + 1), rows[at * per : (at + 1) * per], at + 1, count


def numbered(path: str, at: int) -> str:
    """`makers/x.html` -> `makers/x-2.html` for the second page."""
    return path if at == 1 else f"{path.removesuffix('.html')}-{at}.html"


def paging(path: str, at: int, count: int, said: Words) -> Markup:
    """Links to the other pages of a list; nothing where there is one page."""
    if count == 1:
        return Markup("")
    name = path.rpartition("/")[2]
    items = [
        Markup("<li><span aria-current=page>{}</span></li>").format(one)
        if one == at
        else Markup('<li><a href="{}">{}</a></li>').format(numbered(name, one), one)
        for one in range(1, count + 1)
    ]
    label = said("pages")
    return Markup('<nav class="pages" aria-label="{}"><p class="cap">{}</p><ul>{}</ul></nav>').format(
        label, label, Markup("").join(items)
    )
