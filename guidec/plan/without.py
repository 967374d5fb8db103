"""A guide, and actions that are left out -> the actions that can be done all the same.

Needs are followed exactly: each need has its ways, any one way serves, and a way is served once all of it is done.
Linear in the size of the needs.
"""

from __future__ import annotations

from collections import defaultdict
from collections.abc import Collection

from guidec.model.types import Guide

__all__ = ["done_without"]


def done_without(guide: Guide, without: Collection[str]) -> frozenset[str]:
    """The ids of all actions that can be done in some order in which none of `without` is done."""
    left: dict[str, int] = {}  # action -> needs not yet served
    waiting: dict[str, list[tuple[str, int, int]]] = defaultdict(list)  # action -> ways it is part of
    missing: dict[tuple[str, int, int], int] = {}  # way -> its actions not yet done
    served: set[tuple[str, int]] = set()
    ready: list[str] = []
    for action in guide.actions.values():
        if action.id in without:
            continue
        left[action.id] = 0
        for number, need in enumerate(action.needs):
            if not need.ways or any(not way for way in need.ways):
                continue
            left[action.id] += 1
            for which, way in enumerate(need.ways):
                missing[action.id, number, which] = len(set(way))
                for other in set(way):
                    waiting[other].append((action.id, number, which))
        if not left[action.id]:
            ready.append(action.id)
    for done in ready:
        for slot in waiting[done]:
            missing[slot] -= 1
            if missing[slot] or slot[:2] in served:
                continue
            served.add(slot[:2])
            left[slot[0]] -= 1
            if not left[slot[0]]:
                ready.append(slot[0])
    return frozenset(ready)
