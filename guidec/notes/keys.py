"""The part of a mark after its first `;` -> its keys, and what is wrong with them."""

from __future__ import annotations

import re

from guidec.notes.mark_body import Body
from guidec.notes.shown import short
from guidec.notes.syntax import Key
from guidec.rules.finding import Finding

__all__ = ["keys"]

_BETWEEN = re.compile(r"\s*[:=\s]\s*")


def keys(body: Body, start: int, end: int) -> tuple[tuple[Key, ...], tuple[Finding, ...]]:
    """The keys in a range: `key=value` or bare, with `;` between. A key that comes twice counts once."""
    found: dict[str, Key] = {}
    findings: list[Finding] = []
    while start <= end:
        cut = body.find(";", start, end)
        stop = cut if cut >= 0 else end
        first, last = body.trim(start, stop)
        start = stop + 1
        if first == last:
            continue
        key = _key(body, first, last, findings)
        if key is not None and found.setdefault(key.name, key) is not key:
            place = {"first": found[key.name].name_span}
            findings.append(Finding.at("N105", key.name_span, labels=place, key=short(key.name)))
    return tuple(found.values()), tuple(findings)


def _key(body: Body, start: int, end: int, findings: list[Finding]) -> Key | None:
    """One key; None, with a finding, where the text is none."""
    equals = body.find("=", start, end)
    first, last = body.trim(start, equals if equals >= 0 else end)
    name = body.words(first, last).casefold()
    if equals < 0:
        if " " in name or ":" in name:
            _malformed("colon" if ":" in name else "spaces", body, start, end, findings)
            return None
        span = body.span(first, last)
        return Key(name, span, None, span._replace(start=span.end))
    value = body.trim(equals + 1, end)
    why = "name" if not name else "value" if value[0] == value[1] else "spaces" if " " in name else ""
    if why:
        _malformed(why, body, start, end, findings)
        return None
    return Key(name, body.span(first, last), body.words(*value), body.span(*value))


def _malformed(why: str, body: Body, start: int, end: int, findings: list[Finding]) -> None:
    typed = body.words(start, end)
    guess = [_BETWEEN.sub("=", typed, count=1)] if why in ("colon", "spaces") and "=" not in typed else []
    findings.append(Finding.at("N104", body.span(start, end), variant=why, suggest=guess, typed=short(typed)))
