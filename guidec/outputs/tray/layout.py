"""Fields and bags -> the pages of a tray sheet as SVG, one unit a millimetre.

Fields stand two in a row, a wide one alone; a set that fills more than a page goes on in the next field. Under
sets that are easily confused, a band says how they differ.
"""

from __future__ import annotations

import math
from collections.abc import Iterator, Sequence
from dataclasses import replace
from unicodedata import east_asian_width

from markupsafe import Markup

from guidec.outputs.fill import fill
from guidec.outputs.overlay import FONT
from guidec.outputs.tray.drawing import above, beside, length_of, number
from guidec.outputs.tray.fields import Bag, Field
from guidec.outputs.words import Words
from guidec.quick import dataclass

__all__ = ["Page", "pages", "text"]

GAP, FOOT, BAND, HEAD = 4.0, 14.0, 6.5, 28.0
SLOT = 8.0
"""The least height of a place for a screw, so that fingers find it."""
BAG_HEIGHT = 20.0
_SMALLEST = 0.72
_WIDTHS = {
    **dict.fromkeys("ijl|'", 0.22),
    **dict.fromkeys(" .,:;!/ftI()[]-", 0.3),
    **dict.fromkeys('r"*', 0.36),
    **dict.fromkeys("ckJsvxyz", 0.5),
    **dict.fromkeys("CDGHNOQRUwÖÜ", 0.75),
    **dict.fromkeys("mMW@%—…", 0.9),
}
"""About how wide characters are, by their size, in the sans serifs that tray sheets are set in; 0.6 for all others
(own assumption, rounded up from Helvetica's widths)."""


@dataclass(frozen=True, slots=True)
class Page:
    """One page. `svg`: what stands in its `svg` element; width and height in mm."""

    svg: Markup
    width: float
    height: float
    title: str


@dataclass(frozen=True, slots=True)
class _Row:
    height: float
    pieces: tuple[tuple[float, Markup], ...]
    """What is drawn, each at its own distance from the left, in a system of its own."""


def pages(
    fields: Sequence[Field], bags: Sequence[Bag], device: str, size: tuple[float, float], says: Words
) -> tuple[Page, ...]:
    """The pages, each `size` mm wide and at most as high; the first leaves room for a heading above it."""
    rows = [
        *_field_rows(fields, (size[0], size[1] - HEAD), says),
        *_bag_rows(bags, device, size[0], says),
    ]
    filled: list[list[_Row]] = [[]]
    room = size[1] - HEAD - FOOT
    for row in rows:
        if filled[-1] and row.height > room:
            filled.append([])
            room = size[1] - FOOT
        filled[-1].append(row)
        room -= row.height + GAP
    return tuple(_page(rows, at, len(filled), size[0], says) for at, rows in enumerate(filled, 1) if rows)


def _page(rows: Sequence[_Row], at: int, all_: int, width: float, says: Words) -> Page:
    y, pieces = 0.0, []
    for row in rows:
        pieces += [_moved(x, y, piece) for x, piece in row.pieces]
        y += row.height + GAP
    pieces.append(_bar(y + 4, width, says))
    title = says("tray-page", page=at, pages=all_)
    svg = fill('<g font-family="{}" fill="#000">{}</g>', FONT, Markup("").join(pieces))
    return Page(svg, width, y + FOOT, title)


def _moved(x: float, y: float, piece: Markup) -> Markup:
    return fill('<g transform="translate({} {})">{}</g>', number(x), number(y), piece)


def _bar(y: float, width: float, says: Words) -> Markup:
    """A bar of 100 mm, with a tick each 10 mm, to hold a ruler against."""
    ticks = "".join(f"M{10 * at} {number(y - (2 if at % 5 else 3))}V{number(y)}" for at in range(11))
    path = '<path d="{}" fill="none" stroke="#000" stroke-width="0.3"/>'
    line = '<path class="bar" d="M0 {}H100" fill="none" stroke="#000" stroke-width="0.3"/>'
    return fill(line, number(y)) + fill(path, ticks) + text(0, y + 4.4, 3, says("tray-scale"), width)


