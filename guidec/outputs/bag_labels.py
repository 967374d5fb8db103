"""A guide -> `labels.pdf`: a label for the bag of each part that comes off, on a sheet of labels.

Each has the part's name, the device, the operation, and a QR code (ISO/IEC 18004, by segno) of the part's stable
id, with the guide's address before it where that is given.
"""

from __future__ import annotations

import segno
from markupsafe import Markup

from guidec.model.types import Guide
from guidec.outputs import pdf
from guidec.outputs.fill import fill
from guidec.outputs.inline import anchor
from guidec.outputs.overlay import FONT
from guidec.outputs.tray.drawing import number
from guidec.outputs.tray.fields import Bag, bags
from guidec.outputs.tray.layout import text
from guidec.outputs.words import Words, words
from guidec.trade.label_sheets import Grid, grid

__all__ = ["code", "labels"]

_MARGIN = 2.5
_PAPER = {"a4": "210mm 297mm", "letter": "215.9mm 279.4mm"}
_CSS = (
    "@page { size: $size; margin: 0 } body { margin: 0 } svg { display: block } div + div { break-before: page }"
)
_SIZES = {"a4": (210.0, 297.0), "letter": (215.9, 279.4)}


def labels(guide: Guide, *, sheet: str = "a4", address: str = "") -> bytes | None:
    """The PDF; None where no part comes off. `sheet`: a grid, or the paper for its usual one. `address`: where the
    guide can be read. Raises KeyError for an unknown sheet, `pdf.CannotPrintError` as the guide's own PDF."""
    found, made = bags(guide), grid(sheet)
    if not found:
        return None
    says = words(guide.meta.language)
    each = made.across * made.down
    pages = [_page(guide, found[at : at + each], made, address, says) for at in range(0, len(found), each)]
    title = f"{says('labels')}: {guide.meta.title}"
    html = fill(
        '<!DOCTYPE html><html lang="{}"><head><meta charset="utf-8"><title>{}</title></head>'
        "<body>{}</body></html>",
        guide.meta.language,
        title,
        Markup("").join(pages),
    )
    return pdf.typeset(str(html), f"{pdf.faces()}\n{_CSS.replace('$size', _PAPER[made.paper])}", {})


def code(guide: Guide, part: str, address: str) -> str:
    """What a part's QR code says: a link to it in the guide, or the guide's and the part's id."""
    if not address:
        return f"{guide.meta.slug}#{part}"
    return f"{address.split('#', 1)[0]}#{anchor(part)}"


def _page(guide: Guide, found: tuple[Bag, ...], made: Grid, address: str, says: Words) -> Markup:
    width, height = _SIZES[made.paper]
    pieces = []
    for at, bag in enumerate(found):
        x = made.left + (at % made.across) * made.step_x
        y = made.top + (at // made.across) * made.step_y
        label = _label(guide, bag, made, address, says)
        pieces.append(fill('<g transform="translate({} {})">{}</g>', number(x), number(y), label))
    head = Markup('<div><svg width="{w}mm" height="{h}mm" viewBox="0 0 {w} {h}"><title>{t}</title>{s}</svg></div>')
    names = says.joined(bag.name for bag in found)
    body = fill('<g font-family="{}">{}</g>', FONT, Markup("").join(pieces))
    return head.format(w=f"{width:g}", h=f"{height - 0.1:g}", t=f"{says('labels')}: {names}", s=body)


def _label(guide: Guide, bag: Bag, made: Grid, address: str, says: Words) -> Markup:
    side = min(made.height - 2 * _MARGIN, made.width * 0.36, 26.0)
    left = _MARGIN + side + 2
    room = made.width - left - _MARGIN
    size = min(4.4, made.height / 6.5)
    lines = (
        (size * 1.1, bag.name, True),
        (size * 0.8, says("tray-operation", numbers=bag.number), False),
        (size * 0.72, bag.title, False),
        (size * 0.72, _device(guide), False),
    )
    y, pieces = (made.height - size * 4.6) / 2 + size, [_qr(code(guide, bag.id, address), side, made.height)]
    for high, words_, bold in lines:
        pieces.append(text(left, y, high, words_, room, bold=bold))
        y += size * 1.2
    return Markup("").join(pieces)


def _device(guide: Guide) -> str:
    subject = guide.meta.subject
    return " ".join(part for part in (subject.maker, subject.model) if part) or guide.meta.title


def _qr(what: str, side: float, height: float) -> Markup:
    """The code as one path, `side` mm wide with the four modules of white round it that the standard asks for."""
    matrix = segno.make(what, error="m", micro=False, boost_error=False).matrix
    module = side / (len(matrix) + 8)
    path = "".join(
        f"M{number(x * module)} {number(y * module)}h{number(module)}v{number(module)}h-{number(module)}z"
        for y, row in enumerate(matrix, 4)
        for x, dark in enumerate(row, 4)
        if dark
    )
    return fill(
        '<path class="code" transform="translate({} {})" d="{}"/>',
        number(_MARGIN),
        number((height - side) / 2),
        path,
    )
