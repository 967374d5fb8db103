"""A picture's pins and drawings -> what is marked on it: a short label for each thing, and where it stands.

A screw set goes by its own letter, everything else by a number. Points are shares of the part that is shown.
"""

from __future__ import annotations

from collections.abc import Iterable, Iterator

from guidec.model.types import Crop, Drawn, Guide, Kind, Ref, Shown
from guidec.quick import dataclass

__all__ = ["Row", "legend"]

_LETTERS = 3
"""How long the name of a screw set may be to serve as its label."""
Points = tuple[tuple[float, float], ...]


@dataclass(frozen=True, slots=True)
class Row:
    """One line of the key, or a drawing that has none (`label` is empty).

    `shape`: `pin`, `outline` or `arrow`. `spots`: of a pin, all its points; else where its label's leader ends.
    `drawn`: the points of an outline or an arrow. `thing`: the id of what is shown, where the guide has it.
    """

    label: str
    shape: str
    spots: Points
    text: str = ""
    thing: str | None = None
    drawn: Points = ()


def legend(guide: Guide, shown: Shown) -> tuple[Row, ...]:
    """What is marked on a picture, in the order of the note; pins of one thing make one row."""
    pinned: dict[str, tuple[Ref, list[tuple[float, float]]]] = {}
    for pin in shown.pins:
        name = pin.thing.id or pin.thing.name.casefold()
        pinned.setdefault(name, (pin.thing, []))[1].extend(_inside(pin.points, shown.crop))
    own = {name: _letter(guide, ref) for name, (ref, _) in pinned.items()}
    numbers = _numbers(taken=set(own.values()))
    rows = [
        Row(own[name] or next(numbers), "pin", tuple(dict.fromkeys(points)), ref.name, _known(guide, ref))
        for name, (ref, points) in pinned.items()
        if points
    ]
    return (*rows, *(row for one in shown.drawn for row in _drawn(guide, one, shown.crop, numbers)))


def _letter(guide: Guide, ref: Ref) -> str:
    thing = guide.things.get(ref.id or "")
    if thing is None or thing.kind is not Kind.SCREW or len(thing.name) > _LETTERS:
        return ""
    return thing.name


def _numbers(taken: set[str]) -> Iterator[str]:
    number = 0
    while True:
        number += 1
        if str(number) not in taken:
            yield str(number)


def _known(guide: Guide, ref: Ref | None) -> str | None:
    return ref.id if ref and ref.id in guide.things else None


def _drawn(guide: Guide, one: Drawn, crop: Crop | None, numbers: Iterator[str]) -> Iterator[Row]:
    points = _shares(one.points, crop)
    if one.shape == "outline" and len(points) == 2:
        (x1, y1), (x2, y2) = points
        points = ((x1, y1), (x2, y1), (x2, y2), (x1, y2))
    if not any(_in_frame(point) for point in points):
        return
    label = next(numbers) if one.text else ""
    at = [point for point in points if _in_frame(point)]
    spot = min(at, key=lambda point: (point[1], point[0])) if one.shape == "outline" else at[0]
    yield Row(label, one.shape, (spot,) if label else (), one.text, _known(guide, one.thing), points)


def _inside(points: Iterable[tuple[float, float]], crop: Crop | None) -> list[tuple[float, float]]:
    return [point for point in _shares(points, crop) if _in_frame(point)]


def _in_frame(point: tuple[float, float]) -> bool:
    return 0 <= point[0] <= 1 and 0 <= point[1] <= 1


def _shares(points: Iterable[tuple[float, float]], crop: Crop | None) -> Points:
    """Percent of the whole picture -> shares of the part that is shown."""
    if crop is None:
        return tuple((x / 100, y / 100) for x, y in points)
    width, height = crop.right - crop.left, crop.bottom - crop.top
    return tuple(((x - crop.left) / width, (y - crop.top) / height) for x, y in points)
