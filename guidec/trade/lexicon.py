"""A language tag -> its verbs and small words, as the action reader wants them."""

from __future__ import annotations

from collections.abc import Mapping
from functools import cache
from pathlib import Path
from typing import Any

import yaml

from guidec.quick import dataclass

__all__ = ["LastVerbs", "Lexicon", "Sense", "lexicon", "lexicon_languages"]

FOLDER = Path(__file__).parent / "data" / "lexicon"
BASE, THIRD, PAST, ING = "base", "third", "past", "ing"


@dataclass(frozen=True, slots=True)
class Sense:
    """One reading of a word form: its verb, what the verb does, the particle it asks for, and its form."""

    verb: str
    family: str
    particle: str | None
    forms: frozenset[str]


@dataclass(frozen=True, slots=True)
class LastVerbs:
    """The words of a language in which an instruction may end with its verb ("{part lid} vorsichtig abnehmen").

    `verbs`: infinitive, its particle before it, -> the verb. The rest are small words by what they tell: that a
    clause states something, or depends on another; that a noun hangs on the one before, or is acted upon at all.
    """

    verbs: Mapping[str, Sense]
    finite: frozenset[str]
    letting: frozenset[str]
    letting_families: frozenset[str]
    infinitive_marks: frozenset[str]
    subordinating: frozenset[str]
    perhaps_subordinating: frozenset[str]
    purpose: frozenset[str]
    relative: frozenset[str]
    genitive: frozenset[str]
    dative: frozenset[str]


@dataclass(frozen=True, slots=True)
class Lexicon:
    """The words of one language. `senses`: word form -> its readings, those with a particle first."""

    language: str
    senses: Mapping[str, tuple[Sense, ...]]
    adverbs: frozenset[str]
    connectives: frozenset[str]
    particles: frozenset[str]
    prepositions: frozenset[str]
    instruments: frozenset[str]
    """The prepositions that name what something is done with."""
    linking: frozenset[str]
    negations: frozenset[str]
    determiners: frozenset[str]
    shares: Mapping[str, tuple[tuple[str, ...], ...]]
    numbers: Mapping[str, int]
    signals: Mapping[str, str]
    sides: Mapping[str, str]
    first_side: str
    of: frozenset[str]
    gerunds: frozenset[str]
    """Forms that are an -ing form and nothing else."""
    particles_last: bool
    """A verb's particle may stand behind a preposition and what follows it ("nimm … mit der Karte ab")."""
    pronouns: frozenset[str]
    """What stands for the things of the clause before ("… and lift it off")."""
    singular: frozenset[str]
    """The pronouns that stand for one thing."""
    motions: frozenset[str]
    """Verbs that move something and do not say where to, unless a particle does ("… and pull")."""
    opening: frozenset[str]
    """Verbs that leave a part where it is and undo whatever holds ("open")."""
    unasked: frozenset[str]
    """Verbs that are not looked for in remarks: they are as often no instruction."""
    nounish: frozenset[str]
    """Verbs that are nouns or adjectives as often ("support", "place"): none begins a clause within a line."""
    lead_ins: frozenset[tuple[str, ...]]
    """What may stand before an action's verb besides adverbs ("after that", "start by")."""
    uses: frozenset[str]
    infinitive: frozenset[str]
    """"Use {tool} to pry off …" acts with the verb behind `infinitive`."""
    restoring: frozenset[str]
    """The verbs that put something back or together."""
    written: frozenset[str]
    """Verbs of written instructions that speech uses for other things too."""
    plainly: Mapping[str, str]
    """Words that name something that holds, folded, and the kind of it ("screws": `screw`)."""
    examples: str
    """Two actions as they begin or end, for messages."""
    last: LastVerbs | None

    def words(self) -> tuple[str, ...]:
        """The verbs as they are written in an instruction, for looking up what a misspelt word may have been."""
        return tuple(form for form, found in self.senses.items() if any(BASE in one.forms for one in found))


@cache
def lexicon(language: str) -> Lexicon | None:
    """The lexicon of a BCP 47 tag (`en-GB` falls back to `en`), or None where none is shipped."""
    tag = language.replace("_", "-").lower()
    while tag:
        path = FOLDER / f"{tag}.yaml"
        if path.is_file():
            loader = getattr(yaml, "CSafeLoader", yaml.SafeLoader)
            return _build(yaml.load(path.read_bytes(), loader))
        tag = tag.rpartition("-")[0]
    return None


