"""What a shelf keeps of each guide: a small frozen value, from which alone the shared pages and the data are made.

An entry crosses process and machine borders (pickle) and outlives the build (JSON). What only the data needs is
kept packed in `tables`; everything else is plain.
"""

from __future__ import annotations

import hashlib
import json
import zlib
from collections.abc import Mapping
from typing import Any

import msgspec

from guidec.quick import dataclass, replace

__all__ = ["Entry", "Index", "PartRow", "ToolRow", "pack", "seen", "unpack"]

Tables = Mapping[str, list[dict[str, Any]]]


@dataclass(frozen=True, slots=True)
class Index:
    """A repairability index: the method's id, the ends of its range, its class where all of it lies in one."""

    method: str
    low: float
    high: float
    cls: str | None


@dataclass(frozen=True, slots=True)
class PartRow:
    """A part and the way to it. `reached`: `removed`, `exposed`, `moved`, or None where no route is known.

    `adhesives`: how many kinds of glue its route undoes. `tools`: the names of those its route takes. `page`: the
    page of its route guide in the guide's folder, where there is one. `seconds`: hands and waiting.
    """

    id: str
    name: str
    cls: str | None
    qty: int
    number: str | None
    reached: str | None
    steps: int | None
    screws: int | None
    seconds: float | None
    adhesives: int | None
    tools: tuple[str, ...]
    page: str | None


@dataclass(frozen=True, slots=True)
class ToolRow:
    """A tool of a guide. `grade`: how it is had (basic, group, …). `drive`: what it turns, for a driver."""

    id: str
    name: str
    size: str
    grade: str | None
    drive: str | None
    operations: tuple[str, ...]


@dataclass(frozen=True, slots=True)
class Entry:
    """One guide of the shelf.

    `note`: the note's path in the shelf, with `/`. `slug`: the guide's folder, alone on the shelf. `aliases`: the
    slugs it had. `clean`: no errors. `text`: the first words of the note. `picture`: the first one, in the guide's
    folder. `files`: the names of all its files. `screws`: single screws by drive (`` where it is not known).
    `glued`, `removed`: parts that come off, and those of them that glue holds. `hazards`: (signal, text, added).
    `numbers`: of the parts and the device. `tables`: rows for the data, packed (see `unpack`), with the keys

        operations, actions    from the model: `id`, `number`, `title`, …; `id`, `operation`, `verb`, `text`, …
        parts, fasteners, tools, supplies, connectors, adhesives, fastenings, batteries, hazards
                               as in `bom.json`
        routes                 as in `routes.json`, without `actions`, `step_ends`, `skipped` and `turns`
        indices                from `score.json`, where there is one
    """

    slug: str
    note: str
    title: str
    maker: str | None = None
    model: str | None = None
    variant: str | None = None
    year: int | None = None
    kind: str | None = None
    author: str | None = None
    licence: str | None = None
    language: str = "en"
    revision: str | None = None
    date: str | None = None
    aliases: tuple[str, ...] = ()
    clean: bool = True
    draft: bool = False
    errors: int = 0
    warnings: int = 0
    text: str = ""
    picture: str | None = None
    picture_alt: str = ""
    files: tuple[str, ...] = ()
    operations: int = 0
    actions: int = 0
    parts: tuple[PartRow, ...] = ()
    tools: tuple[ToolRow, ...] = ()
    screws: tuple[tuple[str, int], ...] = ()
    glued: int = 0
    removed: int = 0
    hazards: tuple[tuple[str, str, bool], ...] = ()
    numbers: tuple[str, ...] = ()
    index: Index | None = None
    tables: bytes = b""

    @property
    def device(self) -> str:
        """Maker and model, or the title where the note says neither."""
        return " ".join(word for word in (self.maker, self.model, self.variant) if word) or self.title


def pack(tables: Tables) -> bytes:
    """Rows -> the bytes of `Entry.tables`; the same rows give the same bytes."""
    text = json.dumps(tables, ensure_ascii=False, separators=(",", ":"))
    return zlib.compress(text.encode("utf-8", "surrogatepass"), 1)


def unpack(entry: Entry) -> Tables:
    """The rows of an entry, by table; empty where it has none."""
    if not entry.tables:
        return {}
    found: Tables = json.loads(zlib.decompress(entry.tables).decode("utf-8", "surrogatepass"))
    return found


def seen(entry: Entry) -> str:
    """A digest of what the shared pages show of an entry: where it is the same, so are its rows on all of them."""
    shown = replace(entry, tables=b"", text="", aliases=(), files=(), errors=0, warnings=0, picture=None)
    return hashlib.sha256(msgspec.json.encode(shown)).hexdigest()
