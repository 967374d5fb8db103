"""A transcript -> the facts that its drafted note holds, in the form of the hand-made facts.

Read from the note as compiled (the same model that every output is made from), so that nothing counts that the
note
does not say. Only what a note has no place for (corrections, side trips' goals) is taken from the drafter.
"""

from __future__ import annotations

import re
from collections.abc import Mapping
from pathlib import Path
from typing import Any

from guidec import compile as compiler
from guidec.draft import Drafted, draft
from guidec.edge.load import of_bytes
from guidec.model.types import Action, Guide, Part, ScrewSet, Supply, Thing
from guidec.trade.units import Quantity

__all__ = ["found_in", "of_note"]

Fact = dict[str, Any]
CHANGES = {"off": "remove", "open": "unplug", "undone": "undo", "moved": "move"}


def found_in(path: Path) -> dict[str, Any]:
    """The facts of the draft of a transcript."""
    drafted = draft(path.read_bytes())
    found = of_note(drafted.text)
    found["misheard"] = [
        {"at": one.start, "heard": one.heard, "meant": one.meant} for one in drafted.story.corrected
    ]
    found["side_trips"] = _trips(drafted)
    return found


def _trips(drafted: Drafted) -> list[Fact]:
    told = [trip for job in drafted.jobs for trip in job.asides]
    rows = [{"at": trip.quote.start, "thing": trip.goal.name} for trip in told if trip.goal is not None]
    return rows + [
        {"at": job.trip.quote.start, "thing": job.trip.goal.name}
        for job in drafted.jobs
        if job.trip is not None and job.trip.goal is not None
    ]


def of_note(text: str) -> dict[str, Any]:
    """The facts that a note states."""
    checked = compiler.check(of_bytes("draft.md", text.encode("utf-8"), Path()))
    assert checked.model is not None
    guide = checked.model.guide
    when = _times(guide)
    found: dict[str, Any] = {"values": _values(guide, when)}
    found["screws"] = [_screws(one, when) for one in guide.things.values() if isinstance(one, ScrewSet)]
    for kind, key in (("tool", "tools"), ("supply", "supplies"), ("adhesive", "adhesives")):
        found[key] = [{"name": one.name} for one in _things(guide, kind) if not one.implied]
    side = _side(guide)
    opened = {use.id for action in guide.actions.values() for use in action.effects if use.change == "open"}
    found["connectors"] = [
        {"at": when.get(one.id, 0.0), "name": one.name, "type": getattr(one, "type", "")}
        for one in _things(guide, "connector") if one.id in opened
    ]  # fmt: skip
    found["clips"] = [
        {"at": when.get(one.id, 0.0), "count": getattr(one, "count", None)} for one in _things(guide, "clip")
    ]
    found["parts"] = _parts(guide)
    found["actions"] = [
        row for action in guide.actions.values() if action.operation not in side for row in _acts(guide, action)
    ]
    found["operations"] = [_operation(guide, one.id) for one in guide.operations if one.id not in side]
    found["risks"] = [{"words": risk.text} for action in guide.actions.values() for risk in action.risks]
    found["refits"] = [{"words": one.text} for action in guide.actions.values() for one in action.refits]
    found["hazards"] = [{"words": hazard.text} for operation in guide.operations for hazard in operation.hazards]
    found["hazards"] += [{"words": hazard.text} for hazard in guide.hazards]
    if guide.meta.verdict:
        found["verdict"] = {"points": guide.meta.verdict.points, "out_of": guide.meta.verdict.out_of}
    if guide.meta.isolate:
        found["isolate"] = guide.meta.isolate[0].name
    return found


def _side(guide: Guide) -> set[str]:
    return {
        one.id
        for one in guide.operations
        if one.title.startswith("Only the ") or one.title.startswith("A shorter way")
    }


def _things(guide: Guide, kind: str) -> list[Thing]:
    return [one for one in guide.things.values() if one.kind == kind]


_HEARD = re.compile(r"> heard @([\d:]+):")


def _times(guide: Guide) -> dict[str, Any]:
    """When each thing is told: the times of the words kept beside the line that declares it, else that of its
    action."""
    when: dict[str, Any] = {}
    text = guide.source.text
    for thing in guide.things.values():
        stop = min(
            (at for mark in ("\n1. ", "\n- ", "\n## ") if (at := text.find(mark, thing.span.end)) > 0),
            default=len(text),
        )
        stamps = _HEARD.findall(text[thing.span.start : stop])
        if stamps and not thing.implied:
            when[thing.id] = [
                sum(int(part) * 60**n for n, part in enumerate(reversed(one.split(":")))) for one in stamps
            ]
    for action in guide.actions.values():
        start = action.time.start if action.time else 0.0
        for use in (*action.objects, *action.mentions, *action.tools, *action.supplies):
            when.setdefault(use.id, start)
        for effect in action.effects:
            when.setdefault(effect.id, start)
    return when


