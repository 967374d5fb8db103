"""A guide -> its pictures in note order, each with the operation that it stands in."""

from __future__ import annotations

from collections.abc import Iterable, Iterator

from guidec.model.types import Content, Guide, Lines, Operation, Shown

__all__ = ["placed"]


def placed(guide: Guide) -> Iterator[tuple[Operation | None, Shown]]:
    """All pictures; those before the first operation have none."""
    yield from ((None, shown) for shown in _within(guide.intro))
    for operation in guide.operations:
        yield from ((operation, shown) for shown in _within(operation.content))


def _within(contents: Iterable[Content]) -> Iterator[Shown]:
    for one in contents:
        if isinstance(one, Shown):
            yield one
        elif isinstance(one, Lines):
            for line in one.lines:
                yield from _within(line.content)
