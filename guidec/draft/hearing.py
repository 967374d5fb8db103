"""Words heard -> the same with misheard trade words put right, what was heard kept beside them.

First the confusions that the lexicon lists, each only where it asks for company (`near`) has it. Then by sound:
one to four words that together sound like one term of the trade, by consonants first, then by weighted edits.
A word of the trade or of plain speech is never taken for another by sound.
"""

from __future__ import annotations

from collections.abc import Iterable, Sequence
from functools import cache, cached_property

from guidec.draft.counting import number_at
from guidec.draft.sounds import apart, skeleton
from guidec.draft.speech import NONE, Heard
from guidec.draft.spelling import spelled, spoken_names
from guidec.draft.verbs import verb_forms
from guidec.draft.vocabulary import Confusion, Vocabulary, singular
from guidec.draft.wordset import among
from guidec.quick import dataclass

__all__ = ["Corrected", "Ear", "Token"]

WINDOW = 6
SPREAD, SAME = 3, 0.08
"""Words over which a term may be spread, trade words among them, if it sounds that much the same."""
PAIR = 0.01
"""How far one word of a term of two may sound off, if the other is there."""
ONE, LONG, MANY = 0.1, 0.14, 0.19
"""How far apart one word and a term may sound, one of six consonants and more, and several words and a term."""


@dataclass(frozen=True, slots=True)
class Token:
    """One word as understood. `first`/`last`: the words heard that it stands for."""

    text: str
    first: int
    last: int
    start: float
    stop: int = NONE
    leads: bool = False
    """It is the first word of a cue."""


@dataclass(frozen=True, slots=True)
class Corrected:
    """A correction: what was heard, what it was taken for, when."""

    heard: str
    meant: str
    start: float


