"""Names -> ids for addresses, files and cross-references."""

from __future__ import annotations

import re
import unicodedata
from collections.abc import Iterable

__all__ = ["earlier", "slug", "unique"]

_LETTERS = str.maketrans(
    {
        "ä": "ae",
        "ö": "oe",
        "ü": "ue",
        "ß": "ss",
        "æ": "ae",
        "œ": "oe",
        "ø": "oe",
        "å": "aa",
        "ð": "d",
        "þ": "th",
        "ł": "l",
        "đ": "d",
        "ı": "i",
        "µ": "micro",
        "μ": "micro",
        "ω": "ohm",
        "&": " and ",
        "+": " plus ",
        "%": " percent ",
        "'": "",
        "’": "",
    }
)
_SPOKEN = re.compile(r"[&+%']")
_BREAK = re.compile(r"[\W_]+")
_GREEK = re.compile(r"[\u0370-\u03ff]{2}")


def slug(text: str) -> str:
    """A name as an id: lower case, runs of anything but letters and digits as one `-`.

    Latin letters lose their marks (`ü` is `ue`, `é` is `e`, `ø` is `oe`); letters of other scripts stay. Empty
    where nothing is left.
    """
    low = unicodedata.normalize("NFC", text.strip()).casefold()
    if low.isascii() and not _SPOKEN.search(low):
        return _BREAK.sub("-", low).strip("-")
    table = {key: word for key, word in _LETTERS.items() if key < 0x370 or key > 0x3FF or not _GREEK.search(low)}
    bare = "".join(_bare(letter) for letter in low.translate(table))
    return _BREAK.sub("-", bare.casefold()).strip("-")


def earlier(names: Iterable[str]) -> tuple[str, ...]:
    """Names that something had before -> the ids that it had, each once."""
    return tuple(dict.fromkeys(filter(None, map(slug, names))))


def _bare(letter: str) -> str:
    """A Latin letter without its marks; others as they are."""
    parts = unicodedata.normalize("NFKD", letter)
    return "".join(part for part in parts if not unicodedata.combining(part)) if parts[0].isascii() else letter


def unique(wanted: str, taken: Iterable[str]) -> str:
    """The id itself, or with `-2`, `-3`, … where it is taken."""
    used = taken if isinstance(taken, (set, frozenset, dict)) else set(taken)
    if wanted not in used:
        return wanted
    number = 2
    while f"{wanted}-{number}" in used:
        number += 1
    return f"{wanted}-{number}"
