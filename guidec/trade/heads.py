"""A head's name and a nominal diameter -> its diameter and height, for drawings to scale."""

from __future__ import annotations

from guidec.trade.load import data

__all__ = ["head_size"]

_NAMES = {
    "countersunk": "countersunk",
    "flat": "countersunk",
    "csk": "countersunk",
    "senk": "countersunk",
    "socket": "socket",
    "cap": "socket",
    "cylinder": "socket",
    "zylinder": "socket",
}


def head_size(size_mm: float, head: str | None = None) -> tuple[float, float]:
    """Diameter and height in mm: of the nearest row of the head's table, scaled to the diameter.

    `head` is as typed; anything that is neither countersunk nor socket is taken as a pan head.
    """
    words = (head or "").casefold()
    kind = next((kind for word, kind in _NAMES.items() if word in words), "pan")
    rows = [row for row in data("heads")["rows"] if row["head"] == kind]
    row = min(rows, key=lambda each: abs(each["d"] - size_mm))
    scale = size_mm / row["d"]
    return round(row["dk"] * scale, 2), round(row["k"] * scale, 2)
