"""Letters as they are spoken or spelt out (`j s tea`, `ess ess dee`, `n f see`) -> the short name they spell."""

from __future__ import annotations

from collections.abc import Iterator, Mapping, Sequence
from functools import cache
from itertools import product

from guidec.trade.load import data

__all__ = ["spelled", "spoken_names"]


def spelled(texts: Sequence[str], at: int, room: int) -> tuple[str, int] | None:
    """The short name that the words from here on spell, and how many words do; None where they spell none.

    Most of the words must be letters or their names and nothing else; where fewer are, what plugs in or is plugged
    must follow (`you see bee port`).
    """
    for count in range(min(room, len(texts) - at, 5), 1, -1):
        piece = texts[at : at + count]
        name = next(
            (one for one in _readings(piece) if one.removesuffix("s") in _names() or one in _names()), None
        )
        if name is not None and _is_sure(piece, texts[at + count : at + count + 1]):
            return name, count
    return None


def spoken_names() -> Mapping[str, str]:
    """Names as they sound letter by letter (`youessbee`) -> the names."""
    first = {letter: names.split()[0] for letter, names in data("draft/spelled-en")["letters"].items()}
    said = data("draft/spelled-en")["said"].split()
    names = [name for name in sorted(_names()) if len(name) > 2 and name not in said]
    return {"".join(first[letter] for letter in name): name for name in names}


def _is_sure(piece: Sequence[str], after: Sequence[str]) -> bool:
    strong = sum(
        word in _letters()["strong"] or (len(word) < 4 and word not in _letters()["weak"]) for word in piece
    )
    near = frozenset(data("draft/spelled-en")["followed"].split())
    return 2 * strong > len(piece) or (strong > 0 and not near.isdisjoint(after))


def _readings(piece: Sequence[str]) -> Iterator[str]:
    """What the words spell, each way; an `s` behind the last letter makes it plural (`l e dees`)."""
    choices = [_of(word, last=n == len(piece) - 1) for n, word in enumerate(piece)]
    if all(choices):
        yield from ("".join(letters) for letters in product(*choices))


def _of(word: str, *, last: bool) -> tuple[str, ...]:
    """The letters that a word may stand for."""
    found = _letters()["all"].get(word, ())
    if last and not found and word.endswith("s"):
        found = tuple(f"{letter}s" for letter in _letters()["all"].get(word[:-1], ()))
    if not found and 1 < len(word) < 4 and not set(word) & set("aeiou") and word.isalpha():
        found = (word,)  # `ss d`
    return found


@cache
def _names() -> frozenset[str]:
    return frozenset(data("draft/spelled-en")["names"].split())


@cache
def _letters() -> Mapping[str, Mapping[str, tuple[str, ...]]]:
    """`all`: word -> letters; `strong`: those that are nothing else; `weak`: ordinary words."""
    rows = data("draft/spelled-en")
    every: dict[str, tuple[str, ...]] = {}
    for letter, names in rows["letters"].items():
        for name in (letter, *names.split()):
            every[name] = (*every.get(name, ()), letter)
    weak = frozenset(rows["ordinary"].split())
    return {
        "all": every,
        "strong": {name: letters for name, letters in every.items() if name not in weak},
        "weak": {name: letters for name, letters in every.items() if name in weak},
    }
