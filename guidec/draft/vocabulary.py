"""The spoken trade lexicon and the small words of speech -> look-up tables.

A file given with `--lexicon` has the shape of `trade/data/draft/en.yaml`; what it lists comes on top.
"""

from __future__ import annotations

from collections.abc import Iterator, Mapping, Sequence
from functools import cache
from typing import Any

from guidec.quick import dataclass
from guidec.trade.lexicon import lexicon
from guidec.trade.load import data

__all__ = ["Confusion", "Term", "Vocabulary", "singular", "vocabulary"]

KINDS: tuple[str, ...] = (
    "tools",
    "supplies",
    "connectors",
    "adhesives",
    "clips",
    "fastenings",
    "solder",
    "thermal",
    "screws",
    "devices",
)
WORDS: tuple[str, ...] = (
    "stop",
    "starters",
    "subjects",
    "be",
    "generic",
    "determiners",
    "prepositions",
    "particles",
    "adverbs",
)
WORDS += (
    "negations",
    "auxiliaries",
    "fillers",
    "stand_ins",
    "heads",
    "places",
    "ordinals",
    "looks_of_screws",
    "crossed",
)


@dataclass(frozen=True, slots=True)
class Term:
    """A name of the trade: its words in the singular, and what it can be: kind -> part class or ``."""

    words: tuple[str, ...]
    kinds: Mapping[str, str]


@dataclass(frozen=True, slots=True)
class Confusion:
    """What captions make of a term; `near`: the words of which one must stand close by (empty: none need)."""

    heard: tuple[str, ...]
    meant: str
    near: frozenset[str]


@dataclass(frozen=True)
class Vocabulary:
    """All tables. `terms` by their words; `longest` in words; `small`: sets of small words by name."""

    terms: Mapping[tuple[str, ...], Term]
    longest: int
    cables: frozenset[tuple[str, ...]]
    either: frozenset[str]
    types: Mapping[str, tuple[tuple[str, ...], ...]]
    confusions: Mapping[str, tuple[Confusion, ...]]
    ordinary: frozenset[str]
    strange: tuple[str, ...]
    small: Mapping[str, frozenset[str]]
    fittings: frozenset[tuple[str, ...]]
    phrases: tuple[tuple[str, ...], ...]
    corrections: tuple[tuple[str, ...], ...]

    def term(self, words: Sequence[str]) -> Term | None:
        """The term of these words, the last one singular or plural."""
        found = self.terms.get(tuple(words))
        if found is None and words:
            found = self.terms.get((*words[:-1], singular(words[-1])))
        return found


_SAME = frozenset(
    [
        "chassis",
        "lens",
        "glass",
        "tweezers",
        "pliers",
        "cutters",
        "gloves",
        "goggles",
        "glasses",
        "scissors",
        "grips",
        "brass",
        "press",
        "bus",
        "gas",
        "focus",
        "bias",
        "series",
        "access",
        "plus",
        "less",
        "across",
        "always",
        "as",
        "is",
        "this",
        "his",
        "its",
        "us",
        "apparatus",
        "cutters",
        "strippers",
        "tongs",
        "forceps",
        "glass",
        "torx",
        "phillips",
        "velcro",
        "canvas",
        "compass",
        "harness",
    ]
)
_ODD = {
    "batteries": "battery", "assemblies": "assembly", "knives": "knife", "halves": "half", "shelves": "shelf",
    "teeth": "tooth", "feet": "foot", "leaves": "leaf", "vises": "vise", "lenses": "lens", "axes": "axis",
}  # fmt: skip


def singular(word: str) -> str:
    """The singular of a noun: `brushes` -> `brush`, `batteries` -> `battery`, `lens` stays."""
    if word in _ODD:
        return _ODD[word]
    if word in _SAME or len(word) < 4 or not word.endswith("s") or word.endswith("ss"):
        return word
    if word.endswith("ies"):
        return word[:-3] + "y"
    if word.endswith(("ches", "shes", "sses", "xes", "zzes")):
        return word[:-2]
    return word[:-2] if word.endswith("'s") else word[:-1]


@cache
def vocabulary() -> Vocabulary:
    """The vocabulary as shipped."""
    return build({})


