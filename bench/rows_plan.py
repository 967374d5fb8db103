"""Routes: all of a note, many operations, the bytes of routes.json; what the planner's rules add to a check."""

from __future__ import annotations

import time
from collections.abc import Callable
from functools import cache, partial
from pathlib import Path
from random import Random

from bench.notes import note
from bench.row import Figure, Ratio, timed

__all__ = ["ROWS", "branching", "linear"]

FRONT = "---\ntitle: Bench device\nlanguage: en\npower: none\n---\n\n# Bench device\n\n"
DRIVES = ("PH0", "T5", "T8", "PH1", "H2.5")


def linear(operations: int, other_ways: int = 0) -> str:
    """A note in which each operation needs the one before it, and some have another way."""
    dice = Random(operations)
    twice = set(dice.sample(range(1, operations), other_ways))
    found = []
    for at in range(operations):
        found.append(_operation(dice, at, "", ""))
        if at in twice:
            found.append(_operation(dice, at, " otherwise", f" {{instead of Off {at}}}"))
    return FRONT + "\n".join(found)


def branching(operations: int, other_ways: int, seed: int = 1) -> str:
    """A note in which each operation needs one or two of the ten before it, and some have another way each."""
    dice = Random(seed)
    twice = set(dice.sample(range(1, operations), other_ways))
    found = []
    for at in range(operations):
        above = dice.sample(range(max(0, at - 10), at), min(at, dice.choice((1, 1, 2))))
        after = " {after " + (", ".join(f"part {one}" for one in sorted(above)) or "nothing") + "}"
        found.append(_operation(dice, at, "", after))
        if at in twice:
            found.append(_operation(dice, at, " otherwise", f"{after} {{instead of Off {at}}}"))
    return FRONT + "\n".join(found)


def _operation(dice: Random, at: int, other: str, heading: str) -> str:
    screws = f"{{screw S{at}{other}: {dice.randint(1, 5)}x {dice.choice(DRIVES)} M3x8}}"
    part = f"part {at}" if other else f"part part {at}"
    tool = dice.choice(("", "", " with {tool card}", " with {tool spudger}"))
    return f"## Off {at}{other}{heading}\n\n1. Undo {screws}.\n2. Lift off {{{part}}}{tool}.\n"


@cache
def _guide(text: str) -> object:
    from guidec import model, notes
    from guidec.source import Source

    guide, _ = model.build(notes.read(Source.of("bench.md", text))[0])
    return guide


def _seconds(text: str, job: Callable[[object], object]) -> float:
    """The median of five runs, each on a graph of its own."""
    from guidec import plan

    guide = _guide(text)
    runs = sorted(timed(lambda: job(plan.graph(guide))) for _ in range(5))  # type: ignore[arg-type]
    return runs[2]


def _all_routes(graph: object) -> object:
    from guidec import plan

    found = plan.routes(graph)  # type: ignore[arg-type]
    assert found
    assert all(one.exact for one in found), "the benchmark's routes must be exact"
    return found


def _table(graph: object) -> object:
    from guidec.outputs.routes_text import table

    return table(graph)  # type: ignore[arg-type]


def _bytes_a_second() -> float:
    """Megabytes of routes.json made in a second, from a note of 1,000 linear operations."""
    from guidec import plan
    from guidec.outputs.routes_json import encode

    graph = plan.graph(_guide(linear(1_000)))  # type: ignore[arg-type]
    start = time.perf_counter()
    size = len(encode(graph))
    return size / (time.perf_counter() - start) / 1e6


def _check(*, planned: bool) -> None:
    """A check of 60 actions, with the planner's rules or without."""
    from guidec import checks
    from guidec import compile as compiler
    from guidec.checks import holding, isolation, order, reachability, tools_listed, way_back
    from guidec.edge.load import of_bytes

    ours = {one.check for one in (holding, isolation, order, reachability, tools_listed, way_back)}
    every = checks.RULES
    checks.RULES = every if planned else tuple(rule for rule in every if rule not in ours)
    try:
        compiler.check(of_bytes("bench.md", note(60, other_ways=2).encode(), Path()))
    finally:
        checks.RULES = every


ROWS = (
    Figure(
        "all routes, 60 operations in a row, 6 other ways", partial(_seconds, linear(60, 6), _all_routes), "s", 1.0
    ),
    Figure(
        "all routes, 60 operations branching, 6 other ways",
        partial(_seconds, branching(60, 6), _all_routes),
        "s",
        1.0,
    ),
    Figure("table of routes, 1,000 operations in a row", partial(_seconds, linear(1_000), _table), "s", 2.0),
    Figure("routes.json, 1,000 operations in a row", _bytes_a_second, "MB/s"),
    Ratio(
        "check, 60 actions / without the planner's rules",
        partial(_check, planned=True),
        partial(_check, planned=False),
        1.25,
    ),
)
