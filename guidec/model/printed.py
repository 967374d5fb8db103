"""Marks, things and stretches of text -> how they read in a sentence."""

from __future__ import annotations

from collections.abc import Iterable, Mapping

from guidec.model.types import Heat, Measure, Quantity, ScrewSet, Thing, Wait
from guidec.notes.syntax import Piece
from guidec.source import Source, Span
from guidec.trade.units import shown

__all__ = ["screw_notation", "sentence", "text", "thing_text", "value_text"]

_TIGHT_BEFORE = frozenset(",.;:!?)]")


def screw_notation(screws: ScrewSet) -> str:
    """`4 × PH0 M2×6`, as much of it as is known; nothing where nothing is."""
    thread = screws.thread.text.replace("x", "×").replace("X", "×") if screws.thread else ""
    what = " ".join(part for part in ("/".join(screws.drives), thread) if part)
    if screws.count is None:
        return what
    return f"{screws.count} × {what}" if what else f"{screws.count} ×"


def thing_text(thing: Thing) -> str:
    """The name of a thing; a screw set as `4 × PH0 M2×6 (A)`."""
    notation = screw_notation(thing) if isinstance(thing, ScrewSet) else ""
    return f"{notation} ({thing.name})" if notation else thing.name


def value_text(value: Heat | Wait | Measure | Quantity) -> str:
    """A value with SI first and the trade's other units beside it; as typed where it could not be read."""
    if isinstance(value, Quantity):
        return shown(value)
    if isinstance(value, Heat):
        parts = [shown(part) for part in (value.temperature, value.duration) if part]
        return ", ".join(parts) or value.text
    if isinstance(value, Wait):
        return shown(value.duration) if value.duration else value.text
    return " ".join(filter(None, (shown(value.value), value.where))) if value.value else value.text


def text(pieces: Iterable[Piece], source: Source, printed: Mapping[Span, str]) -> str:
    """Words and marks as running text, spaced as in the note, with each mark as it prints."""
    out: list[str] = []
    end: int | None = None
    for piece in pieces:
        shown_as = printed.get(piece.span, piece.text)
        gap = end is not None and any(char.isspace() for char in source.text[end : piece.span.start])
        end = piece.span.end
        if not shown_as:
            continue
        if out and (gap or out[-1] == " ") and shown_as[0] not in _TIGHT_BEFORE:
            out.append(" ")
        out.append(shown_as)
    return "".join(out).replace("  ", " ").strip()


def sentence(pieces: Iterable[Piece], source: Source, printed: Mapping[Span, str]) -> str:
    """The same as a sentence: a capital first, a full stop last, no connective left hanging."""
    words = text(pieces, source, printed).strip(" ,;")
    if not words:
        return ""
    words = words[0].upper() + words[1:]
    return words if words[-1] in ".!?:)" and not words.endswith(":") else words.rstrip(":") + "."
