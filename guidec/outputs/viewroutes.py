"""Routes -> what a page says of them: the table of all ways, the facts of one, its other ways."""

from __future__ import annotations

from collections.abc import Mapping, Sequence

from markupsafe import Markup

from guidec.model.types import Guide, Operation, Reason
from guidec.outputs.fill import fill, joined
from guidec.outputs.inline import anchor
from guidec.outputs.viewlines import letters
from guidec.outputs.viewtables import Table, cell, operation_link
from guidec.outputs.words import Words, words
from guidec.plan import Cost, Graph, Route
from guidec.plan.why import why
from guidec.quick import dataclass

__all__ = ["RoutesView", "WayView", "file_of", "routes_view", "way_view"]


@dataclass(frozen=True, slots=True)
class RoutesView:
    """The table of the ways to all parts. `tools`: the letters of its column, with the tools they stand for.
    `notes`: what its signs mean."""

    table: Table
    tools: tuple[tuple[str, Markup], ...]
    notes: tuple[str, ...]


@dataclass(frozen=True, slots=True)
class WayView:
    """What stands at the head of a route guide. `facts` as of the title block; `said`: sentences; `live`: the
    actions done on the live device; `others`: the other ways, a table that may have no rows."""

    facts: tuple[tuple[str, str, Markup], ...]
    said: tuple[Markup, ...]
    live: tuple[str, ...]
    others: Table


def file_of(route: Route) -> str:
    """The name of a route's page."""
    return f"route-{'-'.join(route.targets)}.html"


def routes_view(guide: Guide, routes: Sequence[Route], *, pages: bool) -> RoutesView:
    """The table. `pages`: whether each part links to the page of its route; else to the index of things."""
    says = words(guide.meta.language)
    used = dict.fromkeys(tool for route in routes for tool in route.tools if tool in guide.things)
    signs = {tool: letters(at + 1) for at, tool in enumerate(used)}
    rows = tuple(_row(guide, says, route, signs, pages) for route in routes)
    names = "part way steps changes screws tools-short time risk"
    heads = tuple((name, says("tools" if name == "tools-short" else name)) for name in names.split())
    return RoutesView(
        Table(says("routes-table"), heads, rows),
        tuple((sign, _thing(guide, tool)) for tool, sign in signs.items()),
        tuple(_notes(says, routes)),
    )


def _thing(guide: Guide, own: str) -> Markup:
    thing = guide.things[own]
    return fill('<a class="th {}" href="#{}">{}</a>', thing.kind.value, anchor(own), thing.name)


def _row(guide: Guide, says: Words, route: Route, signs: Mapping[str, str], pages: bool) -> tuple[Markup, ...]:
    cost, target = route.cost, route.targets[0]
    way = file_of(route) if pages else f"#{anchor(target)}"
    name = fill('<a class="th part" href="{}">{}</a>', way, guide.things[target].name)
    if route.how[0] != "removed":
        name += " " + says(f"how-short.{route.how[0]}")
    return (
        (Markup("") if route.exact else Markup("~")) + name,
        _operations(guide, route.operations),
        cell(cost.steps),
        cell(cost.changes),
        cell(cost.screws),
        cell(" ".join(sorted(signs[tool] for tool in route.tools if tool in signs)) or says("bare-hands")),
        cell(clock(cost)),
        cell(cost.risks or ""),
    )


def _operations(guide: Guide, operations: Sequence[str]) -> Markup:
    return joined(" ", [operation_link(own, guide.operation[own].number) for own in operations])


def clock(cost: Cost) -> str:
    """Hand time, and waiting where there is any: `1:12 + 1:00`."""
    waits = f" + {_minutes(cost.wait)}" if cost.wait else ""
    return f"{_minutes(cost.hand)}{waits}"


def _minutes(milliseconds: int) -> str:
    seconds = round(milliseconds / 1000)
    return f"{seconds // 60}:{seconds % 60:02}"


def _notes(says: Words, routes: Sequence[Route]) -> list[str]:
    found = [says("routes-why"), says("time-why")]
    found += [says("best-found")] if not all(route.exact for route in routes) else []
    return found


