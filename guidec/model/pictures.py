"""Pictures and pins of an operation -> pictures that carry their pins."""

from __future__ import annotations

from collections.abc import Iterable
from dataclasses import dataclass, field, replace

from guidec.model.context import Context
from guidec.model.types import Content, Line, Lines, Pin, Shown
from guidec.notes.kinds import PIN
from guidec.notes.syntax import Inline, Mark, Picture
from guidec.rules.finding import Finding
from guidec.source import Span

__all__ = ["Album", "shows_only"]


@dataclass(slots=True)
class Album:
    """The pictures of an operation as they come, and the pins for each: those that come after it."""

    last: Span | None = None
    pins: dict[Span, list[Pin]] = field(default_factory=dict)

    def take(self, inline: Inline, context: Context) -> list[Content]:
        """The pictures in a stretch of text; its pins are remembered for `pinned`."""
        marks = [mark for mark in inline.marks if mark.kind == PIN]
        both: list[Picture | Mark] = [*inline.pictures, *marks]
        for one in sorted(both, key=lambda found: found.span.start):
            if not isinstance(one, Mark):
                self.last = one.span
            elif self.last is None:
                context.report(Finding.at("M214", one.span))
            else:
                self.pins.setdefault(self.last, []).append(_pin(one, context))
        return [Shown(one.span, one.alt, one.path, one.path_span, one.title) for one in inline.pictures]

    def pinned(self, content: Iterable[Content]) -> tuple[Content, ...]:
        """The content with each picture's pins on it."""
        return tuple(self._pinned(one) for one in content) if self.pins else tuple(content)

    def _pinned(self, one: Content) -> Content:
        if isinstance(one, Shown) and one.span in self.pins:
            return replace(one, pins=tuple(self.pins[one.span]))
        if isinstance(one, Lines):
            return replace(one, lines=tuple(self._line(line) for line in one.lines))
        return one

    def _line(self, line: Line) -> Line:
        return replace(line, content=self.pinned(line.content)) if line.content else line


def _pin(mark: Mark, context: Context) -> Pin:
    thing = context.declared.resolved.get(mark.span)
    ref = replace(context.ref(mark.name, mark.name_span), id=thing or context.declared.find(mark.name))
    if ref.id is None and mark.name and not context.declared.excused(mark.name):
        near = context.declared.nearest(mark.name)
        context.report(Finding.at("M102", mark.name_span, suggest=near, name=mark.name))
    return Pin(mark.span, mark.points, ref)


def shows_only(inline: Inline) -> bool:
    """Whether a paragraph holds pictures and pins, and nothing to read."""
    pins = all(isinstance(piece, Mark) and piece.kind == PIN for piece in inline.pieces)
    return pins and (bool(inline.pictures) or bool(inline.pieces))
