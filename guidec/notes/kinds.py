"""The kind words of the language -> what they are."""

from __future__ import annotations

__all__ = [
    "ABOUT",
    "BARE",
    "FASTENINGS",
    "HEADINGS",
    "NESTABLE",
    "PICTURE",
    "THINGS",
    "VALUES",
    "WORDS",
    "split_kind",
]

FASTENINGS = ("screw", "clip", "adhesive", "connector", "solder", "thermal", "fastening")
THINGS = ("part", *FASTENINGS, "tool", "supply")
VALUES = ("heat", "wait", "torque", "measure")
ABOUT = ("refit", "risk", "optional", "partly")
HEADINGS = ("after", "also", "instead of", "side", "live", "optional", "refit only", "was")
"""Kinds that stand on a heading or right below it; `optional` stands on actions too, `side` on a turn's line."""

BARE = ("optional", "partly", "live", "refit only")
"""Kinds that take no name: the kind word is the whole mark."""

NESTABLE = ("refit", "risk")
"""Kinds inside which other marks may stand."""

PIN = "pin"
PICTURE = (PIN, "crop", "outline", "arrow")
"""Kinds that belong to the nearest picture before them and give points on it."""

WORDS = tuple(dict.fromkeys((*THINGS, *VALUES, *ABOUT, *HEADINGS, *PICTURE)))

_NAMED = {word: word for word in WORDS if word not in BARE and " " not in word}


def split_kind(whole: str) -> tuple[str, int, int]:
    """The kind of a mark whose text before its first `:` or `;` is `whole` (trimmed).

    Gives the kind, the length of the kind word as typed and the offset at which the name starts. Without a kind
    word, with a kind word alone, or with more after a word that stands alone, the kind is empty: such a mark may
    be the name of a thing. Case and white space fold.
    """
    words = whole.split(None, 2)
    if not words:
        return "", 0, 0
    first = words[0].casefold()
    if len(words) == 1:
        return (first, len(whole), len(whole)) if first in BARE else ("", 0, 0)
    second = words[1].casefold()
    if first == "refit" and second == "only" and len(words) == 2:
        return "refit only", len(whole), len(whole)
    if first == "instead" and second == "of" and len(words) == 3:
        end = whole.index(words[1], len(words[0])) + len(words[1])
        return "instead of", end, len(whole) - len(words[2])
    if first in _NAMED:
        return first, len(words[0]), whole.index(words[1], len(words[0]))
    return "", 0, 0
