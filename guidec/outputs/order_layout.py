"""Boxes and the waits between them -> where each stands and how each line runs, by graphlay's layered layout.

The library has no randomness of its own: the same boxes are laid out the same way on every machine.
"""

from __future__ import annotations

from collections.abc import Collection, Mapping, Sequence

import graphlay

from guidec.quick import dataclass

__all__ = ["ACROSS", "Box", "Laid", "Line", "lay_out"]

Point = tuple[float, float]
ACROSS = (4, 3, 2)
"""How many boxes stand side by side at most: the first of these with which the drawing fits."""
FITS = 760.0
"""How wide a drawing may be, in its own units."""
TALL = 1000.0
"""A drawing taller than this is wrapped where it fits all the same."""
_GAP = 34.0
"""How far two layers are apart."""
_OPTIONS = {
    "direction": "topbottom",
    "routing": {"style": "orthogonal", "merge_edges": "none"},
    "spacing": {
        "layer_gap": _GAP,
        "node_gap": 16.0,
        "dummy_gap": 10.0,
        "isolated_gap": 16.0,
        "isolated_max_columns": ACROSS[0],
    },
    "compaction": {"mode": "priority"},
}


@dataclass(frozen=True, slots=True)
class Box:
    """The middle of a box and its size."""

    x: float
    y: float
    width: float
    height: float


@dataclass(frozen=True, slots=True)
class Line:
    """A line by its corners, from one box (or branching) to another; `after` is empty where it ends in one."""

    before: str
    after: str
    points: tuple[Point, ...]


@dataclass(frozen=True, slots=True)
class Laid:
    """A drawing with its upper left corner at 0, 0. `branchings`: points where a line parts."""

    boxes: Mapping[str, Box]
    lines: tuple[Line, ...]
    branchings: tuple[Point, ...]
    width: float
    height: float


@dataclass(slots=True)
class _Plan:
    """The graph to lay out: boxes and branchings with their layers, and edges, each part of a wait."""

    layers: dict[str, int]
    edges: list[tuple[str, str]]
    trunks: set[str]


def lay_out(
    sizes: Mapping[str, tuple[float, float]],
    waits: Sequence[tuple[str, str]],
    alone: Collection[tuple[str, str]] = (),
) -> Laid:
    """Lay boxes out in layers, each below those that it waits for. `sizes`: width and height by name.

    `alone`: the waits that share their line with no other.
    """
    found: list[Laid] = []
    for across in ACROSS:
        plan = _plan(list(sizes), waits, alone, across)
        low = _lowest(sizes, plan)
        if low > TALL:  # it will be wrapped if that fits; then it need not be laid out in one column first
            wrapped = _laid(sizes, plan, 1.0)
            if wrapped.width <= FITS and wrapped.height < low:
                return wrapped
        found.append(_laid(sizes, plan, 0.0))
        if found[-1].width <= FITS:
            break
    made = min(found, key=lambda laid: max(laid.width, FITS))
    if made.height > TALL:
        wrapped = _laid(sizes, plan, 1.0)
        made = wrapped if wrapped.height < made.height and wrapped.width <= FITS else made
    return made


def _lowest(sizes: Mapping[str, tuple[float, float]], plan: _Plan) -> float:
    """How tall a drawing in one column is at the least: its layers, each with its tallest box, and the gaps."""
    tallest: dict[int, float] = {}
    for name, layer in plan.layers.items():
        tallest[layer] = max(tallest.get(layer, 0.0), sizes[name][1] if name in sizes else 0.0)
    return sum(tallest.values()) + _GAP * (len(tallest) - 1)


def _plan(
    names: list[str], waits: Sequence[tuple[str, str]], alone: Collection[tuple[str, str]], across: int
) -> _Plan:
    """Waits of several boxes of far layers for one box share a line, which branches once for each layer."""
    layers = _layers(names, waits, across)
    plan = _Plan(dict(layers), [], set())
    for name in names:
        followers = [after for before, after in waits if before == name and (before, after) not in alone]
        far = sorted({layers[one] for one in followers if layers[one] > layers[name] + 1})
        shared = far if sum(layers[one] in far for one in followers) > 2 else []
        last = name
        for layer in shared:
            trunk = f"{name}\0{layer}"
            plan.layers[trunk] = layer - 1
            plan.trunks.add(trunk)
            plan.edges.append((last, trunk))
            plan.edges += [(trunk, one) for one in followers if layers[one] == layer]
            last = trunk
        plan.edges += [(name, one) for one in followers if layers[one] not in shared]
    plan.edges += [pair for pair in waits if pair in alone]
    return plan


def _layers(names: list[str], waits: Sequence[tuple[str, str]], across: int) -> dict[str, int]:
    """The layer of each box: below all that it waits for, and no layer with more than `across` boxes.

    Boxes are taken as they become free, in their order; those in a ring, in theirs.
    """
    needs: dict[str, set[str]] = {name: set() for name in names}
    for before, after in waits:
        needs[after].add(before)
    found: dict[str, int] = {}
    filled: dict[int, int] = {}
    left = list(names)
    while left:
        name = next((one for one in left if needs[one] <= found.keys()), left[0])
        left.remove(name)
        layer = max((found[before] + 1 for before in needs[name] if before in found), default=0)
        while filled.get(layer, 0) >= across:
            layer += 1
        filled[layer] = filled.get(layer, 0) + 1
        found[name] = layer
    return found


def _laid(sizes: Mapping[str, tuple[float, float]], plan: _Plan, aspect: float) -> Laid:
    graph = graphlay.Graph()
    for name, layer in plan.layers.items():
        width, height = sizes.get(name, (2.0, 2.0))
        graph.node(name, width=width, height=height, rank={"fixed": layer})
    for before, after in plan.edges:
        graph.edge(before, after)
    options = {**_OPTIONS, "wrap": {"viewport_aspect": aspect}}
    made = graphlay.layout(graph, preset="layered", options=options)
    places = made.positions()
    lines = [
        Line(
            before.split("\0")[0],
            "" if after in plan.trunks else after,
            tuple((point["x"], point["y"]) for point in edge["points"]),
        )
        for (before, after), edge in zip(plan.edges, made.edges, strict=True)
    ]
    boxes = {name: Box(*places[name], *size) for name, size in sizes.items()}
    return _moved(boxes, lines, [places[trunk] for trunk in plan.layers if trunk in plan.trunks])


def _moved(boxes: Mapping[str, Box], lines: Sequence[Line], branchings: Sequence[Point]) -> Laid:
    """The drawing with its corner at 0, 0."""
    xs = [x for box in boxes.values() for x in (box.x - box.width / 2, box.x + box.width / 2)]
    ys = [y for box in boxes.values() for y in (box.y - box.height / 2, box.y + box.height / 2)]
    xs += [x for line in lines for x, _ in line.points]
    ys += [y for line in lines for _, y in line.points]
    left, top = min(xs, default=0.0), min(ys, default=0.0)

    def at(point: Point) -> Point:
        return point[0] - left, point[1] - top

    return Laid(
        {name: Box(*at((box.x, box.y)), box.width, box.height) for name, box in boxes.items()},
        tuple(Line(line.before, line.after, tuple(map(at, line.points))) for line in lines),
        tuple(map(at, branchings)),
        max(xs, default=0.0) - left,
        max(ys, default=0.0) - top,
    )
