"""The words and marks of a line -> where in it an action's verb may stand, and which of the lexicon that is."""

from __future__ import annotations

from guidec.notes.kinds import ABOUT, HEADINGS, PICTURE, VALUES
from guidec.notes.syntax import Piece, Word
from guidec.trade.lexicon import Lexicon, Sense

__all__ = ["ASIDE", "STOPS", "aside", "begins", "first_verb", "particle_follows", "readings_at", "skip", "word"]

STOPS = frozenset(".:;()[]!?–—")
ASIDE = frozenset((*ABOUT, *VALUES, *HEADINGS, *PICTURE))
_WEAK = frozenset(("and", "&", "+", "/", "plus"))


def aside(piece: Piece) -> bool:
    """Whether a piece says more about the action without being part of its sentence."""
    return not isinstance(piece, Word) and piece.kind in ASIDE


def word(piece: Piece) -> str:
    """A word folded for looking up; nothing for a mark or code."""
    return "" if not isinstance(piece, Word) or piece.code else piece.text.casefold().replace("’", "'")


def skip(
    pieces: tuple[Piece, ...], words: tuple[str, ...], at: int, lexicon: Lexicon, *, connectives: bool
) -> int:
    """The index of the first piece from `at` that is no adverb, aside or (if asked) connective."""
    while at < len(pieces):
        text = words[at]
        joins = connectives and (text == "," or text in lexicon.connectives)
        links = (text == "," or text in lexicon.connectives) and at > 0 and _adverb(words[at - 1], lexicon)
        if not (joins or _adverb(text, lexicon) or links or (not text and aside(pieces[at]))):
            break
        at += 1
    return at


def _adverb(text: str, lexicon: Lexicon) -> bool:
    return text in lexicon.adverbs or (text.endswith("ly") and text not in lexicon.senses)


def readings_at(words: tuple[str, ...], at: int, lexicon: Lexicon) -> tuple[Sense, ...]:
    """The readings of the word at `at`; those that ask for a particle only where it follows in the line."""
    readings = lexicon.senses.get(words[at], ()) if at < len(words) else ()
    if len(readings) == 1 and readings[0].particle is None:
        return readings
    return tuple(
        sense
        for sense in readings
        if sense.particle is None or particle_follows(words, at + 1, len(words), sense.particle, lexicon)
    )


def particle_follows(words: tuple[str, ...], start: int, end: int, particle: str, lexicon: Lexicon) -> bool:
    """Whether the particle comes at once, or after the object ("Turn the board over")."""
    for at in range(start, end):
        text = words[at]
        if text == particle:
            return True
        if text in STOPS or (text in lexicon.connectives and lexicon.particles_last):
            return False
        if (
            text in lexicon.prepositions
            and not lexicon.particles_last
            and text not in lexicon.particles
            and text not in lexicon.of
        ):
            return False
    return False


def first_verb(pieces: tuple[Piece, ...], words: tuple[str, ...], lexicon: Lexicon) -> int:
    """The index of the piece that is the line's verb, if it has one; adverbs and lead-ins are skipped."""
    at = skip(pieces, words, 0, lexicon, connectives=False)
    if at < len(words) and words[at] in lexicon.prepositions and words[at] in lexicon.gerunds:
        return len(words)
    lead = next((size for size in (4, 3, 2, 1) if words[at : at + size] in lexicon.lead_ins), 0)
    if lead:
        comma = at + lead < len(words) and words[at + lead] == ","
        return skip(pieces, words, at + lead + comma, lexicon, connectives=False)
    if at < len(words) and words[at] in lexicon.uses:
        return _purpose(words, at, lexicon) or at
    return at


def _purpose(words: tuple[str, ...], at: int, lexicon: Lexicon) -> int | None:
    """The verb that a tool is used for ("use {tool} to pry off …"), in the same clause."""
    for place in range(at + 1, len(words) - 1):
        if words[place] in STOPS or words[place] == "," or words[place] in lexicon.connectives:
            break
        found = readings_at(words, place + 1, lexicon) if words[place] in lexicon.infinitive else ()
        if any("base" in sense.forms for sense in found):
            return place + 1
    return None


def _names_next(pieces: tuple[Piece, ...], words: tuple[str, ...], verb: int, lexicon: Lexicon) -> bool:
    """Whether a mark of a thing comes behind a verb before any preposition or stop."""
    for piece, text in zip(pieces[verb + 1 :], words[verb + 1 :], strict=True):
        if not isinstance(piece, Word):
            return not aside(piece)
        if text in STOPS or text in lexicon.prepositions:
            return False
    return False


def begins(
    pieces: tuple[Piece, ...],
    words: tuple[str, ...],
    verb: int,
    joint: str,
    forms: frozenset[str],
    first: tuple[Sense, ...],
    lexicon: Lexicon,
) -> bool:
    """Whether a further clause begins with the word at `verb`. Words like "close" and "fit" most often do not."""
    found = [sense for sense in readings_at(words, verb, lexicon) if sense.forms & forms]
    if found and found[0].verb in lexicon.nounish:
        return words[verb - 1] in lexicon.connectives - _WEAK
    if found and found[0].verb in lexicon.unasked and not _names_next(pieces, words, verb, lexicon):
        return False
    if not found or found[0].verb not in lexicon.restoring:
        return bool(found)
    return joint in lexicon.connectives or any(sense.verb in lexicon.restoring for sense in first)
