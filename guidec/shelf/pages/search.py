"""Entries -> the search page, and the index it reads: plain scripts, so that it works from a file.

The index is that of the library (see `assets/README.md`) as it would write it itself, made here so that the
browser only has to read it in. Words are cut as the library cuts them: at white space and punctuation, and put in
lower case.
"""

from __future__ import annotations

import json
import re
import unicodedata
from collections import Counter
from collections.abc import Iterable, Sequence
from functools import cache
from typing import Any

from markupsafe import Markup, escape

from guidec.shelf.entry import Entry
from guidec.shelf.layout import Page
from guidec.shelf.pages.cells import Shelf, title_order

__all__ = ["FIELDS", "LIBRARY", "index", "pages", "script", "terms"]

LIBRARY = "minisearch-7.2.0.js"
FIELDS = ("title", "parts", "numbers", "tools")
VERSION = 2
"""Of the library's own form of an index."""


def pages(shelf: Shelf) -> Iterable[Page]:
    """The search page."""
    said = shelf.said
    words = ("search-none", "search-found", "search-first", "search-part", "search-tool", "search-number")
    data = "".join(f' data-{key}="{escape(said.entries[key])}"' for key in words)
    body = Markup(
        '<header class="title"><h1>{title}</h1><p class="lead">{text}</p></header>'
        "<noscript><p>{noscript}</p></noscript>"
        '<form class="find" role="search"><label for="q">{label}</label>'
        '<input id="q" name="q" type="search" autocomplete="off" autofocus><button>{go}</button></form>'
        '<p id="said" role="status"{data} data-guides="{root}guides/"></p><ol id="hits" class="hits"></ol>'
    ).format(
        title=said("search-title"),
        text=said("search-text"),
        noscript=said("search-noscript"),
        label=said("search-label"),
        go=said("search-go"),
        data=Markup(data),
        root=shelf.root,
    )
    scripts = (LIBRARY, "search-index.js", "search.js")
    yield Page("search.html", said("search-title"), body, said("search-text"), scripts)


def script(entries: Sequence[Entry]) -> bytes:
    """The index as a script: one value, and what the results show."""
    return f"var SHELF_INDEX = {_json(index(entries))};\n".encode()


def index(entries: Sequence[Entry]) -> dict[str, Any]:
    """The index of all guides in the library's own form."""
    ordered = sorted(entries, key=title_order)
    postings: dict[str, dict[str, dict[str, int]]] = {}
    lengths: dict[str, list[int]] = {}
    totals = [0] * len(FIELDS)
    for own, entry in enumerate(ordered):
        lengths[str(own)] = []
        for at, text in enumerate(_fields(entry)):
            words = _cut().split(text)
            counted = Counter(word.lower() for word in words if word)
            lengths[str(own)].append(len(set(words)))
            totals[at] += len(set(words))
            for term, many in counted.items():
                postings.setdefault(term, {}).setdefault(str(at), {})[str(own)] = many
    return {
        "documentCount": len(ordered),
        "nextId": len(ordered),
        "documentIds": {str(own): own for own in range(len(ordered))},
        "fieldIds": {name: at for at, name in enumerate(FIELDS)},
        "fieldLength": lengths,
        "averageFieldLength": [total / max(len(ordered), 1) for total in totals],
        "storedFields": {str(own): _stored(entry) for own, entry in enumerate(ordered)},
        "dirtCount": 0,
        "index": [[term, rows] for term, rows in sorted(postings.items())],
        "serializationVersion": VERSION,
    }


def _fields(entry: Entry) -> tuple[str, str, str, str]:
    title = " ".join(filter(None, (entry.title, entry.device, entry.kind, str(entry.year or ""))))
    parts = " ".join(part.name for part in entry.parts)
    tools = " ".join(f"{tool.name} {tool.size}" for tool in entry.tools)
    return title, parts, " ".join(entry.numbers), tools


def _stored(entry: Entry) -> dict[str, str]:
    line = ", ".join(filter(None, (entry.kind, str(entry.year or ""))))
    return {"s": entry.slug, "t": entry.title, "k": line}


@cache
def _cut() -> re.Pattern[str]:
    """White space and punctuation by Unicode's categories Z and P, and line ends."""
    marks = (chr(at) for at in range(0x110000) if unicodedata.category(chr(at))[0] in "ZP")
    return re.compile(f"[\n\r{re.escape(''.join(marks))}]+")


def terms(text: str) -> list[str]:
    """A text as the words that are looked up."""
    return [word.lower() for word in _cut().split(text) if word]


def _json(value: Any) -> str:
    text = json.dumps(value, ensure_ascii=False, separators=(",", ":"))
    return text.replace("\u2028", "\\u2028").replace("\u2029", "\\u2029")
