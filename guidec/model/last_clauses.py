"""The words and marks of a line whose instructions end with their verbs -> its clauses (German infinitives).

"{screw A} lösen, dann mit {tool card} den {part lid} vorsichtig abheben": what stands before a verb belongs to it,
up to the verb before. What depends on something ("die den Deckel halten", "um … zu lösen"), states something
("lässt sich abheben") or denies it is no instruction.
"""

from __future__ import annotations

import re
from dataclasses import field
from typing import NamedTuple

from guidec.notes.syntax import Piece, Word
from guidec.quick import dataclass
from guidec.trade.lexicon import LastVerbs, Lexicon, Sense

__all__ = ["Stretch", "stretches"]

_SENTENCE_ENDS = frozenset(".;!?")
_DASHES = frozenset("–—")
_JOINTS = frozenset(",.;:!(")
_LABEL = 4
"""A label before a colon ("Rückseite: …") has no more words than this."""


@dataclass(frozen=True, slots=True)
class Stretch:
    """One clause: its pieces run from `start` to `end`, its verb is the one at `verb`.

    `outer`: the places of pieces that stand in parentheses or a dependent clause. `joined`: it goes on from the
    clause before with a connective or comma.
    """

    start: int
    verb: int
    end: int
    sense: Sense
    outer: frozenset[int]


class _Line(NamedTuple):
    """A line, and the words of its language."""

    pieces: tuple[Piece, ...]
    words: tuple[str, ...]
    lexicon: Lexicon
    last: LastVerbs

    def word(self, at: int) -> str:
        return self.words[at] if 0 <= at < len(self.words) else ""

    def until_joint(self, at: int) -> tuple[str, ...]:
        """The words from `at` to the next comma or stop."""
        ends = (end for end in range(at, len(self.words)) if self.words[end] in _JOINTS)
        return self.words[at : next(ends, len(self.words))]


@dataclass(slots=True)
class _Walk:
    """Where the walk through a line is. `start`: of the clause that is being read; `tail`: only what trails
    behind the last verb has been met since; `blocked`: something is stated or denied; `depends`: in a dependent
    clause; `nested`: how deep in parentheses."""

    start: int = 0
    tail: bool = False
    blocked: bool = False
    depends: bool = False
    nested: int = 0
    outer: set[int] = field(default_factory=set)
    found: list[tuple[int, int, Sense]] = field(default_factory=list)


def stretches(pieces: tuple[Piece, ...], words: tuple[str, ...], lexicon: Lexicon) -> tuple[Stretch, ...]:
    """The clauses that end with their verbs, of the line's first sentence; none where it has none."""
    if lexicon.last is None:
        return ()
    walk, line = _Walk(), _Line(pieces, words, lexicon, lexicon.last)
    for at, text in enumerate(words):
        if text in _SENTENCE_ENDS and not walk.nested:
            break
        _step(walk, at, text, line)
    ends = [*[start for start, _, _ in walk.found[1:]], len(pieces)] if walk.found else []
    return tuple(
        Stretch(start, verb, max(end, verb + 1), sense, frozenset(walk.outer))
        for (start, verb, sense), end in zip(walk.found, ends, strict=True)
    )


def _step(walk: _Walk, at: int, text: str, line: _Line) -> None:
    if walk.nested or text in ("(", "["):
        walk.outer.add(at)
        walk.nested += (text in ("(", "[")) - (text in (")", "]"))
    elif text == ":":
        if not walk.found and at <= _LABEL:
            walk.start, walk.blocked = at + 1, False
    elif text in (",", *_DASHES) or text in line.lexicon.connectives:
        _joint(walk, at, text, line)
    elif walk.depends or _begins_dependent(at, line):
        walk.depends = True
        walk.outer.add(at)
    else:
        _main(walk, at, text, line)


