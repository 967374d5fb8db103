"""A text and a list of words or phrases -> the first of them that stands in it as whole words.

Plural endings are allowed for; hyphens and spaces are taken as the same.
"""

from __future__ import annotations

import re
from bisect import bisect_left
from collections.abc import Callable, Iterable, Iterator, Mapping
from functools import cache, lru_cache

__all__ = ["first_phrase", "in_language", "matches_all", "may_speak"]


@cache
def _pattern(phrases: tuple[str, ...], plural: bool) -> re.Pattern[str]:
    ordered = sorted(phrases, key=len, reverse=True)
    bodies = "|".join(re.sub(r"(?:\\ |\\-|-| )+", r"[\\s-]+", re.escape(phrase.casefold())) for phrase in ordered)
    ending = "(?:e?s|en?)?" if plural else ""
    return re.compile(rf"(?<![^\W_])(?:{bodies}){ending}(?![^\W_])")


@cache
def _heads(phrases: tuple[str, ...]) -> tuple[str, ...]:
    """What each phrase begins with, up to a space or hyphen."""
    return tuple(dict.fromkeys(re.split(r"[\s-]", phrase.casefold(), maxsplit=1)[0] for phrase in phrases))


def first_phrase(text: str, phrases: Iterable[str], plural: bool = True) -> re.Match[str] | None:
    """The first place in a text, case folded, where one of the phrases stands; None without any.

    `plural`: a plural ending may follow.
    """
    every, folded = tuple(phrases), text.casefold()
    heads = [head for head in _heads(every) if head in folded]
    if not heads:  # most texts end here, and their list never needs its pattern, which takes long to make
        return None
    match = _pattern(every, plural).match
    starts = sorted({at for head in heads for at in _places(folded, head)})
    return next((found for at in starts if (found := match(folded, at))), None)


def may_speak(text: str, phrases: Iterable[str]) -> Callable[[int, int], bool]:
    """Asks of a stretch of a text, from and to an offset, whether any of the phrases may begin in it.

    The text is looked through once for all its stretches. Where the answer is no, none stands there; a yes may
    be wrong. Only phrases that begin a word are found.
    """
    folded, used = _folded(text)
    heads = [head for head in _heads(tuple(phrases)) if head in used]
    if len(folded) != len(text):  # with an `ß` or the like, offsets of the folded text are others
        return lambda start, end: any(head in piece for piece in (text[start:end].casefold(),) for head in heads)
    starts = sorted(at for head in heads for at in _places(folded, head))

    def speaks(start: int, end: int) -> bool:
        at = bisect_left(starts, start)
        return at < len(starts) and starts[at] < end

    return speaks


@lru_cache(2)  # several rules ask of one note
def _folded(text: str) -> tuple[str, str]:
    """A text case folded, and its different words in one string, which takes far less time to search."""
    folded = text.casefold()
    return folded, " ".join(set(folded.split()))


def _places(text: str, head: str) -> Iterator[int]:
    """Every place where a head begins a word of a text."""
    at = text.find(head)
    while at >= 0:
        if not at or not text[at - 1].isalnum():
            yield at
        at = text.find(head, at + 1)


def in_language(words: Mapping[str, tuple[str, ...] | list[str]], language: str) -> tuple[str, ...]:
    """The words of a language (`de-AT` takes `de`), the English ones where there are none of it."""
    own = words.get(language.split("-")[0].casefold())
    return tuple(own if own is not None else words.get("en", ()))


def matches_all(text: str, patterns: Iterable[str]) -> bool:
    """Whether each regular expression is found in a text, case ignored; false without any."""
    every = tuple(patterns)
    return bool(every) and all(re.search(pattern, text, re.I) for pattern in every)
