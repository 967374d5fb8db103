"""A plastics mark such as `>ABS+PC<` or `>PA66-GF30 FR(40)<` -> its polymers, fillers and flame retardants.

The mark is that of ISO 11469, its symbols those of ISO 1043. Totals of mass are summed by material.
"""

from __future__ import annotations

import re
from collections.abc import Iterable

from guidec.quick import dataclass, replace
from guidec.trade.likeness import nearest
from guidec.trade.load import data
from guidec.trade.phrases import first_phrase, in_language

__all__ = ["Filler", "Mark", "Total", "function_of", "is_attacked", "read_mark", "totals"]

_FILLER = re.compile(r"([A-Z])([A-Z])?(\d{1,2})?")
_FLAME = re.compile(r"[- ]?FR\s?\(?(\d{2}(?:\s?\+\s?\d{2})*)?\)?")
_PLASTICISER = re.compile(r"[- ]?P\([^)]*\)")


@dataclass(frozen=True, slots=True)
class Filler:
    """A filler or reinforcement: what, in what form, its share in percent; None where the mark does not say."""

    symbol: str
    substance: str
    form: str | None
    percent: int | None


@dataclass(frozen=True, slots=True)
class Mark:
    """A mark read. `marked`: it stood between `>` and `<`. `flame_retardants`: numbers of ISO 1043-4;
    `flame_retarded` also where no number stands. `unknown`: symbols of no table, with the nearest known ones."""

    polymers: tuple[str, ...]
    fillers: tuple[Filler, ...] = ()
    flame_retardants: tuple[int, ...] = ()
    flame_retarded: bool = False
    unknown: tuple[tuple[str, tuple[str, ...]], ...] = ()
    marked: bool = False

    @property
    def brominated(self) -> bool:
        """Whether a flame retardant of the mark holds bromine."""
        known = data("plastics")["flame_retardants"]["brominated"]
        return any(number in known for number in self.flame_retardants)


def read_mark(text: str) -> Mark | None:
    """A mark, with or without angle brackets; None for what is no mark (`steel`, `PCB`), unless in brackets.

    Without brackets what stands beside a known polymer is taken as a trade name's (`POM-C`, `ABS V0`).
    """
    bare = text.strip()
    brackets = re.fullmatch(r">\s*(.*?)\s*<", bare) or re.fullmatch(r"<\s*(.*?)\s*>", bare)
    body = (brackets[1] if brackets else bare).upper()
    body = body if brackets or bare == body or _known(bare) else ""
    if not re.fullmatch(r"[A-Z][A-Z0-9+\-/,() ]*", body):
        return None
    mark = _read(body, bool(brackets))
    if brackets:
        return mark
    if mark.polymers:
        return replace(mark, unknown=())
    near = (
        len(mark.unknown) == 1 and any(words for _, words in mark.unknown) and re.fullmatch(r"[A-Z0-9]{4,6}", body)
    )
    return mark if near else None


def _known(text: str) -> bool:
    return text.upper() in data("plastics")["polymers"]


def _read(body: str, marked: bool) -> Mark:
    flame = _FLAME.search(body)
    numbers = tuple(int(number) for number in re.findall(r"\d{2}", flame[1])) if flame and flame[1] else ()
    rest = _PLASTICISER.sub("", _FLAME.sub("", body)).strip(" ,")
    polymers: list[str] = []
    fillers: list[Filler] = []
    unknown: list[tuple[str, tuple[str, ...]]] = []
    for piece in re.split(r"[+/,]", re.sub(r"\(([^)]*)\)", r"\1", rest)):
        _piece(piece.strip(), polymers, fillers, unknown)
    return Mark(tuple(polymers), tuple(fillers), numbers, flame is not None, tuple(unknown), marked)


def _piece(
    piece: str, polymers: list[str], fillers: list[Filler], unknown: list[tuple[str, tuple[str, ...]]]
) -> None:
    """One part between plus signs: a polymer with what hangs on it (`PA66-GF30`), or a filler alone (`MD15`)."""
    known = data("plastics")["polymers"]
    symbol = next(
        (piece[:end] for end in range(len(piece), 0, -1) if _ends(piece, end) and piece[:end] in known), ""
    )
    if symbol:
        polymers.append(symbol)
        hanging = piece[len(symbol) :]
    else:
        hanging = piece
    for word in re.findall(r"[A-Z0-9]+", hanging):
        filler = _filler(word)
        if word in known:
            polymers.append(word)
        elif filler and (symbol or fillers or polymers):
            fillers.append(filler)
        else:
            unknown.append((word, nearest(word, known, 3)))


def _ends(piece: str, end: int) -> bool:
    return end == len(piece) or not piece[end].isalnum()


def _filler(word: str) -> Filler | None:
    found = _FILLER.fullmatch(word)
    table = data("plastics")["fillers"]
    if not found or found[1] not in table["substances"] or (found[2] and found[2] not in table["forms"]):
        return None
    if not found[2] and not found[3]:
        return None
    percent = int(found[3]) if found[3] else None
    return Filler(word, table["substances"][found[1]], table["forms"][found[2]] if found[2] else None, percent)


def is_attacked(material: str, attacks: Iterable[str]) -> bool:
    """Whether a solvent that attacks some plastics attacks this one."""
    mark = read_mark(material)
    polymers = mark.polymers if mark else ()
    return any(symbol.split("-")[0] in attacks or symbol in attacks for symbol in polymers)


# ---------------------------------------------------------------- totals


@dataclass(frozen=True, slots=True)
class Total:
    """Mass of all parts of one material, in g. `function`: what it is in the large (plastic, metal, …)."""

    material: str
    function: str
    low_g: float
    high_g: float
    parts: int


def function_of(material: str, language: str = "en") -> str:
    """What a material is in the large: `plastic`, `metal`, `glass and ceramic`, … or `other`."""
    mark = read_mark(material)
    if mark and mark.polymers:
        return "plastic"
    for function, words in data("plastics")["functions"].items():
        if first_phrase(material, in_language(words, language)):
            return str(function)
    return "other"


def totals(rows: Iterable[tuple[str | None, float, float, int]], language: str = "en") -> tuple[Total, ...]:
    """Sums by material, heaviest first, of rows (material as typed or None, mass of one in g low and high, count).

    Rows without a material are summed under an empty one, so that nothing weighed is lost.
    """
    sums: dict[str, list[float]] = {}
    for material, low, high, count in rows:
        name = _plain(material)
        old = sums.setdefault(name, [0.0, 0.0, 0])
        sums[name] = [old[0] + low * count, old[1] + high * count, old[2] + count]
    found = [
        Total(name, function_of(name, language) if name else "", low, high, int(count))
        for name, (low, high, count) in sums.items()
    ]
    return tuple(sorted(found, key=lambda each: (-each.high_g, each.material)))


def _plain(material: str | None) -> str:
    bare = (material or "").strip()
    found = re.fullmatch(r"[<>]\s*(.*?)\s*[<>]", bare)
    return found[1].strip() if found else bare
