"""The rows of a picture's legend and its size -> an SVG that lies over it: leaders, points, labels, drawings.

Everything is black on white or white round black, so that it can be read over any photo and in any print. One unit
is a tenth of a millimetre on paper.
"""

from __future__ import annotations

from collections.abc import Iterable, Iterator, Sequence

from markupsafe import Markup

from guidec.outputs.fill import fill
from guidec.outputs.legend import Row
from guidec.outputs.pin_layout import HEIGHT, Layout, Place, layout

__all__ = ["overlay", "widths"]

_LETTER = 2.05
"""About how wide a character of a label is, in mm."""
FONT = "Sheet Sans, Source Sans 3, Source Sans Pro, Segoe UI, Helvetica, Arial, sans-serif"
_HEAD, _WAIST = 3.4, 1.25


def widths(labels: Sequence[str]) -> tuple[float, ...]:
    """How wide labels are, in mm."""
    return tuple(round(max(HEIGHT, _LETTER * len(label) + 2.2), 2) for label in labels)


def overlay(rows: Sequence[Row], frame: tuple[float, float], title: str, *, paper: bool) -> Markup:
    """The SVG, for a picture that is `frame` mm wide and high on paper; nothing where nothing is marked."""
    if not rows:
        return Markup("")
    spots = [(row, spot) for row in rows for spot in row.spots]
    points = tuple((round(x * frame[0], 2), round(y * frame[1], 2)) for _, (x, y) in spots)
    laid = layout(points, widths([row.label for row, _ in spots]), frame)
    pieces = [
        *_drawings(rows, frame),
        *_leaders(laid),
        *_points(laid, [row for row, _ in spots]),
        *_labels(laid, [row for row, _ in spots], paper=paper),
    ]
    said = fill('role="img"><title>{}</title>', title) if paper else Markup('aria-hidden="true">')
    head = fill('<svg class="pins" viewBox="0 0 {} {}" ', _tenths(frame[0]), _tenths(frame[1]))
    return (
        head
        + said
        + fill(
            '<g font-family="{}" font-weight="700" text-anchor="middle">{}</g></svg>',
            FONT,
            Markup("").join(pieces),
        )
    )


def _tenths(millimetres: float) -> str:
    return f"{millimetres * 10:.1f}".rstrip("0").rstrip(".")


def _drawings(rows: Iterable[Row], frame: tuple[float, float]) -> Iterator[Markup]:
    for row in rows:
        if not row.drawn:
            continue
        points = [(x * frame[0], y * frame[1]) for x, y in row.drawn]
        path = "M" + "L".join(f"{_tenths(x)} {_tenths(y)}" for x, y in points)
        path += "Z" if row.shape == "outline" else ""
        yield _cased(path, 1.5, 0.6)
        if row.shape == "arrow":
            yield fill('<path d="{}" fill="#000" stroke="#fff" stroke-width="3"/>', _arrow_head(points))


def _arrow_head(points: Sequence[tuple[float, float]]) -> str:
    """A triangle at the last point."""
    (x1, y1), (x2, y2) = points[-2], points[-1]
    length = ((x2 - x1) ** 2 + (y2 - y1) ** 2) ** 0.5 or 1.0
    along, down = (x2 - x1) / length, (y2 - y1) / length
    back = (x2 - along * _HEAD, y2 - down * _HEAD)
    corners = (
        (x2, y2),
        (back[0] - down * _WAIST, back[1] + along * _WAIST),
        (back[0] + down * _WAIST, back[1] - along * _WAIST),
    )
    return "M" + "L".join(f"{_tenths(x)} {_tenths(y)}" for x, y in corners) + "Z"


def _cased(path: str, wide: float, narrow: float) -> Markup:
    """A black line between white ones."""
    line = Markup(
        '<g fill="none" stroke-linejoin="round" stroke-linecap="round">'
        '<path d="{}" stroke="#fff" stroke-width="{}"/>'
        '<path d="{}" stroke="#000" stroke-width="{}"/></g>'
    )
    return line.format(path, _tenths(wide), path, _tenths(narrow))


def _leaders(laid: Layout) -> Iterator[Markup]:
    if laid.places:
        path = "".join(
            f"M{_tenths(at.x)} {_tenths(at.y)}L{_tenths(at.label_x)} {_tenths(at.label_y)}" for at in laid.places
        )
        yield _cased(path, 1.2 * laid.scale, 0.45 * laid.scale)


def _points(laid: Layout, rows: Sequence[Row]) -> Iterator[Markup]:
    for at, row in zip(laid.places, rows, strict=True):
        if row.shape == "pin":
            circle = Markup(
                '<circle class="spot" cx="{}" cy="{}" r="{}" fill="#000" stroke="#fff" stroke-width="{}"/>'
            )
            yield circle.format(_tenths(at.x), _tenths(at.y), _tenths(0.8 * laid.scale), _tenths(0.5 * laid.scale))


def _labels(laid: Layout, rows: Sequence[Row], *, paper: bool) -> Iterator[Markup]:
    for at, row in zip(laid.places, rows, strict=True):
        label = _label(at, row.label, laid.scale)
        if row.thing and not paper:
            label = fill('<a href="#thing-{}" tabindex="-1">{}</a>', row.thing, label)
        yield label


def _label(at: Place, text: str, scale: float) -> Markup:
    """A disc for one letter, a capsule for more."""
    high = HEIGHT * scale
    box = fill(
        '<rect class="label" x="{}" y="{}" width="{}" height="{}" rx="{}" fill="#fff" stroke="#000" '
        'stroke-width="{}"/>',
        _tenths(at.label_x - at.width / 2),
        _tenths(at.label_y - high / 2),
        _tenths(at.width),
        _tenths(high),
        _tenths(high / 2),
        _tenths(0.45 * scale),
    )
    words = Markup('<text x="{}" y="{}" font-size="{}">{}</text>')
    return box + words.format(_tenths(at.label_x), _tenths(at.label_y + 1.17 * scale), _tenths(3.4 * scale), text)
