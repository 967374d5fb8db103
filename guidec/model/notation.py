"""The details of a screw set (`4x PH0 M2x6`) -> count, drives, thread, and what could not be read."""

from __future__ import annotations

import re
from dataclasses import field
from functools import cache, lru_cache
from typing import NamedTuple

from guidec.model.types import FastenerNotation, Thread
from guidec.quick import dataclass, replace
from guidec.source import Span
from guidec.trade.drives import drive_family, family_words, scan_drive
from guidec.trade.load import data
from guidec.trade.numbers import read_word
from guidec.trade.threads import ThreadSize, read_inch_thread, scan_thread

__all__ = ["Token", "aside_key", "read_notation", "tokens"]

_GAP = re.compile(r"[\s,;()\[\]]*")
_COUNT_TIMES = re.compile(r"(\d+)\s*[x×X*](?![\w.])\s*|(\d+)[xX×*](?=[A-Za-z])|(\d+)\s*[×*]\s*(?=[A-Za-z])")
_TIMES = re.compile(r"(\d+)\s?[x×X*]\s?")
_COUNT_PLAIN = re.compile(r"(\d+)(?=\s+[A-Za-z(]|\s*$)(?!\s?mm\b)|\((\d+)\)(?=\s)")
_COUNT_AFTER = re.compile(r"[x×X*]\s?(\d+)(?![\w.,])|(?:qty|count|anzahl)[.:=]?\s*(\d+)(?![\w.])", re.I)
_BARE_THREE = re.compile(r"(\d+)\s?[x×X*]\s?(?=(\d+(?:[.,]\d+)?)\s?[x×X*]\s?\d)")
_WORD = re.compile(r"\d+(?:[.,]\d+)?\s?mm\b|[^\s,;()\[\]]+")
_ALTERNATIVE = re.compile(r"\s*[|/]\s*|\s+or\s+|\s+oder\s+")
_CODE_LIKE = re.compile(r"[A-Za-z]{1,4}[ -]?\d+(?:[.,]\d+)?[A-Za-z]?|\d[A-Za-z]{1,2}\d\S*")
_NO_DRIVE = re.compile(r"(?:DIN|ISO|EN|ANSI|JIS\s?B|GB|A[24])[ -]?\d+.*|\d+[.,]\d+", re.I)


class Token(NamedTuple):
    """A stretch of the details and what it reads as: `count`, `drive`, `sizeless`, `thread`, `inch` or `rest`."""

    role: str
    text: str
    start: int
    end: int
    value: str = ""


@dataclass(slots=True)
class _State:
    text: str
    tokens: list[Token] = field(default_factory=list)

    def has(self, role: str) -> bool:
        return any(token.role == role for token in self.tokens)

    def add(self, role: str, start: int, end: int, value: str = "") -> int:
        self.tokens.append(Token(role, self.text[start:end], start, end, value))
        return end


@lru_cache(4096)
def tokens(text: str) -> tuple[Token, ...]:
    """The pieces of a screw set's details in order; words that say nothing ("screws", "of") are left out."""
    state = _State(text)
    at = _skip(text, 0)
    while at < len(text):
        at = _skip(text, _one(state, at))
    if not state.has("drive"):
        _unknown_drive(state)
    return tuple(state.tokens)


def _skip(text: str, at: int) -> int:
    found = _GAP.match(text, at)
    return found.end() if found else at


def _one(state: _State, at: int) -> int:
    """Read one piece at an offset; gives the offset after it."""
    text = state.text
    if not state.has("thread") and text[at] in "MmSs" and (size := scan_thread(text, at)) and size.diameter:
        return state.add("thread", at, size.end)
    if inch := read_inch_thread(text, at):
        return state.add("inch", at, *inch)
    if not state.has("count") and (end := _count(state, at)):
        return end
    if not state.has("drive") and (end := _drives(state, at)):
        return end
    if not state.has("thread") and (size := scan_thread(text, at)) and size.diameter:
        return state.add("thread", at, size.end)
    word = _WORD.match(text, at)
    end = word.end() if word else at + 1
    said = text[at:end].casefold().strip(".:")
    if said not in _noise() and not (state.has("drive") and said in family_words()):
        state.add("rest", at, end)
    return end


