"""The text above the first operation -> keys of the front matter that stand there as plain text."""

from __future__ import annotations

import re
from collections.abc import Iterator
from itertools import takewhile

from guidec.notes.front_check import SCHEMA, TABLES
from guidec.notes.syntax import Block, Document, Heading, Paragraph
from guidec.rules.finding import Finding
from guidec.schemas import schema

__all__ = ["loose_keys"]

_LINE = re.compile(r"\s*(?:[*_]{1,2})?(?P<key>[A-Za-z]+)(?:[*_]{1,2})?\s*:(?:[*_]{1,2})?\s+\S.*")
_WORDY = frozenset((*TABLES, "title", "was", "verdict"))
"""Keys that may well begin a line of plain text ("Tools: two picks"); they count beside others."""


def loose_keys(document: Document) -> Iterator[Finding]:
    """One finding for each paragraph all of whose lines are keys with values."""
    for block in takewhile(_before_operations, document.blocks):
        if isinstance(block, Paragraph):
            text = document.source.slice(block.span)
            if (key := _key_in(text)) is not None:
                yield Finding.at("N016", block.span, key=key)


def _before_operations(block: Block) -> bool:
    return not (isinstance(block, Heading) and block.level == 2)


def _key_in(text: str) -> str | None:
    """A key of the front matter that the lines of a text begin with; None where not all are keys."""
    if ":" not in text[:40]:
        return None
    found = [_LINE.fullmatch(line) for line in text.splitlines() if line.strip() not in ("", "---")]
    keys = [one["key"].casefold() for one in found if one]
    known = schema(SCHEMA)["properties"]
    telling = [key for key in keys if key in known and key not in _WORDY]
    return telling[0] if telling and len(keys) == len(found) else None
