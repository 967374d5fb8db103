"""Flat shapes in design units -> a picture in which they look like solid things.

Everything is laid on a `Sheet` of 1600 x 1200 units. A shape is a box and a painter of its mask; `Sheet.lay`
gives it a shadow, a material and a bevel, always lit from the upper left. Nothing here is random but by seed.
"""

from __future__ import annotations

import math
import random
from collections.abc import Callable, Iterable, Sequence
from dataclasses import dataclass, field
from io import BytesIO

from PIL import Image, ImageChops, ImageDraw, ImageFilter, ImageFont

WIDTH, HEIGHT, SCALE = 1600, 1200, 2
LARGEST = 245_000
"""Bytes of one picture: past that it is stored a little coarser."""
Colour = tuple[int, int, int]
Point = tuple[float, float]
Box = tuple[float, float, float, float]
Painter = Callable[[ImageDraw.ImageDraw, Callable[[float, float], Point], float], None]


@dataclass(frozen=True)
class Shape:
    """A box (left, top, right, bottom) in design units and what paints the mask inside it."""

    box: Box
    paint: Painter


def rounded(x: float, y: float, w: float, h: float, r: float = 0) -> Shape:
    """A rectangle with rounded corners."""

    def paint(draw: ImageDraw.ImageDraw, at: Callable[[float, float], Point], scale: float) -> None:
        draw.rounded_rectangle([at(x, y), at(x + w, y + h)], r * scale, fill=255)

    return Shape((x, y, x + w, y + h), paint)


def disc(cx: float, cy: float, r: float, inner: float = 0) -> Shape:
    """A disc, or a ring where `inner` is given."""

    def paint(draw: ImageDraw.ImageDraw, at: Callable[[float, float], Point], scale: float) -> None:
        draw.ellipse([at(cx - r, cy - r), at(cx + r, cy + r)], fill=255)
        if inner:
            draw.ellipse([at(cx - inner, cy - inner), at(cx + inner, cy + inner)], fill=0)

    return Shape((cx - r, cy - r, cx + r, cy + r), paint)


def polygon(points: Sequence[Point]) -> Shape:
    """A filled polygon."""
    xs, ys = [p[0] for p in points], [p[1] for p in points]

    def paint(draw: ImageDraw.ImageDraw, at: Callable[[float, float], Point], scale: float) -> None:
        draw.polygon([at(*p) for p in points], fill=255)

    return Shape((min(xs), min(ys), max(xs), max(ys)), paint)


def stroke(points: Sequence[Point], width: float, *, blunt: bool = False) -> Shape:
    """A line of one width with round joints, and round ends unless `blunt`."""
    xs, ys = [p[0] for p in points], [p[1] for p in points]
    half = width / 2

    def paint(draw: ImageDraw.ImageDraw, at: Callable[[float, float], Point], scale: float) -> None:
        draw.line([at(*p) for p in points], fill=255, width=max(1, round(width * scale)), joint="curve")
        for x, y in () if blunt else (points[0], points[-1]):
            draw.ellipse([at(x - half, y - half), at(x + half, y + half)], fill=255)

    return Shape((min(xs) - half, min(ys) - half, max(xs) + half, max(ys) + half), paint)


def cut(shape: Shape, *holes: Shape) -> Shape:
    """A shape with holes in it."""

    def paint(draw: ImageDraw.ImageDraw, at: Callable[[float, float], Point], scale: float) -> None:
        shape.paint(draw, at, scale)
        for hole in holes:
            hole.paint(_Eraser(draw), at, scale)  # type: ignore[arg-type]

    return Shape(shape.box, paint)


class _Eraser:
    """An ImageDraw that paints black whatever it is told, so that any shape can be a hole."""

    def __init__(self, draw: ImageDraw.ImageDraw) -> None:
        self._draw = draw

    def __getattr__(self, name: str) -> Callable[..., None]:
        method = getattr(self._draw, name)
        return lambda *args, **keys: method(*args, **{**keys, "fill": 0})


def curve(*points: Point, steps: int = 14) -> list[Point]:
    """A smooth line through all points (Catmull-Rom)."""
    ends = [points[0], *points, points[-1]]
    out: list[Point] = []
    for a, b, c, d in zip(ends, ends[1:], ends[2:], ends[3:], strict=False):
        for k in range(steps):
            t = k / steps
            out.append(
                tuple(  # type: ignore[arg-type]
                    0.5
                    * (
                        2 * b[i]
                        + (c[i] - a[i]) * t
                        + (2 * a[i] - 5 * b[i] + 4 * c[i] - d[i]) * t * t
                        + (3 * b[i] - a[i] - 3 * c[i] + d[i]) * t**3
                    )
                    for i in (0, 1)
                )
            )
    return [*out, points[-1]]


