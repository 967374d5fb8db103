"""A clause -> its objects, the shares they are taken in, and the marks it only mentions.

Objects follow the verb in a row ("{a}, {b} and the small {c}"), with articles, adjectives or a share between.
A preposition (but for "of"), a stop or a linking word ends the row; a particle may come behind it.
"""

from __future__ import annotations

from collections.abc import Callable

from guidec.model.clauses import STOPS, Clause, aside, word
from guidec.notes.syntax import Mark, Piece, Word
from guidec.quick import dataclass
from guidec.source import Span
from guidec.trade.lexicon import Lexicon

__all__ = ["Bare", "Roles", "Share", "Taken", "is_share", "of_share", "roles", "share"]


@dataclass(frozen=True, slots=True)
class Share:
    """How much of a set is taken: `all`, `count`, `all_but` (with `count`) or `rest`."""

    how: str
    count: int
    span: Span


@dataclass(frozen=True, slots=True)
class Taken:
    """An object: its mark, and the share of it."""

    mark: Mark
    share: Share | None


@dataclass(frozen=True, slots=True)
class Bare:
    """Words in an object's place, without braces: the id of the thing of that name, or the kind of what they are.

    `line` is the span of their line, `verb` the verb as the lexicon has it.
    """

    span: Span
    verb: str
    line: Span
    thing: str = ""
    kind: str = ""


@dataclass(frozen=True, slots=True)
class Roles:
    """`objects` of a clause, and its other thing marks: `governed` ones stand behind a preposition or the like.

    Where nothing is taken, what stands behind "with" is loose: it may be the object ("lift with care {lid}").
    """

    objects: tuple[Taken, ...]
    governed: tuple[Mark, ...]
    loose: tuple[Mark, ...]


def roles(clause: Clause, lexicon: Lexicon, acted_on: Callable[[Mark], bool]) -> Roles:
    """The roles of a clause's marks. `acted_on`: whether a mark is a thing other than a tool or supply."""
    both = zip(clause.pieces, clause.words, strict=True)
    pairs = [(piece, text) for piece, text in both if text or not aside(piece)]
    own = clause.sense.particle
    if own is not None:
        at = next((at for at, (_, text) in enumerate(pairs) if text == own), None)
        if at is not None and not _governs_rest(pairs, at, lexicon, acted_on):
            pairs = [*pairs[:at], *pairs[at + 1 :]]
    objects, end = _objects(pairs, lexicon, acted_on)
    governed: list[Mark] = []
    loose: list[Mark] = []
    for part in ([(piece, word(piece)) for piece in clause.lead], pairs[end:]):
        under, means, before, denied = False, False, "", False
        for piece, text in part:
            denied = text in lexicon.negations or (denied and text not in STOPS)
            if denied and isinstance(piece, Mark):
                governed += [piece] if acted_on(piece) else []
            elif isinstance(piece, Word):
                under = _governs(text, before, under, lexicon)
                means = text in lexicon.instruments or (means and text not in lexicon.prepositions)
                before = text
            elif acted_on(piece):
                (governed if under and (objects or not means) else loose).append(piece)
    return Roles(tuple(objects), tuple(governed), tuple(loose))


def _governs_rest(
    pairs: list[tuple[Piece, str]], at: int, lexicon: Lexicon, acted_on: Callable[[Mark], bool]
) -> bool:
    """Whether a particle behind the object is a preposition of what follows ("roll {belt} off the {pulley}")."""
    named = any(isinstance(piece, Mark) and acted_on(piece) for piece, _ in pairs[:at])
    return named and pairs[at][1] in lexicon.prepositions and not _particle_ends(pairs, at, lexicon)


def _governs(text: str, before: str, under: bool, lexicon: Lexicon) -> bool:
    """Whether what follows the word depends on a preposition or a linking word; a verb's particle is none."""
    if text in lexicon.particles and before in lexicon.senses:
        return under
    if text in lexicon.prepositions or text in lexicon.of or text == "(" or _links(text, lexicon):
        return True
    return under and text not in STOPS


def _links(text: str, lexicon: Lexicon) -> bool:
    """Whether a word hangs what follows on what came before ("holding", "that carries")."""
    return text in lexicon.linking or text in lexicon.gerunds


