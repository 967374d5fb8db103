"""A graph of numbers, each with those that it leads to -> its knots: numbers that lead to each other."""

from __future__ import annotations

__all__ = ["knots"]


def knots(heads: list[set[int]]) -> list[list[int]]:
    """Strongly connected components of a graph of numbers (Tarjan's algorithm, without recursion)."""
    index: dict[int, int] = {}
    low: dict[int, int] = {}
    stack: list[int] = []
    on: set[int] = set()
    found: list[list[int]] = []
    for root in range(len(heads)):
        if root in index:
            continue
        index[root] = low[root] = len(index)
        stack.append(root)
        on.add(root)
        work = [(root, iter(heads[root]))]
        while work:
            at, rest = work[-1]
            other = next(rest, None)
            if other is None:
                work.pop()
                if work:
                    low[work[-1][0]] = min(low[work[-1][0]], low[at])
                if low[at] == index[at]:
                    cut = stack.index(at)
                    found.append(stack[cut:])
                    on.difference_update(stack[cut:])
                    del stack[cut:]
            elif other not in index:
                index[other] = low[other] = len(index)
                stack.append(other)
                on.add(other)
                work.append((other, iter(heads[other])))
            elif other in on:
                low[at] = min(low[at], index[other])
    return found
