"""The things that lie in a device -> how each is drawn: screws, boards, cells, cables, tape, housings."""

from __future__ import annotations

import math
from collections.abc import Sequence

from .sheet import Colour, Point, Shape, Sheet, cut, disc, polygon, rounded, shade, stroke

STEEL: Colour = (178, 180, 184)
PLASTIC: Colour = (62, 65, 70)
GREEN: Colour = (28, 92, 62)
BLUE: Colour = (26, 62, 104)
GOLD: Colour = (206, 170, 86)
TIN: Colour = (196, 200, 204)
COPPER: Colour = (190, 112, 62)
AMBER: Colour = (176, 98, 34)


def screw(s: Sheet, x: float, y: float, r: float, drive: str = "PH", colour: Colour = STEEL) -> None:
    """A screw head: cross (`PH`), six lobes (`T`) or hexagon nut (`NUT`)."""
    turn = s.random.random() * math.pi
    if drive == "NUT":
        corners = [
            (x + r * math.cos(turn + k * math.pi / 3), y + r * math.sin(turn + k * math.pi / 3)) for k in range(6)
        ]
        s.lay(disc(x, y, r * 1.25), shade(colour, -0.1), lift=r * 0.2, bevel=2)
        s.lay(polygon(corners), colour, lift=r * 0.35, bevel=r * 0.15)
        s.lay(disc(x, y, r * 0.5), shade(colour, -0.25), lift=r * 0.3, bevel=2)
        return
    s.lay(disc(x, y, r * 1.22), shade(colour, -0.55), lift=r * 0.25, bevel=2, sunk=True)
    s.lay(disc(x, y, r), colour, lift=r * 0.3, bevel=r * 0.22, grain=5, sheen=0.25)
    dark = shade(colour, -0.8)
    if drive == "T":
        star = []
        for k in range(24):
            reach = r * (0.56 if k % 4 in (0, 1) else 0.38)
            star.append(
                (x + reach * math.cos(turn + k * math.tau / 24), y + reach * math.sin(turn + k * math.tau / 24))
            )
        s.lay(polygon(star), dark, lift=r * 0.2, bevel=1.5, sunk=True)
        return
    for angle in (turn, turn + math.pi / 2):
        s.lay(_bar(x, y, r * 0.64, r * 0.15, angle), dark, lift=0, bevel=1, sunk=True, grain=0)
    s.lay(disc(x, y, r * 0.24), shade(dark, -0.3), lift=0, bevel=0, grain=0)


def hole(s: Sheet, x: float, y: float, r: float, colour: Colour = PLASTIC) -> None:
    """An empty screw boss."""
    s.lay(disc(x, y, r * 1.5), shade(colour, 0.08), lift=4, bevel=3)
    s.lay(disc(x, y, r * 0.7), (14, 14, 16), lift=4, bevel=2, sunk=True)


def _bar(x: float, y: float, reach: float, half: float, angle: float) -> Shape:
    c, n = math.cos(angle), math.sin(angle)
    corners = [(-reach, -half), (reach, -half), (reach, half), (-reach, half)]
    return polygon([(x + a * c - b * n, y + a * n + b * c) for a, b in corners])


def tray(
    s: Sheet, x: float, y: float, w: float, h: float, colour: Colour, *, wall: float = 26, r: float = 60
) -> None:
    """A housing seen from above: a rim, a step for the gasket, and a hollow with ribs."""
    s.lay(rounded(x, y, w, h, r), colour, lift=26, bevel=9, grain=6)
    step = wall * 0.45
    s.lay(
        rounded(x + step, y + step, w - 2 * step, h - 2 * step, r - step),
        shade(colour, -0.16),
        lift=5,
        bevel=3,
        sunk=True,
    )
    s.lay(
        rounded(x + wall, y + wall, w - 2 * wall, h - 2 * wall, max(4, r - wall)),
        shade(colour, -0.3),
        lift=22,
        bevel=4,
        sunk=True,
    )


def ribs(s: Sheet, x: float, y: float, w: float, h: float, colour: Colour, step: float = 70) -> None:
    """Stiffening ribs on the floor of a housing."""
    at = x + step
    while at < x + w:
        s.lay(rounded(at, y, 7, h, 2), shade(colour, -0.24), lift=4, bevel=2)
        at += step
    s.lay(rounded(x, y + h / 2 - 3, w, 7, 2), shade(colour, -0.24), lift=4, bevel=2)


