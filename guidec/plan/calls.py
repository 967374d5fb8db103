"""An action, and what was done before it -> the usual cautions that it calls for.

One function a kind of danger; the list at the end is the order in which they are told.
"""

from __future__ import annotations

from collections.abc import Callable, Iterable, Iterator, Mapping
from dataclasses import field

from guidec.model.types import Action, Change, Family, Fastening, Guide, Part, ScrewSet, Thing
from guidec.plan.deeds import (
    acted_on,
    capacitors_touched,
    dried_in_words,
    heats,
    is_glass,
    is_lithium,
    levered_parts,
    screw_sets_undone,
    solvents_used,
    supply_units_touched,
    words_of,
)
from guidec.plan.hot import has_power, touched_live
from guidec.quick import dataclass
from guidec.trade.batteries import cell_limit_c, hazardous_v
from guidec.trade.cautions import covers, joined, says_so
from guidec.trade.deeds import advises_discharge, says_swollen, speaks_of

__all__ = ["Due", "Walk", "due"]


@dataclass(frozen=True, slots=True)
class Due:
    """A caution that an action calls for. `about` tells those apart that may stand more than once in a route;
    `said`: the note itself says that there is what is warned of."""

    id: str
    facts: Mapping[str, object] = field(default_factory=dict)
    about: str = ""
    said: bool = True


@dataclass
class Walk:
    """What is known on the way along an order.

    `off`: the parts that are out; `wet`: the solvent not let dry, and where it was used; `dead`: something has
    isolated; `told`: the author's hazards so far; `cells`: the batteries; `unequal`: operation -> groups of screw
    sets that may be swapped there; `acted`: what the action at hand changes or acts on.
    """

    guide: Guide
    off: set[str] = field(default_factory=set)
    wet: tuple[str, Action] | None = None
    dead: bool = False
    told: str = ""
    cells: tuple[Part, ...] = ()
    unequal: dict[str, tuple[tuple[ScrewSet, ...], ...]] = field(default_factory=dict)
    acted: tuple[Thing, ...] = ()


def due(walk: Walk, action: Action) -> Iterator[Due]:
    """All cautions that an action calls for, gravest kinds first."""
    walk.acted = tuple(acted_on(walk.guide, action))
    for each in _CALLS:
        yield from each(walk, action)


def _cells(walk: Walk, action: Action) -> Iterator[Due]:
    guide = walk.guide
    for part in levered_parts(guide, action):
        if not is_lithium(guide, part):
            continue
        yield Due("lever-cell", {"name": part.name})
        warned = covers("lever-cell", walk.told, guide.meta.language)
        if warned and not advises_discharge(guide.source.text, guide.meta.language):
            yield Due("discharge-first", {"name": part.name})


def _live(walk: Walk, action: Action) -> Iterator[Due]:
    if walk.dead or not has_power(walk.guide):
        return
    touched = touched_live(walk.guide, action)
    if touched and not touched.proposed:
        thing = walk.guide.things.get(touched.thing or "")
        yield Due("live-work", {"name": thing.name if thing else walk.guide.meta.title})


def _packs(walk: Walk, action: Action) -> Iterator[Due]:
    for thing in walk.acted:
        if isinstance(thing, Part) and thing.battery and (thing.battery.voltage_v or 0) > hazardous_v():
            yield Due("high-voltage-pack", {"name": thing.name, "voltage": f"{thing.battery.voltage_v:g}"})


def _swollen(walk: Walk, action: Action) -> Iterator[Due]:
    touched = {thing.id for thing in walk.acted} if walk.cells else set()
    if any(cell.id in touched for cell in walk.cells) and says_swollen(
        walk.guide.source.text, walk.guide.meta.language
    ):
        yield Due("swollen-cell")


