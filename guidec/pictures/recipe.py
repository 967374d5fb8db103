"""How photos are derived, as numbers; and what a derived picture depends on, as a key for the cache."""

from __future__ import annotations

import hashlib
import json
from collections.abc import Sequence
from functools import cache
from importlib.metadata import PackageNotFoundError, version

from guidec.pictures.types import Box

__all__ = ["BARE_MOST", "DRAFT_MOST", "FALLBACK", "GAP", "PRINT", "PRINT_MM", "SCREEN", "key", "sizes"]

EDITION = 1
"""Goes up whenever the same photo would give other bytes."""

SCREEN = (400, 800, 1600)
"""The longer side of each size for screens, in pixels."""
FALLBACK = 800
PRINT_MM = (120.0, 74.0)
"""The largest width and height on paper, in mm."""
PRINT = (1417, 874)
"""The same in pixels, at 300 to the inch."""
GAP = 1.1
"""How much larger than asked a photo may be after the quick, rough part of making it smaller."""

DRAFT_MOST = 400_000_000
"""The most pixels of a photo that can be made smaller while it is read (a baseline JPEG)."""
BARE_MOST = 120_000_000
"""The most pixels of any other: it has to be in memory as a whole."""


def sizes(width: int, height: int) -> tuple[int, ...]:
    """The longer sides to make, small to large; a picture is never made larger than it is."""
    longest = max(width, height)
    return (*(side for side in SCREEN[:-1] if side < longest), min(longest, SCREEN[-1]))


def key(digest: str, box: Box | None) -> str:
    """A name for what is derived from the photo with that digest."""
    what: Sequence[object] = (EDITION, SCREEN, FALLBACK, PRINT, _libraries(), digest, box)
    return hashlib.sha256(json.dumps(what).encode()).hexdigest()


@cache
def _libraries() -> tuple[str, ...]:
    """The releases that decide the bytes."""
    return tuple(f"{name} {_release(name)}" for name in ("pillow", "pi-heif", "pillow-heif"))


def _release(name: str) -> str:
    try:
        return version(name)
    except PackageNotFoundError:
        return ""