def text(x: float, y: float, size: float, words: str, width: float, *, bold: bool = False) -> Markup:
    """A line of text; where it would not fit it is set smaller, and cut where that does not help."""
    widths = [_wide_of(char) * (1.07 if bold else 1) for char in words]
    size = max(size * _SMALLEST, min(size, width / max(sum(widths), 0.1)))
    shown = words
    while sum(widths) * size > width + 0.01 and len(widths) > 1:
        widths = [*widths[:-2], _WIDTHS["…"]]
        shown = shown.removesuffix("…")[: len(widths) - 1].rstrip() + "…"
    weight = Markup(' font-weight="700"') if bold else Markup("")
    return fill(
        '<text x="{}" y="{}" font-size="{}"{}>{}</text>',
        number(x),
        number(y),
        number(round(size, 2)),
        weight,
        shown,
    )


def _wide_of(char: str) -> float:
    return _WIDTHS.get(char) or (1.0 if east_asian_width(char) in "WF" else 0.6)


# ---------------------------------------------------------------- fields


def _field_rows(fields: Sequence[Field], size: tuple[float, float], says: Words) -> Iterator[_Row]:
    half = (size[0] - GAP) / 2
    most = size[1] - FOOT - BAND - GAP
    waiting: list[tuple[Field, _Row]] = []
    for field in (part for whole in fields for part in _parts(whole, half, size[0], most)):
        wide = _wide(field, half)
        if waiting and (wide or len(waiting) == 2 or waiting[-1][0].group != field.group != _mate(fields, field)):
            yield _joined(waiting, half, size[0], says)
            waiting = []
        waiting.append((field, _field(field, size[0] if wide else half, says)))
        if wide or len(waiting) == 2:
            yield _joined(waiting, half, size[0], says)
            waiting = []
    if waiting:
        yield _joined(waiting, half, size[0], says)


def _mate(fields: Sequence[Field], field: Field) -> int:
    """The field's group where nothing else is in it, so that it may stand beside any; else none."""
    return field.group if sum(other.group == field.group for other in fields) == 1 else -1


def _wide(field: Field, half: float) -> bool:
    return length_of(field.form) + 4 > half - 2


def _joined(waiting: Sequence[tuple[Field, _Row]], half: float, width: float, says: Words) -> _Row:
    """One or two fields, and under them how the first differs from the second or from sets elsewhere."""
    height = max(row.height for _, row in waiting)
    pieces = [(at * (half + GAP) + x, piece) for at, (_, row) in enumerate(waiting) for x, piece in row.pieces]
    frame = '<rect x="0.15" y="0.15" width="{}" height="{}" fill="none" stroke="#000" stroke-width="0.3"/>'
    for at, (field, _) in enumerate(waiting):
        across = width if len(waiting) == 1 and _wide(field, half) else half
        pieces.append((at * (half + GAP), fill(frame, number(across - 0.3), number(height - 0.3))))
    said = list(dict.fromkeys(_told(waiting, says)))
    for at, words in enumerate(said):
        y = height + 4.6 + at * (BAND - 1)
        pieces.append((0.0, text(0, y, 3.2, words, width, bold=True)))
    return _Row(height + len(said) * (BAND - 1), tuple(pieces))


def _told(waiting: Sequence[tuple[Field, _Row]], says: Words) -> Iterator[str]:
    """The differences to state: each pair once, at the later of the two."""
    for field, _ in waiting:
        for name, words in field.alike:
            if _comes_first(name, field):
                yield says("tray-differs", name=field.name, other=name, how=words)


def _comes_first(name: str, field: Field) -> bool:
    return (len(name), name) < (len(field.name), field.name)


def _parts(field: Field, half: float, full: float, most: float) -> Iterator[Field]:
    """The field, or as many as its places need so that each fits a page."""
    width = full if _wide(field, half) else half
    across, _, high = _slots(field, width)
    rows = max(1, int((most - _high(field) - _drawn(field)) / (high + 1.5)))
    left = field.places
    if left is None or left <= across * rows:
        yield field
        return
    while left > 0:
        now = min(left, across * rows)
        yield replace(field, places=now)
        left -= now


def _drawn(field: Field) -> float:
    """The height of the drawing."""
    return max(field.form.head, field.form.diameter) * (1.16 if field.form.kind == "nut" else 1) + 4