def _heat(walk: Walk, action: Action) -> Iterator[Due]:
    guide = walk.guide
    if not heats(guide, action):
        return
    cell = next((part for part in walk.cells if part.id not in walk.off and is_lithium(guide, part)), None)
    if cell and action.family is Family.SOFTEN:
        yield Due("heat-near-cell", {"name": cell.name, "limit": f"{cell_limit_c():g}"})
    yield Due("hot-surface")
    if walk.wet and not dried_in_words(guide, walk.wet[1], action):
        yield Due("wet-solvent", {"name": walk.wet[0]}, walk.wet[0])


def _solvents(walk: Walk, action: Action) -> Iterator[Due]:
    for supply, kind in solvents_used(walk.guide, action):
        if kind.flammable:
            yield Due("solvent", {"name": supply.name})
        if kind.attacks:
            yield Due("solvent-on-plastic", {"name": supply.name}, supply.id)


def _stored_charge(walk: Walk, action: Action) -> Iterator[Due]:
    guide = walk.guide
    units = supply_units_touched(guide, action) if "mains" in guide.meta.power else ()
    for unit in units:
        said = says_so("stored-charge", guide.source.text, guide.meta.language)
        yield Due("stored-charge", {"name": unit.name}, said=said)
    for unit in capacitors_touched(guide, action):
        yield Due("charged-capacitor", {"name": unit.name})


def _glass(walk: Walk, action: Action) -> Iterator[Due]:
    for part in levered_parts(walk.guide, action):
        if is_glass(walk.guide, part):
            yield Due("glass", {"name": part.name})


def _springs(walk: Walk, action: Action) -> Iterator[Due]:
    for thing in walk.acted:
        if type(thing) is Fastening and speaks_of(
            f"{words_of(thing)} {thing.type}", "under_tension", walk.guide.meta.language
        ):
            yield Due("spring", {"name": thing.name})


def _static(walk: Walk, action: Action) -> Iterator[Due]:
    taken = {effect.id for effect in action.effects if effect.change in (Change.OFF, Change.MOVED)}
    for thing in walk.acted:
        if isinstance(thing, Part) and thing.cls == "board" and thing.id in taken:
            yield Due("static")


def _screws(walk: Walk, action: Action) -> Iterator[Due]:
    for screws in screw_sets_undone(walk.guide, action):
        if screws.left_hand:
            yield Due("left-hand", {"name": screws.name}, screws.id)
    yield from _unequal(walk, action)


def _unequal(walk: Walk, action: Action) -> Iterator[Due]:
    """Sets of one operation that share drive and thread and differ in length, told at the first of them."""
    guide, mine = walk.guide, {screws.id for screws in screw_sets_undone(walk.guide, action)}
    if not mine:
        return
    if action.operation not in walk.unequal:
        others = [guide.actions[one] for one in guide.operation[action.operation].actions]
        sets = {each.id: each for other in others for each in screw_sets_undone(guide, other)}
        walk.unequal[action.operation] = tuple(_alike(sets.values()))
    for like in walk.unequal[action.operation]:
        if any(each.id in mine for each in like):
            names = joined([each.name for each in like], guide.meta.language)
            lengths = sorted({each.thread.length_mm or 0.0 for each in like if each.thread})
            words = joined([f"{length:g}" for length in lengths], guide.meta.language)
            yield Due("screw-lengths", {"names": names, "lengths": words}, " ".join(each.id for each in like))


def _alike(sets: Iterable[ScrewSet]) -> Iterator[tuple[ScrewSet, ...]]:
    """Groups of sets with one drive and thread, and more than one length."""
    groups: dict[tuple[object, ...], list[ScrewSet]] = {}
    for each in sets:
        thread = each.thread
        if thread and thread.length_mm is not None and each.drives:
            key = (frozenset(each.drives), thread.system, thread.diameter_mm, thread.pitch_mm, each.left_hand)
            groups.setdefault(key, []).append(each)
    for group in groups.values():
        if len({each.thread.length_mm for each in group if each.thread}) > 1:
            yield tuple(group)


_CALLS: tuple[Callable[[Walk, Action], Iterator[Due]], ...] = (
    _stored_charge,
    _live,
    _packs,
    _swollen,
    _cells,
    _heat,
    _solvents,
    _glass,
    _springs,
    _screws,
    _static,
)
