"""Points on a frame and the widths of their labels -> where each label goes: none covers another, or a point.

A label starts next to its point and is moved away, ring by ring, until it is free; of the free places of a ring
the one wins whose leader crosses least. Labels in a crowd choose first, and all choose again when they know the
others. Where there is no room at all, everything is drawn smaller.
"""

from __future__ import annotations

import math
from collections.abc import Iterator, Sequence
from functools import lru_cache

from guidec.quick import dataclass

__all__ = ["HEIGHT", "POINT", "Layout", "Place", "layout"]

HEIGHT = 4.6
"""Of a label, in mm at full size."""
POINT = 1.1
"""Half the side of the square round a point that stays free, in mm."""
_GAP = 0.5
_RINGS = (4.4, 5.6, 7.0, 9.0, 12.0, 16.0, 22.0, 30.0, 40.0, 55.0)
_ANGLES = tuple((math.cos(turn * math.pi / 8), math.sin(turn * math.pi / 8)) for turn in (*range(-3, 13),))
_CROWD = 14.0
_CROSSING, _COVERED = 6.0, 60.0
_SMALLER = 0.85


@dataclass(frozen=True, slots=True)
class Place:
    """A point, and the middle of its label, in mm from the upper left corner. `width`: the label's."""

    x: float
    y: float
    label_x: float
    label_y: float
    width: float


@dataclass(frozen=True, slots=True)
class Layout:
    """`places` in the order of the points; `scale`: how large things are drawn, 1 where there was room."""

    places: tuple[Place, ...]
    scale: float


@lru_cache(512)
def layout(
    points: tuple[tuple[float, float], ...], widths: tuple[float, ...], frame: tuple[float, float]
) -> Layout:
    """Places for the labels of `points`, `widths` wide; all in mm, `frame` too. Every point lies in the frame."""
    scale = 1.0
    while True:
        table = _Table(points, tuple(width * scale for width in widths), frame, scale)
        if table.fill():
            return Layout(table.places(), scale)
        scale *= _SMALLER


class _Table:
    """The labels at one scale while they find their places."""

    def __init__(
        self,
        points: Sequence[tuple[float, float]],
        widths: Sequence[float],
        frame: tuple[float, float],
        scale: float,
    ) -> None:
        self.points = points
        self.widths = widths
        self.frame = frame
        self.scale = scale
        self.at: dict[int, tuple[float, float]] = {}

    def fill(self) -> bool:
        """Give every label a place; false where one finds none."""
        order = sorted(range(len(self.points)), key=lambda one: (-self._crowd(one), one))
        for sweep in range(3):
            moved = False
            for one in order:
                before = self.at.pop(one, None)
                found = self._best(one)
                if found is None:
                    return False
                self.at[one] = found
                moved = moved or found != before
            if sweep and not moved:
                break
        return True

    def places(self) -> tuple[Place, ...]:
        """What was found."""
        return tuple(Place(*self.points[one], *self.at[one], self.widths[one]) for one in range(len(self.points)))

    def _crowd(self, one: int) -> int:
        x, y = self.points[one]
        return sum(math.hypot(x - other_x, y - other_y) < _CROWD for other_x, other_y in self.points)

    def _best(self, one: int) -> tuple[float, float] | None:
        """The cheapest free place of a label."""
        best: tuple[float, float] | None = None
        least = math.inf
        for distance, x, y in self._candidates(one):
            if distance >= least:
                break
            if self._free(one, x, y):
                cost = distance + self._crossings(one, x, y)
                if cost < least:
                    best, least = (x, y), cost
        return best or self._anywhere(one)

    def _candidates(self, one: int) -> Iterator[tuple[float, float, float]]:
        x, y = self.points[one]
        aside = (self.widths[one] / self.scale - HEIGHT) / 2
        for ring in _RINGS:
            for along, down in _ANGLES:
                yield ring, x + along * (ring + aside) * self.scale, y + down * ring * self.scale

    def _anywhere(self, one: int) -> tuple[float, float] | None:
        """The nearest free place of a grid over the whole frame."""
        step = HEIGHT * self.scale * 0.55
        x, y = self.points[one]
        across, down = (int(side / step) + 1 for side in self.frame)
        grid = [(column * step, row * step) for column in range(across) for row in range(down)]
        grid.sort(key=lambda place: math.hypot(place[0] - x, place[1] - y))
        return next((place for place in grid if self._free(one, *place)), None)

    def _free(self, one: int, x: float, y: float) -> bool:
        """Whether a label fits there: inside the frame, on no point and on no other label."""
        half, high, gap = self.widths[one] / 2, HEIGHT * self.scale / 2, _GAP * self.scale
        if not (half < x < self.frame[0] - half and high < y < self.frame[1] - high):
            return False
        for other, (other_x, other_y) in self.at.items():
            near = abs(other_x - x) < half + self.widths[other] / 2 + gap
            if near and abs(other_y - y) < 2 * high + gap:
                return False
        point = POINT * self.scale
        return not any(abs(px - x) < half + point and abs(py - y) < high + point for px, py in self.points)

    def _crossings(self, one: int, x: float, y: float) -> float:
        """What the leaders that would cross, and the labels that would lie on one, cost."""
        start, end = self.points[one], (x, y)
        cost = 0.0
        for other, place in self.at.items():
            point = self.points[other]
            if _cross(start, end, point, place):
                cost += _CROSSING
            if self._on(other, place, start, end) or self._on(one, end, point, place):
                cost += _COVERED
        return cost

    def _on(
        self, label: int, middle: tuple[float, float], start: tuple[float, float], end: tuple[float, float]
    ) -> bool:
        """Whether a leader runs under a label: sampled finely enough for labels of this size."""
        half, high = self.widths[label] / 2, HEIGHT * self.scale / 2
        if min(start[0], end[0]) > middle[0] + half or max(start[0], end[0]) < middle[0] - half:
            return False
        if min(start[1], end[1]) > middle[1] + high or max(start[1], end[1]) < middle[1] - high:
            return False
        return _through((middle[0] - half, middle[1] - high, middle[0] + half, middle[1] + high), start, end)


Point = tuple[float, float]


def _side(one: Point, two: Point, third: Point) -> float:
    return (two[0] - one[0]) * (third[1] - one[1]) - (two[1] - one[1]) * (third[0] - one[0])


def _cross(one: Point, two: Point, three: Point, four: Point) -> bool:
    """Whether two stretches cross."""
    if max(one[0], two[0]) < min(three[0], four[0]) or max(three[0], four[0]) < min(one[0], two[0]):
        return False
    return _side(one, two, three) * _side(one, two, four) < 0 > _side(three, four, one) * _side(three, four, two)


def _through(box: tuple[float, float, float, float], start: Point, end: Point) -> bool:
    """Whether a stretch meets a box: all corners on one side of its line, or it does."""
    left, top, right, bottom = box
    sides = [_side(start, end, corner) for corner in ((left, top), (right, top), (right, bottom), (left, bottom))]
    return min(sides) < 0 < max(sides)