def _main(walk: _Walk, at: int, text: str, line: _Line) -> None:
    """A word of the clause itself."""
    last = line.last
    if text in last.letting and _lets(walk, at, last):
        walk.found[-1] = (walk.found[-1][0], at, walk.found[-1][2])
    elif text in last.finite or text in line.lexicon.negations:
        walk.blocked = True
    elif not walk.blocked and _is_instruction(at, line):
        whole = line.word(at - 1) + text if line.word(at - 1) in line.lexicon.particles else text
        walk.found.append((walk.start, at, last.verbs.get(whole) or last.verbs[text]))
        walk.start, walk.tail = at + 1, True


def _lets(walk: _Walk, at: int, last: LastVerbs) -> bool:
    """Whether "lassen" stands right behind a verb that something is left to do ("abkühlen lassen")."""
    return bool(walk.found) and walk.found[-1][1] == at - 1 and walk.found[-1][2].family in last.letting_families


def _joint(walk: _Walk, at: int, text: str, line: _Line) -> None:
    """A comma or a connective: an end of a dependent clause, of what trails behind a verb, of a statement."""
    comma = text not in line.lexicon.connectives
    if walk.depends and not comma:
        walk.outer.add(at)
        return
    if walk.blocked and comma:
        walk.outer.update(range(walk.start, at))
        walk.blocked = False
    was, walk.depends = walk.depends, comma and _is_relative(at + 1, line)
    if walk.depends or was:
        walk.outer.add(at)
    if walk.tail:
        walk.start = at
        walk.tail = walk.depends


def _begins_dependent(at: int, line: _Line) -> bool:
    text, last, lexicon = line.words[at], line.last, line.lexicon
    if text in last.perhaps_subordinating:
        after = line.word(at + 1)
        return not (after in lexicon.prepositions or after[:1].isdigit() or after in lexicon.numbers)
    purpose = text in last.purpose and any(_is_purpose(word, last) for word in line.until_joint(at + 1))
    return text in last.subordinating or purpose


def _is_purpose(word: str, last: LastVerbs) -> bool:
    """Whether a word is an infinitive with "zu" in it, or that word itself ("um … abzunehmen", "zu lösen")."""
    if word in last.infinitive_marks:
        return True
    return any(mark in word and word.replace(mark, "", 1) in last.verbs for mark in last.infinitive_marks)


def _is_relative(at: int, line: _Line) -> bool:
    """Whether a clause about the thing before begins behind a comma ("…, die den Deckel halten")."""
    clause, last, lexicon = line.until_joint(at), line.last, line.lexicon
    if len(clause) < 2:
        return False
    first, second = clause[:2]
    if first in lexicon.prepositions:
        return second in last.relative - {"der", "den"} and clause[-1] in last.finite | lexicon.linking
    if first not in last.relative:
        return False
    opens = second in lexicon.determiners or second in lexicon.prepositions or second == "sich"
    return opens or clause[-1] in lexicon.linking or clause[-1] in last.finite


def _is_instruction(at: int, line: _Line) -> bool:
    """Whether an infinitive ends an instruction: no noun ("beim Lösen"), no "zu" before it, nothing due behind."""
    piece, before = line.pieces[at], line.word(at - 1)
    last, lexicon = line.last, line.lexicon
    parted = before in lexicon.particles and before + line.words[at] in last.verbs
    if not (line.words[at] in last.verbs or parted) or not isinstance(piece, Word):
        return False
    if (at and not piece.text[0].islower()) or before in last.infinitive_marks or before in lexicon.determiners:
        return False
    return (before not in lexicon.prepositions or before in lexicon.particles) and _may_end(at + 1, line)


def _may_end(at: int, line: _Line) -> bool:
    """Whether a clause may end before `at`: there comes nothing, an aside, or a word that begins another."""
    if at >= len(line.words):
        return True
    piece, text = line.pieces[at], line.words[at]
    if not isinstance(piece, Word):
        return piece.kind in _BEHIND
    small = (line.lexicon.connectives, line.lexicon.prepositions, line.lexicon.adverbs)
    own = (line.last.letting, line.last.subordinating)
    return not re.match(r"\w", text) or any(text in words for words in (*small, *own))


_BEHIND = frozenset(
    ("heat", "wait", "torque", "measure", "refit", "risk", "optional", "partly", "side", "tool", "supply", "pin")
)