# ---------------------------------------------------------------- one route


def way_view(graph: Graph, route: Route) -> WayView:
    """The head of a route guide."""
    guide = graph.guide
    says = words(guide.meta.language)
    return WayView(
        facts=_facts(says, route),
        said=tuple(_said(graph, says, route)),
        live=tuple(_placed(guide, says, own) for own in route.broken),
        others=_others(guide, says, route),
    )


def _facts(says: Words, route: Route) -> tuple[tuple[str, str, Markup], ...]:
    cost = route.cost
    cells = (
        ("steps", cost.steps),
        ("changes", cost.changes),
        ("screws", cost.screws),
        ("turns", cost.turns),
        ("hand-time", _minutes(cost.hand)),
        ("wait-time", _minutes(cost.wait)),
        ("risks-met", cost.risks),
        ("spent", cost.spent),
    )
    return tuple(("w1", says(key), cell(value)) for key, value in cells)


def _said(graph: Graph, says: Words, route: Route) -> list[Markup]:
    """How the part is reached, what the way was chosen for, and why it holds what makes the device dead."""
    guide = graph.guide
    last = guide.operation[guide.actions[route.actions[-1]].operation] if route.actions else None
    made = []
    for target, how in zip(route.targets, route.how, strict=True):
        name = guide.things[target].name
        text = says(f"how.{how}", name=name, number=last.number if last else "")
        made.append(cell(text[:1].upper() + text[1:]))
    made.append(cell(says(f"by.{route.by}") + ("" if route.exact else " " + says("best-found"))))
    made += [cell(text) for text in _isolation(graph, says, route)]
    made += [cell(says("others-left"))] if route.others_left else []
    made.append(cell(says("numbers-kept")))
    return made


def _isolation(graph: Graph, says: Words, route: Route) -> list[str]:
    """For each operation that makes the device dead: what waits for it; or that there is none on this way."""
    guide, edges = graph.guide, why(graph, route)
    dead = [own for own in route.actions if own in guide.isolating]
    if guide.isolating and not dead:
        return [says("isolation-not-here")]
    waiting: dict[str, list[int]] = {}
    for own in dead:
        edge, numbers = edges.get(own), waiting.setdefault(guide.actions[own].operation, [])
        if edge is not None and edge.reason is Reason.ISOLATION:
            numbers.append(guide.operation[guide.actions[edge.needs].operation].number)
    return [_why_here(says, guide.operation[own], numbers) for own, numbers in waiting.items()]


def _why_here(says: Words, operation: Operation, waiting: Sequence[int]) -> str:
    """Why an operation that makes the device dead is on the way. `waiting`: the operations that wait for that."""
    facts = {"number": operation.number, "title": operation.title}
    return says("isolation-why", **facts, before=min(waiting)) if waiting else says("isolation-besides", **facts)


def _placed(guide: Guide, says: Words, own: str) -> str:
    action = guide.actions[own]
    return f"{guide.operation[action.operation].number} {says.figures(action.text)}"


def _others(guide: Guide, says: Words, route: Route) -> Table:
    heads = "other-way steps changes screws turns time risks-met spent"
    rows = [_other(guide, says("this-way"), route.operations, route.cost)] if route.alternatives else []
    for other in route.alternatives:
        first = _titled(guide, other.replaces)
        name = says("other-for", other=_titled(guide, other.operation), first=first)
        rows.append(_other(guide, name, other.operations, other.cost))
    return Table(says("other-costs"), tuple((name, says(name)) for name in heads.split()), tuple(rows))


def _other(guide: Guide, name: str, operations: Sequence[str], cost: Cost) -> tuple[Markup, ...]:
    return (
        fill("{}<br>{}", name, " ".join(str(guide.operation[own].number) for own in operations)),
        cell(cost.steps),
        cell(cost.changes),
        cell(cost.screws),
        cell(cost.turns),
        cell(clock(cost)),
        cell(cost.risks),
        cell(cost.spent),
    )


def _titled(guide: Guide, own: str) -> str:
    operation = guide.operation[own]
    return f"{operation.number} {operation.title}"
