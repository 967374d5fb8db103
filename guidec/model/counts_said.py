"""A mark and the words before it -> how it prints where they say already how many there are.

"Undo 4 {screw A: 4x T20 5x20}" reads "Undo 4 × T20 5×20 (A)"; "4 screws {A}" reads "4 screws T20 5×20 (A)"; and
"pull 3 {valve}" reads "pull 3 valves".
"""

from __future__ import annotations

from collections.abc import Sequence

from guidec.model.types import ScrewSet, Thing
from guidec.notes.syntax import Piece, Word
from guidec.quick import replace
from guidec.trade.lexicon import Lexicon

__all__ = ["count_before", "counted_name", "without_count"]

_NOUNS = 3
"""So many words may stand between a number and the mark that it counts ("4 short black screws {A}")."""
_PLURALS = {"foot": "feet", "tooth": "teeth", "leaf": "leaves", "shelf": "shelves", "knife": "knives"}
_HISSING = ("s", "x", "z", "ch", "sh")


def count_before(pieces: Sequence[Piece], at: int, lexicon: Lexicon) -> tuple[str, bool] | None:
    """The number that counts what stands at a place, and whether it stands right before it; None without one."""
    for back in range(1, min(at, _NOUNS + 1) + 1):
        piece = pieces[at - back]
        if not isinstance(piece, Word) or piece.code:
            return None
        text = piece.text.casefold()
        if text.rstrip("x×").isdecimal() or (text in lexicon.numbers and text not in lexicon.determiners):
            return text, back == 1
        if text not in ("x", "×") and (not text.isalpha() or _parts(text, lexicon)):
            return None
    return None


def _parts(text: str, lexicon: Lexicon) -> bool:
    """Whether a word ends what a number counts."""
    small = text in lexicon.determiners or text in lexicon.prepositions or text in lexicon.of
    return small or text in lexicon.connectives or text in lexicon.linking


def without_count(screws: ScrewSet) -> ScrewSet:
    """A screw set whose count is said beside it."""
    return replace(screws, notation=replace(screws.notation, count=None)) if screws.notation else screws


def counted_name(thing: Thing, number: str, lexicon: Lexicon) -> str:
    """The name of several of a thing: in English the plural, where it is plainly none yet."""
    head, _, last = thing.name.rpartition(" ")
    few = lexicon.numbers.get(number, int(number) if number.isdecimal() else 1) < 2
    if few or lexicon.language != "en" or not last.isalpha() or len(last) < 3 or last.endswith("s"):
        return thing.name
    return f"{head} {_plural(last)}".strip()


def _plural(word: str) -> str:
    if word in _PLURALS:
        return _PLURALS[word]
    if word.endswith("y") and word[-2] not in "aeiou":
        return word[:-1] + "ies"
    return word + ("es" if word.endswith(_HISSING) else "s")
