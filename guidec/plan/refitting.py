"""A route, or the whole teardown -> the way back: what is done, in a person's words, and what it takes."""

from __future__ import annotations

from collections.abc import Iterable

from guidec.model.types import (
    Action,
    Adhesive,
    Change,
    Effect,
    Fastening,
    Guide,
    Kind,
    ScrewSet,
    Solder,
    Thermal,
)
from guidec.plan.graph import Graph
from guidec.plan.power import cutting
from guidec.plan.refit_order import order_back, refit_data, wishes
from guidec.plan.refit_stages import Refit, RefitLine, RefitStage, own_stage, sentence, stages
from guidec.plan.refit_words import sentences
from guidec.plan.turn_into import real_tools, renewed
from guidec.plan.types import Route
from guidec.plan.whole import teardown
from guidec.quick import replace
from guidec.trade.deeds import is_deed

__all__ = ["refit"]


def refit(graph: Graph, route: Route | None = None) -> Refit:
    """The way back from a route; without one, from the whole teardown."""
    guide = graph.guide
    if route is None:
        done = list(teardown(graph))
        skipped: set[str] = set()
    else:
        done = [action for visit in route.visits for action in visit.actions]
        skipped = {action for visit in route.visits for action in visit.skipped}
    back = order_back(graph, done)
    forward = [action for action in done if action not in skipped]
    maker = _Maker(graph, forward)
    lines = maker.lines([action for action in back.actions if action not in skipped])
    last = tuple(own_stage(guide, operation) for operation in guide.operations if operation.refit_only)
    used = [guide.actions[action] for action in forward]
    used += [guide.actions[action] for stage in last for action in _actions(stage)]
    return Refit(
        stages=(*stages(guide, lines), *last),
        closing=maker.closing(bool(last)),
        screws=maker.screws,
        tools=_tools(guide, used),
        supplies=_supplies(guide, used),
        renewals=tuple(dict.fromkeys(one for one in maker.undone if renewed(guide.things.get(one)))),
        refused=back.refused,
    )


def _actions(stage: RefitStage) -> list[str]:
    return [line.action for line in stage.lines if line.action is not None]


