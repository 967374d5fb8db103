"""A clause that names nothing of its own -> what the clause before it in the line acts on, where that is meant.

"Warm {part lid} and lift it off", "… and lift off", "{part lid} anheben und abnehmen": the lid is taken. Something
that is off, open or undone by then is not taken again.
"""

from __future__ import annotations

from collections.abc import Iterable

from guidec.model.clauses import STOPS, Clause, aside
from guidec.model.context import Context
from guidec.model.objects import Roles, Taken
from guidec.model.types import Action, Change, Family
from guidec.notes.syntax import Mark, Piece, Word
from guidec.quick import replace
from guidec.trade.lexicon import Lexicon

__all__ = ["carried", "gone"]

_TAKES = frozenset((Family.UNDO, Family.MOVE))
_GONE = frozenset((Change.OFF, Change.OPEN, Change.UNDONE))


def gone(actions: Iterable[Action]) -> frozenset[str]:
    """The ids of the things that some actions take off, open or undo."""
    return frozenset(
        effect.id
        for action in actions
        for effect in action.effects
        if effect.change in _GONE and not action.partly
    )


def carried(clause: Clause, part: Roles, last: Roles, done: frozenset[str], context: Context) -> Roles:
    """The roles of a clause, with the objects of the one before where it goes on acting on them.

    `last`: the roles of the nearest clause before it that has objects; `done`: what is gone by then.
    """
    lexicon, before, mentioned = context.lexicon, last.objects, last.governed
    if part.objects or not before or lexicon is None or clause.sense.family not in _TAKES:
        return part
    own = _first_sentence(clause)
    if any(mark in own and context.acted_on(mark) for mark in part.loose) or not _goes_on(clause, lexicon):
        return part
    left = tuple(one for one in before if context.declared.resolved.get(one.mark.span) not in done)
    hung = tuple(mark for mark in part.loose if _hangs(clause, mark, lexicon))
    loose = tuple(mark for mark in part.loose if mark not in hung)
    objects = left or _single(clause, before, mentioned, context)
    return replace(part, objects=objects, governed=(*part.governed, *hung), loose=loose)


def _first_sentence(clause: Clause) -> tuple[Piece, ...]:
    """The pieces of a clause up to its first stop ("pry out; it is stuck with {tape}")."""
    end = next((at for at, text in enumerate(clause.words) if text in STOPS), len(clause.pieces))
    return (*clause.lead, *clause.pieces[:end])


def _hangs(clause: Clause, mark: Mark, lexicon: Lexicon) -> bool:
    """Whether a mark stands right behind a preposition."""
    at = clause.pieces.index(mark) if mark in clause.pieces else 0
    return at > 0 and clause.words[at - 1] in lexicon.prepositions


def _single(
    clause: Clause, before: tuple[Taken, ...], mentioned: tuple[Mark, ...], context: Context
) -> tuple[Taken, ...]:
    """The one part that "it" must be, where the clause before undid several of something that it named with it.

    "Undo the {screws} of {lid} and lift it off": the screws would be "them".
    """
    parts = [mark for mark in mentioned if context.kind(mark) == "part"]
    several = all(context.kind(one.mark) in ("screw", "clip") for one in before)
    lexicon = context.lexicon
    if lexicon is None or not several or len(parts) != 1 or lexicon.singular.isdisjoint(clause.words):
        return ()
    return (Taken(parts[0], None),)


def _goes_on(clause: Clause, lexicon: Lexicon) -> bool:
    """Whether a clause has a pronoun where its object would be, or nothing at all."""
    bare, moves = True, clause.sense.verb.split()[0] in lexicon.motions and clause.sense.particle is None
    for at, (piece, text) in enumerate(zip(clause.pieces, clause.words, strict=True)):
        if text in lexicon.pronouns and piece.text != "Sie":
            return True
        if text in lexicon.particles:
            moves = False
        elif _ends(text, lexicon) and (clause.last is None or at >= clause.last):
            break
        elif not _says_how(piece, text, lexicon):
            bare = False
    return bare and not moves


def _ends(text: str, lexicon: Lexicon) -> bool:
    return text in STOPS or text in lexicon.prepositions


def _says_how(piece: Piece, text: str, lexicon: Lexicon) -> bool:
    """Whether a piece is no word for a thing: an adverb, a comma, an aside."""
    if not isinstance(piece, Word):
        return aside(piece)
    return text in lexicon.adverbs or text == "," or text in lexicon.connectives or text.endswith("ly")
