"""A guide and an action -> what kind of work it is, as far as the trade's rules and cautions ask.

Everything here is read off one guide; orders and routes are not looked at.
"""

from __future__ import annotations

from collections.abc import Iterator

from guidec.model.types import (
    Action,
    Adhesive,
    Change,
    Connector,
    Content,
    Family,
    Guide,
    Hazard,
    Lines,
    Operation,
    Part,
    Ref,
    ScrewSet,
    Solder,
    Supply,
    Thing,
)
from guidec.source import Span
from guidec.trade.capacitors import stores_charge
from guidec.trade.deeds import is_deed, speaks_of
from guidec.trade.solvents import Solvent, says_dry, solvent

__all__ = [
    "acted_on",
    "adhesives_undone",
    "batteries",
    "capacitors_touched",
    "dried_in_words",
    "dries",
    "has_capacitors",
    "hazards_of",
    "heats",
    "is_glass",
    "is_lithium",
    "levered_parts",
    "removes",
    "screw_sets_undone",
    "solders",
    "solvents_used",
    "supply_units_touched",
    "temperature_c",
    "words_of",
]


def words_of(thing: Thing) -> str:
    """A thing's name and details, to look for words in."""
    return f"{thing.name} {thing.details}"


def acted_on(guide: Guide, action: Action) -> Iterator[Thing]:
    """The things an action changes or acts on, each once."""
    ids = dict.fromkeys([effect.id for effect in action.effects] + [use.id for use in action.objects])
    return (guide.things[one] for one in ids if one in guide.things)


def removes(action: Action, thing: str) -> bool:
    """Whether an action takes a part off."""
    return any(effect.id == thing and effect.change is Change.OFF for effect in action.effects)


def heats(guide: Guide, action: Action) -> bool:
    """Whether something is heated: by its verb, a `heat` value, a hot tool in a softening, or soldering.

    Warming by hand is none.
    """
    language = guide.meta.language
    if action.heats or solders(guide, action):
        return True
    if is_deed(action.verb, "heat", language):
        return not speaks_of(action.text, "gentle_heat", language)
    return action.family is Family.SOFTEN and any(
        speaks_of(words_of(guide.things[use.id]), "hot_tools", language) for use in action.tools
    )


def solders(guide: Guide, action: Action) -> bool:
    """Whether an action solders or desolders."""
    return is_deed(action.verb, "solder", guide.meta.language)


def temperature_c(action: Action) -> float | None:
    """The highest temperature stated for an action, in °C; None where none can be read."""
    found = [heat.temperature.high for heat in action.heats if heat.temperature]
    return max(found) if found else None


def solvents_used(guide: Guide, action: Action) -> Iterator[tuple[Supply, Solvent]]:
    """The solvents among an action's supplies."""
    for use in action.supplies:
        thing = guide.things.get(use.id)
        found = solvent(words_of(thing)) if isinstance(thing, Supply) else None
        if found and isinstance(thing, Supply):
            yield thing, found


def dries(guide: Guide, action: Action) -> bool:
    """Whether an action lets something dry."""
    return is_deed(action.verb, "dry", guide.meta.language) or says_dry(action.text, guide.meta.language)


def dried_in_words(guide: Guide, used: Action, hot: Action) -> bool:
    """Whether the note says, from a solvent to the heat in one operation, or in the heat's line, that it dries."""
    together = used.operation == hot.operation and used.span.start < hot.span.start
    between = Span(used.span.start, hot.line_span.end) if together else hot.line_span
    return says_dry(guide.source.slice(between), guide.meta.language)


def adhesives_undone(guide: Guide, action: Action) -> tuple[Adhesive, ...]:
    """The adhesives that an action undoes."""
    found = (guide.things.get(effect.id) for effect in action.effects)
    return tuple(thing for thing in found if isinstance(thing, Adhesive))


def batteries(guide: Guide) -> tuple[Part, ...]:
    """The parts of class battery."""
    return tuple(thing for thing in guide.things.values() if isinstance(thing, Part) and thing.cls == "battery")


def is_lithium(guide: Guide, part: Part) -> bool:
    """Whether a battery may be a lithium pouch or can, that a lever bends: all that do not say otherwise."""
    return part.cls == "battery" and not speaks_of(words_of(part), "not_levered_cells", guide.meta.language)


def levered_parts(guide: Guide, action: Action) -> Iterator[Part]:
    """The parts that an action levers: what it acts on, else (`pry along the edge of …`) what its line names."""
    if not is_deed(action.verb, "lever", guide.meta.language):
        return
    things = tuple(acted_on(guide, action)) or tuple(guide.things[use.id] for use in action.mentions)
    yield from (thing for thing in things if isinstance(thing, Part))


def is_glass(guide: Guide, part: Part) -> bool:
    """Whether a part is a display, or a cover of glass."""
    if part.cls == "display":
        return True
    words = f"{words_of(part)} {part.material or ''}"
    return part.cls in ("cover", "other", None) and speaks_of(words, "glass", guide.meta.language)


def supply_units_touched(guide: Guide, action: Action) -> Iterator[Part]:
    """The supply units that an action touches; to look at one, to measure at one, or to unplug one is no touch."""
    if action.family in (Family.LOOK, Family.CHECK) or is_deed(action.verb, "disconnect", guide.meta.language):
        return
    for thing in acted_on(guide, action):
        if isinstance(thing, Part) and thing.cls == "supply-unit":
            yield thing


def has_capacitors(guide: Guide) -> bool:
    """Whether any part is a capacitor with a dangerous charge."""
    return any(isinstance(thing, Part) and _charged(guide, thing) for thing in guide.things.values())


def capacitors_touched(guide: Guide, action: Action) -> Iterator[Part]:
    """The capacitors with a dangerous charge that an action touches, or whose leads or joints it opens.

    To look at one, to measure or discharge one is no touch.
    """
    if action.family in (Family.LOOK, Family.CHECK) or is_deed(action.verb, "discharge", guide.meta.language):
        return
    for thing in acted_on(guide, action):
        for one in (thing, *_joined(guide, thing)):
            if isinstance(one, Part) and one.cls != "supply-unit" and _charged(guide, one):
                yield one


def _joined(guide: Guide, thing: Thing) -> Iterator[Thing]:
    """What a connector joins, or what solder holds."""
    refs: tuple[Ref | None, ...] = ()
    if isinstance(thing, Connector):
        refs = (thing.from_, thing.to)
    elif isinstance(thing, Solder):
        refs = thing.holds
    ids = [ref.id for ref in refs if ref is not None]
    yield from (guide.things[one] for one in ids if one is not None and one in guide.things)


def _charged(guide: Guide, part: Part) -> bool:
    device = f"{guide.meta.subject.kind or ''} {guide.meta.title}"
    return stores_charge(part.name, part.details, mains="mains" in guide.meta.power, device=device)


def hazards_of(operation: Operation) -> tuple[Hazard, ...]:
    """All hazards that stand in an operation, wherever."""
    found = {hazard.span: hazard for hazard in (*operation.hazards, *_hazards_in(operation.content))}
    return tuple(found.values())


def _hazards_in(content: tuple[Content, ...]) -> Iterator[Hazard]:
    for each in content:
        if isinstance(each, Hazard):
            yield each
        elif isinstance(each, Lines):
            for line in each.lines:
                yield from _hazards_in(line.content)


def screw_sets_undone(guide: Guide, action: Action) -> Iterator[ScrewSet]:
    """The screw sets that an action undoes, in part or whole."""
    for effect in action.effects:
        thing = guide.things.get(effect.id)
        if isinstance(thing, ScrewSet):
            yield thing
