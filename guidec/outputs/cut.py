"""A guide and a route -> the guide of that route alone: its actions in its order, and the things that they meet.

Operations keep their numbers, lines their labels (see `labels`), and the author's hazards stay whole. What is done
on refit only comes last, since every way back ends with it. Turn-overs that the route puts in are lines of their
own.
"""

from __future__ import annotations

from collections.abc import Mapping

from markdown_it.token import Token

from guidec.model.types import Action, Family, Guide, Line, Operation, Shown, Thing
from guidec.notes.syntax import Inline
from guidec.outputs.cutlines import Keep, kept
from guidec.outputs.words import words
from guidec.plan import Refit, Route
from guidec.plan.types import Visited
from guidec.quick import dataclass, replace
from guidec.source import Span

__all__ = ["cut"]


def cut(guide: Guide, route: Route, back: Refit) -> Guide:
    """The guide of a route and its way back. What the note says of the whole (its introduction) is left out."""
    actions = {own: replace(guide.actions[own], optional=False) for own in route.actions}
    last = [operation for operation in guide.operations if operation.refit_only]
    actions |= {own: guide.actions[own] for operation in last for own in operation.actions}
    things = _things(guide, actions, back)
    cutter = _Cutter(guide, actions, things)
    done = set(route.actions)
    visits = [visit for visit in route.visits if done.intersection(visit.actions)]
    return replace(
        guide,
        intro=(),
        things=things,
        actions=actions,
        operations=(*cutter.visited(visits), *(cutter.refit_only(operation) for operation in last)),
        isolating=tuple(own for own in guide.isolating if own in actions),
    )


def _things(guide: Guide, actions: Mapping[str, Action], back: Refit) -> Mapping[str, Thing]:
    """What the actions and their way back meet: worked on, used, at risk, shown; in the guide's order."""
    met = {*back.tools, *back.supplies, *back.renewals}
    for action in actions.values():
        met.update(effect.id for effect in action.effects)
        met.update(use.id for use in (*action.objects, *action.tools, *action.supplies))
        met.update(risk.thing.id for risk in action.risks if risk.thing and risk.thing.id)
        met.update(use.id for note in action.refits for use in note.uses)
        if action.family is Family.LOOK:
            met.update(use.id for use in action.mentions)
    return {own: thing for own, thing in guide.things.items() if own in met}


@dataclass(slots=True)
class _Cutter:
    """Cuts operations. `side`: what is up by now."""

    guide: Guide
    actions: Mapping[str, Action]
    things: Mapping[str, Thing]
    side: str | None = None

    def visited(self, visits: list[Visited]) -> list[Operation]:
        """The operations of a route."""
        return [self._visit(visit) for visit in visits]

    def _visit(self, visit: Visited) -> Operation:
        operation = self.guide.operation[visit.operation]
        order = [own for own in visit.actions if own in self.actions]
        turns = {turn.before: self._turn(turn.before, turn.side) for turn in visit.turns}
        keep = Keep(self.guide, {own: at for at, own in enumerate(order)}, turns, self._pinned)
        starts = self._first_side(order, visit)
        for own in order:
            action = self.actions[own]
            turned = next((turn.side for turn in visit.turns if turn.before == own), None)
            self.side = action.turn or action.side or turned or self.side
        return replace(
            operation,
            actions=tuple(order),
            content=kept(keep, operation.content),
            after=(),
            instead_of=None,
            optional=False,
            side=starts,
            ends_side=self.side,
            supposed=tuple(
                one
                for one in operation.supposed
                if one.action in self.actions and one.fastening in self.things and one.part in self.things
            ),
        )

    def _first_side(self, order: list[str], visit: Visited) -> str | None:
        """The side that the first action finds up, after the turn before it where there is one."""
        turned = next((turn.side for turn in visit.turns if turn.before == order[0]), None)
        return turned or self.side or self.actions[order[0]].side

    def refit_only(self, operation: Operation) -> Operation:
        """An operation of the way back, whole."""
        keep = Keep(self.guide, {own: at for at, own in enumerate(operation.actions)}, {}, self._pinned)
        return replace(operation, content=kept(keep, operation.content), after=())

    def _pinned(self, shown: Shown) -> Shown:
        """A picture with the pins of what this guide knows."""
        return replace(shown, pins=tuple(pin for pin in shown.pins if pin.thing.id in self.things))

    def _turn(self, before: str, side: str) -> Line:
        says = words(self.guide.meta.language)
        at = self.guide.actions[before].line_span.start
        text = Token("text", "", 0, content=says("turn-over", side=says.named("side", side)))
        return Line(Span(at, at), Inline(Span(at, at), (), (text,)), ())
