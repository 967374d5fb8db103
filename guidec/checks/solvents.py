"""Solvents used -> those still wet when something hot comes, those that eat plastic, amounts left out."""

from __future__ import annotations

from collections.abc import Iterator

from guidec.model.types import Action, Adhesive, Guide, Part, Supply
from guidec.plan import Graph
from guidec.plan.deeds import dried_in_words, dries, heats, solvents_used, words_of
from guidec.plan.without import surely_after
from guidec.rules.finding import Finding
from guidec.trade.deeds import speaks_of
from guidec.trade.plastics import function_of, is_attacked
from guidec.trade.solvents import Solvent, is_measured_out

__all__ = ["check"]


def check(guide: Guide, graph: Graph) -> Iterator[Finding]:
    """T301, T302, T303."""
    supplies = [thing for thing in guide.things.values() if isinstance(thing, Supply)]
    if not supplies:
        return
    yield from _then_heat(guide, graph)
    for action in guide.actions.values():
        for supply, kind in solvents_used(guide, action):
            yield from _on_plastic(guide, action, supply, kind)
    for supply in supplies:
        if supply.amount is None and is_measured_out(words_of(supply)):
            yield Finding.at("T303", supply.span, name=supply.name)


# ---------------------------------------------------------------- solvent, then heat


def _then_heat(guide: Guide, graph: Graph) -> Iterator[Finding]:
    """T301, once for each use of a solvent: the first thing hot after it that no drying surely comes before."""
    wet: list[tuple[Action, Supply]] = []
    drying: list[Action] = []
    for action in guide.actions.values():
        if wet and heats(guide, action):
            for used, supply in [each for each in wet if not _dried(guide, graph, each[0], action, drying)][-1:]:
                yield Finding.at(
                    "T301", action.verb_span, labels={"solvent": used.span}, name=supply.name, verb=action.verb
                )
            wet.clear()
            drying.clear()
        if wet and dries(guide, action):
            drying.append(action)
        wet += [(action, supply) for supply, kind in solvents_used(guide, action) if kind.flammable]


def _dried(guide: Guide, graph: Graph, used: Action, hot: Action, drying: list[Action]) -> bool:
    """Whether the solvent has surely gone by then: words say so, or the heat needs a drying after it."""
    if dried_in_words(guide, used, hot):
        return True
    later = {each.id for each in drying if each.span.start > used.span.start}
    return bool(later) and surely_after(graph, hot.id, later)


# ---------------------------------------------------------------- solvent on plastic


def _on_plastic(guide: Guide, action: Action, supply: Supply, kind: Solvent) -> Iterator[Finding]:
    """T302: a part of the line, or one that its adhesive holds, is of a plastic that the solvent attacks."""
    if not kind.attacks:
        return
    for part in _wetted(guide, action):
        material = part.material or ""
        plastic = is_attacked(material, kind.attacks) if material else _says_plastic(guide, part)
        if plastic:
            yield Finding.at(
                "T302",
                action.span,
                name=supply.name,
                part=part.name,
                material=material or "plastic",
                solvent=kind.name,
            )
            return


def _says_plastic(guide: Guide, part: Part) -> bool:
    words = words_of(part)
    return function_of(words, guide.meta.language) == "plastic" and not speaks_of(
        words, "glass", guide.meta.language
    )


def _wetted(guide: Guide, action: Action) -> Iterator[Part]:
    ids = [use.id for use in (*action.objects, *action.mentions)] + [effect.id for effect in action.effects]
    for one in dict.fromkeys(ids):
        thing = guide.things.get(one)
        if isinstance(thing, Part):
            yield thing
        elif isinstance(thing, Adhesive):
            held = (guide.things.get(ref.id or "") for ref in thing.holds)
            yield from (each for each in held if isinstance(each, Part))