def _objects(
    pairs: list[tuple[Piece, str]], lexicon: Lexicon, acted_on: Callable[[Mark], bool]
) -> tuple[list[Taken], int]:
    """The objects, and the index of the piece that ends them. `pairs`: pieces with their folded words."""
    found: list[Taken] = []
    between: list[Word] = []
    joined = True
    for at, (piece, text) in enumerate(pairs):
        if not isinstance(piece, Word):
            if not acted_on(piece):
                continue
            if not joined:
                return found, at
            found.append(Taken(piece, share(between, lexicon) if between else None))
            between, joined = [], False
        elif text == "," or text in lexicon.connectives:
            joined = True
        elif text in STOPS or (found and text in lexicon.of) or _links(text, lexicon):
            return found, at
        elif text in lexicon.particles:
            if not _particle_ends(pairs, at, lexicon) if found else _governed_noun(text, between, lexicon):
                return found, at
        elif ((text in lexicon.prepositions and text not in lexicon.of) or not joined) and not of_share(
            text, between, lexicon
        ):
            return found, at
        else:
            between.append(piece)
    return found, len(pairs)


def of_share(text: str, between: list[Word], lexicon: Lexicon) -> bool:
    """Whether a preposition belongs to the words of a share ("all but 1 of")."""
    phrases = [phrase for phrase in lexicon.shares["all_but"] if text in phrase]
    if not phrases:
        return False
    words = (*(word(piece) for piece in between), text)
    return any(words[-size:] == phrase[:size] for phrase in phrases for size in range(2, len(phrase) + 1))


def _governed_noun(text: str, between: list[Word], lexicon: Lexicon) -> bool:
    """Whether what may be a particle hangs what follows on an object without a mark ("the tape over …")."""
    return text in lexicon.prepositions and any(word(piece) in lexicon.determiners for piece in between)


def _particle_ends(pairs: list[tuple[Piece, str]], at: int, lexicon: Lexicon) -> bool:
    """Whether a particle behind an object closes it ("slide {fan} out") and is no preposition of what follows."""
    text = pairs[at + 1][1] if at + 1 < len(pairs) else "."
    return text in STOPS or text == "," or text in lexicon.connectives or text in lexicon.particles


def share(between: list[Word], lexicon: Lexicon) -> Share | None:
    """The share that the words before a mark speak of, if any."""
    words = [word(piece) for piece in between]
    if not words:
        return None
    span = between[0].span.to(between[-1].span)
    for phrase in lexicon.shares["all_but"]:
        at = _find(words, phrase)
        number = _number(words[at + len(phrase)], lexicon) if 0 <= at < len(words) - len(phrase) else None
        if number is not None:
            return Share("all_but", number, span)
    numbers = [(at, _number(text, lexicon)) for at, text in enumerate(words)]
    counted = next(((at, number) for at, number in numbers if number is not None), None)
    if counted is not None and (_parts(lexicon).intersection(words[counted[0] :]) or _bare(words, lexicon)):
        return Share("count", counted[1] or 0, span)
    for how in ("rest", "both", "all"):
        if any(_find(words, phrase) >= 0 for phrase in lexicon.shares[how]):
            return Share("count", 2, span) if how == "both" else Share(how, 0, span)
    return None


def _parts(lexicon: Lexicon) -> frozenset[str]:
    """The words behind a number that make it a share: "2 of", "zwei von", "zwei der"."""
    return lexicon.of | lexicon.last.genitive if lexicon.last else lexicon.of


def is_share(between: list[Word], lexicon: Lexicon) -> bool:
    """Whether the words before an "of" tell how many ("2 von", "alle von", "keine der")."""
    text = word(between[-1]) if between else ""
    return _number(text, lexicon) is not None or any((text,) in phrases for phrases in lexicon.shares.values())


def _bare(words: list[str], lexicon: Lexicon) -> bool:
    """A number straight before a mark ("undo the 2 {screw A}"), not an article read as one."""
    return words[-1].isdigit() or (words[-1] in lexicon.numbers and words[-1] not in lexicon.determiners)


def _number(text: str, lexicon: Lexicon) -> int | None:
    if text.isascii() and text.isdigit() and len(text) <= 6:
        return int(text)
    return lexicon.numbers.get(text)


def _find(words: list[str], phrase: tuple[str, ...]) -> int:
    """Where a phrase stands in a list of words, or -1."""
    width = len(phrase)
    return next((at for at in range(len(words) - width + 1) if tuple(words[at : at + width]) == phrase), -1)
