"""A stretch of text -> the same, with each mark that names a thing by its whole wording read as that name.

`{side key}` is the side key where one is declared, and no word on sides.
"""

from __future__ import annotations

from guidec.model.context import Context
from guidec.notes.kinds import THINGS
from guidec.notes.syntax import Inline, Mark, Piece
from guidec.quick import replace

__all__ = ["settled"]


def settled(inline: Inline, context: Context) -> Inline:
    """The stretch with such marks as plain references."""
    for mark in inline.marks:
        if _names_whole(mark, context):
            return _with_names(inline, context)
    return inline


def _with_names(inline: Inline, context: Context) -> Inline:
    pieces = tuple(
        replace(piece, kind="") if isinstance(piece, Mark) and _names_whole(piece, context) else piece
        for piece in inline.pieces
    )
    return replace(inline, pieces=pieces)


def _names_whole(piece: Piece, context: Context) -> bool:
    if not isinstance(piece, Mark) or not piece.kind or piece.kind in THINGS:
        return False
    return piece.span in context.declared.resolved
