"""Letters -> a rough row of English sounds, and how far two rows are apart.

A small table of spelling rules of our own (nothing more is needed than that like-sounding words come out alike),
and an edit distance in which sounds that captions mix up cost less than others.
"""

from __future__ import annotations

import re
from functools import cache

__all__ = ["apart", "skeleton", "sounds"]

_RULES = [
    (re.compile(pattern), to)
    for pattern, to in (
        (r"[^a-z]", ""),
        (r"^(?:kn|gn|pn)", "n"),
        (r"^wr", "r"),
        (r"^wh", "w"),
        (r"^ps", "s"),
        (r"tch", "C"),
        (r"sch", "sk"),
        (r"ch", "C"),
        (r"sh|ti(?=on)|ci(?=a|ou)", "S"),
        (r"ph", "f"),
        (r"th", "T"),
        (r"dge?(?=[eiy])|dge", "J"),
        (r"(?<=[aeiou])gh(?=t|$)", ""),
        (r"gh", "g"),
        (r"ng(?=$|[^aeiou])", "N"),
        (r"c(?=[eiy])", "s"),
        (r"ck|c|q", "k"),
        (r"x", "ks"),
        (r"z", "s"),
        (r"j", "J"),
        (r"mb$", "m"),
        (r"(?<=[^aeiou])e$", ""),
        (r"(?:ee|ea|ie|ei|y$)", "i"),
        (r"(?:oo|ou|ew|ue)", "u"),
        (r"(?:ai|ay|ey)", "e"),
        (r"(?:au|aw|ow|oa)", "o"),
        (r"y", "i"),
        (r"([a-zA-Z])\1+", r"\1"),
    )
]
_VOWELS = frozenset("aeiou")
_CLASSES = {sound: group for group in ("pb", "tdT", "kg", "szSCJ", "fv", "mnN") for sound in group}
_ALIKE = {
    (a, b)
    for group in ("pb", "tdT", "kg", "sS", "SCJ", "fv", "mnN", "lr", "sT", "fT")
    for a in group
    for b in group
}


@cache
def sounds(text: str) -> str:
    """The sounds of a word or of words run together."""
    row = text.lower()
    for pattern, to in _RULES:
        row = pattern.sub(to, row)
    return row


@cache
def skeleton(text: str) -> str:
    """The consonants of `sounds`, like ones merged: what survives mishearing."""
    row = "".join(
        _CLASSES.get(sound, sound)[0] for sound in sounds(text) if sound not in _VOWELS and sound not in "hw"
    )
    return re.sub(r"(.)\1+", r"\1", row)


def apart(heard: str, meant: str) -> float:
    """How far two texts sound apart: 0 alike, 1 nothing in common; weighted edits over the longer row's length."""
    a, b = sounds(heard), sounds(meant)
    row = [_sum(b[:n]) for n in range(len(b) + 1)]
    for sound in a:
        last, row[0] = row[0], row[0] + _weight(sound)
        for n, other in enumerate(b, 1):
            last, row[n] = (
                row[n],
                min(row[n] + _weight(sound), row[n - 1] + _weight(other), last + _swap(sound, other)),
            )
    return row[-1] / max(_sum(a), _sum(b), 1.0)


def _weight(sound: str) -> float:
    return 0.4 if sound in _VOWELS or sound in "hw" else 1.0


def _sum(row: str) -> float:
    return sum(map(_weight, row))


def _swap(a: str, b: str) -> float:
    if a == b:
        return 0.0
    if a in _VOWELS and b in _VOWELS:
        return 0.2
    if (a, b) in _ALIKE:
        return 0.35
    return 1.0
