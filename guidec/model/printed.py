"""Marks, things and stretches of text -> how they read in a sentence."""

from __future__ import annotations

import re
from collections.abc import Iterable, Mapping

from guidec.model.counts_said import count_before, counted_name, without_count
from guidec.model.things import Declared
from guidec.model.types import Heat, Kind, Measure, Quantity, ScrewSet, Thing, Wait
from guidec.notes.kinds import ABOUT, HEADINGS, PICTURE
from guidec.notes.syntax import Inline, Mark, Piece, Word
from guidec.source import Source, Span
from guidec.trade.lexicon import Lexicon
from guidec.trade.units import shown, shown_in

__all__ = ["printed_mark", "printed_marks", "screw_notation", "sentence", "text", "thing_text", "value_text"]

_SILENT = frozenset((*ABOUT, *HEADINGS, *PICTURE))
_BESIDE = frozenset(("heat", "wait", "torque"))

_SOLID = re.compile(r"\S*").fullmatch
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
        parts = (value.temperature, value.duration)
    elif isinstance(value, Wait):
        parts = (value.duration, None)
    else:
        parts = (value.value, None)
    known = [part for part in parts if part is not None]
    return shown_in(value.text, sorted(known, key=lambda part: part.span))


def printed_marks(stretches: Iterable[Inline], declared: Declared, lexicon: Lexicon | None) -> dict[Span, str]:
    """How every mark reads where it stands; those inside other marks too.

    A value that follows neither a verb nor a preposition ("with {tool gun} {heat 70 °C}") stands in parentheses.
    """
    printed: dict[Span, str] = {}
    for stretch in stretches:
        beside = False
        counts = False
        for mark in stretch.marks:
            printed[mark.span] = printed_mark(mark, declared)
            for inner in mark.inner:
                printed[inner.span] = printed_mark(inner, declared)
            counts = counts or mark.span in declared.resolved
            beside = beside or (mark.kind in _BESIDE and mark.span in declared.values)
        if counts and lexicon is not None:
            _count_once(stretch, printed, declared, lexicon)
        if beside:
            _set_apart(stretch, printed, declared, lexicon)
    return printed


def _count_once(stretch: Inline, printed: dict[Span, str], declared: Declared, lexicon: Lexicon) -> None:
    """Leave out the counts that the words before a mark have said."""
    for at, piece in enumerate(stretch.pieces):
        own = None if isinstance(piece, Word) else declared.resolved.get(piece.span)
        before = count_before(stretch.pieces, at, lexicon) if own is not None else None
        if own is None or before is None:
            continue
        thing, (number, close) = declared.things[own], before
        if not isinstance(thing, ScrewSet):
            if close and thing.kind not in (Kind.TOOL, Kind.SUPPLY):
                printed[piece.span] = counted_name(thing, number, lexicon)
        elif thing.count is not None:
            times = "× " if close and number.isdecimal() else ""
            printed[piece.span] = times + thing_text(without_count(thing))


def _set_apart(stretch: Inline, printed: dict[Span, str], declared: Declared, lexicon: Lexicon | None) -> None:
    """Put the values of a stretch in parentheses where they are no part of its sentence."""
    before: Piece | None = None
    for piece in stretch.pieces:
        if isinstance(piece, Word):
            before = piece
            continue
        shown_as = printed[piece.span]
        if piece.kind in _BESIDE and piece.span in declared.values and not _leads(before, lexicon):
            shown_as = printed[piece.span] = "(" + shown_as.replace(" (", " / ").replace(")", "") + ")"
        before = piece if shown_as else before


def printed_mark(mark: Mark, declared: Declared) -> str:
    """How a mark reads on its own; one that could not be read prints as typed."""
    thing = declared.resolved.get(mark.span)
    if thing is not None:
        return thing_text(declared.things[thing])
    if mark.span in declared.values:
        return value_text(declared.values[mark.span])
    return "" if mark.kind in _SILENT else mark.text


def _leads(piece: Piece | None, lexicon: Lexicon | None) -> bool:
    """Whether a value after this piece belongs to the sentence as it stands."""
    if lexicon is None or not isinstance(piece, Word):
        return piece is None
    folded = piece.text.casefold()
    return folded in lexicon.prepositions or folded in lexicon.senses or folded in "(,;:"


def text(pieces: Iterable[Piece], source: Source, printed: Mapping[Span, str]) -> str:
    """Words and marks as running text, spaced as in the note, with each mark as it prints."""
    out: list[str] = []
    typed = source.text
    end = len(typed)
    for piece in pieces:
        if isinstance(piece, Word):
            shown_as, (start, stop), _ = piece
        else:
            start, stop = span = piece.span
            shown_as = printed.get(span, piece.text)
        gap = end < start and (typed[end] == " " or not _SOLID(typed, end, start))
        end = stop
        if shown_as:
            out.append(" " + shown_as if gap and out and shown_as[0] not in _TIGHT_BEFORE else shown_as)
    return "".join(out).replace("  ", " ").strip()


def sentence(pieces: Iterable[Piece], source: Source, printed: Mapping[Span, str]) -> str:
    """The same as a sentence: a capital first, a full stop last, no connective left hanging."""
    words = text(pieces, source, printed).strip(" ,;")
    if not words:
        return ""
    words = words[0].upper() + words[1:]
    return words if words[-1] in ".!?" else words.rstrip(":") + "."
