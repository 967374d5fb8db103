"""A note that exists and a new draft -> the note with what is new in the draft, every line of its own untouched.

What the note has is known by time: a line of the draft is old news where the note has a time code or words
heard at
the same second (a heading's does not count). What is new goes behind the last list line of the note that is
told before it. Things that the
note
declares are referred to, not declared again. What would bring an error into the note stays out and is listed.
"""

from __future__ import annotations

import re
from pathlib import Path

from guidec import compile as compiler
from guidec.draft.draft import Drafted
from guidec.draft.note import Row
from guidec.draft.plain import clock
from guidec.edge.load import of_bytes
from guidec.quick import dataclass
from guidec.rules.book import page
from guidec.rules.finding import Severity

__all__ = ["Merged", "merged"]

_STAMP = re.compile(r"@(\d+:\d{2}(?::\d{2})?)(?=[\s:-]|$)")
_ITEM = re.compile(r"^(?:[-*+]|\d+[.)]) ")
_HEADING = re.compile(r"^#{1,2} ")


@dataclass(frozen=True, slots=True)
class Merged:
    """The merged text; how many lines were added, were there already, and (by their words) were left out."""

    text: str
    added: int
    known: int
    left_out: tuple[str, ...]


@dataclass(frozen=True, slots=True)
class _Piece:
    """Lines to add before line `at` (from 0) of the note."""

    at: int
    lines: tuple[str, ...]


def merged(text: str, drafted: Drafted) -> Merged:
    """The note with the draft's new lines. Lines of the note are kept as they are, in their order."""
    note = text.replace("\r\n", "\n").split("\n")
    stamps = {stamp for line in note if not line.startswith("#") for stamp in _STAMP.findall(line)}
    rows = [row for row in drafted.writer.rows if row.role == "line" and row.act is not None]
    fresh = [row for row in rows if not _known(row, stamps)]
    writer = drafted.writer
    writer.keep(_declared(text))
    pieces = [_Piece(_place(note, row), tuple(writer.again(row))) for row in fresh]
    errors = _errors("\n".join(note))
    kept: list[_Piece] = []
    left: list[str] = []
    whole = _with(note, pieces)
    if _errors(whole) <= errors:
        kept = pieces
    else:
        for piece in pieces:
            if _errors(_with(note, [*kept, piece])) <= errors:
                kept.append(piece)
            else:
                left.append(piece.lines[0].strip())
        whole = _with(note, kept)
    return Merged(whole, len(kept), len(rows) - len(fresh), tuple(left))


def _known(row: Row, stamps: set[str]) -> bool:
    assert row.act is not None
    quotes = [row.act.quote, *(thing.quote for thing in row.act.things)]
    return any(clock(quote.start) in stamps for quote in quotes)


def _declared(text: str) -> dict[str, str]:
    """The names that the note declares -> their kind."""
    model = compiler.check(of_bytes("note.md", text.encode("utf-8"), Path())).model
    return (
        {thing.name.casefold(): str(thing.kind) for thing in model.guide.things.values() if not thing.implied}
        if model
        else {}
    )


def _place(note: list[str], row: Row) -> int:
    """The line before which a row goes: behind the last item told before it, else at the end."""
    assert row.act is not None
    place = len(note)
    at = 0
    while at < len(note):
        if not _ITEM.match(note[at]):
            at += 1
            continue
        stop = at + 1
        while (
            stop < len(note)
            and not _ITEM.match(note[stop])
            and not _HEADING.match(note[stop])
            and (note[stop] == "" or note[stop][0] in " \t")
        ):
            stop += 1
        told = [_seconds(stamp) for stamp in _STAMP.findall("\n".join(note[at:stop]))]
        if told and told[0] <= row.act.start:
            while stop > at + 1 and note[stop - 1] == "":
                stop -= 1
            place = stop
        at = max(stop, at + 1)
    return place


def _seconds(stamp: str) -> float:
    total = 0.0
    for part in stamp.split(":"):
        total = total * 60 + float(part)
    return total


def _with(note: list[str], pieces: list[_Piece]) -> str:
    lines: list[str] = []
    for at in range(len(note) + 1):
        for piece in pieces:
            if piece.at == at:
                lines += ["", *piece.lines] if lines and lines[-1] else list(piece.lines)
                while lines and lines[-1] == "" and at < len(note) and note[at] == "":
                    lines.pop()
        if at < len(note):
            lines.append(note[at])
    return "\n".join(lines)


def _errors(text: str) -> int:
    findings = compiler.check(of_bytes("note.md", text.encode("utf-8"), Path())).findings
    return sum((one.severity or page(one.code).severity) is Severity.ERROR for one in findings)
