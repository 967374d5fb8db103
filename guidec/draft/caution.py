"""The words of warning -> patterns: what damages a thing (`risk`), what harms a person (`hazard`)."""

from __future__ import annotations

import re
from collections.abc import Mapping
from functools import cache

from guidec.trade.load import data

__all__ = ["harms_person", "harms_thing", "signal_of"]

_HOLE = re.compile(r"<([a-z]+)(?:-(s|ed|ing))?>")


def harms_thing(text: str) -> re.Match[str] | None:
    """Where words (lower case, no stops) say what can be damaged, and how."""
    return _patterns("risk").search(text)


def harms_person(text: str) -> re.Match[str] | None:
    """Where words say what can hurt somebody."""
    return _patterns("hazard").search(text)


def signal_of(text: str) -> str:
    """The signal word of a hazard: WARNING where the injury can be serious, else CAUTION."""
    return "WARNING" if _patterns("grave").search(text) else "CAUTION"


@cache
def _patterns(kind: str) -> re.Pattern[str]:
    """All turns of one kind as one pattern, with the verbs' forms put in."""
    turns = data("draft/care-en")[kind].splitlines()
    return re.compile("|".join(f"(?:{_filled(turn)})" for turn in turns))


def _filled(turn: str) -> str:
    return _HOLE.sub(lambda hole: _forms()[hole[1]][hole[2] or ""], turn)


@cache
def _forms() -> Mapping[str, Mapping[str, str]]:
    """Family of verbs -> form (`` base, `s`, `ed`, `ing`) -> all its verbs in that form, as one choice."""
    rows = data("draft/care-en")
    odd = {words[0]: words[1:] for words in (row.split() for row in rows["odd"].split(",")) if words}
    families = {
        name: {form: _choice(verbs.split(), odd, form) for form in ("", "s", "ed", "ing")}
        for name, verbs in rows["verbs"].items()
    }
    return families | {name: {"": _choice(rows[name].split(), {}, "")} for name in ("body", "limb")}


def _choice(verbs: list[str], odd: Mapping[str, list[str]], form: str) -> str:
    found = [one for verb in verbs for one in _inflected(verb, odd.get(verb), form)]
    return f"(?:{'|'.join(sorted(set(found), key=lambda one: (-len(one), one)))})"


def _inflected(verb: str, odd: list[str] | None, form: str) -> list[str]:
    """A verb in a form; by rule where no odd forms are listed (third, past …, -ing)."""
    if not form:
        return [verb]
    if odd:
        return {"s": odd[:1], "ed": odd[1:-1], "ing": odd[-1:]}[form]
    stem = verb.removesuffix("e")
    if form == "s":
        return [f"{verb}es" if verb.endswith(("s", "sh", "ch", "x", "z")) else f"{verb}s"]
    return [f"{stem}{form}"]
