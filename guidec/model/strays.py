"""Marks without a kind that name nothing -> what is wrong with each, and a way out."""

from __future__ import annotations

import re
from collections.abc import Iterable, Iterator

from guidec.model.references import Names
from guidec.notes.kinds import THINGS, VALUES, WORDS
from guidec.notes.syntax import Mark
from guidec.rules.finding import Finding
from guidec.source import Span
from guidec.trade.likeness import fold, nearest

__all__ = ["broken_names", "stray"]

_SYNONYMS = {
    "adhesive": "glue tape glued kleber klebeband kleben sticker",
    "screw": "bolt nut fastener standoff stud schraube mutter skrew",
    "connector": "plug socket stecker buchse conn",
    "part": "component piece item assembly module teil bauteil",
    "tool": "instrument werkzeug driver screwdriver",
    "supply": "solvent chemical consumable material verbrauch",
    "clip": "latch catch snap hook clamp rastnase",
    "thermal": "paste pad heatsink-paste",
    "solder": "soldering joint lot lötstelle",
    "fastening": "rivet spring magnet circlip pin-rivet weld",
    "heat": "temp temperature warm",
    "wait": "time pause dwell hold",
    "measure": "check value",
    "refit": "reassembly reassemble note",
    "risk": "danger damage caution warning hazard",
    "after": "needs requires",
    "partly": "partial partially",
}
_KIND_OF = {word: kind for kind, words in _SYNONYMS.items() for word in words.split()}


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


def _meant(word: str) -> tuple[str, ...]:
    folded = fold(word)
    known = (_KIND_OF[folded],) if folded in _KIND_OF else ()
    singles = [kind for kind in WORDS if " " not in kind]
    near = nearest(folded, singles) if len(folded) > 2 else ()
    return tuple(dict.fromkeys((*known, *near)))


def stray(mark: Mark, names: Names) -> Iterator[Finding]:
    """What to say of a mark that has no kind and names nothing that is declared."""
    word, rest = _split(mark)
    if _told(mark, word, rest):
        return
    if not word:
        yield Finding.at("M106", mark.span, variant="empty")
    elif not rest and fold(word) in (*THINGS, *VALUES, "refit", "risk", "after", "also", "side", "pin"):
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
    suggest = [f"{{{kind} {mark.text[1:].lstrip('? ')}" for kind in ("part", "screw", "connector", "adhesive")]
    return Finding.at("M101", mark.name_span, variant=variant, suggest=suggest, word=mark.name)


def _unknown_name(mark: Mark, word: str, rest: str, names: Names) -> Finding:
    near = names.nearest(mark.name)
    name = " ".join(mark.name.split())
    kinds = _meant(word) if rest else ()
    if kinds and (names.find(rest) or fold(word) not in _KIND_OF):
        suggest = [f"{{{kind} {rest}}}" for kind in kinds]
        span = Span(mark.name_span.start, mark.name_span.start + len(word))
        return Finding.at("M101", span, suggest=suggest, word=word, nearest=kinds[0])
    suggest = [f"{{{other}}}" for other in near] + [f"{{{kind} {rest}}}" for kind in kinds]
    return Finding.at("M102", mark.name_span, suggest=suggest, name=name)