def cell(
    s: Sheet,
    x: float,
    y: float,
    w: float,
    h: float,
    lines: Sequence[str],
    wrap: Colour = (52, 56, 66),
    *,
    turn: int = 0,
) -> None:
    """A pouch cell: foil with folded edges, wrapper, its printed rating and its taped head."""
    s.lay(rounded(x, y, w, h, 14), (188, 190, 192), lift=16, bevel=9, grain=7, sheen=0.2)
    inset = 10
    s.lay(
        rounded(x + inset, y + inset, w - 2 * inset, h - 2 * inset, 10), wrap, lift=2, bevel=6, grain=5, sheen=0.14
    )
    s.flat(
        polygon(
            [
                (x + w * 0.12, y + inset),
                (x + w * 0.3, y + inset),
                (x + w * 0.14, y + h - inset),
                (x + inset, y + h - inset),
                (x + inset, y + h * 0.4),
            ]
        ),
        (255, 255, 255),
        0.05,
    )
    s.lay(rounded(x + inset, y, w - 2 * inset, 44, 6), (188, 150, 62), lift=4, bevel=3, grain=4, alpha=0.94)
    cx, cy = x + w / 2, y + h * 0.5
    for k, line in enumerate(lines):
        size = 30 if k == 0 else 19
        off = (k - (len(lines) - 1) / 2) * 38
        if turn:
            s.text(cx + off, cy, line, size, (226, 228, 230), turn=turn)
        else:
            s.text(cx, cy + off, line, size, (226, 228, 230))


def wire(s: Sheet, points: Sequence[Point], colour: Colour, width: float = 11) -> None:
    """An insulated wire, round in section."""
    s.lay(stroke(points, width), shade(colour, -0.25), lift=7, bevel=width * 0.28, grain=2, sheen=0.05)
    light = [(x - width * 0.16, y - width * 0.16) for x, y in points]
    s.flat(stroke(light, width * 0.22), shade(colour, 0.55), 0.55)


def flex(s: Sheet, points: Sequence[Point], width: float, colour: Colour = AMBER, ways: int = 5) -> None:
    """A flat cable: a strip with its conductors showing through."""
    s.lay(stroke(points, width, blunt=True), colour, lift=5, bevel=2, grain=3, sheen=0.08)
    for k in range(ways):
        off = (k - (ways - 1) / 2) * width * 0.8 / ways
        s.flat(stroke(_beside(points, off), max(1.2, width * 0.28 / ways), blunt=True), shade(colour, 0.24), 0.8)


def _beside(points: Sequence[Point], off: float) -> list[Point]:
    out = []
    for k, (x, y) in enumerate(points):
        (x0, y0), (x1, y1) = points[max(0, k - 1)], points[min(len(points) - 1, k + 1)]
        long = math.hypot(x1 - x0, y1 - y0) or 1
        out.append((x - (y1 - y0) / long * off, y + (x1 - x0) / long * off))
    return out


def tape(s: Sheet, x: float, y: float, w: float, h: float, colour: Colour = (214, 210, 196)) -> None:
    """A strip of double-sided tape with torn, uneven ends."""
    rnd = s.random
    edge = [(x + w * k / 18, y + rnd.uniform(-1.5, 1.5)) for k in range(19)]
    end = [(x + w + rnd.uniform(-5, 5), y + h * k / 8) for k in range(9)]
    back = [(x + w * (1 - k / 18), y + h + rnd.uniform(-1.5, 1.5)) for k in range(19)]
    start = [(x + rnd.uniform(-5, 5), y + h * (1 - k / 8)) for k in range(9)]
    s.lay(polygon([*edge, *end, *back, *start]), colour, lift=2, bevel=1.5, grain=9, alpha=0.92)
    for _ in range(7):
        s.flat(
            disc(rnd.uniform(x + 6, x + w - 6), rnd.uniform(y + 5, y + h - 5), rnd.uniform(2, 6)),
            shade(colour, -0.14),
            0.5,
        )


def foam(s: Sheet, x: float, y: float, w: float, h: float) -> None:
    """A black foam pad."""
    s.lay(rounded(x, y, w, h, 5), (48, 48, 50), lift=6, bevel=4, grain=16)


def ring(s: Sheet, x: float, y: float, outer: float, inner: float, colour: Colour, lift: float = 6) -> None:
    """A flat ring."""
    s.lay(cut(disc(x, y, outer), disc(x, y, inner)), colour, lift=lift, bevel=4)


def can(s: Sheet, x: float, y: float, r: float, words: str = "", sleeve: Colour = (32, 40, 66)) -> None:
    """An electrolytic capacitor from above: sleeve, vented top, minus stripe."""
    s.lay(disc(x, y, r), sleeve, lift=r * 0.5, bevel=4)
    s.lay(disc(x, y, r * 0.84), (190, 192, 196), lift=0, bevel=3, brushed=True, grain=7)
    for a in (0.5, 2.6, 4.7):
        s.flat(stroke([(x, y), (x + r * 0.6 * math.cos(a), y + r * 0.6 * math.sin(a))], 2.5), (120, 122, 126))
    if words:
        s.text(x, y + r * 0.42, words, 11, (96, 98, 100))
