"""Pictures of an operation and the marks on them -> pictures that carry their pins, drawings and crop."""

from __future__ import annotations

from collections.abc import Iterable, Sequence
from dataclasses import field

from guidec.model.context import Context
from guidec.model.types import Content, Crop, Drawn, Line, Lines, Pin, Ref, Shown
from guidec.notes.kinds import PICTURE, PIN
from guidec.notes.syntax import Inline, Mark, Picture
from guidec.quick import dataclass, replace
from guidec.rules.finding import Finding
from guidec.source import Span

__all__ = ["Album", "shows_only"]


@dataclass(slots=True)
class Album:
    """The pictures of an operation as they come, and the marks on each: those that come after it."""

    last: Span | None = None
    marks: dict[Span, list[Pin | Drawn | Crop]] = field(default_factory=dict)

    def take(self, inline: Inline, context: Context) -> list[Content]:
        """The pictures in a stretch of text; the marks on them are remembered for `pinned`."""
        marks = [mark for mark in inline.marks if _on_picture(mark, context)]
        both: list[Picture | Mark] = [*inline.pictures, *marks]
        for one in sorted(both, key=lambda found: found.span.start):
            if not isinstance(one, Mark):
                self.last = one.span
            elif self.last is None:
                context.report(Finding.at("M214", one.span, kind=one.kind))
            else:
                self._add(one, self.marks.setdefault(self.last, []), context)
        return [Shown(one.span, one.alt, one.path, one.path_span, one.title) for one in inline.pictures]

    def _add(self, mark: Mark, known: list[Pin | Drawn | Crop], context: Context) -> None:
        read = _read(mark, context)
        if read is None:
            return
        first = next((one for one in known if isinstance(one, Crop)), None) if isinstance(read, Crop) else None
        if first is None:
            known.append(read)
        else:
            context.report(Finding.at("I104", mark.span, labels={"first": first.span}))

    def pinned(self, content: Iterable[Content]) -> tuple[Content, ...]:
        """The content with each picture's marks on it."""
        return tuple(self._pinned(one) for one in content) if self.marks else tuple(content)

    def _pinned(self, one: Content) -> Content:
        if isinstance(one, Shown) and one.span in self.marks:
            return _with(one, self.marks[one.span])
        if isinstance(one, Lines):
            return replace(one, lines=tuple(self._line(line) for line in one.lines))
        return one

    def _line(self, line: Line) -> Line:
        return replace(line, content=self.pinned(line.content)) if line.content else line


def _on_picture(mark: Mark, context: Context) -> bool:
    """Whether a mark says something of a picture: its kind does, and it is no thing's name as a whole."""
    return mark.kind in PICTURE and mark.span not in context.declared.resolved


def _with(shown: Shown, marks: Sequence[Pin | Drawn | Crop]) -> Shown:
    return replace(
        shown,
        pins=tuple(one for one in marks if isinstance(one, Pin)),
        drawn=tuple(one for one in marks if isinstance(one, Drawn)),
        crop=next((one for one in marks if isinstance(one, Crop)), None),
    )


def _read(mark: Mark, context: Context) -> Pin | Drawn | Crop | None:
    """What a mark says; None where it could not be read, which has been said."""
    if mark.kind == PIN:
        return Pin(mark.span, mark.points, _named(mark, context)) if mark.points else None
    if len(mark.points) < 2:
        return None
    if mark.kind == "crop":
        across, down = zip(*mark.points[:2], strict=True)
        return Crop(mark.span, min(across), min(down), max(across), max(down))
    known = context.declared.find(mark.name) if mark.name else None
    thing = Ref(mark.name, mark.name_span, known) if known else None
    return Drawn(mark.span, mark.kind, mark.points, mark.name, thing)


def _named(mark: Mark, context: Context) -> Ref:
    """The thing of a pin. A name that nobody declares is reported."""
    declared = context.declared
    ref = context.ref(mark.name, mark.name_span)
    if ref.id is None and mark.name and not declared.excused(mark.name):
        context.report(Finding.at("M102", ref.span, suggest=declared.nearest(mark.name), name=ref.name))
    return ref


def shows_only(inline: Inline) -> bool:
    """Whether a paragraph holds pictures and marks on them, and nothing to read."""
    marks = all(isinstance(piece, Mark) and piece.kind in PICTURE for piece in inline.pieces)
    return marks and (bool(inline.pictures) or bool(inline.pieces))
