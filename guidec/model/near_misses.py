"""Declared names -> those that are most likely a slip for another. Linear in the number of names."""

from __future__ import annotations

import re
from collections.abc import Iterable, Iterator
from itertools import combinations

from guidec.model.naming import Naming
from guidec.model.said import Said
from guidec.rules.finding import Finding
from guidec.trade.likeness import distance
from guidec.trade.load import data

__all__ = ["lists_for_names", "near_misses"]

_LIST = re.compile(r"\s*,\s*|\s+(?:and|und|&)\s+")
_SHORTEST = 4
_LONG = 9
_SOME = 1000
_MOST = 60
"""No more names are compared that look alike in one way: past that, they differ on purpose."""


def near_misses(naming: Naming) -> Iterator[Finding]:
    """A warning for each name, used with a kind, that is a near miss of an earlier one."""
    place = {folded: number for number, folded in enumerate(naming.things)}
    told: set[str] = set()
    for one, other in _pairs(naming.things):
        first, later = sorted((one, other), key=place.__getitem__)
        if later not in told and _slip(first, later, naming):
            told.add(later)
            here, there = _declaration(later, naming), _declaration(first, naming)
            yield Finding.at(
                "M105",
                here.name_span,
                labels={"first": there.name_span},
                suggest=(there.name,),
                name=here.name,
                other=there.name,
            )


def lists_for_names(naming: Naming) -> Iterator[Finding]:
    """A warning for each bare name that is a list of names (`A, B`; `A and B`)."""
    for folded, places in naming.things.items():
        parts = [part for part in _LIST.split(folded) if part] if places[0].bare else []
        if len(parts) > 1 and all(said.bare for said in places) and all(part in naming.things for part in parts):
            here = next(said for said in places if said.kind)
            yield Finding.at(
                "M107",
                here.name_span,
                suggest=(" and ".join(f"{{{part}}}" for part in _LIST.split(here.name)),),
                name=here.name,
            )


def _pairs(names: Iterable[str]) -> Iterator[tuple[str, str]]:
    """Pairs of names that may be near: they differ in one word, and that by little; or only in spaces."""
    joined: dict[str, list[str]] = {}
    alike: dict[tuple[str | None, ...], list[tuple[str, str]]] = {}
    for name in names:
        words = name.replace("-", " ").split()
        joined.setdefault("".join(words), []).append(name)
        for at, word in enumerate(words):
            if len(word) >= _SHORTEST and word.isalpha():
                alike.setdefault((*words[:at], None, *words[at + 1 :]), []).append((word, name))
    for same in joined.values():
        yield from combinations(same[:_MOST], 2)
    for group in alike.values():
        if len(group) > 1:
            yield from _near_words(group)


def _near_words(group: list[tuple[str, str]]) -> Iterator[tuple[str, str]]:
    """Pairs of names among some that differ in one word: near words become one when letters are left out."""
    twice = len(group) <= _SOME
    buckets: dict[str, list[str]] = {}
    for word, name in group:
        for variant in _variants(word, twice):
            buckets.setdefault(variant, []).append(name)
    for alike in buckets.values():
        if 1 < len(alike) <= _MOST:
            yield from combinations(dict.fromkeys(alike), 2)


def _variants(word: str, twice: bool) -> set[str]:
    """A word and all it becomes when one letter is left out, or two of a long one."""
    found = {word} | {word[:at] + word[at + 1 :] for at in range(len(word))}
    if twice and len(word) >= _LONG:
        found |= {
            short[:at] + short[at + 1 :] for short in found for at in range(len(short)) if len(short) < len(word)
        }
    return found


def _slip(first: str, later: str, naming: Naming) -> bool:
    """Whether the later name is most likely meant to be the first."""
    one, other = first.replace("-", " ").split(), later.replace("-", " ").split()
    if "".join(one) == "".join(other):
        return True
    if len(one) != len(other):
        return False
    differing = [(a, b) for a, b in zip(one, other, strict=True) if a != b]
    if len(differing) != 1:
        return False
    a, b = differing[0]
    if _plural(a, b):
        return _only_named(naming.things[later]) and _of_a_kind(first, later, naming)
    if a in _words() and b in _words():
        return False
    limit = 2 if min(len(a), len(b)) >= _LONG else 1
    return distance(a, b, limit) <= limit


def _of_a_kind(one: str, other: str, naming: Naming) -> bool:
    return _declaration(one, naming).kind == _declaration(other, naming).kind


def _declaration(name: str, naming: Naming) -> Said:
    return next(said for said in naming.things[name] if said.kind)


def _only_named(places: list[Said]) -> bool:
    return all(said.bare for said in places)


def _plural(one: str, other: str) -> bool:
    short, long_ = sorted((one, other), key=len)
    return long_ in (short + "s", short + "es", short + "n", short + "en", short + "e", short + "er")


def _words() -> frozenset[str]:
    """Words of the trade that stand near another and are meant (`belt` and `bolt`)."""
    return frozenset(data("words_alike")["words"].split())
