"""Entries -> the search page, and the index it reads: plain scripts, so that it works from a file.

The index is that of the library (see `assets/README.md`) as it would write it itself, made here so that the
browser only has to read it in. Words are cut as the library cuts them: at white space and punctuation, and put in
lower case.
"""

from __future__ import annotations

import json
import unicodedata
from collections import Counter
from collections.abc import Iterable, Sequence
from typing import Any

from markupsafe import Markup, escape

from guidec.shelf.entry import Entry
from guidec.shelf.layout import Page
from guidec.shelf.pages.cells import Shelf

__all__ = ["FIELDS", "LIBRARY", "index", "pages", "script"]

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
    yield Page("search.html", said("search-title"), lambda: body, said("search-text"), scripts)


def script(entries: Sequence[Entry]) -> bytes:
    """The index as a script: one value, and what the results show."""
    return f"var SHELF_INDEX = {_json(index(entries))};\n".encode()


def index(entries: Sequence[Entry]) -> dict[str, Any]:
    """The index of all guides, in their order, in the library's own form."""
    postings: dict[str, dict[str, dict[str, int]]] = {}
    lengths: dict[str, list[int]] = {}
    totals = [0] * len(FIELDS)
    for own, entry in enumerate(entries):
        lengths[str(own)] = []
        for at, text in enumerate(_fields(entry)):
            words = _cut(text)
            lengths[str(own)].append(len(set(words)))
            totals[at] += len(set(words))
            for term, many in Counter(word.lower() for word in words if word).items():
                postings.setdefault(term, {}).setdefault(str(at), {})[str(own)] = many
    return {
        "documentCount": len(entries),
        "nextId": len(entries),
        "documentIds": {str(own): own for own in range(len(entries))},
        "fieldIds": {name: at for at, name in enumerate(FIELDS)},
        "fieldLength": lengths,
        "averageFieldLength": [total / max(len(entries), 1) for total in totals],
        "storedFields": {str(own): _stored(entry) for own, entry in enumerate(entries)},
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


class _Marks(dict[int, str]):
    """For `translate`: white space and punctuation (Unicode's categories Z and P) and line ends as blanks.

    A character is looked up when it is first met: there are more than a million.
    """

    def __missing__(self, code: int) -> str:
        char = chr(code)
        self[code] = found = " " if char in "\n\r" or unicodedata.category(char)[0] in "ZP" else char
        return found


_MARKS = _Marks()


def _cut(text: str) -> list[str]:
    """A text as the library cuts it: in words, and with an empty one where it begins or ends with a mark."""
    flat = text.translate(_MARKS)
    words = flat.split(" ")
    inner = [word for word in words[1:-1] if word]
    return [*words[:1], *inner, *words[1:][-1:]]


def _json(value: Any) -> str:
    text = json.dumps(value, ensure_ascii=False, separators=(",", ":"))
    return text.replace("\u2028", "\\u2028").replace("\u2029", "\\u2029")
