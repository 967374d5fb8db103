"""A fastener's form -> its drawing in millimetres: from the side, and its head from above with the recess."""

from __future__ import annotations

import math

from markupsafe import Markup

from guidec.outputs.fill import fill
from guidec.trade.heads import Form

__all__ = ["above", "beside", "length_of"]

_LINE = 'fill="none" stroke="{}" stroke-width="{}" stroke-linejoin="round"'


def number(value: float) -> str:
    """Up to three decimals, no needless noughts."""
    return f"{value:.3f}".rstrip("0").rstrip(".")


def length_of(form: Form) -> float:
    """From end to end, head included, in mm."""
    if form.kind == "nut":
        return form.height
    return form.length if form.kind == "countersunk" else form.length + form.height


def beside(form: Form, x: float, y: float, ink: str = "#000", width: float = 0.25) -> Markup:
    """The fastener from the side, its left end at `x`, its axis at `y`; the head is on the left."""
    line = fill(_LINE, ink, number(width))
    head = fill('<path class="head-side" d="{}" {}/>', _head(form, x, y), line)
    if form.kind == "nut":
        return head
    start = x + form.height
    shank = max(length_of(form) - form.height, 0.1)
    body = fill(
        '<rect class="shank" x="{}" y="{}" width="{}" height="{}" {}/>',
        number(start),
        number(y - form.diameter / 2),
        number(shank),
        number(form.diameter),
        line,
    )
    return head + body + _thread(form, start, start + shank, y, ink)


def _head(form: Form, x: float, y: float) -> str:
    half, high = form.head / 2, form.height
    neck = form.diameter / 2
    if form.kind == "countersunk":
        return _closed((x, y - half), (x + high, y - neck), (x + high, y + neck), (x, y + half))
    if form.kind in ("socket", "hexagon", "nut"):
        return _closed((x, y - half), (x + high, y - half), (x + high, y + half), (x, y + half))
    round_ = high * 0.55
    top, bottom = number(y - half), number(y + half)
    return (
        f"M{number(x + high)} {top}H{number(x + round_)}Q{number(x)} {top} {number(x)} {number(y)}"
        f"Q{number(x)} {bottom} {number(x + round_)} {bottom}H{number(x + high)}Z"
    )


def _closed(*points: tuple[float, float]) -> str:
    return "M" + "L".join(f"{number(x)} {number(y)}" for x, y in points) + "Z"


def _thread(form: Form, start: float, end: float, y: float, ink: str) -> Markup:
    """Two thin lines where the core of the thread is: 0.8 of the diameter, near enough for any coarse pitch."""
    core = form.diameter * 0.4
    path = "".join(f"M{number(start)} {number(line)}H{number(end)}" for line in (y - core, y + core))
    return fill('<path d="{}" {} stroke-dasharray="0.6 0.4"/>', path, fill(_LINE, ink, "0.1"))


def above(form: Form, drive: str, x: float, y: float) -> Markup:
    """The head from above, its middle at `x`, `y`, with the recess of its drive."""
    line = fill(_LINE, "#000", "0.25")
    if form.kind == "nut":
        outer = fill('<path d="{}" {}/>', _polygon(x, y, form.head / math.sqrt(3), 6), line)
        hole = fill('<circle cx="{}" cy="{}" r="{}" {}/>', number(x), number(y), number(form.diameter / 2), line)
        return outer + hole
    if form.kind == "hexagon" and drive.startswith("NUT"):
        return fill('<path class="head" d="{}" {}/>', _polygon(x, y, form.head / math.sqrt(3), 6), line)
    ring = fill(
        '<circle class="head" cx="{}" cy="{}" r="{}" {}/>', number(x), number(y), number(form.head / 2), line
    )
    r = form.head * 0.29
    recess = _recess(drive, x, y, r)
    if not recess:
        return ring
    pin = fill('<circle class="pin" cx="{}" cy="{}" r="{}" fill="#fff"/>', number(x), number(y), number(r * 0.3))
    return ring + fill('<path d="{}" fill="#000"/>', recess) + (pin if drive[1:].endswith("H") else "")


_LOBES = {"T": 6, "5L": 5}


def _recess(drive: str, x: float, y: float, r: float) -> str:
    """The outline of a recess; nothing for a drive that has none known."""
    family = drive.rstrip("0123456789.H" if drive[:1] == "T" else "0123456789.")
    if family.startswith(("PH", "JIS")):
        return _bars(x, y, r, (0, 90), r * 0.36)
    if family.startswith("PZ"):
        return _bars(x, y, r, (0, 90), r * 0.36) + _bars(x, y, r * 0.8, (45, 135), r * 0.14)
    if family.startswith("SL"):
        return _bars(x, y, r * 1.45, (0,), r * 0.34)
    if family == "3W":
        return _bars(x, y, r, (90, 210, 330), r * 0.34, both=False)
    if family.startswith("H"):
        return _polygon(x, y, r, 6)
    return _lobes(x, y, r, _LOBES[family]) if family in _LOBES else ""


def _bars(x: float, y: float, r: float, angles: tuple[int, ...], wide: float, both: bool = True) -> str:
    """Bars through the middle, or from it."""
    path = ""
    for angle in angles:
        along = (math.cos(math.radians(angle)), -math.sin(math.radians(angle)))
        side = (-along[1] * wide / 2, along[0] * wide / 2)
        back = r if both else 0.0
        ends = ((x + along[0] * r, y + along[1] * r), (x - along[0] * back, y - along[1] * back))
        (x1, y1), (x2, y2) = ends
        path += _closed(
            (x1 + side[0], y1 + side[1]),
            (x1 - side[0], y1 - side[1]),
            (x2 - side[0], y2 - side[1]),
            (x2 + side[0], y2 + side[1]),
        )
    return path


def _polygon(x: float, y: float, r: float, corners: int) -> str:
    turns = [2 * math.pi * corner / corners + math.pi / 6 for corner in range(corners)]
    return _closed(*((x + r * math.cos(turn), y + r * math.sin(turn)) for turn in turns))


def _lobes(x: float, y: float, r: float, lobes: int) -> str:
    """A star with round arms, as a line through many points."""
    points = []
    for step in range(lobes * 8):
        turn = 2 * math.pi * step / (lobes * 8)
        out = r * (0.84 + 0.16 * math.cos(turn * lobes))
        points.append((x + out * math.cos(turn), y + out * math.sin(turn)))
    return _closed(*points)
