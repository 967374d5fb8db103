"""A guide -> the screw sets that come out, in that order, each with what its field says; and the parts to bag."""

from __future__ import annotations

from collections.abc import Iterator

from guidec.model import printed
from guidec.model.printed import value_text
from guidec.model.types import Change, Guide, Part, ScrewSet
from guidec.outputs.tray.alike import difference
from guidec.outputs.words import Words
from guidec.quick import dataclass
from guidec.trade.heads import Form, form

__all__ = ["MOST", "Bag", "Field", "bags", "fields"]

_HEADS = {
    "pan": "head.pan",
    "countersunk": "head.countersunk",
    "socket": "head.socket",
    "hexagon": "head.hexagon",
    "nut": "head.pan",
}
MOST = 300
"""So many places a set gets at most, some three pages: more is a slip, or is not laid out singly."""
_ASSUMED = {"size": "tray-size", "length": "tray-length"}


@dataclass(frozen=True, slots=True)
class Field:
    """One set. `operations`: the numbers of those in which it comes out; `places`: how many screws to lay down,
    None where nobody said or there are too many; `lines`: what stands under the name; `alike`: how it differs from
    others, in words; `group`: sets of one group lie side by side."""

    id: str
    name: str
    operations: tuple[int, ...]
    places: int | None
    notation: str
    lines: tuple[str, ...]
    form: Form
    drive: str
    group: int
    alike: tuple[tuple[str, str], ...]


@dataclass(frozen=True, slots=True)
class Bag:
    """A part that comes off, for a bag; number and title are of the first operation in which it does."""

    id: str
    name: str
    number: int
    title: str


def fields(guide: Guide, says: Words) -> tuple[Field, ...]:
    """The sets in the order in which they come out; those that are easily taken for one of them right after it."""
    out = _out(guide)
    sets = [thing for name in out if isinstance(thing := guide.things[name], ScrewSet)]
    ordered = [(group, one) for group, found in enumerate(_groups(sets, says)) for one in found]
    return tuple(_field(one, group, out[one.id], sets, says) for group, one in ordered)


def bags(guide: Guide) -> tuple[Bag, ...]:
    """The parts that come off, in that order."""
    found: dict[str, Bag] = {}
    for operation in guide.operations:
        for name in operation.actions if not operation.refit_only else ():
            for effect in guide.actions[name].effects:
                part = guide.things[effect.id]
                if effect.change is Change.OFF and isinstance(part, Part):
                    found.setdefault(part.id, Bag(part.id, part.name, operation.number, operation.title))
    return tuple(found.values())


def _out(guide: Guide) -> dict[str, tuple[int, ...]]:
    """The fastenings that are undone, by id, with the numbers of the operations that do it."""
    found: dict[str, tuple[int, ...]] = {}
    for operation in guide.operations:
        for name in operation.actions if not operation.refit_only else ():
            for effect in guide.actions[name].effects:
                known = found.get(effect.id, ())
                if effect.change in (Change.UNDONE, Change.OFF) and operation.number not in known:
                    found[effect.id] = (*known, operation.number)
    return found


def _groups(sets: list[ScrewSet], says: Words) -> Iterator[list[ScrewSet]]:
    """Sets that are easily confused together, in the order of the first of each."""
    left = list(sets)
    while left:
        group = [left.pop(0)]
        for one in group:  # grows while it is gone through
            near = [other for other in left if difference(one, other, says)]
            group += near
            left = [other for other in left if other not in near]
        yield sorted(group, key=sets.index)


def _field(one: ScrewSet, group: int, operations: tuple[int, ...], sets: list[ScrewSet], says: Words) -> Field:
    thread, drive = one.thread, one.drives[0] if one.drives else ""
    shape = form(thread.diameter_mm if thread else None, thread.length_mm if thread else None, one.head, drive)
    pairs = [(other.name, difference(one, other, says)) for other in sets if other.id != one.id]
    return Field(
        id=one.id,
        name=one.name,
        operations=operations,
        places=0 if one.captive else one.count if (one.count or 0) <= MOST else None,
        notation=says.figures(printed.screw_notation(one)),
        lines=tuple(_lines(one, shape, says)),
        form=shape,
        drive=drive,
        group=group,
        alike=tuple((name, words) for name, words in pairs if words),
    )


def _lines(one: ScrewSet, shape: Form, says: Words) -> Iterator[str]:
    torque = says.figures(value_text(one.torque)) if one.torque else ""
    head = one.head or says("tray-assumed", what=says(_HEADS[shape.kind])) if shape.kind != "nut" else ""
    yield says.between.join(part for part in (torque, head, one.colour or "") if part)
    flags = [says("left-hand")] if one.left_hand else []
    if one.locked is not None:
        flags.append(says("locked-with", **{"with": one.locked}) if one.locked else says("locked"))
    flags += [says("tray-captive")] if one.captive else []
    flags += [says("renew")] if one.renew else []
    flags += [says("tray-assumed", what=says(_ASSUMED[what])) for what in shape.assumed if what != "head"]
    if one.count is None and not one.captive:
        flags.append(says("tray-count-unknown"))
    elif not one.captive and (one.count or 0) > MOST:
        flags.append(says("tray-many", count=one.count))
    yield says.between.join(flags)