def _high(field: Field) -> float:
    """The height of the words."""
    return 12.0 + 3.7 * sum(bool(line) for line in field.lines)


def _slots(field: Field, width: float) -> tuple[int, float, float]:
    """How many places a row takes, their width and height."""
    long = min(max(length_of(field.form) + 4, SLOT), width - 4)
    high = max(field.form.head + 3, SLOT)
    return max(1, int((width - 4 + 1.5) / (long + 1.5))), long, high


def _field(field: Field, width: float, says: Words) -> _Row:
    across, long, high = _slots(field, width)
    places = field.places if field.places is not None else across
    rows = math.ceil(places / across)
    drawn = _drawn(field)
    pieces = [_head(field, width, says), _drawing(field, width, _high(field) + drawn / 2 - 1)]
    for at in range(places):
        x, y = 2 + (at % across) * (long + 1.5), _high(field) + drawn + (at // across) * (high + 1.5)
        pieces.append(_place(field, x, y, long, high))
    height = _high(field) + drawn + rows * (high + 1.5) + 1.5
    return _Row(height, ((0.0, Markup("").join(pieces)),))


def _head(field: Field, width: float, says: Words) -> Markup:
    name = field.name
    size = 9.0 if len(name) <= 3 else 4.4
    beside_ = 4 + min(max(9.0, len(name) * size * 0.62), width * 0.4)
    numbers = ", ".join(map(str, field.operations))
    rest = width - beside_ - 2
    return Markup("").join(
        (
            text(2.5, 10.2 if size > 5 else 6.5, size, name, width * 0.4, bold=True),
            text(beside_, 5.4, 3.8, field.notation or says("tray-size-unknown"), rest, bold=True),
            text(beside_, 9.8, 3.2, says("tray-operation", numbers=numbers), rest),
            *(
                text(beside_, 13.6 + 3.7 * at, 2.8, line, rest)
                for at, line in enumerate(line for line in field.lines if line)
            ),
        )
    )


def _drawing(field: Field, width: float, y: float) -> Markup:
    """From the side and from above, 1 : 1; what would not fit the sheet is left out."""
    if length_of(field.form) > width - 4:
        return Markup("")
    pieces = beside(field.form, 3, y)
    x = 3 + length_of(field.form) + 4 + field.form.head / 2
    return pieces + above(field.form, field.drive, x, y) if x + field.form.head / 2 < width - 1 else pieces


def _place(field: Field, x: float, y: float, long: float, high: float) -> Markup:
    """An empty place, with the screw's outline faint in it."""
    box = fill(
        '<rect class="place" x="{}" y="{}" width="{}" height="{}" rx="1.2" fill="none" '
        'stroke="#000" stroke-width="0.2"/>',
        number(x),
        number(y),
        number(long),
        number(high),
    )
    if length_of(field.form) > long:
        return box
    return box + beside(field.form, x + (long - length_of(field.form)) / 2, y + high / 2, "#aaa", 0.15)


# ---------------------------------------------------------------- bags


def _bag_rows(bags: Sequence[Bag], device: str, width: float, says: Words) -> Iterator[_Row]:
    """Labels to cut out, three in a row."""
    across = (width - 2 * GAP) / 3
    for start in range(0, len(bags), 3):
        pieces = tuple(
            (at * (across + GAP), _bag(bag, device, across, says))
            for at, bag in enumerate(bags[start : start + 3])
        )
        yield _Row(BAG_HEIGHT, pieces)


def _bag(bag: Bag, device: str, width: float, says: Words) -> Markup:
    box = fill(
        '<rect x="0.1" y="0.1" width="{}" height="{}" fill="none" stroke="#000" stroke-width="0.2" '
        'stroke-dasharray="1.5 1"/>',
        number(width - 0.2),
        number(BAG_HEIGHT - 0.2),
    )
    lines = (
        text(2, 5.6, 4, bag.name, width - 4, bold=True),
        text(2, 10, 3, says("tray-operation", numbers=bag.number), width - 4),
        text(2, 13.8, 2.8, bag.title, width - 4),
        text(2, 17.6, 2.8, device, width - 4),
    )
    return box + Markup("").join(lines)
