"""A clause that ends with its verb -> its objects and the marks it only mentions.

The order of such a clause is free ("mit {tool card} den {part lid} vom {part frame} abheben"), so a thing's place
tells nothing; what stands before it does. A preposition governs the noun or mark that follows, a genitive hangs on
the noun before, and whatever is left is acted on.
"""

from __future__ import annotations

import re
from collections.abc import Callable
from dataclasses import field

from guidec.model.clauses import Clause, aside, word
from guidec.model.objects import Roles, Taken, is_share, of_share, share
from guidec.notes.syntax import Mark, Word
from guidec.quick import dataclass
from guidec.trade.lexicon import LastVerbs, Lexicon

__all__ = ["last_roles"]

_ATTRIBUTIVE = re.compile(r"\w+end(?:e[nmrs]?)")


@dataclass(slots=True)
class _Phrase:
    """The phrase being read. `under`: the word that governs it, `filled`: it has its noun; `head`: it has a noun
    that nothing governs; `between`: the words since it began; `nouns`: such a noun stands alone, without a mark;
    `hung`: the phrase hangs on one."""

    under: str = ""
    filled: bool = False
    head: bool = False
    between: list[Word] = field(default_factory=list)
    taken: list[Taken] = field(default_factory=list)
    perhaps: list[Taken] = field(default_factory=list)
    governed: list[Mark] = field(default_factory=list)
    nouns: bool = False
    hung: bool = False


def last_roles(clause: Clause, lexicon: Lexicon, acted_on: Callable[[Mark], bool]) -> Roles:
    """The roles of the marks of a clause that ends with its verb."""
    last = lexicon.last
    if last is None:
        return Roles((), (), ())
    phrase = _Phrase()
    pieces = clause.pieces
    for at, piece in enumerate(pieces[: clause.last]):
        if at in clause.outer:
            phrase.governed += [piece] if isinstance(piece, Mark) and acted_on(piece) else []
        elif isinstance(piece, Word):
            _word(phrase, piece, clause.words[at], lexicon, last)
        elif not aside(piece):
            following = clause.words[at + 1] if at + 1 < len(pieces) else ""
            attribute = _ATTRIBUTIVE.fullmatch(following) is not None
            _mark(phrase, piece, attribute, lexicon, acted_on)
    taken = phrase.taken or ([] if phrase.nouns else phrase.perhaps)
    dropped = [one.mark for one in phrase.perhaps if one not in taken]
    loose = _behind(clause, phrase, lexicon, acted_on)
    return Roles(tuple(taken), (*phrase.governed, *dropped), loose)


def _word(phrase: _Phrase, piece: Word, text: str, lexicon: Lexicon, last: LastVerbs) -> None:
    if text == "," or text in lexicon.connectives:
        phrase.between = []
        phrase.filled = False
        phrase.head = False
    elif _in_share(text, phrase.between, lexicon, last):
        phrase.between.append(piece)
    elif text in lexicon.prepositions or text in lexicon.of:
        phrase.under, phrase.filled, phrase.between = text, False, []
    elif text in lexicon.determiners:
        _determiner(phrase, piece, text, last)
    elif piece.text[0].isupper() and text not in lexicon.adverbs and not _counts(text, lexicon):
        _noun(phrase, piece)
    else:
        if phrase.under and phrase.filled:
            phrase.under = ""
        phrase.between.append(piece)


def _in_share(text: str, between: list[Word], lexicon: Lexicon, last: LastVerbs) -> bool:
    """Whether a small word belongs to a share ("2 von", "zwei der", "alle bis auf")."""
    of = text in lexicon.of or text in last.genitive
    return (of and is_share(between, lexicon)) or of_share(text, between, lexicon)


def _counts(text: str, lexicon: Lexicon) -> bool:
    """Whether a word tells how many ("Zwei …", "Alle …")."""
    return text in lexicon.numbers or any((text,) in phrases for phrases in lexicon.shares.values())


def _determiner(phrase: _Phrase, piece: Word, text: str, last: LastVerbs) -> None:
    hangs = text in last.genitive and (phrase.filled or phrase.head)
    phrase.hung = hangs and not phrase.under
    if hangs or (text in last.dative and not phrase.under):
        phrase.under, phrase.filled = text, False
    elif phrase.filled:
        phrase.under, phrase.filled = "", False
    phrase.head = False
    phrase.between = [piece]


def _noun(phrase: _Phrase, piece: Word) -> None:
    """A noun without a mark."""
    if phrase.under and not phrase.filled:
        phrase.filled = True
    else:
        phrase.under, phrase.head, phrase.nouns = "", True, True
        phrase.between.append(piece)


def _mark(
    phrase: _Phrase, mark: Mark, attribute: bool, lexicon: Lexicon, acted_on: Callable[[Mark], bool]
) -> None:
    if not acted_on(mark):
        phrase.filled = bool(phrase.under)
    elif attribute or (phrase.under and not phrase.filled):
        phrase.governed.append(mark)
        phrase.filled = bool(phrase.under)
    else:
        taken = Taken(mark, share(phrase.between, lexicon))
        sure = not phrase.under or phrase.hung or phrase.under in lexicon.instruments
        (phrase.taken if sure else phrase.perhaps).append(taken)
        phrase.under = "" if sure else phrase.under
        phrase.nouns = phrase.nouns and not (phrase.head or phrase.hung)
    phrase.head = not phrase.under
    phrase.between = []


def _behind(
    clause: Clause, phrase: _Phrase, lexicon: Lexicon, acted_on: Callable[[Mark], bool]
) -> tuple[Mark, ...]:
    """The marks behind the verb that nothing governs; the others join the governed."""
    loose: list[Mark] = []
    under = not lexicon.negations.isdisjoint(clause.words[clause.last or 0 :])
    for at in range(clause.last or 0, len(clause.pieces)):
        piece = clause.pieces[at]
        if isinstance(piece, Word):
            under = under or word(piece) in lexicon.prepositions or word(piece) in lexicon.of
        elif not aside(piece) and acted_on(piece):
            (phrase.governed if under or at in clause.outer else loose).append(piece)
    return tuple(loose)
