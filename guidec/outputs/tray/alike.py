"""Two screw sets -> how they differ, in words, where one is easily taken for the other.

Own assumption of what the eye and the fingers confuse on a bench: the same way to turn them, diameters within half
a millimetre, and lengths within four millimetres or a third; of the same thread, which goes into the other's hole,
lengths within half.
"""

from __future__ import annotations

from collections.abc import Iterator

from guidec.model.types import ScrewSet
from guidec.outputs.words import Words

__all__ = ["difference"]

_THICKER, _LONGER, _SHARE, _SAME = 0.5, 4.0, 1 / 3, 1 / 2


def difference(one: ScrewSet, other: ScrewSet, says: Words) -> str:
    """How `one` differs from `other`; nothing where they look unlike, or are the same."""
    if one.id == other.id or not _alike(one, other):
        return ""
    return says.between.join(_differences(one, other, says))


def _alike(one: ScrewSet, other: ScrewSet) -> bool:
    if one.drives and other.drives and not set(one.drives) & set(other.drives):
        return False
    first, second = one.thread, other.thread
    if first is None or second is None or abs(first.diameter_mm - second.diameter_mm) > _THICKER:
        return False
    if first.length_mm is None or second.length_mm is None:
        return first.length_mm == second.length_mm
    apart = abs(first.length_mm - second.length_mm)
    same = (first.system, first.diameter_mm, first.pitch_mm) == (
        second.system,
        second.diameter_mm,
        second.pitch_mm,
    )
    share = _SAME if same else _SHARE
    return apart <= max(_LONGER, max(first.length_mm, second.length_mm) * share)


def _differences(one: ScrewSet, other: ScrewSet, says: Words) -> Iterator[str]:
    first, second = one.thread, other.thread
    if first and second and first.length_mm and second.length_mm and first.length_mm != second.length_mm:
        key = "tray-length-more" if first.length_mm > second.length_mm else "tray-length-less"
        yield _more(key, first.length_mm, second.length_mm, says)
    if first and second and first.diameter_mm != second.diameter_mm:
        key = "tray-diameter-more" if first.diameter_mm > second.diameter_mm else "tray-diameter-less"
        yield _more(key, first.diameter_mm, second.diameter_mm, says)
    elif first and second and (first.system, first.pitch_mm) != (second.system, second.pitch_mm):
        yield says("tray-other", this=first.text, that=second.text)
    for this, that in ((one.head, other.head), (one.colour, other.colour), (one.grade, other.grade)):
        if this and that and this != that:
            yield says("tray-other", this=this, that=that)
        elif this != that:
            yield this or says("tray-not", that=that)
    if one.left_hand != other.left_hand:
        yield says("left-hand" if one.left_hand else "tray-right-hand")
    if (one.locked is None) != (other.locked is None):
        yield says("locked" if one.locked is not None else "tray-not-locked")


def _more(key: str, this: float, that: float, says: Words) -> str:
    """`2 mm longer (8, not 6)`."""
    by, this_, that_ = (says.number(value) for value in (abs(this - that), this, that))
    return says(key, by=by, this=this_, that=that_)