class _Maker:
    """Makes the lines of one way back."""

    def __init__(self, graph: Graph, forward: list[str]) -> None:
        self.graph = graph
        self.guide = graph.guide
        self.words = refit_data(graph.guide.meta.language)
        self.screws = 0
        self._at_least = False
        self._cutting = cutting(graph.guide)
        self._first: dict[tuple[str, bool], str] = {}
        """Thing, and whether it was only moved -> the first action that did it."""
        self._after: dict[str, int] = {action: at for at, action in enumerate(forward)}
        for action in forward:
            for effect in self.guide.actions[action].effects:
                self._first.setdefault((effect.id, effect.change is Change.MOVED), action)

    def lines(self, back: list[str]) -> list[RefitLine]:
        """The lines in order: what is glued is laid before its part, the rest as the order says."""
        early: dict[str, list[RefitLine]] = {}
        for own in back:
            for effect in self._glued(self.guide.actions[own]):
                part = self._held(own, effect.id, back)
                if part is not None:
                    early.setdefault(part, []).append(self._line(own, effect))
        moved = {(line.action, line.effect) for lines in early.values() for line in lines}
        found: list[RefitLine] = []
        side = self._side_after(back)
        for own in back:
            action = self.guide.actions[own]
            if action.side is not None and action.side != side and (action.effects or action.refits):
                if side is not None:
                    up = self.words.get("sides", {}).get(action.side, action.side)
                    found.append(RefitLine(str(self.words["turn"]).format(side=up)))
                side = action.side
            found += early.get(own, [])
            found += self._of(own, moved)
        return self._merged(found)

    def _merged(self, lines: list[RefitLine]) -> list[RefitLine]:
        """Shares of one screw set that go in one after the other in one operation, as one line."""
        found: list[RefitLine] = []
        for line in lines:
            last = found[-1] if found else None
            both = self._shares(last, line) if last is not None else None
            if last is None or both is None or last.action is None:
                found.append(line)
                continue
            action = self.guide.actions[last.action]
            text = " ".join(sentences(self.guide, self.words, action, both))
            found[-1] = RefitLine(text, last.action, both, (*last.notes, *line.notes))
        return found

    def _shares(self, first: RefitLine, second: RefitLine) -> Effect | None:
        """Both lines' effects in one, where they are shares of one set in one operation."""
        if first.effect is None or second.effect is None or first.action is None or second.action is None:
            return None
        same = self.guide.actions[first.action].operation == self.guide.actions[second.action].operation
        counts = (first.effect.count, second.effect.count)
        if not same or first.effect.id != second.effect.id or counts[0] is None or counts[1] is None:
            return None
        screws = self.guide.things[first.effect.id]
        if not isinstance(screws, ScrewSet) or (screws.count and sum(filter(None, counts)) > screws.count):
            return None
        return replace(first.effect, count=counts[0] + counts[1])

    def _side_after(self, back: list[str]) -> str | None:
        """The side that is up when the way back begins: where the way in ended."""
        if not back:
            return None
        last = max(back, key=self._after.__getitem__)
        return self.guide.actions[last].turn or self.guide.actions[last].side

    def _of(self, own: str, moved: set[tuple[str | None, Effect | None]]) -> list[RefitLine]:
        """The lines that take back one action, its last effect first; its notes go with the first line."""
        action = self.guide.actions[own]
        effects = [effect for effect in reversed(action.effects) if self._counts(own, effect)]
        lines = [self._line(own, effect) for effect in effects if (own, effect) not in moved]
        notes = self._notes(action)
        if not lines:
            return [RefitLine(note, own) for note in notes]
        first = lines[0]
        return [RefitLine(first.text, own, first.effect, notes, first.power), *lines[1:]]

    def _counts(self, own: str, effect: Effect) -> bool:
        """Whether an effect is taken back here: what is undone twice (warmed, then cut) goes back once."""
        if effect.change is Change.EXPOSED:
            return False
        if isinstance(self.guide.things.get(effect.id), ScrewSet) or effect.count is not None:
            return True
        return self._first[effect.id, effect.change is Change.MOVED] == own

    @property
    def undone(self) -> tuple[str, ...]:
        """Everything undone, opened or taken off, in order."""
        return tuple(own for own, moved in self._first if not moved)

    def _line(self, own: str, effect: Effect) -> RefitLine:
        action = self.guide.actions[own]
        thing = self.guide.things[effect.id]
        if isinstance(thing, ScrewSet):
            count = effect.count if effect.count is not None else thing.count
            self.screws += 1 if count is None else count
            self._at_least |= count is None
        power = own in self._cutting
        text = " ".join(sentences(self.guide, self.words, action, effect))
        return RefitLine(f"{text} {self.words['power']}" if power else text, own, effect, power=power)

    def _notes(self, action: Action) -> tuple[str, ...]:
        """The refit notes as sentences, without the words that ask for a place."""
        asked = {wish.note: wish.text for wish in wishes(self.guide, action)}
        return tuple(sentence(asked.get(note, note.text)) for note in action.refits)

    def _glued(self, action: Action) -> list[Effect]:
        """What has to be laid before the part goes on: adhesive and thermal material."""
        return [
            effect
            for effect in action.effects
            if isinstance(self.guide.things.get(effect.id), Adhesive | Thermal) and self._counts(action.id, effect)
        ]

    def _held(self, own: str, thing: str, back: list[str]) -> str | None:
        """The removal, first to be taken back, of a part that this holds; else of the next part off behind it."""
        one = self.guide.things[thing]
        held = {ref.id for ref in one.holds} if isinstance(one, Fastening) else set()
        operation = self.guide.operation[self.guide.actions[own].operation]
        held |= {each.part for each in operation.supposed if each.fastening == thing}
        held -= {None}
        later = [each for each in back if self._after[each] >= self._after[own] and self._removes(each, held)]
        if not later and held:  # what it holds is never off: it is laid before that is closed again
            later = [each for each in back if self._after[each] > self._after[own] and self._moves(each, held)]
        if later or held:
            return later[0] if later else None
        if self._left(own, [each for each in back if self._after[each] < self._after[own]]):
            return None
        behind = [each for each in back if self._after[each] >= self._after[own] and each in operation.actions]
        same = [each for each in behind if self._removes(each, None)]
        same = same or [each for each in behind if each != own and self._moves(each, None)]
        return same[-1] if same else None

    def _left(self, own: str, before: list[str]) -> bool:
        """Whether an action cleans off what was left on a part that came off before it in its operation."""
        action = self.guide.actions[own]
        if not is_deed(action.verb, "clean_off", self.guide.meta.language):
            return False
        return any(
            self.guide.actions[each].operation == action.operation and self._removes(each, None) for each in before
        )

    def _removes(self, own: str, parts: set[str | None] | set[str] | None) -> bool:
        effects = self.guide.actions[own].effects
        return any(effect.change is Change.OFF and (parts is None or effect.id in parts) for effect in effects)

    def _moves(self, own: str, parts: set[str | None] | set[str] | None) -> bool:
        """Whether an action moves a part (of some) and does not take it off."""
        effects = self.guide.actions[own].effects
        return any(effect.change is Change.MOVED and (parts is None or effect.id in parts) for effect in effects)

    def closing(self, tested: bool) -> tuple[str, ...]:
        """The checks at the end. `tested`: the author's own have been done."""
        said = "left-over-at-least" if self._at_least else "left-over" if self.screws else "left-over-none"
        count = str(self.words[said]).format(count=self.screws)
        return (count,) if tested else (count, str(self.words["function"]))


def _tools(guide: Guide, actions: Iterable[Action]) -> tuple[str, ...]:
    """The tools of the way back: the drivers and irons of the way in, and those that refit notes name."""
    found: dict[str, None] = {}
    for action in actions:
        things = [guide.things.get(effect.id) for effect in action.effects]
        refit_only = guide.operation[action.operation].refit_only
        if refit_only or any(isinstance(thing, ScrewSet | Solder) for thing in things):
            found.update(dict.fromkeys(real_tools(guide, action)))
        found.update(dict.fromkeys(_named(guide, action, Kind.TOOL)))
    return tuple(found)


def _supplies(guide: Guide, actions: Iterable[Action]) -> tuple[str, ...]:
    """The supplies of the way back: those that refit notes and `refit only` lines name."""
    found: dict[str, None] = {}
    for action in actions:
        if guide.operation[action.operation].refit_only:
            found.update(dict.fromkeys(use.id for use in action.supplies))
        found.update(dict.fromkeys(_named(guide, action, Kind.SUPPLY)))
    return tuple(found)


def _named(guide: Guide, action: Action, kind: Kind) -> list[str]:
    uses = [use.id for note in action.refits for use in note.uses]
    return [own for own in uses if own in guide.things and guide.things[own].kind is kind]
