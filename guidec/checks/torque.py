"""Torques given for screw sets -> those that would break the screw, and the unit that may have been meant."""

from __future__ import annotations

from collections.abc import Iterator

from guidec.checks.fasteners import screw_sets
from guidec.model.types import Action, Guide, Quantity, ScrewSet
from guidec.plan import Graph
from guidec.rules.finding import Finding
from guidec.trade.load import data
from guidec.trade.torque import Bound, breaking_torque, slips, strongest_torque
from guidec.trade.units import shown

__all__ = ["check"]


def check(guide: Guide, graph: Graph) -> Iterator[Finding]:
    """T103, T104."""
    for screws in screw_sets(guide):
        if screws.torque:
            yield from _one(screws, screws.torque)
    for action in guide.actions.values():
        refits = [(refit.torque, refit.uses or action.effects) for refit in action.refits if refit.torque]
        for torque, uses in [*((torque, action.effects) for torque in action.torques), *refits]:
            screws_ = _only_set(guide, action, uses)
            if screws_ and torque:
                yield from _one(screws_, torque)


def _only_set(guide: Guide, action: Action, uses: tuple[object, ...]) -> ScrewSet | None:
    """The one screw set that a torque of an action can be about, else None."""
    ids = {use.id for use in uses if hasattr(use, "id")} or {effect.id for effect in action.effects}
    found = [thing for one in ids if isinstance(thing := guide.things.get(one), ScrewSet)]
    return found[0] if len(found) == 1 else None


def _one(screws: ScrewSet, torque: Quantity) -> Iterator[Finding]:
    thread = screws.thread
    if thread is None or thread.system != "M" or torque.dimension != "torque":
        return
    bound = breaking_torque(thread.diameter_mm, thread.pitch_mm, screws.grade)
    strongest = strongest_torque(thread.diameter_mm, thread.pitch_mm)
    if bound is None or strongest is None:
        return
    limits = data("torque")["limits"]
    value = torque.high
    if value > limits["error_times_strongest"] * max(strongest, bound.value_nm):
        yield _finding("T104", screws, torque, bound, strongest)
    elif value > limits["warn_times"] * bound.value_nm:
        yield _finding("T103", screws, torque, bound, strongest)


def _assumed(size_mm: float, bound: Bound) -> str:
    """What had to be assumed for a bound, in brackets."""
    said = [] if bound.class_known else ["the note names no class"]
    if bound.size_mm != size_mm:
        said.append(f"taken from M{bound.size_mm:g}, the next size listed")
    return f" ({'; '.join(said)})" if said else ""


def _finding(code: str, screws: ScrewSet, torque: Quantity, bound: Bound, strongest: float) -> Finding:
    assert screws.thread
    number = f"{screws.thread.diameter_mm:g}"
    readings = slips(torque.typed, screws.thread.diameter_mm)[:3]
    number_typed = torque.typed.strip().split()[0].rstrip("NnKkLlOo")
    words = [f"{number_typed} {unit} = {value:.2g} N·m" for unit, value in readings]
    return Finding.at(
        code,
        torque.span,
        variant="unit" if words else "",
        name=screws.name,
        torque=shown(torque),
        size=f"M{number}",
        bound=f"{bound.value_nm:.2g}",
        strongest=f"{strongest:.2g}",
        grade=bound.grade,
        assumed=_assumed(screws.thread.diameter_mm, bound),
        readings=" or ".join(words),
    )