def _screws(one: ScrewSet, when: Mapping[str, Any]) -> Fact:
    fact: Fact = {"at": when.get(one.id, 0.0), "count": one.count}
    drives = [*one.drives, *(one.notation.unknown_drives if one.notation else ())]
    typed = [word for word in one.details.split() if re.fullmatch(r"(?:PH|PZ|T|H|SL|5L|3W|JIS|NUT)[\d.]*H?", word)]
    if drives or typed:
        fact["drive"] = (typed or drives)[0]
    if one.thread is not None:
        fact["size"] = one.thread.text.replace("×", "x")
    elif one.name.endswith(" mm"):
        fact["size"] = f"x{one.name.split()[-2]}"
    return fact


def _parts(guide: Guide) -> list[Fact]:
    """Parts off, moved or shown; not those that an action only names."""
    used = {effect.id for action in guide.actions.values() for effect in action.effects}
    used |= {use.id for action in guide.actions.values() if action.family == "look" for use in action.objects}
    return [
        {"name": one.name, "class": one.cls or "other"}
        for one in guide.things.values()
        if isinstance(one, Part) and one.id in used
    ]


def _acts(guide: Guide, action: Action) -> list[Fact]:
    at = action.time.start if action.time else 0.0
    family = str(action.family)
    if family == "turn":
        return [{"at": at, "do": "turn"}]
    if family == "soften" or family in ("treat", "check"):
        things = [guide.things[use.id] for use in (*action.objects, *action.mentions)]
        named = [
            one for one in things if one.kind in ("part", "adhesive", "screw", "thermal", "clip", "connector")
        ]
        if not named:
            return (
                [{"at": at, "do": family, "thing": _plain(action)}]
                if family != "treat" or not action.waits
                else []
            )
        return [{"at": at, "do": family, "thing": _called(named[0])}]
    rows = []
    for effect in action.effects:
        do = CHANGES.get(str(effect.change))
        if do:
            rows.append({"at": at, "do": do, "thing": _called(guide.things[effect.id])})
    return rows


def _plain(action: Action) -> str:
    return action.text.split(" with ")[0].split(" ", 1)[-1].split(".")[0].split(" for ")[0]


def _called(thing: Thing) -> str:
    return {"screw": "screws", "clip": "clips"}.get(str(thing.kind), thing.name)


def _operation(guide: Guide, id_: str) -> Fact:
    operation = guide.operation[id_]
    at = operation.time.start if operation.time else 0.0
    names = operation.title.replace(", ", " and ").split(" ", 1)[-1].split(" and ")
    return {"at": at, "about": [name.removeprefix("the ") for name in names]}


def _values(guide: Guide, when: Mapping[str, Any]) -> list[Fact]:
    rows: list[Fact] = []
    for action in guide.actions.values():
        at = action.time.start if action.time else 0.0
        for heat in action.heats:
            rows += _row(at, "heat", heat.temperature) + _row(at, "heat-time", heat.duration)
        for wait in action.waits:
            rows += _row(at, "wait", wait.duration)
        for one in action.measures:
            rows += _row(at, "measure", one.value)
    for thing in guide.things.values():
        at = when.get(thing.id, 0.0)
        if isinstance(thing, Part) and thing.battery:
            capacity, volts = thing.battery.capacity_mah, thing.battery.voltage_v
            rows += [{"at": at, "kind": "capacity", "value": capacity, "unit": "mAh"}] if capacity else []
            rows += [{"at": at, "kind": "voltage", "value": volts, "unit": "V"}] if volts else []
            if not capacity and thing.battery.energy_wh:
                rows.append({"at": at, "kind": "capacity", "value": thing.battery.energy_wh, "unit": "Wh"})
        if isinstance(thing, ScrewSet):
            rows += _row(at, "torque", thing.torque)
        if isinstance(thing, Supply):
            rows += _supply(at, thing)
    return rows


def _supply(at: Any, thing: Supply) -> list[Fact]:
    rows = _row(at, "amount", thing.amount.quantity) if thing.amount else []
    if "%" in thing.strength:
        rows.append({"at": at, "kind": "strength", "value": float(thing.strength.split("%")[0]), "unit": "%"})
    return rows


def _row(at: Any, kind: str, quantity: Quantity | None) -> list[Fact]:
    if quantity is None:
        return []
    unit = {
        "temperature": "°C",
        "time": "s",
        "voltage": "V",
        "resistance": "ohm",
        "torque": "N·m",
        "volume": "ml",
        "mass": "g",
    }
    fact = {"at": at, "kind": kind, "value": quantity.low, "unit": unit.get(quantity.dimension, quantity.unit)}
    return [fact | ({"to": quantity.high} if quantity.high != quantity.low else {})]
