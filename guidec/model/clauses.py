"""The words and marks of a list line -> its clauses, each a verb of the lexicon and what follows it.

A line whose first word (leading adverbs skipped) is no verb has no clauses: it is a remark. Further clauses begin
after a connective or a comma with a verb in the form of the first one, so that a participle
("…, holding the lid") does not start one.
"""

from __future__ import annotations

from guidec.model.clause_starts import (
    ASIDE,
    STOPS,
    aside,
    begins,
    first_verb,
    particle_follows,
    readings_at,
    skip,
    word,
)
from guidec.model.last_clauses import Stretch, stretches
from guidec.notes.syntax import Mark, Piece, Word
from guidec.quick import dataclass
from guidec.source import Span
from guidec.trade.lexicon import Lexicon, Sense

__all__ = ["STOPS", "Clause", "aside", "clauses", "nearest_verb", "word"]


@dataclass(frozen=True, slots=True)
class Clause:
    """One action as typed.

    `pieces` are those after the verb, up to the next clause, `words` the same folded for looking up; `lead` are
    those before the verb. `marks`: all marks of the clause, those before its verb too. In a clause that ends with
    its verb, `last` is how many of the pieces stand before the verb, and `outer` are the places of those in
    parentheses or a dependent clause.
    """

    sense: Sense
    verb_span: Span
    lead: tuple[Piece, ...]
    pieces: tuple[Piece, ...]
    words: tuple[str, ...]
    marks: tuple[Mark, ...]
    last: int | None = None
    outer: frozenset[int] = frozenset()

    @property
    def span(self) -> Span:
        """From the verb to the end of the last word or mark that is no aside; all of it where the verb is last."""
        if self.last:
            return self.pieces[0].span.to(self.verb_span)
        for piece in reversed(self.pieces):
            if piece.text not in STOPS if isinstance(piece, Word) else piece.kind not in ASIDE:
                return self.verb_span.to(piece.span)
        return self.verb_span


def folded(pieces: tuple[Piece, ...]) -> tuple[str, ...]:
    """The same of each piece."""
    return tuple(
        [
            "" if not isinstance(piece, Word) or piece.code else piece.text.casefold().replace("’", "'")
            for piece in pieces
        ]
    )


def clauses(pieces: tuple[Piece, ...], lexicon: Lexicon) -> tuple[Clause, ...]:
    """The clauses of a line, or none where it is a remark."""
    words = folded(pieces)
    first = first_verb(pieces, words, lexicon)
    readings = readings_at(words, first, lexicon)
    if lexicon.last is not None:
        ending = stretches(pieces, words, lexicon)
        if ending and (not readings or _ends_rather(words, first, ending[0], readings, lexicon)):
            return _ending(pieces, words, ending, lexicon)
    if not readings:
        return ()
    starts = [(0, first)]
    forms = readings[0].forms.union(*[sense.forms for sense in readings[1:]])
    for at in range(first + 1, len(words)):
        text = words[at]
        if text == "," or text in lexicon.connectives:
            verb = skip(pieces, words, at, lexicon, connectives=True)
            if verb > starts[-1][1] and begins(pieces, words, verb, text, forms, readings, lexicon):
                starts.append((at, verb))
    ends = [start for start, _ in starts[1:]] + [len(pieces)]
    return tuple(
        Clause(
            _choose(words, verb, end, lexicon),
            pieces[verb].span,
            pieces[start:verb],
            pieces[verb + 1 : end],
            words[verb + 1 : end],
            tuple([piece for piece in pieces[start:end] if not isinstance(piece, Word)]),
        )
        for (start, verb), end in zip(starts, ends, strict=True)
    )


def _ends_rather(
    words: tuple[str, ...], first: int, ending: Stretch, readings: tuple[Sense, ...], lexicon: Lexicon
) -> bool:
    """Whether a line whose first word is a verb too ends with one: "Klappe {flap} öffnen", "Lösen und …"."""
    if ending.verb == first:
        return True
    joints = (",", *STOPS)
    within = not any(text in joints or text in lexicon.connectives for text in words[first : ending.verb])
    return within and all("third" not in sense.forms for sense in readings)


def _ending(
    pieces: tuple[Piece, ...],
    words: tuple[str, ...],
    ending: tuple[Stretch, ...],
    lexicon: Lexicon,
) -> tuple[Clause, ...]:
    """The clauses that end with their verbs."""
    out = []
    for number, one in enumerate(ending):
        begin = one.start
        while begin < one.verb and (words[begin] == "," or words[begin] in lexicon.connectives):
            begin += 1
        before = 0 if number == 0 else begin
        places = (*range(begin, one.verb), *range(one.verb + 1, one.end))
        out.append(
            Clause(
                one.sense,
                pieces[one.verb].span,
                pieces[before:begin],
                tuple([pieces[at] for at in places]),
                tuple([words[at] for at in places]),
                tuple([piece for piece in pieces[before : one.end] if not isinstance(piece, Word)]),
                one.verb - begin,
                frozenset(at for at, place in enumerate(places) if place in one.outer),
            )
        )
    return tuple(out)


def _choose(words: tuple[str, ...], verb: int, end: int, lexicon: Lexicon) -> Sense:
    """The reading whose particle is in the clause; else the plain one. Readings with a particle come first."""
    senses = readings_at(words, verb, lexicon)
    for sense in senses:
        if sense.particle is None or particle_follows(words, verb + 1, end, sense.particle, lexicon):
            return sense
    return senses[-1]


def nearest_verb(pieces: tuple[Piece, ...], lexicon: Lexicon) -> tuple[str, Span] | None:
    """A verb further on in a remark that reads like an instruction, with its place; None where there is none.

    Left out are words that a determiner or preposition makes a noun ("the cut", "in test"), and whatever a
    negation in the same sentence turns round ("do not lift").
    """
    words = folded(pieces)
    negated = False
    previous = ""
    for at, text in enumerate(words):
        if text in STOPS:
            negated = False
        negated = negated or text in lexicon.negations
        noun = previous in lexicon.determiners or (previous in lexicon.prepositions and previous != "to")
        if at and not negated and not noun and text in lexicon.senses:
            senses = readings_at(words, at, lexicon)
            if any(_asks(sense, pieces[at], previous, lexicon) for sense in senses):
                return senses[0].verb, pieces[at].span
        previous = text
    return None


def _asks(sense: Sense, piece: Piece, previous: str, lexicon: Lexicon) -> bool:
    """Whether a verb in a remark may be an instruction: no capital that makes it a noun, and nothing put back."""
    if lexicon.last is not None and isinstance(piece, Word) and piece.text[0].isupper() and previous not in STOPS:
        return False
    return "base" in sense.forms and sense.verb not in lexicon.restoring and sense.verb not in lexicon.unasked
