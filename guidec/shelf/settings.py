"""The text of `shelf.yaml` -> the settings of a shelf, and what is wrong with it, each at its key or value."""

from __future__ import annotations

from collections.abc import Iterator, Mapping
from functools import cache
from importlib.util import find_spec
from typing import Any

import jsonschema_rs

from guidec.messages.diagnostic import Diagnostic, diagnose
from guidec.notes.syntax import Located
from guidec.notes.yaml_tree import BrokenError, located
from guidec.quick import dataclass
from guidec.rules.finding import Finding
from guidec.schemas import schema
from guidec.shelf.contrast import LEAST, contrast
from guidec.shelf.inputs import Folder
from guidec.source import Source, Span
from guidec.trade.licences import meant, unknown_in
from guidec.trade.likeness import nearest

__all__ = ["COLOURS", "NAME", "Settings", "read", "settings_of"]

NAME = "shelf.yaml"
SCHEMA = "shelf.schema.json"

COLOURS: Mapping[str, Mapping[str, str]] = {
    "light": {"paper": "#ffffff", "ink": "#14171a", "link": "#0a4c9a", "soft": "#4a5056"},
    "dark": {"paper": "#14171a", "ink": "#e9e7e2", "link": "#8fbdf3", "soft": "#b3b6b8"},
}
"""The colours where a shelf sets none; `soft`, that of labels, is not to be set."""

_SYNONYMS = {
    "license": "licence",
    "name": "title",
    "url": "address",
    "site": "address",
    "lang": "languages",
    "language": "languages",
    "colors": "colours",
    "exclude": "leave-out",
    "ignore": "leave-out",
    "folder": "notes",
}


@dataclass(frozen=True, slots=True)
class Settings:
    """The settings of a shelf. `address`: without a slash at its end, or None; `colours`: those that were set."""

    title: str
    description: str = ""
    address: str | None = None
    languages: tuple[str, ...] = ("en",)
    licence: str | None = None
    author: str | None = None
    notes: str = "."
    leave_out: tuple[str, ...] = ()
    pages: tuple[str, ...] = ()
    header: str = ""
    footer: str = ""
    errors: str = "keep-old"
    drafts: str = "refuse"
    pdf: bool = True
    parquet: bool = False
    colours: tuple[tuple[str, str, str], ...] = ()


def settings_of(folder: Folder) -> tuple[Settings, tuple[Diagnostic, ...]]:
    """The settings of a folder, and what is wrong with its `shelf.yaml`; the usual ones where it has none."""
    title = folder.title or "Shelf"
    data = folder.read(NAME)
    if data is None:
        return Settings(title), ()
    source = Source.of(NAME, data.decode("utf-8", errors="replace"))
    settings, findings = read(source, title)
    return settings, diagnose(source, findings)


def read(source: Source, title: str) -> tuple[Settings, tuple[Finding, ...]]:
    """The settings, as far as they can be read. `title`: what the shelf is called where it does not say."""
    try:
        tree, findings = located(source.text, 0)
    except BrokenError as broken:
        at = min(broken.offset, max(len(source.text) - 1, 0))
        return Settings(title), (Finding.at("B101", Span(at, at + 1)),)
    if tree.value is None:
        return Settings(title), findings
    if not isinstance(tree.value, Mapping):
        return Settings(title), (Finding.at("B101", tree.span, variant="kind"),)
    wrong = [*findings, *_faults(tree), *_licence(tree.get("licence")), *_parquet(tree.get("parquet"))]
    bad = {_top(tree, finding.span) for finding in wrong}
    good = {key: entry.value.plain() for key, entry in tree.value.items() if key not in bad}
    settings = _settings(good, title)
    return settings, (*wrong, *_contrasts(tree, settings))


def _settings(good: Mapping[str, Any], title: str) -> Settings:
    values = {key.replace("-", "_"): value for key, value in good.items()}
    for key in ("languages", "leave_out", "pages"):
        if key in values:
            values[key] = tuple(values[key])
    if "address" in values:
        values["address"] = values["address"].rstrip("/")
    schemes = values.pop("colours", {})
    colours = tuple((scheme, name, one.lower()) for scheme in schemes for name, one in schemes[scheme].items())
    return Settings(**{"title": title, **values, "colours": colours})