def lexicon_languages() -> tuple[str, ...]:
    """The tags of the languages that have a lexicon."""
    return tuple(sorted(path.stem for path in FOLDER.glob("*.yaml")))


def _build(data: Mapping[str, Any]) -> Lexicon:
    restoring, more = data["restoring"], data.get("more", {})
    verbs = {family: {**rows, **more.get(family, {})} for family, rows in data["verbs"].items()}
    verbs["treat"] |= restoring
    senses = _senses(verbs)
    return Lexicon(
        language=data["language"],
        senses=senses,
        gerunds=frozenset(form for form, found in senses.items() if any(one.forms == {ING} for one in found)),
        shares={
            name: tuple(tuple(phrase.split()) for phrase in phrases) for name, phrases in data["shares"].items()
        },
        numbers=data["numbers"],
        signals=data["signals"],
        sides=data["sides"],
        first_side=data["first_side"],
        particles_last=data["particles_last"],
        restoring=frozenset(restoring),
        written=frozenset([*restoring, *(verb for rows in more.values() for verb in rows)]),
        plainly={word: kind for kind, words in data["plainly"].items() for word in words.split()},
        examples=data["examples"],
        lead_ins=frozenset(tuple(phrase.split()) for phrase in data["lead_ins"]),
        last=_last(data["verbs_last"], verbs) if "verbs_last" in data else None,
        **{name: frozenset(data[name].casefold().split()) for name in _WORD_SETS},
    )


def _last(data: Mapping[str, str], verbs: Mapping[str, Mapping[str, str]]) -> LastVerbs:
    """The infinitives of all verbs: those with a particle, the plain ones, these with a particle for "away"."""
    plain: dict[str, Sense] = {}
    whole: dict[str, Sense] = {}
    rows = [(family, *row) for family, entries in verbs.items() for row in entries.items()]
    for family, entry, others in rows:
        particle = entry.partition(" ")[2]
        infinitive = others.split()[0].casefold()
        sense = Sense(entry, family, particle or None, frozenset((BASE,)))
        if particle in data["shortened"].split():
            whole.setdefault(particle[2:] + infinitive, sense)
        (whole if particle else plain).setdefault(particle + infinitive, sense)
    away = {
        particle + infinitive: sense
        for infinitive, sense in plain.items()
        if sense.family == "undo"
        for particle in data["away"].split()
    }
    sets = {name: frozenset(data[name].casefold().split()) for name in _LAST_SETS}
    return LastVerbs(verbs={**away, **plain, **whole}, **sets)


_LAST_SETS = (
    "finite",
    "letting",
    "letting_families",
    "infinitive_marks",
    "subordinating",
    "perhaps_subordinating",
    "purpose",
    "relative",
    "genitive",
    "dative",
)
_WORD_SETS = (
    "adverbs",
    "connectives",
    "particles",
    "prepositions",
    "instruments",
    "linking",
    "negations",
    "determiners",
    "of",
    "pronouns",
    "singular",
    "motions",
    "opening",
    "unasked",
    "nounish",
    "uses",
    "infinitive",
)


def _senses(verbs: Mapping[str, Mapping[str, str]]) -> dict[str, tuple[Sense, ...]]:
    """Form -> readings. `verbs`: family -> `verb [particle]` -> its other forms, third person first, -ing last."""
    found: dict[str, dict[tuple[str, str | None], set[str]]] = {}
    families: dict[tuple[str, str | None], str] = {}
    for family, entries in verbs.items():
        for entry, others in entries.items():
            word, _, particle = entry.partition(" ")
            key = (word, particle or None)
            families[key] = family
            for form, kind in _kinds(word, others.split()):
                found.setdefault(form.casefold(), {}).setdefault(key, set()).add(kind)
    return {
        form: tuple(
            Sense(" ".join(filter(None, key)), families[key], key[1], frozenset(kinds))
            for key, kinds in sorted(readings.items(), key=lambda item: item[0][1] is None)
        )
        for form, readings in found.items()
    }


def _kinds(word: str, others: list[str]) -> list[tuple[str, str]]:
    third, *past, ing = others
    return [(word, BASE), (third, THIRD), (ing, ING), *((form, PAST) for form in past or [word])]
