"""Marks without a kind that name nothing -> what is wrong with each, and a way out."""

from __future__ import annotations

import re
from collections.abc import Iterable, Iterator
from functools import cache, lru_cache

from guidec.model.references import Names
from guidec.notes.kinds import PICTURE, THINGS, VALUES, WORDS
from guidec.notes.syntax import Mark
from guidec.rules.finding import Finding
from guidec.source import Span
from guidec.trade.likeness import fold, nearest
from guidec.trade.load import data

__all__ = ["broken_names", "stray"]


def broken_names(strays: Iterable[Mark]) -> frozenset[str]:
    """The names that marks with a kind nobody knows were meant to declare, folded."""
    return frozenset(fold(rest) for mark in strays for kind, rest in [_split(mark)] if rest and _slip(mark, kind))


def _split(mark: Mark) -> tuple[str, str]:
    """The first word of a mark, and the rest of its name."""
    words = re.split(r"\s+", mark.name.strip(), maxsplit=1)
    return words[0], words[1] if len(words) > 1 else ""


def _slip(mark: Mark, word: str) -> tuple[str, ...]:
    """The kinds that the first word may have been meant for, where the mark looks like a declaration."""
    if not (mark.details or mark.keys):
        return ()
    return _meant(word)


@lru_cache(1024)
def _meant(word: str) -> tuple[str, ...]:
    """The kinds that a word may have been meant for: what the trade calls one, then what is spelled like it."""
    folded = fold(word)
    known = (_kind_of()[folded],) if folded in _kind_of() else ()
    singles = [kind for kind in WORDS if " " not in kind]
    slip = len(folded) > 2 and (folded not in _real_words() or folded.removesuffix("s") in singles)
    near = nearest(folded, singles) if slip else ()
    return tuple(dict.fromkeys((*known, *near)))


@cache
def _kind_of() -> dict[str, str]:
    """Words of the trade that people put where a kind word is due, and the kind."""
    return {word: kind for kind, words in data("words_alike")["kinds"].items() for word in words.split()}


@cache
def _real_words() -> frozenset[str]:
    """Words that parts and tools are named with: no slips of a kind word, however near ("heater")."""
    return frozenset(data("words_alike")["words"].split())


def stray(mark: Mark, names: Names) -> Iterator[Finding]:
    """What to say of a mark that has no kind and names nothing that is declared."""
    word, rest = _split(mark)
    if _told(mark, word, rest):
        return
    if not word:
        yield Finding.at("M106", mark.span, variant="empty")
    elif not rest and fold(word) in (*THINGS, *VALUES, "refit", "risk", "after", "also", "side", *PICTURE):
        yield Finding.at("M106", mark.span, variant="" if fold(word) in THINGS else "value", kind=fold(word))
    elif (mark.details or mark.keys) and not names.excused(mark.name):
        yield _unknown_kind(mark, word, rest)
    elif not names.excused(mark.name):
        yield _unknown_name(mark, word, rest, names)


def _told(mark: Mark, word: str, rest: str) -> bool:
    """Whether the reader has reported the mark: a kind word or nothing at all, and a colon or semicolon."""
    tail = mark.text[mark.whole_span.end - mark.span.start :].lstrip()
    return tail[:1] in (":", ";") and (not word or (not rest and fold(word) in THINGS))


def _unknown_kind(mark: Mark, word: str, rest: str) -> Finding:
    meant = _meant(word) if rest else ()
    tail = mark.text[mark.text.find(word) + len(word) :] if rest else ""
    span = Span(mark.name_span.start, mark.name_span.start + len(word))
    if meant:
        suggest = [f"{{{kind}{tail}" for kind in meant]
        return Finding.at("M101", span, suggest=suggest, word=word, nearest=meant[0])
    variant = "kindless"
    likely = dict.fromkeys((*_likely(mark, word), "part", "screw", "connector", "adhesive"))
    suggest = [f"{{{kind} {mark.text[1:].lstrip('? ')}" for kind in likely][:4]
    return Finding.at("M101", mark.name_span, variant=variant, suggest=suggest, word=mark.name)


def _likely(mark: Mark, word: str) -> tuple[str, ...]:
    """Kinds that a mark without one speaks of: by its name ("screws"), or by what follows the colon ("solder")."""
    detail = fold(" ".join(mark.details.split()))
    said = (detail,) if detail in THINGS else ()
    return (*said, *(kind for kind in _meant(word) if kind in THINGS))


def _unknown_name(mark: Mark, word: str, rest: str, names: Names) -> Finding:
    near = names.nearest(mark.name)
    name = " ".join(mark.name.split())
    kinds = _meant(word) if rest else ()
    if kinds and (names.find(rest) or fold(word) not in _kind_of()):
        suggest = [f"{{{kind} {rest}}}" for kind in kinds]
        span = Span(mark.name_span.start, mark.name_span.start + len(word))
        return Finding.at("M101", span, suggest=suggest, word=word, nearest=kinds[0])
    suggest = [f"{{{other}}}" for other in near] + [f"{{{kind} {rest}}}" for kind in kinds]
    return Finding.at("M102", mark.name_span, suggest=suggest, name=name)