def shade(colour: Colour, by: float) -> Colour:
    """A colour lighter (`by` > 0) or darker, -1 to 1."""
    end = 255 if by > 0 else 0
    return tuple(round(c + (end - c) * abs(by)) for c in colour)  # type: ignore[return-value]


@dataclass
class Sheet:
    """One picture being drawn. `pins`: what can be pinned -> its points in percent from the top left."""

    seed: int
    pins: dict[str, list[Point]] = field(default_factory=dict)
    dry: bool = False
    """Only the pins are wanted: nothing is drawn."""
    zoom: float = 1.0
    shift: Point = (0.0, 0.0)

    def __post_init__(self) -> None:
        self.random = random.Random(self.seed)
        self.image = Image.new("RGB", (WIDTH * SCALE, HEIGHT * SCALE))

    def view(self, zoom: float, left: float, top: float) -> None:
        """Draw larger or smaller from now on: the design point `left`, `top` comes to the upper left corner."""
        self.zoom, self.shift = zoom, (-left * zoom, -top * zoom)

    def _at(self, x: float, y: float) -> Point:
        return x * self.zoom + self.shift[0], y * self.zoom + self.shift[1]

    def pin(self, name: str, *points: Point) -> None:
        """Remember where a thing is."""
        seen = [self._at(*point) for point in points]
        shown = [(round(x / WIDTH * 100), round(y / HEIGHT * 100)) for x, y in seen]
        self.pins.setdefault(name, []).extend(shown)

    def bench(self, colour: Colour) -> None:
        """Fill the sheet with a bench mat: grain, a faint grid, light falling off from the upper left."""
        if self.dry:
            return
        size = self.image.size
        self.image.paste(self._material(size, colour, grain=9, sheen=0.16))
        draw = ImageDraw.Draw(self.image)
        for at in range(0, size[0], 100 * SCALE):
            draw.line([(at, 0), (at, size[1])], fill=shade(colour, 0.05), width=SCALE)
            draw.line([(0, at), (size[0], at)], fill=shade(colour, 0.05), width=SCALE)
        self.image = self.image.filter(ImageFilter.GaussianBlur(1.2))

    def lay(
        self,
        shape: Shape,
        colour: Colour,
        *,
        lift: float = 6,
        bevel: float = 3,
        grain: float = 4,
        sheen: float = 0.1,
        alpha: float = 1.0,
        sunk: bool = False,
        brushed: bool = False,
    ) -> None:
        """Lay a shape on what is there. `lift` is how high it stands, `bevel` the width of its edge (units)."""
        if self.dry:
            return
        lift, bevel = lift * self.zoom, bevel * self.zoom
        pad = lift * 2 + bevel + 4
        (x0, y0), (x1, y1) = self._at(*shape.box[:2]), self._at(*shape.box[2:])
        if x1 + pad < 0 or y1 + pad < 0 or x0 - pad > WIDTH or y0 - pad > HEIGHT:
            return
        left, top = math.floor((x0 - pad) * SCALE), math.floor((y0 - pad) * SCALE)
        right, bottom = math.ceil((x1 + pad) * SCALE), math.ceil((y1 + pad) * SCALE)
        mask = Image.new("L", (right - left, bottom - top), 0)
        zoom, (ox, oy) = self.zoom, self.shift
        shape.paint(
            ImageDraw.Draw(mask),
            lambda x, y: ((x * zoom + ox) * SCALE - left, (y * zoom + oy) * SCALE - top),
            SCALE * zoom,
        )
        if lift and not sunk:
            self._shadow(mask, (left, top), lift)
        fill = self._material(mask.size, colour, grain, sheen, brushed)
        if bevel:
            fill = _bevelled(fill, mask, bevel * SCALE, sunk)
        if sunk and lift:
            fill = _hollow(fill, mask, lift * SCALE)
        if alpha < 1:
            mask = mask.point(lambda v: round(v * alpha))
        self.image.paste(fill, (left, top), mask)

    def flat(self, shape: Shape, colour: Colour, alpha: float = 1.0) -> None:
        """Print a shape without any height: ink, traces, reflections."""
        self.lay(shape, colour, lift=0, bevel=0, grain=0, sheen=0, alpha=alpha)

    def text(
        self, x: float, y: float, words: str, size: float, colour: Colour, *, turn: int = 0, alpha: float = 1.0
    ) -> None:
        """Print words, their middle at x, y; `turn` in degrees against the clock."""
        if self.dry:
            return
        font = ImageFont.load_default(size * SCALE * self.zoom)
        x, y = self._at(x, y)
        box = font.getbbox(words)
        mask = Image.new("L", (math.ceil(box[2]) + 8, math.ceil(box[3]) + 8), 0)
        ImageDraw.Draw(mask).text((4, 4), words, font=font, fill=round(255 * alpha))
        mask = mask.rotate(turn, expand=True, resample=Image.Resampling.BICUBIC)
        at = (round(x * SCALE - mask.width / 2), round(y * SCALE - mask.height / 2))
        self.image.paste(Image.new("RGB", mask.size, colour), at, mask)

    def jpeg(self) -> bytes:
        """The picture at its final size, as JPEG."""
        small = self.image.resize((WIDTH, HEIGHT), Image.Resampling.LANCZOS)
        done = _vignette(small)
        for quality in (78, 72, 66):
            out = BytesIO()
            done.save(out, "JPEG", quality=quality, optimize=True)
            if out.tell() < LARGEST:
                break
        return out.getvalue()

    def _shadow(self, mask: Image.Image, at: tuple[int, int], lift: float) -> None:
        soft = mask.filter(ImageFilter.GaussianBlur(lift * SCALE * 0.55)).point(lambda v: round(v * 0.55))
        offset = round(lift * SCALE * 0.6)
        self.image.paste((12, 12, 16), (at[0] + offset, at[1] + offset), soft)

    def _material(
        self, size: tuple[int, int], colour: Colour, grain: float, sheen: float, brushed: bool = False
    ) -> Image.Image:
        """A patch of a colour with grain (0 to 255, either way) and light falling from the upper left."""
        fill = Image.new("RGB", size, colour)
        if sheen:
            light = Image.frombytes("L", (2, 2), bytes((0, 108, 148, 255))).resize(size, Image.Resampling.BICUBIC)
            fill = Image.composite(
                Image.new("RGB", size, shade(colour, -sheen)), Image.new("RGB", size, shade(colour, sheen)), light
            )
        if grain:
            fill = ImageChops.add(fill, self._noise(size, grain, brushed), 1, -round(grain))
        return fill

    def _noise(self, size: tuple[int, int], grain: float, brushed: bool) -> Image.Image:
        cells = (max(2, size[0] // (60 if brushed else 3)), max(2, size[1] // 3))
        cells = (min(cells[0], 700), min(cells[1], 700))
        raw = Image.frombytes("L", cells, self.random.randbytes(cells[0] * cells[1]))
        soft = raw.point(lambda v: round(v / 255 * 2 * grain)).resize(size, Image.Resampling.BICUBIC)
        return Image.merge("RGB", (soft, soft, soft))


def _bevelled(fill: Image.Image, mask: Image.Image, width: float, sunk: bool) -> Image.Image:
    step = max(1, round(width * 0.7))
    soft = mask.filter(ImageFilter.GaussianBlur(width * 0.5))
    near = ImageChops.subtract(soft, ImageChops.offset(soft, step, step))
    far = ImageChops.subtract(soft, ImageChops.offset(soft, -step, -step))
    if sunk:
        near, far = far, near
    lit = Image.composite(Image.new("RGB", fill.size, (255, 255, 255)), fill, near.point(lambda v: round(v * 0.5)))
    return Image.composite(Image.new("RGB", fill.size, (0, 0, 0)), lit, far.point(lambda v: round(v * 0.55)))


def _hollow(fill: Image.Image, mask: Image.Image, depth: float) -> Image.Image:
    """The shadow that a rim throws into a hollow."""
    offset = round(depth * 0.6)
    rim = ImageChops.offset(ImageChops.invert(mask), offset, offset).filter(ImageFilter.GaussianBlur(depth * 0.55))
    return Image.composite(Image.new("RGB", fill.size, (8, 8, 12)), fill, rim.point(lambda v: round(v * 0.6)))


def _vignette(image: Image.Image) -> Image.Image:
    mask = Image.radial_gradient("L").resize(image.size).point(lambda v: max(0, v - 110) // 3)
    return Image.composite(Image.new("RGB", image.size, (10, 12, 18)), image, mask)


def grid(x: float, y: float, dx: float, dy: float, nx: int, ny: int) -> Iterable[Point]:
    """Points of a grid, row by row."""
    return ((x + dx * i, y + dy * j) for j in range(ny) for i in range(nx))