def _top(tree: Located, span: Span) -> str | None:
    """The key of the file within which a place lies."""
    entries = tree.value if isinstance(tree.value, Mapping) else {}
    inside = [key for key, one in entries.items() if one.key_span.start <= span.start <= one.value.span.end]
    return inside[-1] if inside else None


# ---------------------------------------------------------------- faults


@cache
def _validator() -> Any:
    return jsonschema_rs.Draft202012Validator(schema(SCHEMA))


def _faults(tree: Located) -> Iterator[Finding]:
    for error in _validator().iter_errors(tree.plain()):
        path = tuple(error.instance_path)
        unexpected = getattr(error.kind, "unexpected", None)
        place, key_span, part = _at(tree, path)
        if unexpected is None:
            yield _wrong(place, key_span, part, path)
            continue
        entries = place.value if isinstance(place.value, Mapping) else {}
        known = [*part.get("properties", {})]
        for key in unexpected:
            near = nearest(key.replace("_", "-"), known) or tuple(filter(None, [_SYNONYMS.get(key)]))
            names = ", ".join(f"`{name}`" for name in known)
            yield Finding.at("B102", entries[key].key_span, suggest=near, key=key, known=names)


def _at(tree: Located, path: tuple[Any, ...]) -> tuple[Located, Span, Mapping[str, Any]]:
    """The value at a path, the place of its key, and the part of the schema that it has to fit."""
    whole = schema(SCHEMA)
    place, span, part = tree, tree.span, whole
    for step in path:
        value = place.value
        if isinstance(value, Mapping) and step in value:
            place, span = value[step].value, value[step].key_span
            part = part.get("properties", {}).get(step, {})
        elif isinstance(value, tuple):
            place, part = value[step], part.get("items", {})
        if "$ref" in part:
            part = whole["$defs"][part["$ref"].rpartition("/")[2]]
    return place, span, part


def _wrong(place: Located, key_span: Span, part: Mapping[str, Any], path: tuple[Any, ...]) -> Finding:
    key = ".".join(str(step) for step in path if isinstance(step, str))
    span = key_span if isinstance(place.value, (Mapping, tuple)) or not place.typed else place.span
    words = [one for one in part.get("enum", ()) if isinstance(one, str)]
    near = nearest(place.typed, words) if place.typed and words else ()
    expected = part.get("description", "something else")
    return Finding.at("B103", span, suggest=near, key=key, expected=expected)


def _licence(place: Located | None) -> Iterator[Finding]:
    if place is not None and isinstance(place.value, str):
        for unknown in unknown_in(place.value):
            yield Finding.at("B104", place.span, suggest=meant(unknown), licence=unknown)


def _parquet(place: Located | None) -> Iterator[Finding]:
    """Asked for, and what writes it is not installed."""
    if place is not None and place.value is True and find_spec("pyarrow") is None:
        yield Finding.at("B115", place.span)


def _contrasts(tree: Located, settings: Settings) -> Iterator[Finding]:
    """Text that would be hard to read on its paper: each colour that was set, against the others of its scheme."""
    for scheme, usual in COLOURS.items():
        own = {name: colour for where, name, colour in settings.colours if where == scheme}
        used = {**usual, **own}
        for name in ("ink", "link", "soft"):
            found = contrast(used[name], used["paper"])
            if found < LEAST and {name, "paper"} & own.keys():
                place = _colour(tree, scheme, name if name in own else "paper")
                facts: dict[str, Any] = {
                    "name": name,
                    "colour": used[name],
                    "paper": used["paper"],
                    "scheme": scheme,
                }
                yield Finding.at("B105", place, found=f"{int(found * 10) / 10:.1f}", least=f"{LEAST}", **facts)


def _colour(tree: Located, scheme: str, name: str) -> Span:
    place: Located | None = tree
    for key in ("colours", scheme, name):
        place = place.get(key) if place else None
    return place.span if place else tree.span
