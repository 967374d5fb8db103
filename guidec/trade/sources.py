"""All data files -> where each of their facts comes from; written out, the project's list of sources.

python -m guidec.trade.sources > docs/sources.md
"""

from __future__ import annotations

from collections.abc import Iterator, Mapping
from dataclasses import asdict
from functools import cache
from typing import Any

from guidec.quick import dataclass
from guidec.trade.load import data, names

__all__ = ["STATUSES", "Cited", "explained", "page", "sources"]

STATUSES = {
    "published": "read in the source itself or in a text that quotes it",
    "open data": "taken from an open data package",
    "common practice": "what the trade does; no source is known",
    "from memory": "believed to be in the source named, and not looked up",
    "own assumption": "this project's own choice",
}


@dataclass(frozen=True, slots=True)
class Cited:
    """One source of one data file: what it stands for (`where`, a path of keys), and how far it carries."""

    file: str
    title: str
    where: str
    source: str
    status: str


@cache
def sources() -> tuple[Cited, ...]:
    """Every source named in the data, in the order of the files."""
    return tuple(cited for name in names() for cited in _of_file(name))


def _of_file(name: str) -> Iterator[Cited]:
    content = data(name)
    title = str(content.get("title", name)) if isinstance(content, Mapping) else name
    seen: set[tuple[str, str]] = set()
    for where, source, status in _walk(content, ()):
        if (source, status) not in seen:
            seen.add((source, status))
            yield Cited(f"{name}.yaml", title, " ".join(where), source, status)


def _walk(value: Any, path: tuple[str, ...]) -> Iterator[tuple[tuple[str, ...], str, str]]:
    if isinstance(value, Mapping):
        if isinstance(value.get("source"), str) and isinstance(value.get("status"), str):
            yield path, value["source"], value["status"]
        for key, inner in value.items():
            yield from _walk(inner, (*path, str(key)))
    elif isinstance(value, list):
        for inner in value:
            yield from _walk(inner, (*path, _called(inner)) if _called(inner) else path)


def _called(row: Any) -> str:
    """How a row is told from others: its `name`, `caution`, `id` or the like, where it has one."""
    keys = ("name", "id", "caution", "chemistry", "standard", "number")
    return next((str(row[key]) for key in keys if key in row), "") if isinstance(row, Mapping) else ""


def explained() -> tuple[str, dict[str, Any]]:
    """The list of sources as Markdown and as plain data."""
    return page(), {"statuses": STATUSES, "sources": [asdict(cited) for cited in sources()]}


def page() -> str:
    """The list of sources as Markdown."""
    lines = [
        "# Sources",
        "",
        "What the program knows of the trade stands in data files under `guidec/trade/data/`.",
    ]
    lines += ["Each fact says where it comes from, and how far that can be relied on:", ""]
    lines += [f"- **{status}**: {words}" for status, words in STATUSES.items()]
    for name in names():
        cited = [each for each in sources() if each.file == f"{name}.yaml"]
        if cited:
            lines += ["", f"## {cited[0].title} (`{name}.yaml`)", ""]
            lines += [_line(each) for each in cited]
    return "\n".join(lines) + "\n"


def _line(cited: Cited) -> str:
    where = f"{cited.where}: " if cited.where else ""
    return f"- {where}{cited.source} (*{cited.status}*)"


if __name__ == "__main__":
    print(page(), end="")