def build(more: Mapping[str, Any]) -> Vocabulary:
    """The shipped vocabulary with what a user's file adds. Raises ValueError for a file of another shape."""
    trade, speech = data("draft/en"), data("draft/words-en")
    terms: dict[tuple[str, ...], dict[str, str]] = {}
    for source in (more, trade, data("draft/more-en")):
        for kind, cls, words in _rows(source):
            terms.setdefault(words, {}).setdefault(kind, cls)
    _compound(terms, trade["compounds"])
    return Vocabulary(
        terms={words: Term(words, kinds) for words, kinds in terms.items()},
        longest=max(map(len, terms)),
        cables=frozenset(words for source in (trade, more) for words in _split(source.get("cables", ""))),
        either=frozenset(word for source in (trade, more) for (word, *_) in _split(source.get("either", ""))),
        types={name: _split(words) for name, words in trade["connector_types"].items()},
        confusions=_confusions([trade["misheard"], more.get("misheard", {})]),
        ordinary=frozenset(trade["ordinary"].split()) | frozenset(str(more.get("ordinary", "")).split()),
        strange=_strange(trade, more),
        small={name: frozenset(str(speech[name]).split()) for name in WORDS} | {"verbs": _verb_forms()},
        fittings=frozenset(_split(trade["fittings"])),
        phrases=_split(speech["filler_phrases"]),
        corrections=tuple(sorted(_split(speech["corrections"]), key=len, reverse=True)),
    )


def _compound(terms: dict[tuple[str, ...], dict[str, str]], table: Mapping[str, str]) -> None:
    """Add names of two heads in one word: what `plate` can be, `backplate` can be."""
    for head in table["heads"].split():
        kinds = {kind: cls for kind, cls in terms.get((head,), {}).items() if kind == "part"} or {"part": "other"}
        for front in table["fronts"].split():
            terms.setdefault((front + head,), dict(kinds))


def _strange(trade: Mapping[str, Any], more: Mapping[str, Any]) -> tuple[str, ...]:
    """What is looked for by sound: what the lexicon says, and every name of a user's file."""
    own = (words for _, _, words in _rows(more))
    return tuple(dict.fromkeys(" ".join(words) for words in (*_split(trade["strange"]), *own)))


def _verb_forms() -> frozenset[str]:
    lex = lexicon("en")
    if lex is None:
        return frozenset()
    return frozenset(
        form for form, found in lex.senses.items() if any(one.verb not in lex.written for one in found)
    )


def _rows(source: Mapping[str, Any]) -> Iterator[tuple[str, str, tuple[str, ...]]]:
    """Kind, class and words of each term of one file."""
    parts = source.get("parts") or {}
    if not isinstance(parts, dict):
        raise ValueError("`parts` must be a mapping from a part class to names")
    for cls, names in parts.items():
        yield from (("part", str(cls), words) for words in _split(names))
    for kind in KINDS:
        names = source.get(kind, "")
        if isinstance(names, dict):
            raise ValueError(f"`{kind}` must be a list of names parted by commas")
        yield from ((_ONE.get(kind, kind), "", words) for words in _split(names))


_ONE = {
    "tools": "tool", "supplies": "supply", "connectors": "connector", "adhesives": "adhesive", "clips": "clip",
    "fastenings": "fastening", "screws": "screw", "devices": "device",
}  # fmt: skip


def _split(names: Any) -> tuple[tuple[str, ...], ...]:
    listed = names if isinstance(names, list) else str(names or "").split(",")
    rows = (tuple(str(name).lower().replace("-", " ").split()) for name in listed)
    return tuple((*row[:-1], singular(row[-1])) for row in rows if row)


def _confusions(tables: Sequence[Mapping[str, Any]]) -> dict[str, tuple[Confusion, ...]]:
    """First word heard -> what it may begin, the longest first."""
    found: dict[str, list[Confusion]] = {}
    for table in tables:
        for meant, row in table.items():
            near = frozenset(str(row.get("near", "")).split())
            listed = row["heard"] if isinstance(row["heard"], list) else str(row["heard"]).split(",")
            for words in (tuple(str(words).lower().replace("-", " ").split()) for words in listed):
                if words and " ".join(words) != meant:
                    found.setdefault(words[0], []).append(Confusion(words, str(meant), near))
    return {first: tuple(sorted(rows, key=lambda row: -len(row.heard))) for first, rows in found.items()}
