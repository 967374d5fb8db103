"""What sits on a circuit board, drawn in plan: the board itself, chips, small parts, shields and connectors."""

from __future__ import annotations

import math
from collections.abc import Sequence
from functools import cache

from PIL import Image, ImageDraw

from .kit import GOLD, GREEN, TIN
from .sheet import Colour, Point, Shape, Sheet, disc, rounded, shade, stroke


def board(s: Sheet, outline: Shape, colour: Colour = GREEN, *, traces: int = 60) -> None:
    """A circuit board: mask, buried traces that keep to 45 degrees, vias."""
    s.lay(outline, colour, lift=9, bevel=3, grain=5, sheen=0.08)
    left, top, right, bottom = outline.box
    for _ in range(traces):
        x, y = s.random.uniform(left + 14, right - 14), s.random.uniform(top + 14, bottom - 14)
        path = [(x, y)]
        for _ in range(s.random.randint(1, 3)):
            dx, dy = s.random.choice([(1, 0), (-1, 0), (0, 1), (0, -1), (1, 1), (-1, 1), (1, -1), (-1, -1)])
            run = s.random.uniform(18, 90)
            x, y = min(max(x + dx * run, left + 12), right - 12), min(max(y + dy * run, top + 12), bottom - 12)
            path.append((x, y))
        _clipped(s, outline, stroke(path, s.random.choice([2.5, 2.5, 4])), shade(colour, 0.13))
        _clipped(s, outline, disc(*path[-1], 4), shade(colour, 0.22))
        _clipped(s, outline, disc(*path[-1], 1.7), shade(colour, -0.6))


def _clipped(s: Sheet, outline: Shape, shape: Shape, colour: Colour) -> None:
    """Print a shape only where its middle lies on the outline: traces do not leave the board."""
    if all(_inside(outline, *p) for p in _corners(shape.box)):
        s.flat(shape, colour)


def _corners(box: tuple[float, float, float, float]) -> list[Point]:
    return [(box[0], box[1]), (box[2], box[1]), (box[0], box[3]), (box[2], box[3])]


def _inside(outline: Shape, x: float, y: float) -> bool:
    left, top, _, _ = outline.box
    mask = _mask(outline)
    px, py = int(x - left), int(y - top)
    return 0 <= px < mask.width and 0 <= py < mask.height and mask.getpixel((px, py)) != 0


@cache
def _mask(outline: Shape) -> Image.Image:
    left, top, right, bottom = outline.box
    mask = Image.new("L", (math.ceil(right - left) + 1, math.ceil(bottom - top) + 1), 0)
    outline.paint(ImageDraw.Draw(mask), lambda a, b: (a - left, b - top), 1)
    return mask


class Floor:
    """What part of a board is taken, so that small parts keep clear of the large ones."""

    def __init__(self, sheet: Sheet, outline: Shape) -> None:
        self.sheet, self.outline = sheet, outline
        self.taken: list[tuple[float, float, float, float]] = []

    def take(self, x: float, y: float, w: float, h: float, gap: float = 6) -> None:
        """Mark a box as taken."""
        self.taken.append((x - gap, y - gap, x + w + gap, y + h + gap))

    def label(self, x: float, y: float, words: str, size: float, *, turn: int = 0) -> None:
        """Print words on the board and keep small parts off them."""
        self.sheet.text(x, y, words, size, (216, 222, 214), turn=turn)
        long, high = len(words) * size * 0.6, size * 1.3
        if turn:
            long, high = high, long
        self.take(x - long / 2, y - high / 2, long, high)

    def free(self, x: float, y: float, w: float, h: float) -> bool:
        """Whether a box lies on the board and on nothing else."""
        if not all(_inside(self.outline, a, b) for a, b in _corners((x - 5, y - 5, x + w + 5, y + h + 5))):
            return False
        return all(x >= c or x + w <= a or y >= d or y + h <= b for a, b, c, d in self.taken)

    def fill(self, count: int, box: tuple[float, float, float, float] | None = None) -> None:
        """Scatter chip resistors, capacitors and small packages in rows, as far as there is room."""
        rnd = self.sheet.random
        left, top, right, bottom = box or self.outline.box
        for _ in range(count):
            x, y = round(rnd.uniform(left, right) / 9) * 9, round(rnd.uniform(top, bottom) / 9) * 9
            kind = rnd.random()
            if kind < 0.1:
                if self.free(x, y, 46, 34):
                    chip(self.sheet, x + 6, y + 4, 34, 26, legs="sides")
                    self.take(x, y, 46, 34)
                continue
            upright = rnd.random() < 0.5
            w, h = (11, 20) if upright else (20, 11)
            n = rnd.randint(1, 5)
            step = 15
            box_w, box_h = (step * n, h) if upright else (w, step * n)
            if self.free(x, y, box_w, box_h):
                for k in range(n):
                    passive(self.sheet, x + (step * k if upright else 0), y + (0 if upright else step * k), w, h)
                self.take(x, y, box_w, box_h, 4)


