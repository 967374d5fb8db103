"""A name -> the grid of a sheet of labels, in mm."""

from __future__ import annotations

from guidec.quick import dataclass
from guidec.trade.load import data

__all__ = ["Grid", "grid", "grids"]


@dataclass(frozen=True, slots=True)
class Grid:
    """One sheet: labels `across` and `down`, each `width` by `height`, the next one `step_x` or `step_y` further,
    the first `left` and `top` of the paper's corner; all in mm."""

    name: str
    paper: str
    across: int
    down: int
    width: float
    height: float
    step_x: float
    step_y: float
    left: float
    top: float


def grids() -> tuple[str, ...]:
    """The names of all sheets."""
    return tuple(row["name"] for row in data("label-sheets")["rows"])


def grid(name: str) -> Grid:
    """The sheet of that name, or the usual one of a paper (`a4`, `letter`). Raises KeyError for any other."""
    table = data("label-sheets")
    wanted = table["defaults"].get(name, name)
    for row in table["rows"]:
        if row["name"] == wanted:
            return Grid(**row)
    raise KeyError(name)
