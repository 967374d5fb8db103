"""Front matter -> the same with everyday words read as what they mean (`language: english`, `power: Akku`).

Each is a warning that says what was understood, so that the rest of the note is read as it is meant.
"""

from __future__ import annotations

import re
from collections.abc import Mapping
from functools import cache

from guidec.notes.syntax import Entry, Located
from guidec.quick import replace
from guidec.rules.finding import Finding, Severity
from guidec.trade.load import data

__all__ = ["meant"]

_KEYS = ("language", "power")
_TAG = re.compile(r"[A-Za-z]{2,3}(?:[-_][A-Za-z0-9]{2,8})*")
_PART = re.compile(r"\s*[,;/+&]\s*|\s+(?:and|und|or|oder)\s+", re.I)


def meant(front: Located) -> tuple[Located, tuple[Finding, ...]]:
    """The front matter with such values in the schema's own words, and a finding for each."""
    if not isinstance(front.value, Mapping):
        return front, ()
    findings: list[Finding] = []
    entries = dict(front.value)
    for key in _KEYS:
        if key in entries:
            entries[key] = _entry(entries[key], findings)
    return (replace(front, value=entries), tuple(findings)) if findings else (front, ())


def _entry(entry: Entry, findings: list[Finding]) -> Entry:
    value = entry.value
    if isinstance(value.value, tuple):
        items = tuple(_value(entry.key, item, findings) for item in value.value)
        return replace(entry, value=replace(value, value=items))
    return replace(entry, value=_value(entry.key, value, findings))


def _value(key: str, value: Located, findings: list[Finding]) -> Located:
    """The value, or what was meant by it."""
    if not isinstance(value.value, str):
        return value
    read = (_language if key == "language" else _power)(value.value.strip())
    if read is None or read == value.value.strip():
        return value
    findings.append(
        Finding.at(
            "N021",
            value.span,
            variant="meant",
            severity=Severity.WARNING,
            suggest=(read,),
            key=key,
            typed=value.typed[:60],
            read=read,
        )
    )
    return replace(value, value=read)


def _language(typed: str) -> str | None:
    """The tag of a language by its name; a tag with underscores as one with hyphens."""
    if _TAG.fullmatch(typed):
        return _words("language").get(typed.casefold(), typed.replace("_", "-"))
    return _words("language").get(typed.casefold().split(" ")[0].split("(")[0])


def _power(typed: str) -> str | None:
    """The kinds of power that a text speaks of, each once; None where some part of it speaks of none."""
    found: list[str] = []
    for part in _PART.split(typed):
        named = _kinds_in(part)
        if len(named) != 1:
            return None
        found += named
    return ", ".join(dict.fromkeys(found)) if typed != ",".join(found) else typed


def _kinds_in(part: str) -> list[str]:
    words = re.sub(r"(\d)\s+(v(?:ac)?)\b", r"\1\2", part.casefold())
    known = _words("power")
    return list(dict.fromkeys(known[word] for word in re.findall(r"[\w-]+", words) if word in known))


@cache
def _words(key: str) -> dict[str, str]:
    """Everyday word -> the schema's word."""
    return {word: own for own, words in data("front_words")[key].items() for word in words.split()}
