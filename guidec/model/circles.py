"""Things that refer to things -> those that come back to themselves."""

from __future__ import annotations

from collections.abc import Iterator, Mapping

from guidec.model.types import Connector, Fastening, Part, Ref, ScrewSet, Thing
from guidec.rules.finding import Finding

__all__ = ["circular"]


def circular(things: Mapping[str, Thing]) -> Iterator[Finding]:
    """A finding for each thing that names itself in a key, and for each ring of parts that are `in` each other."""
    told: set[str] = set()
    for thing in things.values():
        for key, ref in _refs(thing):
            if ref.id == thing.id:
                told.add(thing.id)
                yield Finding.at("M114", ref.span, name=thing.name, key=key)
    for ring in _rings(things):
        first = things[ring[0]]
        if told & set(ring) or not isinstance(first, Part) or first.inside is None:
            continue
        chain = ", ".join(f"`{things[one].name}`" for one in ring[1:])
        yield Finding.at("M114", first.inside.span, variant="loop", name=first.name, chain=chain)


def _refs(thing: Thing) -> Iterator[tuple[str, Ref]]:
    if isinstance(thing, Part):
        yield from (("under", ref) for ref in thing.under)
        yield from (("sold-with", ref) for ref in thing.sold_with)
        if thing.inside:
            yield "in", thing.inside
    elif isinstance(thing, ScrewSet | Fastening):
        yield from (("holds", ref) for ref in thing.holds)
    elif isinstance(thing, Connector):
        yield from ((key, ref) for key, ref in (("from", thing.from_), ("to", thing.to)) if ref)


def _rings(things: Mapping[str, Thing]) -> Iterator[tuple[str, ...]]:
    """The rings of parts along `in`, each once."""
    done: set[str] = set()
    for start in things.values():
        chain: dict[str, None] = {}
        at: Thing | None = start
        while at is not None and at.id not in done and at.id not in chain:
            chain[at.id] = None
            inside = at.inside.id if isinstance(at, Part) and at.inside else None
            at = things.get(inside) if inside else None
        if at is not None and at.id in chain:
            ids = list(chain)
            yield tuple(ids[ids.index(at.id) :])
        done.update(chain)
