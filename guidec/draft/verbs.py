"""A verb form as spoken -> what it does and how a note says it.

The notes language's own lexicon, and beside it the verbs that people say and notes do not take ("whip out",
"comes off"), each with the verb that stands for it in a note.
"""

from __future__ import annotations

from functools import cache

from guidec.quick import dataclass
from guidec.trade.lexicon import lexicon
from guidec.trade.load import data

__all__ = ["Doing", "doings", "verb_forms"]


@dataclass(frozen=True, slots=True)
class Doing:
    """One reading: the verb's base form, the particle it asks for, what it does (a family of the notes language),
    and the words of the note (`Take out`); `forms`: base, third, past, ing."""

    base: str
    particle: str
    family: str
    note: str
    forms: frozenset[str]
    passive: bool = False
    """Said of the thing itself: "comes off", "lifts out"."""


@cache
def _table() -> dict[str, tuple[Doing, ...]]:
    found: dict[str, list[Doing]] = {}
    spoken = data("draft/verbs-en")
    for family, rows in spoken["verbs"].items():
        for entry, row in rows.items():
            words = entry.split()
            forms = _forms(words[0], row["forms"].split())
            for form, kinds in forms.items():
                found.setdefault(form, []).append(
                    Doing(
                        words[0],
                        " ".join(words[1:]),
                        family,
                        row.get("note", ""),
                        frozenset(kinds),
                        row.get("self", False),
                    )
                )
    lex = lexicon("en")
    if lex is None:
        return {form: tuple(rows) for form, rows in found.items()}
    for form, senses in lex.senses.items():
        for sense in senses:
            base, _, particle = sense.verb.partition(" ")
            if sense.family == "look" or sense.verb in lex.written or (base, particle) in _left(spoken):
                continue
            found.setdefault(form, []).append(Doing(base, particle, sense.family, "", sense.forms))
    return {form: tuple(sorted(rows, key=lambda row: -len(row.particle))) for form, rows in found.items()}


def _left(spoken: dict[str, object]) -> set[tuple[str, str]]:
    """Verbs of the notes language that speech uses too loosely to stand alone."""
    return {(words.split()[0], " ".join(words.split()[1:])) for words in str(spoken["loose"]).split(", ")}


def _forms(base: str, others: list[str]) -> dict[str, set[str]]:
    third, *past, ing = others
    found: dict[str, set[str]] = {}
    for form, kind in (
        (base, "base"),
        (third, "third"),
        (ing, "ing"),
        *((form, "past") for form in past or [base]),
    ):
        found.setdefault(form, set()).add(kind)
    return found


@cache
def verb_forms() -> frozenset[str]:
    """All forms of all verbs."""
    return frozenset(_table())


def doings(form: str) -> tuple[Doing, ...]:
    """The readings of a form, those that ask for a particle first; an unknown verb takes off or out what it is
    said of."""
    return _table().get(form) or _improvised(form)


@cache
def _improvised(form: str) -> tuple[Doing, ...]:
    endings = (("ing", "ing"), ("ed", "past"), ("s", "third"))
    kinds = frozenset({next((kind for ending, kind in endings if form.endswith(ending)), "base")})
    return tuple(
        Doing(form, particle, "undo", note, kinds)
        for particle, note in (
            ("off", "Take off"),
            ("out", "Take out"),
            ("free", "Pull free"),
            ("away", "Lift away"),
            ("loose", "Pull free"),
        )
    )
