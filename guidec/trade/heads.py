"""A head's name and a nominal diameter -> its diameter and height, for drawings to scale."""

from __future__ import annotations

from guidec.quick import dataclass
from guidec.trade.load import data

__all__ = ["Form", "form", "head_size"]

_NAMES = {
    "countersunk": "countersunk",
    "flat": "countersunk",
    "csk": "countersunk",
    "senk": "countersunk",
    "socket": "socket",
    "cap": "socket",
    "cylinder": "socket",
    "zylinder": "socket",
    "innensechskant": "socket",
    "hexagon": "hexagon",
    "hex head": "hexagon",
    "sechskant": "hexagon",
}


def head_size(size_mm: float, head: str | None = None) -> tuple[float, float]:
    """Diameter and height in mm: of the nearest row of the head's table, scaled to the diameter.

    `head` is as typed; anything that is neither countersunk, socket nor hexagon is taken as a pan head.
    """
    words = (head or "").casefold()
    kind = next((kind for word, kind in _NAMES.items() if word in words), "pan")
    rows = [row for row in data("heads")["rows"] if row["head"] == kind]
    row = min(rows, key=lambda each: abs(each["d"] - size_mm))
    scale = size_mm / row["d"]
    return round(row["dk"] * scale, 2), round(row["k"] * scale, 2)


@dataclass(frozen=True, slots=True)
class Form:
    """What a fastener is drawn as, in mm. `kind`: pan, countersunk, socket, hexagon or nut.

    `head`: diameter, of hexagon and nut the width across flats; `height`: of the head or nut; `length`: of the
    shank below the head, of a countersunk screw with it, 0 for a nut. `assumed`: what nobody
    said: `size`, `length`, `head`.
    """

    kind: str
    diameter: float
    head: float
    height: float
    length: float
    assumed: tuple[str, ...]


def _figure(text: str) -> bool:
    return text.replace(".", "", 1).isdigit()


SIZE, LENGTH = 2.0, 6.0
"""Drawn where the size or length is not known (own assumption)."""


def form(size_mm: float | None, length_mm: float | None, head: str | None, drive: str) -> Form:
    """The form of a screw or, with the drive `NUT` and no length, of a nut. What nobody said is assumed."""
    size = size_mm or SIZE
    assumed: tuple[str, ...] = () if size_mm else ("size",)
    if drive.startswith("NUT") and length_mm is None:
        row = min(data("nuts")["rows"], key=lambda each: abs(each["d"] - size))
        across = float(drive[3:]) if _figure(drive[3:]) else row["s"] * size / row["d"]
        return Form("nut", size, round(across, 2), round(row["m"] * size / row["d"], 2), 0.0, assumed)
    words = (head or "").casefold()
    kind = next((kind for word, kind in _NAMES.items() if word in words), "pan")
    if not head and drive.startswith("H") and drive[1:2].isdigit():
        kind = "socket"
    if not head and drive.startswith("NUT"):
        kind = "hexagon"
    across, high = head_size(size, kind)
    if kind == "hexagon" and _figure(drive[3:]):
        across = float(drive[3:])
    assumed += () if length_mm else ("length",)
    assumed += () if head else ("head",)
    return Form(kind, size, across, high, length_mm or LENGTH, assumed)
