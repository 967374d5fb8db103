"""The words and marks of a list line -> its clauses, each a verb of the lexicon and what follows it.

A line whose first word (leading adverbs skipped) is no verb has no clauses: it is a remark. Further clauses begin
after a connective or a comma with a verb in the form of the first one, so that a participle
("…, holding the lid") does not start one.
"""

from __future__ import annotations

from dataclasses import dataclass

from guidec.notes.kinds import ABOUT, HEADINGS, PIN, VALUES
from guidec.notes.syntax import Mark, Piece, Word
from guidec.source import Span
from guidec.trade.lexicon import Lexicon, Sense

__all__ = ["STOPS", "Clause", "clauses", "nearest_verb"]

STOPS = frozenset(".:;()[]!?–—")
_ASIDE = frozenset((*ABOUT, *VALUES, *HEADINGS, PIN))


@dataclass(frozen=True, slots=True)
class Clause:
    """One action as typed: `pieces` are those after the verb, up to the next clause; `lead` those before it."""

    sense: Sense
    verb_span: Span
    lead: tuple[Piece, ...]
    pieces: tuple[Piece, ...]

    @property
    def span(self) -> Span:
        """From the verb to the end of the last word or mark that is no aside."""
        ends = [piece.span for piece in self.pieces if not aside(piece) and not _closing(piece)]
        return self.verb_span.to(ends[-1]) if ends else self.verb_span

    @property
    def marks(self) -> tuple[Mark, ...]:
        """All marks of the clause, those before its verb too."""
        return tuple(piece for piece in (*self.lead, *self.pieces) if isinstance(piece, Mark))


def aside(piece: Piece) -> bool:
    """Whether a piece says more about the action without being part of its sentence."""
    return isinstance(piece, Mark) and piece.kind in _ASIDE


def _closing(piece: Piece) -> bool:
    return isinstance(piece, Word) and piece.text in STOPS


def word(piece: Piece) -> str:
    """A word folded for looking up; nothing for a mark or code."""
    return piece.text.casefold().replace("’", "'") if isinstance(piece, Word) and not piece.code else ""


def clauses(pieces: tuple[Piece, ...], lexicon: Lexicon) -> tuple[Clause, ...]:
    """The clauses of a line, or none where it is a remark."""
    first = _skip(pieces, 0, lexicon, connectives=False)
    readings = _senses(pieces, first, lexicon)
    if not readings:
        return ()
    starts = [(0, first)]
    forms = frozenset[str]().union(*(sense.forms for sense in readings))
    for at in range(first + 1, len(pieces)):
        if word(pieces[at]) == "," or word(pieces[at]) in lexicon.connectives:
            verb = _skip(pieces, at, lexicon, connectives=True)
            senses = _senses(pieces, verb, lexicon)
            if verb > starts[-1][1] and any(sense.forms & forms for sense in senses):
                starts.append((at, verb))
    ends = [start for start, _ in starts[1:]] + [len(pieces)]
    return tuple(
        Clause(
            _choose(_senses(pieces, verb, lexicon), pieces[verb + 1 : end], lexicon),
            pieces[verb].span,
            pieces[start:verb],
            pieces[verb + 1 : end],
        )
        for (start, verb), end in zip(starts, ends, strict=True)
    )


def _skip(pieces: tuple[Piece, ...], at: int, lexicon: Lexicon, *, connectives: bool) -> int:
    """The index of the first piece from `at` that is no adverb, aside or (if asked) connective."""
    while at < len(pieces):
        text = word(pieces[at])
        joins = connectives and (text == "," or text in lexicon.connectives)
        comma = text == "," and at > 0 and _adverb(word(pieces[at - 1]), lexicon)
        if not (joins or _adverb(text, lexicon) or comma or aside(pieces[at])):
            break
        at += 1
    return at


def _adverb(text: str, lexicon: Lexicon) -> bool:
    return text in lexicon.adverbs or (text.endswith("ly") and text not in lexicon.senses)


def _senses(pieces: tuple[Piece, ...], at: int, lexicon: Lexicon) -> tuple[Sense, ...]:
    """The readings of the word at `at`; those that ask for a particle only where it follows in the clause."""
    if at >= len(pieces):
        return ()
    return tuple(
        sense
        for sense in lexicon.senses.get(word(pieces[at]), ())
        if sense.particle is None or _particle_follows(pieces[at + 1 :], sense.particle, lexicon)
    )


def _particle_follows(pieces: tuple[Piece, ...], particle: str, lexicon: Lexicon) -> bool:
    """Whether the particle comes at once, or after the object ("Turn the board over")."""
    for piece in pieces:
        text = word(piece)
        if text == particle:
            return True
        if text in STOPS or (text in lexicon.connectives and lexicon.particles_last):
            return False
        preposition = text in lexicon.prepositions and text not in lexicon.particles | lexicon.of
        if preposition and not lexicon.particles_last:
            return False
    return False


def _choose(senses: tuple[Sense, ...], pieces: tuple[Piece, ...], lexicon: Lexicon) -> Sense:
    """The reading whose particle is there; else the plain one. Readings with a particle come first."""
    for sense in senses:
        if sense.particle is None or _particle_follows(pieces, sense.particle, lexicon):
            return sense
    return senses[-1]


def nearest_verb(pieces: tuple[Piece, ...], lexicon: Lexicon) -> tuple[str, Span] | None:
    """A verb further on in a remark that reads like an instruction, with its place; None where there is none.

    Left out are words that a determiner or preposition makes a noun ("the cut", "in test"), and whatever a
    negation in the same sentence turns round ("do not lift").
    """
    negated = False
    previous = ""
    for at, piece in enumerate(pieces):
        text = word(piece)
        if text in STOPS:
            negated = False
        negated = negated or text in lexicon.negations
        senses = _senses(pieces, at, lexicon)
        noun = previous in lexicon.determiners or (previous in lexicon.prepositions and previous != "to")
        if at and not negated and not noun and any("base" in sense.forms for sense in senses):
            return senses[0].verb, piece.span
        previous = text
    return None
