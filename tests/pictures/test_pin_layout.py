"""Labels of pins on random and crowded pictures: inside, apart, off the points (by plain rectangles)."""

from __future__ import annotations

import itertools
import random
import time

from hypothesis import given, settings
from hypothesis import strategies as st

from guidec.outputs.overlay import widths
from guidec.outputs.pin_layout import HEIGHT, Layout, layout

Rectangle = tuple[float, float, float, float]
FRAMES = ((98.67, 74.0), (55.5, 74.0), (120.0, 30.0), (30.0, 74.0))


def boxes(laid: Layout) -> list[Rectangle]:
    half = HEIGHT * laid.scale / 2
    return [
        (at.label_x - at.width / 2, at.label_y - half, at.label_x + at.width / 2, at.label_y + half)
        for at in laid.places
    ]


def meet(one: Rectangle, other: Rectangle) -> bool:
    return one[0] < other[2] and other[0] < one[2] and one[1] < other[3] and other[1] < one[3]


def is_sound(laid: Layout, frame: tuple[float, float]) -> None:
    found = boxes(laid)
    assert all(
        left >= 0 and top >= 0 and right <= frame[0] and bottom <= frame[1] for left, top, right, bottom in found
    )
    assert not [1 for one, other in itertools.combinations(found, 2) if meet(one, other)]
    for at in laid.places:
        assert not [
            1 for box in found if meet(box, (at.x - 0.5 * laid.scale, at.y - 0.5 * laid.scale, at.x, at.y))
        ]


@settings(max_examples=60, deadline=None)
@given(
    st.sampled_from(FRAMES),
    st.lists(st.tuples(st.floats(0, 1), st.floats(0, 1)), min_size=1, max_size=40),
    st.sampled_from(("A", "12", "A10")),
)
def test_no_label_covers_another_or_a_point_or_leaves_the_picture(
    frame: tuple[float, float], shares: list[tuple[float, float]], label: str
):
    points = tuple((round(x * frame[0], 2), round(y * frame[1], 2)) for x, y in shares)
    is_sound(layout(points, widths([label] * len(points)), frame), frame)


def test_forty_pins_in_one_corner_find_room_at_full_size_and_in_time():
    chance = random.Random(7)
    frame = FRAMES[0]
    points = tuple((round(chance.gauss(30, 7), 2), round(chance.gauss(25, 7), 2)) for _ in range(40))
    points = tuple((min(max(x, 0.0), frame[0]), min(max(y, 0.0), frame[1])) for x, y in points)
    start = time.perf_counter()
    laid = layout(points, widths([str(at) for at in range(40)]), frame)
    assert time.perf_counter() - start < 5
    is_sound(laid, frame)
    assert laid.scale > 0.7


def test_a_lone_label_stands_next_to_its_point():
    laid = layout(((50.0, 40.0),), widths(["1"]), FRAMES[0])
    (at,) = laid.places
    assert (at.label_x - 50) ** 2 + (at.label_y - 40) ** 2 < (1.2 * HEIGHT) ** 2


def test_where_there_is_no_room_everything_is_drawn_smaller():
    laid = layout(tuple((x / 2, 2.0) for x in range(20)), widths(["A"] * 20), (10.0, 5.0))
    assert laid.scale < 1
    is_sound(laid, (10.0, 5.0))
