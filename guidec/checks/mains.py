"""Devices on the mains or with cells -> whether they are made dead, and measured, before they are touched."""

from __future__ import annotations

from collections.abc import Iterator

from guidec.model.types import Action, Change, Connector, Guide, Hazard, Part, ScrewSet
from guidec.plan import Graph
from guidec.plan.deeds import capacitors_touched, has_capacitors, hazards_of, supply_units_touched
from guidec.plan.hot import touched_live
from guidec.plan.without import done_without
from guidec.rules.finding import Finding, Severity
from guidec.trade.cautions import covers
from guidec.trade.dangers import speaks_of_mains, stored_charge_limit_v
from guidec.trade.deeds import is_deed, speaks_of

__all__ = ["check"]


def check(guide: Guide, graph: Graph) -> Iterator[Finding]:
    """T406, T501, T502, T503."""
    power = guide.meta.power
    if "mains" in power:
        yield from _unplugged(guide, graph)
    elif "battery" in power:
        yield from _isolate(guide, graph)
    yield from _measured(guide, graph)
    for action in guide.actions.values():
        yield from _limit(action)


def _isolate(guide: Guide, graph: Graph) -> Iterator[Finding]:
    """T406: there is something to keep dead, and nobody says what makes it so.

    Information only, where a battery or its lead surely comes off before all that is touched.
    """
    if guide.isolating or guide.meta.isolate or guide.meta.front.get("isolate"):
        return
    touching = [action for action in guide.actions.values() if _touches(guide, action)]
    if not touching:
        return
    early = done_without(graph, {action.id for action in guide.actions.values() if _cuts_off(guide, action)})
    first = next((action for action in touching if action.id in early), None)
    span = guide.meta.front.get("power")
    yield Finding.at(
        "T406",
        span.span if span else touching[0].span,
        labels={"touched": (first or touching[0]).span},
        variant="" if first else "out-first",
        severity=None if first else Severity.INFO,
    )


def _cuts_off(guide: Guide, action: Action) -> bool:
    """Whether an action takes a battery off, or opens what current comes in by."""
    for effect in action.effects:
        thing = guide.things.get(effect.id)
        if isinstance(thing, Part) and thing.cls == "battery" and effect.change is Change.OFF:
            return True
        if isinstance(thing, Connector) and _feeds(guide, thing):
            return True
    return False


def _touches(guide: Guide, action: Action) -> bool:
    """Whether an action works on what should be dead, and is not what makes it dead by its name."""
    touched = touched_live(guide, action)
    thing = guide.things.get(touched.thing or "") if touched else None
    return touched is not None and not (isinstance(thing, Connector) and _feeds(guide, thing))


def _feeds(guide: Guide, connector: Connector) -> bool:
    """Whether a connector is what current comes in by: the battery's, by its end or its name, or the mains'."""
    ends = (guide.things.get(ref.id) for ref in (connector.from_, connector.to) if ref and ref.id)
    if any(isinstance(end, Part) and end.cls == "battery" for end in ends):
        return True
    language = guide.meta.language
    return speaks_of_mains(connector.name, language) or speaks_of(connector.name, "cells", language)


def _unplugged(guide: Guide, graph: Graph) -> Iterator[Finding]:
    """T501: work that can begin with the plug still in, where no hazard and no remark says to pull it."""
    unplugging = {action.id for action in guide.actions.values() if _unplugs(guide, action)}
    if "battery" not in guide.meta.power:  # what makes such a device dead is the plug, whatever it is called
        unplugging |= set(guide.isolating)
    work = [action for action in guide.actions.values() if action.step and action.effects]
    if not work or _told(guide, work[0]):
        return
    if not unplugging:
        yield Finding.at("T501", work[0].verb_span)
        return
    early = done_without(graph, unplugging)
    first = next((each for each in work if each.id in early and _opens(guide, each)), None)
    if first:
        yield Finding.at("T501", first.verb_span, variant="late")


def _opens(guide: Guide, action: Action) -> bool:
    """Whether an action opens the device or works inside: a strap or a tank may come off with the plug in."""
    things = [(effect.change, guide.things.get(effect.id)) for effect in action.effects]
    screws = any(isinstance(thing, ScrewSet) for _, thing in things)
    covers_ = any(isinstance(thing, Part) and thing.cls == "cover" for _, thing in things)
    return screws or covers_ or touched_live(guide, action) is not None


def _unplugs(guide: Guide, action: Action) -> bool:
    language = guide.meta.language
    if action.id in guide.isolating and speaks_of_mains(action.text, language):
        return True
    return is_deed(action.verb, "unplug", language) and speaks_of_mains(action.text, language)


def _told(guide: Guide, first: Action) -> bool:
    """Whether the text before the first piece of work, or a hazard there, says to pull the plug."""
    hazards: tuple[Hazard, ...] = (*guide.hazards, *hazards_of(guide.operation[first.operation]))
    before = guide.source.text[guide.meta.front.span.end : first.span.start]
    return covers("mains", before, guide.meta.language) or any(
        covers("mains", guide.source.slice(hazard.span), guide.meta.language) for hazard in hazards
    )


def _measured(guide: Guide, graph: Graph) -> Iterator[Finding]:
    """T502: the first touch of each supply unit or capacitor that no measured voltage surely comes before."""
    kinds = [(supply_units_touched, "")] if "mains" in guide.meta.power else []
    kinds += [(capacitors_touched, "capacitor")] if has_capacitors(guide) else []
    touches = [
        (action, unit, kind)
        for action in (guide.actions.values() if kinds else ())
        for touched, kind in kinds
        for unit in touched(guide, action)
    ]
    if not touches:
        return
    measuring = {action.id for action in guide.actions.values() if _measures_voltage(action)}
    early = done_without(graph, measuring)
    told: set[str] = set()
    for action, unit, kind in touches:
        if action.id in early and unit.id not in told:
            told.add(unit.id)
            variant = "-".join(filter(None, (kind, "early" if measuring else "")))
            yield Finding.at("T502", action.verb_span, variant=variant, name=unit.name)


def _measures_voltage(action: Action) -> bool:
    return any(measure.value and measure.value.dimension == "voltage" for measure in action.measures)


def _limit(action: Action) -> Iterator[Finding]:
    """T503: a check that something is dead, and takes a dangerous voltage for that."""
    for measure in action.measures:
        value = measure.value
        if (
            value
            and value.dimension == "voltage"
            and value.bound in ("<", "<=")
            and value.high > stored_charge_limit_v()
        ):
            yield Finding.at("T503", measure.span, value=f"{value.high:g}", limit=f"{stored_charge_limit_v():g}")
