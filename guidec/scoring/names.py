"""A name in an answer -> the classes of part that it means: by a method's words, the classes, the note's parts."""

from __future__ import annotations

from collections.abc import Iterator, Mapping
from typing import Any

from guidec.model.types import Guide, Part
from guidec.scoring.method import Method, PriorityPart
from guidec.trade.classes import part_classes, propose_class
from guidec.trade.likeness import fold

__all__ = ["all_names", "classes_named", "for_part", "listed", "names_of", "parts_named", "rows_named"]

EVERY = frozenset({"all", "all parts", "every part", "all priority parts", "everything", "alle", "alle teile"})
NONE = frozenset({"none", "no", "nothing", "keine", "nichts"})
BOTH = {
    "camera": frozenset({"camera-front", "camera-rear"}),
    "cameras": frozenset({"camera-front", "camera-rear"}),
    "both cameras": frozenset({"camera-front", "camera-rear"}),
    "kamera": frozenset({"camera-front", "camera-rear"}),
    "kameras": frozenset({"camera-front", "camera-rear"}),
}


def listed(value: Any) -> list[str]:
    """A list, or a comma list in one string, as names without white space around them."""
    if isinstance(value, str):
        value = value.split(",")
    items = value if isinstance(value, list | tuple) else [] if value is None else [value]
    return [" ".join(str(item).split()) for item in items if str(item).strip()]


def names_of(row: PriorityPart) -> frozenset[str]:
    """All names by which an answer may call a priority part, folded."""
    return frozenset({fold(row.id), row.cls, *(fold(name) for name in row.name.by_language.values()), *row.also})


def classes_named(name: str, method: Method | None, guide: Guide) -> frozenset[str] | None:
    """The classes that a name means; None for one that means nothing. `all` is every class there is."""
    folded = fold(name)
    every = frozenset(part_classes()) if method is None else frozenset(row.cls for row in method.parts)
    if folded in EVERY:
        return every
    if folded in NONE:
        return frozenset()
    if folded in BOTH:
        return BOTH[folded]
    own = frozenset(row.cls for row in method.parts if folded in names_of(row)) if method else frozenset()
    if own or folded in part_classes():
        return own or frozenset({folded})
    parts = parts_named(name, guide)
    classes = frozenset(part.cls or "other" for part in parts)
    if classes:
        return classes
    proposed = propose_class(name, guide.meta.language)
    return frozenset({proposed}) if proposed else None


def parts_named(name: str, guide: Guide) -> tuple[Part, ...]:
    """The parts of the note of that name or id."""
    folded = fold(name)
    things = guide.things.values()
    return tuple(one for one in things if isinstance(one, Part) and folded in (one.id, fold(one.name)))


def rows_named(name: str, method: Method, guide: Guide) -> tuple[PriorityPart, ...]:
    """The priority parts that a name means."""
    classes = classes_named(name, method, guide) or frozenset()
    return tuple(row for row in method.parts if row.cls in classes)


def all_names(method: Method | None, guide: Guide) -> Iterator[str]:
    """What can be written where a part or a class is asked for."""
    yield from part_classes()
    for row in method.parts if method else ():
        yield from row.name.by_language.values()
    yield from (thing.name for thing in guide.things.values() if isinstance(thing, Part))
    yield "cameras"


def for_part(said: Any, part: Part, method: Method | None, guide: Guide) -> Any:
    """The value of a mapping from parts to values for one part: by its name first, then by its class.

    What is no mapping is said of every part.
    """
    if not isinstance(said, Mapping):
        return said
    found = None
    for name, value in said.items():
        if fold(str(name)) in (part.id, fold(part.name)):
            return value
        if (part.cls or "other") in (classes_named(str(name), method, guide) or ()):
            found = value
    return found
