"""A text of any length -> one that fits into a message."""

from __future__ import annotations

__all__ = ["short"]

_MOST = 72


def short(text: str) -> str:
    """The text on one line, with `…` for what is too much."""
    line = " ".join(text.split())
    return line if len(line) <= _MOST else line[: _MOST - 1] + "…"