def passive(s: Sheet, x: float, y: float, w: float, h: float) -> None:
    """A chip resistor or capacitor with tinned ends."""
    body = s.random.choice([(44, 42, 44), (150, 118, 84), (150, 118, 84), (96, 80, 66)])
    s.lay(rounded(x, y, w, h, 1), TIN, lift=2.5, bevel=1, grain=3)
    if w > h:
        s.lay(rounded(x + w * 0.24, y, w * 0.52, h, 0), body, lift=0, bevel=1, grain=3)
    else:
        s.lay(rounded(x, y + h * 0.24, w, h * 0.52, 0), body, lift=0, bevel=1, grain=3)


def chip(
    s: Sheet, x: float, y: float, w: float, h: float, words: Sequence[str] = (), *, legs: str = "all"
) -> None:
    """An integrated circuit with legs on two sides or all four, a dot at pin 1 and a marking."""
    pitch, leg = 9, 6
    for k in range(int((h - 8) / pitch)):
        at = y + 6 + k * pitch
        s.lay(rounded(x - leg, at, w + 2 * leg, 4, 0), TIN, lift=1.5, bevel=0.8, grain=2)
    if legs == "all":
        for k in range(int((w - 8) / pitch)):
            at = x + 6 + k * pitch
            s.lay(rounded(at, y - leg, 4, h + 2 * leg, 0), TIN, lift=1.5, bevel=0.8, grain=2)
    s.lay(rounded(x, y, w, h, 3), (40, 41, 44), lift=5, bevel=2, grain=5)
    s.lay(disc(x + 9, y + 9, 3), (30, 30, 32), lift=1, bevel=1, sunk=True)
    for k, line in enumerate(words):
        s.text(x + w / 2, y + h / 2 + (k - (len(words) - 1) / 2) * 15, line, 12, (168, 168, 170))


def shield(s: Sheet, x: float, y: float, w: float, h: float, words: str = "") -> None:
    """A sheet-steel can with a pressed edge and vent holes."""
    s.lay(rounded(x, y, w, h, 6), (172, 174, 178), lift=7, bevel=3, brushed=True, grain=9)
    s.lay(rounded(x + 8, y + 8, w - 16, h - 16, 5), (182, 184, 188), lift=0, bevel=2, brushed=True, grain=9)
    for k in range(int((w - 60) / 26)):
        s.lay(disc(x + 38 + k * 26, y + h - 22, 4), (46, 46, 50), lift=2, bevel=1, sunk=True)
    if words:
        s.text(x + w / 2, y + h / 2 - 4, words, 17, (108, 110, 114))


def socket(s: Sheet, x: float, y: float, w: float, h: float, pins: int, *, mate: bool = False) -> None:
    """A board connector: cream body, tinned pins; with `mate` the plug is in."""
    for k in range(pins):
        if w > h:
            s.lay(rounded(x + 6 + k * (w - 12) / pins, y - 4, 4, h + 8, 0), TIN, lift=1, bevel=0.6, grain=2)
        else:
            s.lay(rounded(x - 4, y + 6 + k * (h - 12) / pins, w + 8, 4, 0), TIN, lift=1, bevel=0.6, grain=2)
    s.lay(rounded(x, y, w, h, 3), (214, 208, 192), lift=6, bevel=2.5)
    if mate:
        s.lay(rounded(x + 4, y + 4, w - 8, h - 8, 2), (232, 228, 216), lift=4, bevel=2)
    else:
        s.lay(rounded(x + 5, y + 5, w - 10, h - 10, 2), (92, 88, 78), lift=5, bevel=1, sunk=True)


def snap(s: Sheet, x: float, y: float, w: float, h: float, *, plugged: bool = True) -> None:
    """A press-fit board-to-board connector, plugged (a stiffener over it) or bare (two rows of contacts)."""
    if plugged:
        s.lay(rounded(x, y, w, h, 4), (58, 54, 50), lift=6, bevel=3)
        s.lay(rounded(x + 4, y + 4, w - 8, h - 8, 3), (74, 70, 64), lift=0, bevel=1.5)
        return
    s.lay(rounded(x, y, w, h, 3), (42, 42, 44), lift=5, bevel=2)
    s.lay(rounded(x + 5, y + h * 0.36, w - 10, h * 0.28, 2), (24, 24, 26), lift=3, bevel=1, sunk=True)
    for k in range(int((w - 12) / 7)):
        for row in (y + 3, y + h - 7):
            s.flat(rounded(x + 7 + k * 7, row, 3.4, 5, 0), GOLD)
