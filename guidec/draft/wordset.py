"""A row of words in one string -> a set of them, made once: `among("off out away")`, `phrased("as one|in one
go")`."""

from __future__ import annotations

from functools import cache

__all__ = ["among", "phrased"]


@cache
def among(row: str) -> frozenset[str]:
    """The words of a row, parted by blanks."""
    return frozenset(row.split())


@cache
def phrased(row: str) -> tuple[str, ...]:
    """The phrases of a row, parted by strokes."""
    return tuple(row.split("|"))
