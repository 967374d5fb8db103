"""A guide and the cautions that the compiler adds -> the guide as it is printed, each caution at its place."""

from __future__ import annotations

from collections.abc import Iterable

from guidec.model.types import Guide, Hazard
from guidec.plan.cautions import Placed
from guidec.quick import replace

__all__ = ["cautioned"]


def cautioned(guide: Guide, cautions: Iterable[Placed]) -> Guide:
    """The guide with each caution among the hazards of its action, or of the whole guide where it names none."""
    whole: list[Hazard] = []
    placed: dict[str, list[Hazard]] = {}
    for one in cautions:
        (whole if one.action is None else placed.setdefault(one.action, [])).append(one.hazard)
    actions = {
        name: replace(action, hazards=(*action.hazards, *placed[name])) if name in placed else action
        for name, action in guide.actions.items()
    }
    return replace(guide, actions=actions, hazards=(*guide.hazards, *whole))
