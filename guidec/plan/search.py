"""Items with an order among them -> the cheapest orders of all of them, for each state that one can end in.

An A* search over (set of items placed, state). It is used twice: for the operations of a route, and for the free
actions within an operation. The bound given to it must never be more than what the rest will really cost.
"""

from __future__ import annotations

import math
from collections.abc import Callable, Iterable, Sequence
from heapq import heapify, heappop, heappush, nsmallest
from typing import NamedTuple

__all__ = ["Found", "Grown", "State", "search"]

BUDGET = 12_000
"""Items placed in one search before it is narrowed to the best few (`NARROW`) and no longer exact; twice as many
before it is content with some of the states that it can end in."""
NARROW = 16
LOOK = 24
"""Of so many items that come next a narrowed search tries each."""


class State(NamedTuple):
    """The tools in hand (a bit set, 0 before the first), the side that is up, whether work is pending."""

    hand: int
    side: int
    pending: bool


class Grown(NamedTuple):
    """A partial order: its cost so far, the state it ends in, the one it was grown from, and what was placed."""

    cost: int
    state: State
    before: Grown | None
    placed: object


Found = dict[State, Grown]
Items = list[tuple[int, int, int]]
"""Each item with its own bit and the bits of what must stand before it."""
Place = Callable[[Grown, int, int], Iterable[Grown]]


def search(
    before: Sequence[int],
    start: Iterable[Grown],
    place: Place,
    bound: Callable[[int, State], int],
    slack: Callable[[State], int],
    allowed: Callable[[int, int], bool] | None = None,
) -> tuple[Found, bool]:
    """All items in their cheapest order.

    `before`: for each item the items that must stand before it (bit set). `place(grown, item, done)`: the ways to
    go on with an item. `bound(done, state)`: a lower bound on the cost of the rest. `slack(state)`: how much more
    going on from this state can cost at most than from any other; what is dearer by more than that is dropped.
    `allowed(item, done)`: a further test. Returns the end states, and whether they are exact.
    """
    everything = (1 << len(before)) - 1
    items: Items = [(item, 1 << item, needed) for item, needed in enumerate(before)]
    heap: list[tuple[int, int, int, Grown]] = []
    tick = 0
    for grown in start:
        heap.append((grown.cost + bound(0, grown.state), tick, 0, grown))
        tick += 1
    heapify(heap)
    closed: set[tuple[int, State]] = set()
    leaders: dict[int, int] = {}
    found: Found = {}
    limit = math.inf
    placed = 0
    while heap:
        estimate, _, done, grown = heappop(heap)
        if estimate > limit:
            break
        key = (done, grown.state)
        if key in closed:
            continue
        closed.add(key)
        if grown.cost > leaders.get(done, grown.cost):
            continue
        ahead = grown.cost + slack(grown.state)
        leaders[done] = min(ahead, leaders.get(done, ahead))
        if done == everything:
            found[grown.state] = grown
            limit = min(limit, ahead)
            continue
        for item in _next(items, done, allowed):
            for after in place(grown, item, done):
                placed += 1
                now = done | 1 << item
                if after.cost > leaders.get(now, after.cost):
                    continue
                tick += 1
                heappush(heap, (after.cost + bound(now, after.state), -tick, now, after))
        if placed > BUDGET + BUDGET * bool(found):
            return found or _narrow(before, heap, place, bound, allowed), False
    return found, True


def _next(items: Items, done: int, allowed: Callable[[int, int], bool] | None) -> list[int]:
    """The items that can be placed now."""
    found = [item for item, own, needed in items if not done & own and not needed & ~done]
    return found if allowed is None else [item for item in found if allowed(item, done)]


def _narrow(
    before: Sequence[int],
    heap: list[tuple[int, int, int, Grown]],
    place: Place,
    bound: Callable[[int, State], int],
    allowed: Callable[[int, int], bool] | None,
) -> Found:
    """Go on from partial orders with the best few of each length only."""
    items: Items = [(item, 1 << item, needed) for item, needed in enumerate(before)]
    layers: dict[int, dict[tuple[int, State], tuple[int, Grown]]] = {}
    for _, _, done, grown in nsmallest(_width(before) * len(before), heap):
        _keep(layers.setdefault(done.bit_count(), {}), done, grown, bound)
    for size in range(len(before)):
        layer = layers.pop(size, {})
        for (done, _), (_, grown) in nsmallest(_width(before), layer.items(), key=lambda entry: entry[1][0]):
            for item in _next(items, done, allowed)[:LOOK]:
                for after in place(grown, item, done):
                    _keep(layers.setdefault(size + 1, {}), done | 1 << item, after, bound)
    return {state: grown for (_, state), (_, grown) in layers.get(len(before), {}).items()}


def _width(before: Sequence[int]) -> int:
    """How many partial orders of each length are gone on with: fewer for very many items."""
    return max(2, min(NARROW, 100 * NARROW // max(1, len(before))))


def _keep(
    layer: dict[tuple[int, State], tuple[int, Grown]],
    done: int,
    grown: Grown,
    bound: Callable[[int, State], int],
) -> None:
    """Put a partial order into its layer unless a cheaper one of the same end is there."""
    key = (done, grown.state)
    known = layer.get(key)
    if known is None or grown.cost < known[1].cost:
        layer[key] = (grown.cost + bound(done, grown.state), grown)