def _count(state: _State, at: int) -> int | None:
    """A count at an offset: `4x`, `4 ×`, `4 PH0`, `x4`, `six`; gives the offset after it, or None."""
    text = state.text
    if (three := _BARE_THREE.match(text, at)) and float(three[2].replace(",", ".")) >= 1.2:
        return _counted(state, at, three.end(1), three.end(), three[1])
    times = _TIMES.match(text, at)
    if times and _starts_with_size(text, times.end()):
        return _counted(state, at, times.end(1), times.end(), times[1])
    if scan_thread(text, at) or _starts_with_size(text, at):
        return None
    for pattern in (_COUNT_TIMES, _COUNT_PLAIN, _COUNT_AFTER):
        found = pattern.match(text, at)
        if found and text[found.end() : found.end() + 1] not in (".",):
            place = next(place for place, group in enumerate(found.groups(), 1) if group)
            stop = found.end() if pattern is _COUNT_AFTER else found.end(place)
            return _counted(state, at, stop, found.end(), found[place])
    word = read_word(text, at)
    if word and word.value == int(word.value):
        times = re.compile(r"\s*[x×X*](?![\w.])").match(text, word.end)
        return _counted(state, at, word.end, times.end() if times else word.end, str(int(word.value)))
    return None


def _counted(state: _State, start: int, stop: int, end: int, number: str) -> int:
    state.add("count", start, start + len(state.text[start:stop].rstrip()), number)
    return end


def _starts_with_size(text: str, at: int) -> bool:
    found = scan_drive(text, at)
    return bool(found and found.code)


def _drives(state: _State, at: int) -> int | None:
    """One drive, or several of which each fits (`SL4|PZ1`)."""
    found = scan_drive(state.text, at)
    if not found:
        return None
    state.add("drive" if found.code else "sizeless", at, found.end, found.code or found.typed)
    end = found.end
    while bar := _ALTERNATIVE.match(state.text, end):
        other = scan_drive(state.text, bar.end())
        word = _CODE_LIKE.match(state.text, bar.end())
        if other:
            end = state.add("drive" if other.code else "sizeless", bar.end(), other.end, other.code or other.typed)
        elif word:
            end = state.add("sizeless", bar.end(), word.end(), word[0])
        else:
            break
    return end


def _unknown_drive(state: _State) -> None:
    """Without a drive known, the word that stands where one is due is taken for one nobody knows."""
    if state.has("sizeless"):
        return
    thread = next((token for token in state.tokens if token.role == "thread"), None)
    for place, token in enumerate(state.tokens):
        if token.role != "rest" or aside_key(token.text) or _NO_DRIVE.fullmatch(token.text):
            continue
        if _CODE_LIKE.fullmatch(token.text) or (thread and token.end <= thread.start):
            state.tokens[place] = Token("sizeless", token.text, token.start, token.end, token.text)
            return


@cache
def _noise() -> frozenset[str]:
    return frozenset(data("threads")["noise"]["words"].split())


def aside_key(word: str) -> str:
    """The key that a word among the details belongs to (`black`: `colour`), or empty."""
    folded = word.casefold().strip(".,")
    if re.fullmatch(r"\d{1,2}[.,]\d", folded):
        return "grade"
    for key, words in data("threads")["asides"].items():
        if key not in ("source", "status") and folded in words.split():
            return str(key)
    return ""


def read_notation(text: str, offset: int = 0) -> FastenerNotation:
    """The notation of a screw set's details; `offset`: where they start in the note."""
    found = _apart(text)
    return replace(
        found,
        count_span=_moved(found.count_span, offset),
        drive_span=_moved(found.drive_span, offset),
        thread_span=_moved(found.thread_span, offset),
        rest_span=_moved(found.rest_span, offset),
    )


def _moved(span: Span | None, offset: int) -> Span | None:
    return Span(span.start + offset, span.end + offset) if span else None


@lru_cache(4096)  # a note has many sets that are written alike
def _apart(text: str) -> FastenerNotation:
    """Details taken apart, with places in them."""
    found = tokens(text)
    count = next((token for token in found if token.role == "count"), None)
    drives = [token for token in found if token.role in ("drive", "sizeless")]
    thread = next((token for token in found if token.role == "thread"), None)
    rest = [token for token in found if token.role in ("rest", "inch")]
    nut = any(drive_family(token.value) == "NUT" for token in drives)
    size = scan_thread(text, thread.start, nut) if thread else None
    return FastenerNotation(
        count=int(count.value) if count else None,
        count_span=_span([count] if count else []),
        drives=tuple(dict.fromkeys(token.value for token in drives)),
        drive_span=_span(drives),
        unknown_drives=tuple(token.value for token in drives if token.role == "sizeless"),
        thread=_thread(size) if size else None,
        thread_span=_span([thread] if thread else []),
        rest=" ".join(token.text for token in rest),
        rest_span=_span(rest),
    )


def _span(found: list[Token]) -> Span | None:
    return Span(found[0].start, found[-1].end) if found else None


def _thread(size: ThreadSize) -> Thread:
    return Thread(size.text, size.system, size.diameter, size.pitch, size.length)
