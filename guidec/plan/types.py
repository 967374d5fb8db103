"""What the planner says: the graph's edges, and routes."""

from __future__ import annotations

from functools import cached_property
from typing import Literal

from guidec.model.types import Reason
from guidec.plan.cost import By, Cost
from guidec.quick import dataclass
from guidec.source import Span

__all__ = ["Alternative", "By", "Cost", "Edge", "How", "Route", "StepEnd", "Turn", "Visited"]

How = Literal["removed", "exposed", "moved"]
"""How a part is reached: it comes off, it is seen, or it only ever moves out of its place."""

EndsBy = Literal["tool", "removal", "move", "heat", "clean", "tools", "end"]


@dataclass(frozen=True, slots=True)
class Edge:
    """One action needs another.

    `way` of `ways` counts from 1: where there are several, any one serves. `span`: the words that make the need.
    `thing`: the thing or operation it is about.
    """

    needs: str
    needed: str
    reason: Reason
    span: Span
    thing: str | None = None
    way: int = 1
    ways: int = 1


@dataclass(frozen=True, slots=True)
class StepEnd:
    """One step (Reg. (EU) 2023/1669), and the action that ends it.

    `by`: `tool`, another tool is taken up; `removal`, `move`, `heat`, `clean`, what the action does itself;
    `tools`, one more tool used at the same time; `end`, work pending at the route's end.
    """

    action: str
    by: EndsBy


@dataclass(frozen=True, slots=True)
class Turn:
    """A turn-over that the route puts in: before which action, and the side that is up then."""

    before: str
    side: str


@dataclass(frozen=True, slots=True)
class Visited:
    """One operation in a route.

    `operation`: its id; `number`: its number in the whole guide. `actions`: in order. `skipped`: those of the
    actions that find their work done (by another way, or the side up already) and are left out of the counts.
    `tools_taken`: newcomers, (action, tool), the first tool in a route not among them. `isolates`: the operation
    is in the route for isolation.
    """

    operation: str
    number: int
    actions: tuple[str, ...]
    skipped: frozenset[str]
    turns: tuple[Turn, ...]
    steps: tuple[StepEnd, ...]
    tools_taken: tuple[tuple[str, str], ...]


@dataclass(frozen=True, slots=True)
class Alternative:
    """Another way: `operation` gone instead of `replaces`, the operations of that route in order, and its cost."""

    operation: str
    replaces: str
    operations: tuple[str, ...]
    cost: Cost
    exact: bool


@dataclass(frozen=True)
class Route:
    """The way to some parts (or the whole teardown, with no targets).

    `how`: for each target how it is reached. `visits`: the operations in the order to be done. `screws`: single
    screws undone. `hand_s`, `wait_s`: seconds. `tools`, `supplies`: ids, in the order of first use. `risks`:
    actions whose `risk` marks are met, once for each mark. `renewals`: ids of the fastenings undone that need
    new ones. `exact`: no cheaper route exists. `broken`: actions that work on the live device on this route.
    """

    targets: tuple[str, ...]
    how: tuple[How, ...]
    by: By
    visits: tuple[Visited, ...]
    cost: Cost
    tools: tuple[str, ...]
    supplies: tuple[str, ...]
    risks: tuple[str, ...]
    renewals: tuple[str, ...]
    alternatives: tuple[Alternative, ...]
    exact: bool
    broken: tuple[str, ...] = ()
    others_left: bool = False
    """There are other ways beyond `alternatives`, whose costs were not worked out."""

    @cached_property
    def operations(self) -> tuple[str, ...]:
        """The operations' ids in the order to be done."""
        return tuple(visit.operation for visit in self.visits)

    @cached_property
    def actions(self) -> tuple[str, ...]:
        """The ids of all actions done, in order; what is skipped is left out."""
        return tuple(action for visit in self.visits for action in visit.actions if action not in visit.skipped)

    @cached_property
    def steps(self) -> tuple[StepEnd, ...]:
        """The steps in order, each with the action that ends it."""
        return tuple(step for visit in self.visits for step in visit.steps)

    @property
    def screws(self) -> int:
        """Single screws undone."""
        return self.cost.screws

    @property
    def hand_s(self) -> float:
        """Seconds by hand, changes of tool and turn-overs included."""
        return self.cost.hand / 1000

    @property
    def wait_s(self) -> float:
        """Seconds of waiting and heating that the note states."""
        return self.cost.wait / 1000
