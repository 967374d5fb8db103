"""A sentence -> the safety device that it says to defeat, or None.

Sentences that forbid it, that look for it, or that discharge a capacitor are no instructions to defeat anything.
"""

from __future__ import annotations

import re
from collections.abc import Callable
from functools import cache

from guidec.quick import dataclass
from guidec.trade.load import data
from guidec.trade.phrases import first_phrase, in_language, may_speak

__all__ = ["Defeat", "defeat", "defeats", "may_name_device"]

_CLAUSE = re.compile(r"[^.;:!?\n]+")
_NEAR = 60


@dataclass(frozen=True, slots=True)
class Defeat:
    """Where a text (offsets) defeats what."""

    start: int
    end: int
    verb: str
    device: str


def _forbids(head: str, language: str) -> bool:
    negations = in_language(data("safety-devices")["negations"], language)
    return first_phrase(head, negations, plural=False) is not None


@cache
def _verbs(strength: str, language: str) -> re.Pattern[str]:
    words = in_language(data("safety-devices")["defeats"][strength], language)
    return re.compile(rf"(?<!\w)(?:{'|'.join(words)})(?!\w)", re.I)


def may_name_device(text: str, language: str = "en") -> Callable[[int, int], bool]:
    """Asks of a stretch of a text, by its offsets, whether it may speak of a safety device; see `may_speak`."""
    return may_speak(text, _devices(language))


@cache
def _devices(language: str) -> tuple[str, ...]:
    return in_language(data("safety-devices")["devices"], language)


def defeats(text: str, language: str = "en") -> tuple[Defeat, ...]:
    """Every clause of a text that says to defeat a safety device. Words in braces are names, and no verbs."""
    if first_phrase(text, _devices(language)) is None:
        return ()
    found = (_in_clause(clause[0], clause.start(), language) for clause in _CLAUSE.finditer(text))
    return tuple(each for each in found if each)


def defeat(text: str, language: str = "en") -> Defeat | None:
    """The first of `defeats`."""
    return next(iter(defeats(text, language)), None)


def _in_clause(clause: str, offset: int, language: str) -> Defeat | None:
    for strength in ("strong", "weak"):
        for verb in _verbs(strength, language).finditer(clause):
            head = clause[: verb.start()]
            if _is_noun(head, language) or _forbids(head, language) or _looks_for_it(head):
                continue
            device = _device(clause, verb, strength, language)
            if device and not _discharges(clause[verb.end() :], language):
                start, end = min(verb.start(), device.start()), max(verb.end(), device.end())
                return Defeat(offset + start, offset + end, verb[0], device[0])
    return None


def _is_noun(head: str, language: str) -> bool:
    words = head.casefold().split()
    nouns = in_language(data("safety-devices")["nouns"], language)
    return head.count("{") > head.count("}") or bool(words and words[-1] in nouns)


def _device(clause: str, verb: re.Match[str], strength: str, language: str) -> re.Match[str] | None:
    """The device after an active verb; before it only as the subject of a participle, or in German, where the verb
    ends the clause."""
    devices = _devices(language)
    after = first_phrase(clause[verb.end() : verb.end() + _NEAR], devices)
    if after:
        between = clause[verb.end() : verb.end() + after.start()]
        prepositions = in_language(data("safety-devices")["prepositions"], language)
        far = strength == "weak" and first_phrase(between, prepositions, plural=False)
        return None if far else _placed(clause, after[0], verb.end())
    if not verb[0].split()[0].casefold().endswith(("ed", "en", "d", "t")) and not language.startswith("de"):
        return None
    before = first_phrase(clause[max(0, verb.start() - _NEAR) : verb.start()], devices)
    return _placed(clause, before[0], max(0, verb.start() - _NEAR)) if before else None


def _placed(clause: str, words: str, by: int) -> re.Match[str] | None:
    """Where words found in a folded piece stand in the clause itself."""
    return re.compile(re.escape(words), re.I).search(clause, by)


_LOOKING = re.compile(
    r"\b(?:check|make sure|see|test|verify|inspect|look|ensure|find out|note"
    r"|prüfe?n?|sicherstellen|kontrollier\w*)\b",
    re.I,
)
_QUESTION = re.compile(
    r"\b(?:if|whether|that|ob|dass|for|is|are|was|were|has|have|been|nobody|somebody|anyone)\b", re.I
)


def _looks_for_it(head: str) -> bool:
    """`Check whether somebody has bridged the fuse`, but not `Test it with the interlock bridged`."""
    looking = _LOOKING.search(head)
    return bool(looking and _QUESTION.search(head, looking.end()))


def _discharges(tail: str, language: str) -> bool:
    """`Short out the capacitor at the protection board`: the nearest object is a charge, not a device."""
    table = data("safety-devices")
    charge = first_phrase(tail, in_language(table["discharging"], language))
    device = first_phrase(tail, in_language(table["devices"], language))
    return bool(charge and (device is None or charge.start() < device.start()))