@dataclass(frozen=True)
class Ear:
    """The corrector for one vocabulary."""

    words: Vocabulary

    def listen(self, heard: Sequence[Heard]) -> tuple[tuple[Token, ...], tuple[Corrected, ...]]:
        """Tokens for all words, and the corrections made."""
        texts = [word.text for word in heard]
        tokens: list[Token] = []
        made: list[Corrected] = []
        at = 0
        while at < len(heard):
            found = self._at(texts, at, heard)
            meant, count = found or (texts[at], 1)
            last = heard[at + count - 1]
            for number, word in enumerate(meant.split()):
                final = number == len(meant.split()) - 1
                tokens.append(
                    Token(
                        word,
                        at,
                        at + count - 1,
                        heard[at].start,
                        last.stop if final else NONE,
                        leads=number == 0 and at > 0 and heard[at].cue != heard[at - 1].cue,
                    )
                )
            if found and _is_other(texts[at : at + count], meant):
                made.append(Corrected(" ".join(texts[at : at + count]), meant, heard[at].start))
            at += count
        return tuple(tokens), tuple(made)

    def _at(self, texts: list[str], at: int, heard: Sequence[Heard]) -> tuple[str, int] | None:
        room = next((n for n in range(1, 5) if at + n > len(heard) or heard[at + n - 1].stop), 4)
        return (
            self.listed(texts, at, room)
            or spelled(texts, at, room)
            or self.by_sound(texts, at, room)
            or self.paired(texts, at, room)
        )

    def listed(self, texts: Sequence[str], at: int, room: int = 4) -> tuple[str, int] | None:
        """A confusion of the lexicon that starts here, if its company is there."""
        for confusion in self.words.confusions.get(texts[at], ()):
            size = len(confusion.heard)
            if (
                size <= max(room, 1)
                and tuple(texts[at : at + size]) == confusion.heard
                and self._met(confusion, texts, at, size)
            ):
                return confusion.meant, size
        return None

    def _met(self, confusion: Confusion, texts: Sequence[str], at: int, size: int) -> bool:
        if not confusion.near:
            return True
        around = [*texts[max(0, at - WINDOW) : at], *texts[at + size : at + size + WINDOW]]
        if not confusion.near.isdisjoint(around) or not confusion.near.isdisjoint(map(singular, around)):
            return True
        after = texts[at + size : at + size + 1]
        return "NUMBER" in confusion.near and bool(after) and number_at(after, 0) is not None

    def by_sound(self, texts: Sequence[str], at: int, room: int = 4) -> tuple[str, int] | None:
        """The term that one to four words from here on sound like, best first; None where nothing is close."""
        best: tuple[float, str, int] | None = None
        for count in range(1, min(room, len(texts) - at, 4) + 1):
            piece = texts[at : at + count]
            if not self._open(piece):
                continue
            joined = "".join(piece)
            for term in self._candidates(skeleton(joined)):
                if not self._fits(piece, joined, term) or (count == 1 and term in spoken_names()):
                    continue
                far = apart(joined, term.replace(" ", ""))
                most = MANY if count > 1 else LONG if len(skeleton(term)) >= 6 else ONE
                if far <= most and (best is None or far < best[0] - 0.02):
                    best = far, term, count
        return (spoken_names().get(best[1], best[1]), best[2]) if best else None

    def paired(self, texts: Sequence[str], at: int, room: int = 4) -> tuple[str, int] | None:
        """A term of two words of which one is there and the other sounds the same: `heat matt`, `zip tye`."""
        if room < 2 or at + 2 > len(texts) or self.words.term(texts[at : at + 2]):
            return None
        one, two = texts[at], singular(texts[at + 1])
        if self._fixed(one) == self._fixed(two):
            return None
        found = [
            (far, term)
            for mine, heard, table in ((one, two, self._pairs[0]), (two, one, self._pairs[1]))
            if not self._fixed(heard) and heard not in self._small
            for other, term in table.get(mine, ())
            if (far := _alike(heard, other)) <= PAIR
        ]
        return (min(found)[1], 2) if found else None

    def _fixed(self, word: str) -> bool:
        """Whether a word is one of the trade's, as it stands."""
        return word in self._single or singular(word) in self._single

    @cached_property
    def _small(self) -> frozenset[str]:
        """The words of any talk, verbs of work left aside."""
        return frozenset().union(*(words for name, words in self.words.small.items() if name != "verbs"))

    @cached_property
    def _pairs(self) -> tuple[dict[str, list[tuple[str, str]]], dict[str, list[tuple[str, str]]]]:
        """First word of a term of two -> second and term; second word -> first and term."""
        first: dict[str, list[tuple[str, str]]] = {}
        second: dict[str, list[tuple[str, str]]] = {}
        for words in sorted(self.words.terms):
            if len(words) == 2:
                first.setdefault(words[0], []).append((words[1], " ".join(words)))
                second.setdefault(words[1], []).append((words[0], " ".join(words)))
        return first, second

    def _open(self, piece: Sequence[str]) -> bool:
        """Whether these words may be something else than they say."""
        if not all(word.isalpha() for word in piece) or len("".join(piece)) < 6 or self.words.term(piece):
            return False
        if len(piece) == 1:
            return not self._known(piece[0])
        if (
            piece[0] in _NEVER_FIRST
            or not _NEVER.isdisjoint(piece)
            or (piece[-1] in self._plain and piece[-1] not in _TAILS)
        ):
            return False
        return not all(word in self._plain for word in piece)

    def _fits(self, piece: Sequence[str], joined: str, term: str) -> bool:
        """A name of the trade stays what it is: it must be in the term too, and what is left must sound like the
        rest of the term; or the term must be the very letters."""
        whole = term.replace(" ", "")
        if joined == whole:
            return True
        spans = (piece[n:m] for n in range(len(piece)) for m in range(n + 1, len(piece) + 1))
        if len(piece) > 1 and any("".join(span) == whole for span in spans):
            return False
        if (
            piece[0] in _LOOSE
            and len(piece) > 1
            and apart("".join(piece[1:]), whole) <= apart(joined, whole) + SAME
        ):
            return False
        if len(piece) >= SPREAD and apart(joined, whole) <= SAME:
            return True
        shared = [word for word in piece if singular(word) in term.split() or word in term.split()]
        if any(self._trade(word) and word not in shared and word not in whole for word in piece):
            return False
        left = "".join(word for word in piece if word not in shared)
        rest = "".join(
            word for word in term.split() if word not in {singular(one) for one in shared} and word not in shared
        )
        return not shared or bool(left and rest and apart(left, rest) <= MANY)

    @cached_property
    def _plain(self) -> frozenset[str]:
        return frozenset().union(*self.words.small.values()) | frozenset(_LETTERS)

    @cached_property
    def _single(self) -> frozenset[str]:
        return frozenset(word for term in self.words.terms for word in term)

    def _trade(self, word: str) -> bool:
        return word in self._single or singular(word) in self._single or word in verb_forms()

    def _known(self, word: str) -> bool:
        return word in self._plain or self._trade(word) or word in self.words.ordinary

    def _candidates(self, bones: str) -> Iterable[str]:
        index = self._index
        found: set[str] = set()
        for key in _thinned(bones):
            found.update(index.get(key, ()))
        return sorted(found)

    @cached_property
    def _index(self) -> dict[str, tuple[str, ...]]:
        """Skeletons, whole and short of one consonant -> terms."""
        index: dict[str, set[str]] = {}
        for term in self.words.strange:
            for key in _thinned(skeleton(term.replace(" ", ""))):
                index.setdefault(key, set()).add(term)
        for sound in spoken_names():
            index.setdefault(skeleton(sound), set()).add(sound)
        return {key: tuple(sorted(terms)) for key, terms in index.items()}


def _is_other(heard: Sequence[str], meant: str) -> bool:
    """Whether a correction says another word: not only `stand off` for `standoff`, or one for many."""
    joined, whole = "".join(heard), meant.replace(" ", "")
    return joined != whole and singular(joined) != singular(whole)


_NEVER_FIRST = among(
    "is are was it the this that these those be been it's that's there's they're and or but so "
    "grey gray red blue green black white brown yellow orange"
)
_TAILS = among("her his you your are our all us in")
_NEVER = among("the this that and")
_LOOSE = among("a an my your you i")
_LETTERS = "bcdefghjklmnopqrstuvwxyz"


def _alike(heard: str, meant: str) -> float:
    """How far two words are apart that must have the same consonants; 1 where those differ."""
    if heard == meant or min(len(heard), len(meant)) < 3 or skeleton(heard) != skeleton(meant):
        return 1.0
    return apart(heard, meant)


@cache
def _thinned(bones: str) -> tuple[str, ...]:
    return (bones, *(bones[:n] + bones[n + 1 :] for n in range(len(bones))))
