"""Whether a number stands for screws: what is said right behind it, and where the words say that they are."""

from __future__ import annotations

from collections.abc import Mapping, Sequence

from guidec.draft.behind import text_at
from guidec.draft.item import Item
from guidec.draft.wordset import among

__all__ = ["Small", "confirmed", "goes_on", "holds", "placed", "predicate", "runs", "same_tool"]

Small = Mapping[str, frozenset[str]]

_PLAIN = among("a an all just ordinary plain standard normal regular both your usual bog")


_HOLD = among("holding hold holds secure securing keeping keep fixing retaining")


_LINKS = among(
    "at of in more other these those they they're that's are 're all is it's and with further here both the "
    "along on top bottom left right side sides edge back front rear middle each end corners under up down across a"
)


def confirmed(items: Sequence[Item], at: int) -> bool:
    """Whether a drive or size right behind a number says that it counts screws: `seven at M4 by 25`, `six more,
    these are T8`."""
    for further in items[at + 1 : at + 7]:
        if further.kind in ("drive", "size"):
            return True
        if further.kind == "value" and further.amount is not None and further.amount.unit == "mm":
            continue
        if further.kind != "word" or further.text not in _LINKS:
            return False
    return False


def runs(items: Sequence[Item], at: int, small: Small) -> bool:
    """Whether counting starts here: a number with its place, a second one soon, and then the drive of them all."""
    others = (one for one in items[max(0, at - 3) : at] if one.kind in ("thing", "noun") and not one.is_a("screw"))
    if not placed(items, at, small) or items[at].number == 1 or any((one.count or 0) > 1 for one in others):
        return False
    start = items[at].start
    more = drive = False
    for n in range(at + 1, min(at + 70, len(items))):
        if items[n].start - start > 25 or items[n].is_a("clip", "connector"):
            return False
        more = more or (items[n].kind == "num" and placed(items, n, small))
        drive = drive or items[n].kind == "drive" or items[n].is_a("screw")
        if more and drive:
            return True
    return False


def holds(items: Sequence[Item], at: int) -> bool:
    """`one left holding it`, `three hold the frame`: what holds and is counted is screws."""
    after = [text_at(items, at + n) for n in (1, 2)]
    return not items[at].stop and (after[0] in _HOLD or (after[0] in ("left", "more") and after[1] in _HOLD))


def predicate(items: Sequence[Item], at: int) -> bool:
    """Whether a drive or size is what is said of a number: `three are T6`, `one is a T8`."""
    for further in items[at : at + 3]:
        if further.kind in ("drive", "size"):
            return True
        if further.text not in _PLAIN:
            return False
    return False


def placed(items: Sequence[Item], at: int, small: Small) -> bool:
    """`two on the left`, `one in each corner`, `one here`: where the words say where they are."""
    if items[at].stop:
        return False
    at += text_at(items, at + 1) == "more" and not items[at + 1].stop
    after = [text_at(items, at + n) for n in (1, 2, 3)]
    if after[0] in among("underneath below behind above inside outside beneath") and (
        at + 2 >= len(items) or items[at + 1].stop or items[at + 2].leads or after[1] in ("and", "so", "then")
    ):
        return True
    if after[0] in among("here there with without from"):
        return after[0] in ("here", "there") or items[at + 2 : at + 3] != []
    if after[0] in among("up down over right") and after[1] in among("here there top"):
        return True
    return after[0] in small["places"] and (
        after[1] in small["determiners"]
        or after[1] in among("top bottom left right either here there front rear down in")
        or after[1] in small["places"]
        or (at + 2 < len(items) and items[at + 2].kind in ("thing", "noun"))
    )


def same_tool(items: Sequence[Item], at: int) -> bool:
    """Whether `the same driver`, or another tool, follows an item."""
    return at + 1 < len(items) and items[at + 1].is_a("tool") and "same" in items[at + 1].words


def goes_on(items: Sequence[Item], at: int) -> bool:
    """Whether a name, a unit or a number follows, so that the number counts something else."""
    if items[at].stop:
        return False
    follow = items[at + 1] if at + 1 < len(items) else None
    if follow is not None and follow.is_a("tool") and "same" in follow.words:
        return False
    nouns = among("minute minutes second seconds time times hour hours goes bit bits turn turns thing things step")
    return follow is not None and (follow.kind in among("thing noun num value size") or follow.text in nouns)
