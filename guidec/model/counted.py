"""What is said of a part or what holds it -> the same with a count, or a key typed as a detail, as the key it is.

`{connector leads: 2x spade}` has `qty=2`; so has `{part foot: qty=2}`, a colon in place of the semicolon.
"""

from __future__ import annotations

import re
from functools import cache
from typing import NamedTuple

from guidec.model.keys import KEYS, canonical_key
from guidec.model.said import Said
from guidec.notes.syntax import Key
from guidec.source import Span
from guidec.trade.load import data
from guidec.trade.numbers import read_count

__all__ = ["as_keys", "count_and_rest", "without_pieces"]

_KEY = re.compile(r"(?P<key>[^\W\d_][\w -]*?)\s*=\s*(?P<value>[^=;]*[^=;\s])")
_PARTED = re.compile(r"\s*,\s*")


class _Found(NamedTuple):
    """A count among details: its value, the words that say it, and the stretch that goes with it."""

    number: int
    start: int
    end: int
    begin: int
    stop: int


def as_keys(said: Said, kind: str) -> Said:
    """What is said, with a count or a key that stands among its details as a key."""
    if not said.details:
        return said
    found = _count(said.details, kind) if "qty" in KEYS[kind] else None
    said = _with_count(said, found) if found is not None else said
    return _lone_key(said, kind) if "=" in said.details else said


def count_and_rest(details: str) -> tuple[int | None, str]:
    """The count that the first or last piece of a text is (`qty 4`, `4 pcs`), and the text without it."""
    found = _count(details, "")
    return (None, details) if found is None else (found.number, details[: found.begin] + details[found.stop :])


def _count(details: str, kind: str) -> _Found | None:
    """How many a text's first or last piece tells; of a connector also what stands before its type."""
    whole, before = _patterns()
    gaps = [gap.span() for gap in _PARTED.finditer(details)]
    first, last = (gaps[0], gaps[-1]) if gaps else ((len(details), len(details)), (0, 0))
    tries = [(whole.fullmatch(details, 0, first[0]), 0, first[1])]
    if gaps:
        tries.append((whole.fullmatch(details, last[1]), last[0], len(details)))
    if kind == "connector":
        lead = before.match(details)
        tries.append((lead, 0, lead.end() if lead else 0))
    for match, begin, stop in tries:
        place = next((at for at, text in enumerate(match.groups(), 1) if text), 0) if match else 0
        number = read_count(match[place]) if match and place else None
        if match and number is not None:
            return _Found(number, *match.span(place), begin, stop)
    return None


def _with_count(said: Said, found: _Found) -> Said:
    """What is said, with a stretch of its details as the key `qty`."""
    value = said.details[found.start : found.end]
    rest = said.details[: found.begin] + said.details[found.stop :]
    at, kept = said.details_span, said.details_span
    if _exact(said):
        at = Span(kept.start + found.start, kept.start + found.end)
        end = kept.start + found.stop
        kept = Span(kept.start, kept.start + found.begin) if found.begin else Span(end, kept.end)
    return said._replace(details=rest, details_span=kept, keys=(*said.keys, Key("qty", at, value, at)))


def _exact(said: Said) -> bool:
    """Whether the details stand in the note as they were read, so that places in them hold."""
    return len(said.details) == said.details_span.end - said.details_span.start


def _lone_key(said: Said, kind: str) -> Said:
    """What is said with a single `key=value` in the place of details as a key."""
    found = _KEY.fullmatch(said.details)
    if found is None or canonical_key(found["key"]) not in KEYS[kind] or not _exact(said):
        return said
    start = said.details_span.start
    name = Span(start + found.start("key"), start + found.end("key"))
    value = Span(start + found.start("value"), start + found.end("value"))
    return said._replace(
        details="",
        details_span=Span(start, start),
        keys=(*said.keys, Key(found["key"], name, found["value"], value)),
    )


def without_pieces(text: str) -> str:
    """A type without the word that only counts: `Stück`, `pcs`."""
    return _pieces().sub("", text, count=1).strip(" ,")


@cache
def _pieces() -> re.Pattern[str]:
    return re.compile(rf"^(?:{data('threads')['pieces']['words']})\b\.?", re.I)


@cache
def _patterns() -> tuple[re.Pattern[str], re.Pattern[str]]:
    """How a piece of details counts (`4x`, `4 pcs`, `qty 4`), and what counts before a connector's type."""
    rows = data("threads")["pieces"]
    pieces, named, types = rows["words"], rows["keys"], rows["connectors"]
    number = r"(\d{1,3}|[^\W\d_]+)"
    whole = rf"{number}\s*(?:{pieces})\.?|(?:{named}|{pieces})\.?\s*[:=]?\s*(\d{{1,3}})\s?[x×]?|(\d{{1,3}})\s?[x×]"
    before = rf"(\d{{1,3}})\s?[x×]\s?(?=[^\W\d])|{number}\s+(?=(?!\w*(?:pin|pol|way|mm))[^\W\d_]*(?:{types})\b)"
    return re.compile(whole, re.I), re.compile(before, re.I)
