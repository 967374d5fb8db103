"""A checked guide -> its assessment: index with workings, classes, limits, times; what is wrong with answers."""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import field

from guidec.model.types import Guide, Part
from guidec.plan import By, Graph, Route, UnknownPartError, route, routes
from guidec.quick import dataclass
from guidec.rules.book import page
from guidec.rules.finding import Finding, Severity
from guidec.scoring.answers import about_answers
from guidec.scoring.assumed import Assumption, assumptions
from guidec.scoring.en45554 import Both, Classes, classes
from guidec.scoring.evidence import Evidence, RouteTo, gather
from guidec.scoring.index import Index, index
from guidec.scoring.library import Choice, chosen
from guidec.scoring.limits import Line, lines
from guidec.scoring.method import Method
from guidec.scoring.work import WorkTimes, work_times
from guidec.trade.work_times import Table, own_table

__all__ = ["Assessment", "Ways", "assess"]


class Ways:
    """The ways to the parts of a graph, each worked out once. `fewest`: who else is asked for fewest steps."""

    def __init__(self, graph: Graph, fewest: RouteTo | None = None) -> None:
        self.graph = graph
        self._fewest = fewest
        self._known: dict[tuple[str, By], Route | None] = {}

    def to(self, part: str, by: By = "steps") -> Route | None:
        """The way to a part; None where nothing leads to it."""
        if self._fewest is not None and by == "steps":
            return self._fewest(part)
        if (part, by) not in self._known:
            try:
                found = route(self.graph, [part], by)
            except UnknownPartError:
                found = None
            self._known[part, by] = found
        return self._known[part, by]

    def fill(self, by: By) -> None:
        """Work out the ways to all parts together, which costs far less than one by one."""
        found = {one.targets[0]: one for one in routes(self.graph, by)}
        parts = (own for own, thing in self.graph.guide.things.items() if isinstance(thing, Part))
        self._known.update({(part, by): found.get(part) for part in parts})

    def off(self, part: str, by: By = "steps") -> Route | None:
        """The way to a part that comes off; None for one that is only shown or moved."""
        found = self.to(part, by)
        return found if found is not None and found.how[0] == "removed" else None

    def several(self, part: str) -> Sequence[Route]:
        """The ways to a part that comes off by each order of costs, those that are one counted once."""
        found = [self.off(part, by) for by in ("steps", "damage", "time")]
        return list({one.actions: one for one in found if one is not None}.values())


@dataclass(frozen=True, slots=True)
class Assessment:
    """Everything that is said of a guide's repair. Without a method there is no evidence and no index."""

    guide: Guide
    graph: Graph
    choice: Choice
    evidence: Evidence | None
    index: Index | None
    assumptions: tuple[Assumption, ...]
    classes: tuple[Classes, ...]
    limits: tuple[Line, ...]
    times: WorkTimes
    ways: Ways = field(repr=False, compare=False)

    @property
    def method(self) -> Method | None:
        """The method of the index."""
        return self.choice.method


def assess(
    graph: Graph,
    method: Method | None = None,
    table: Table | None = None,
    changed: tuple[Guide, RouteTo] | None = None,
) -> tuple[Assessment, tuple[Finding, ...]]:
    """Assess the guide of a graph.

    `method`: another than the note's or its kind's; `table`: other work times; `changed`: a guide that is supposed
    in place of the graph's, and the ways to its parts by fewest steps.
    """
    guide, route_to = changed or (graph.guide, None)
    choice = chosen(guide, method)
    ways = Ways(graph, route_to)
    ways.fill("steps")
    evidence = gather(guide, choice.method, lambda part: ways.to(part, _by(choice))) if choice.method else None
    assessment = Assessment(
        guide=guide,
        graph=graph,
        choice=choice,
        evidence=evidence,
        index=index(choice.method, evidence) if choice.method and evidence else None,
        assumptions=assumptions(guide, choice, evidence),
        classes=tuple(_classes(guide, ways, choice)),
        limits=lines(guide, ways.several),
        times=work_times(guide, table or own_table()),
        ways=ways,
    )
    return assessment, tuple(one for one in about_answers(guide, choice) if not _quiet(one, guide))


def _by(choice: Choice) -> By:
    named = choice.method.routes if choice.method else "steps"
    return {"damage": "damage", "time": "time"}.get(named, "steps")  # type: ignore[return-value]


def _classes(guide: Guide, ways: Ways, choice: Choice) -> list[Classes]:
    """The classes of every part that comes off, in the note's order."""
    parts = [thing for thing in guide.things.values() if isinstance(thing, Part)]
    found = ((part, ways.off(part.id)) for part in parts)
    known: dict[str, Both] = {}
    return [classes(part, guide, way, choice.method, known) for part, way in found if way is not None]


def _quiet(finding: Finding, guide: Guide) -> bool:
    """Whether the note silences a finding; an error stays."""
    severity = finding.severity or page(finding.code).severity
    return finding.code in guide.meta.quiet and severity is not Severity.ERROR
