"""A guide -> `guide.json`: the whole model, each fact with the place in the note that it comes from.

The form is described by `schema/guide.schema.json`. The same guide gives the same bytes; each item of the long
lists stands on a line of its own, so that two revisions compare line by line.
"""

from __future__ import annotations

import math
from collections.abc import Iterator, Mapping, Sequence
from typing import Any

from guidec.model.types import Guide
from guidec.notes.syntax import Located
from guidec.outputs.json_line import exact, json_line
from guidec.outputs.jsonable import Encoder
from guidec.plan.cautions import Placed

__all__ = ["FORMAT", "VERSION", "as_data", "dumped", "encode"]

FORMAT = "guidec guide"
VERSION = 1
_META = frozenset({"front"})


def encode(guide: Guide, cautions: Sequence[Placed] = (), *, clean: bool = True) -> bytes:
    """The bytes of `guide.json`. `cautions`: what the compiler adds; `clean`: whether the note has no error."""
    return dumped(_sections(guide, cautions, clean))


def as_data(guide: Guide, cautions: Sequence[Placed] = (), *, clean: bool = True) -> dict[str, Any]:
    """The guide as plain data, as the schema describes it."""
    sections = _sections(guide, cautions, clean)
    return {key: list(value) if isinstance(value, Iterator) else value for key, value in sections.items()}


def _sections(guide: Guide, cautions: Sequence[Placed], clean: bool) -> dict[str, Any]:
    """The parts of the document; the long ones as iterators, so that a large guide is never held twice."""
    encoder = Encoder(guide)
    return {
        "format": FORMAT,
        "version": VERSION,
        "clean": clean,
        "note": {"name": guide.source.name, "lines": len(guide.source.line_starts)},
        "meta": _meta(encoder, guide),
        "things": (encoder(thing) for thing in guide.things.values()),
        "operations": (encoder(operation) for operation in guide.operations),
        "actions": (encoder(action) for action in guide.actions.values()),
        "isolating": list(guide.isolating),
        "hazards": (encoder(hazard) for hazard in guide.hazards),
        "cautions": (encoder(caution) for caution in cautions),
        "intro": (encoder(content) for content in guide.intro),
        "marks": _marks(encoder, guide),
        "front_matter": _json_safe(guide.meta.front.plain()),
        "front_matter_places": _front_places(encoder, guide.meta.front, ""),
    }


def dumped(sections: Mapping[str, Any]) -> bytes:
    """An object as JSON: a line for each key, and for each item of a list of objects or of an iterator."""
    lines = []
    for key, value in sections.items():
        long = isinstance(value, Iterator) or (isinstance(value, list) and value and isinstance(value[0], dict))
        items = b",\n  ".join(map(json_line, value)) if long else b""
        held = b"[\n  %b\n ]" % items if items else json_line([] if long else value)
        lines.append(b" %b: %b" % (json_line(key), held))
    return b"{\n%b\n}\n" % b",\n".join(lines)


def _meta(encoder: Encoder, guide: Guide) -> dict[str, Any]:
    data = encoder.fields(guide.meta, without=_META)
    data["subject"]["identifiers"] = {
        str(key): str(one) for key, one in dict(guide.meta.subject.identifiers).items()
    }
    data["quiet"] = dict(guide.meta.quiet)
    data["scoring"] = _json_safe(dict(guide.meta.scoring))
    return data


def _json_safe(value: Any) -> Any:
    """Front matter as JSON can hold it: keys as text, a value that JSON has not as it prints."""
    if isinstance(value, Mapping):
        return {str(key): _json_safe(one) for key, one in value.items()}
    if isinstance(value, list | tuple):
        return [_json_safe(one) for one in value]
    if isinstance(value, float):
        return exact(value) if math.isfinite(value) else str(value)
    return value if value is None or isinstance(value, bool | int | float | str) else str(value)


def _front_places(encoder: Encoder, located: Located, pointer: str) -> Iterator[dict[str, Any]]:
    """The place of each key and item of the front matter, by its JSON pointer (RFC 6901)."""
    if isinstance(located.value, Mapping):
        for key, entry in located.value.items():
            inner = f"{pointer}/{str(key).replace('~', '~0').replace('/', '~1')}"
            key_place, place = encoder.place(entry.key_span), encoder.place(entry.value.span)
            yield {"pointer": inner, "key_place": key_place, "place": place}
            yield from _front_places(encoder, entry.value, inner)
    elif isinstance(located.value, tuple):
        for at, item in enumerate(located.value):
            yield {"pointer": f"{pointer}/{at}", "key_place": None, "place": encoder.place(item.span)}
            yield from _front_places(encoder, item, f"{pointer}/{at}")


def _marks(encoder: Encoder, guide: Guide) -> Iterator[dict[str, Any]]:
    """Every mark that names a thing, in note order, and how it prints."""
    for span in sorted(guide.resolved):
        yield {"thing": guide.resolved[span], "text": guide.printed.get(span, ""), "place": encoder.place(span)}
