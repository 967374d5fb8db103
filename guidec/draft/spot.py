"""Tokens -> items: numbers, values, drives, sizes, names of the trade with what describes them, verbs, words.

Names are found by their last word (the lexicon's longest term), then reach to the left over describing words, and
on to the right where another term follows ("battery connector"). What no lexicon knows but stands like a name
("the crumb flap") becomes a `noun`.
"""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import replace

from guidec.draft.fastened import fastened
from guidec.draft.fillers import corrected_numbers, parted, without_fillers
from guidec.draft.hearing import Token
from guidec.draft.item import Item
from guidec.draft.lengths import lengths
from guidec.draft.measured import measure, spanning
from guidec.draft.names import gathered, unknown_names
from guidec.draft.verbal import is_verb, word
from guidec.draft.vocabulary import Term, Vocabulary, singular
from guidec.draft.wordset import among

__all__ = ["spot"]


_HANDY = among(
    "bin pick clip plug wipe press tap hook clamp brush lever drill punch file tape glue label cap seal mount "
    "switch power shut turn"
)


_NOUN_TAILS = among(
    "strip line roll tube rail bar rod film sheet liner insert carrier box "
    "compartment chamber tower stack column piece section surround bung plug-in "
    "rim lip bay well pocket stem hub ball spool rack ladder web leaf fin fork "
    "link peg bolster"
)


_THIRD = frozenset(
    ["covers", "plugs", "clips", "seals", "mounts", "hooks", "screws", "locks", "caps", "frames", "labels"]
)


def spot(tokens: Sequence[Token], words: Vocabulary) -> tuple[Item, ...]:
    """The items of all tokens. Fillers are gone; a stop after one stays with the item before it."""
    kept = without_fillers(parted(tokens), words)
    kept = corrected_numbers(kept, words)
    items: list[Item] = []
    at = 0
    texts = [token.text for token in kept]
    stops = [token.stop for token in kept]
    while at < len(kept):
        room = next((n for n in range(at, min(at + 12, len(kept))) if stops[n]), min(at + 11, len(kept) - 1)) + 1
        piece = texts[at:room]
        found = (
            measure(piece, kept, at)
            or _fitting(piece, kept, at, items, words)
            or _name(piece, kept, at, items, words)
            or word(kept[at], piece, items)
        )
        item, taken = found
        items.append(item)
        at += taken
    return tuple(unknown_names(fastened(gathered(lengths(items), words), words), words))


def _name(
    piece: list[str], kept: Sequence[Token], at: int, items: list[Item], words: Vocabulary
) -> tuple[Item, int] | None:
    """The longest term here, unless its one word is a verb where it stands."""
    for size in range(min(words.longest, len(piece)), 0, -1):
        term = words.term(piece[:size])
        if term is None:
            continue
        if (size == 1 and _no_name(piece, items, words)) or _else(piece, size):
            return None
        size += _tailed(piece[size : size + 1], term, words)
        name = " ".join((*piece[: size - 1], singular(piece[size - 1])))
        plural = piece[size - 1] != singular(piece[size - 1])
        item = spanning("thing", name, kept, at, size)
        return replace(item, kinds=dict(term.kinds), plural=plural, head=name), size
    for said, cls, named in (("can", "other", _the_can), ("back", "cover", _the_back)):
        if piece[0] in (said, f"{said}'s") and named(piece, items, words):
            return replace(spanning("thing", said, kept, at, 1), kinds={"part": cls}, head=said), 1
    return None


def _no_name(piece: list[str], items: list[Item], words: Vocabulary) -> bool:
    """Whether a word of the trade is a verb here: `plugs the`, `switch it`, `clip them`."""
    if is_verb(piece, items, words):
        return True
    before, after = items[-1] if items else None, piece[1] if len(piece) > 1 else ""
    determined = words.small["determiners"]
    if before is not None and before.kind == "thing" and not before.stop and piece[0] in _THIRD:
        return after in determined
    handled = piece[0] in _HANDY and after in among("up it them down")
    return handled and not (before is not None and before.text in determined)


def _else(piece: list[str], size: int) -> bool:
    """`spring loaded`, `catch fire`, `lint free`: no spring, catch or lint."""
    return piece[0] in ("spring", "catch", "lint") and piece[size : size + 1] in (["loaded"], ["fire"], ["free"])


def _tailed(longer: list[str], term: Term, words: Vocabulary) -> bool:
    """Whether a word goes on with a part's name: `filter box`, `hose bungs`."""
    if not longer or "part" not in term.kinds or words.term(longer) or longer[0] == "lines":
        return False
    return longer[0] in _NOUN_TAILS or singular(longer[0]) in _NOUN_TAILS


def _the_can(piece: list[str], items: list[Item], words: Vocabulary) -> bool:
    """`the can` as a part."""
    if not items or items[-1].stop:
        return False
    that = items[-1].text == "that" and piece[1:2] and piece[1] in _CAN
    return items[-1].text in ("the", "this", "big", "tall", "metal") or bool(that)


_CAN = among("is 's off out away over lid and has comes lifts pops from")


def _the_back(piece: list[str], items: list[Item], words: Vocabulary) -> bool:
    """`the back` as a part: after a determiner, not after `on`, `at`, `from`, and not before `of`."""
    if not items or items[-1].text not in ("the", "your", "whole") or items[-1].stop:
        return False
    lead = items[-2].text if len(items) > 1 else ""
    follows = piece[1] if len(piece) > 1 else ""
    return (
        lead not in among("on at from around round down to toward towards along across in")
        and follows not in ("of", "side")
        and words.term(piece[1:2]) is None
    )


def _fitting(
    piece: list[str], kept: Sequence[Token], at: int, items: list[Item], words: Vocabulary
) -> tuple[Item, int] | None:
    """`two push in terminals`: how a thing is fixed, as one describing word."""
    if tuple(piece[:2]) not in words.fittings or not items or items[-1].stop:
        return None
    framed = items[-1].kind in ("num", "value") or items[-1].text in words.small["determiners"]
    if (
        not framed
        or items[-1].text in ("this", "that", "each")
        or not any(words.term(piece[2 : 2 + n]) for n in (1, 2))
    ):
        return None
    return replace(spanning("word", "-".join(piece[:2]), kept, at, 2), words=tuple(piece[:2])), 2
