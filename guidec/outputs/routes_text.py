"""Routes -> text for a terminal of 80 columns: the table of all ways, and one way action by action."""

from __future__ import annotations

from collections.abc import Mapping, Sequence
from textwrap import wrap

from guidec.model.types import Reason, ScrewSet
from guidec.plan import By, Cost, Edge, Graph, Route
from guidec.plan.routing import Row, rows
from guidec.plan.types import Visited
from guidec.plan.why import orders_open, reasons

__all__ = ["table", "way"]

WIDTH = 80
_BY = {"damage": "least damage", "steps": "fewest steps", "time": "least time"}
_HEAD = ("steps", "changes", "screws", "hand", "wait", "risk", "tools")
_WIDTHS = (5, 7, 6, 6, 6, 4)


def table(graph: Graph, by: By = "damage") -> str:
    """The table of the ways to all parts. Tools are letters, explained below it."""
    found = rows(graph, by)
    if not found:
        return "no part comes off, is moved or is shown in this note"
    used = dict.fromkeys(tool for row in found for tool in row.tools)
    letters = {tool: _letter(at) for at, tool in enumerate(used)}
    name = min(30, max(len(_name(graph, row)) for row in found))
    lines = [_line("part", _HEAD, name)]
    lines += [_row(graph, row, letters, name) for row in found]
    lines += ["", f"Chosen for {_BY[by]}. hand, wait: minutes; risk: risk marks met."]
    lines += (
        _wrapped("tools: ", ", ".join(f"{letters[tool]} {graph.names[tool]}" for tool in used)) if used else []
    )
    marks = {row.how for row in found}
    if "exposed" in marks or "moved" in marks:
        lines.append("(seen): it is only shown there; (moved): it is only moved aside.")
    if not all(row.exact for row in found):
        lines.append("~ the best found: there are too many orders to be sure that no way is better.")
    return "\n".join(lines)


def _letter(at: int) -> str:
    letters = "abcdefghijklmnopqrstuvwxyz"
    return letters[at] if at < len(letters) else f"{letters[at // 26 - 1]}{at % 26 + 1}"


def _name(graph: Graph, row: Row) -> str:
    said = {"removed": "", "exposed": " (seen)", "moved": " (moved)"}[row.how]
    return f"{'' if row.exact else '~'}{graph.names[row.part]}{said}"


def _row(graph: Graph, row: Row, letters: dict[str, str], width: int) -> str:
    cost = row.cost
    cells = (
        str(cost.steps),
        str(cost.changes),
        str(cost.screws),
        _clock(cost.hand),
        _clock(cost.wait) if cost.wait else "",
        str(cost.risks) if cost.risks else "",
        "".join(sorted(letters[tool] for tool in row.tools)),
    )
    return _line(_name(graph, row), cells, width)


def _line(name: str, cells: tuple[str, ...], width: int) -> str:
    numbers = " ".join(f"{cell:>{size}}" for cell, size in zip(cells, _WIDTHS, strict=False))
    shown = name if len(name) <= width else name[: width - 1] + "…"
    room = WIDTH - width - len(numbers) - 4
    tools = cells[-1] if len(cells[-1]) <= room else cells[-1][: room - 1] + "…"
    return f"{shown:<{width}}  {numbers}  {tools}".rstrip()


def _clock(milliseconds: int) -> str:
    seconds = round(milliseconds / 1000)
    return f"{seconds // 60}:{seconds % 60:02}"


# ------------------------------------------------------------ one way


def way(graph: Graph, route: Route, *, why: bool = False) -> str:
    """One route, action by action. `why`: under each, what needs it."""
    lines = _opening(graph, route)
    sides = (graph.guide.actions[own].side for own in route.actions)
    first = next((side for side in sides if side), None)
    if first:
        lines.append(f"Begin with this side up: {first}")
    edges = reasons(graph, route) if why else None
    if why:
        orders = orders_open(graph, route)
        told = "too many orders to count" if orders is None else _count(orders, "order")
        lines.append(f"What needs what leaves {told} of these operations.")
    for visit in route.visits:
        lines += ["", *_visit(graph, visit, edges)]
    if route.alternatives or route.others_left:
        lines += ["", "Other ways:"]
    for other in route.alternatives:
        said = f"`{graph.names[other.operation]}` instead of `{graph.names[other.replaces]}`: {_cost(other.cost)}"
        lines += _wrapped("  ", said)
    if route.others_left:
        lines += _wrapped("  ", "There are further ways, which were not weighed: they would take too long.")
    return "\n".join(lines)


def _opening(graph: Graph, route: Route) -> list[str]:
    said = {"removed": "", "exposed": " (only seen there)", "moved": " (only moved aside)"}
    names = [f"{graph.names[part]}{said[how]}" for part, how in zip(route.targets, route.how, strict=True)]
    found = "" if route.exact else ", the best found of too many orders to weigh"
    lines = _wrapped("", f"Way to {' and '.join(names)}, chosen for {_BY[route.by]}{found}:")
    lines += _wrapped("  ", _cost(route.cost, at_least=_uncounted(graph, route)))
    for word, ids in (("Tools", route.tools), ("Supplies", route.supplies), ("To be renewed", route.renewals)):
        if ids:
            lines += _wrapped("", f"{word}: {', '.join(graph.names[one] for one in ids)}")
    if route.broken:
        texts = "; ".join(_text(graph, own) for own in route.broken)
        lines += _wrapped("", f"LIVE on this way: {texts}")
    return lines


def _uncounted(graph: Graph, route: Route) -> bool:
    """Whether a way undoes a whole screw set that nobody counted, so that its screws are at least so many."""
    done = {own for visit in route.visits for own in visit.actions if own not in visit.skipped}
    effects = [effect for own in done for effect in graph.guide.actions[own].effects if effect.count is None]
    things = [graph.guide.things[effect.id] for effect in effects]
    return any(isinstance(thing, ScrewSet) and thing.count is None for thing in things)


def _cost(cost: Cost, *, at_least: bool = False) -> str:
    parts = [
        _count(cost.steps, "step"),
        _count(cost.changes, "tool change"),
        ("at least " if at_least else "") + _count(cost.screws, "screw"),
        _count(cost.turns, "turn-over"),
        _count(cost.risks, "risk"),
        f"{cost.spent} not reusable" if cost.spent else "",
        f"{_clock(cost.hand)} by hand",
        f"{_clock(cost.wait)} waiting" if cost.wait else "",
    ]
    return ", ".join(part for part in parts if part)


def _count(count: int, word: str) -> str:
    return f"{count} {word}{'' if count == 1 else 's'}"


def _visit(graph: Graph, visit: Visited, edges: Mapping[str, Sequence[Edge]] | None) -> list[str]:
    lines = _wrapped(f"{visit.number:>4}  ", graph.names_of_operations[visit.operation])
    turns = {turn.before: turn.side for turn in visit.turns}
    for own in visit.actions:
        if own in turns:
            lines += _wrapped("      ", f"(turn over: {turns[own]} is up)")
        line = graph.guide.source.place(graph.guide.actions[own].span.start).line
        done = "  (done already)" if own in visit.skipped else ""
        lines += _wrapped(f"      {line:>4}  ", _text(graph, own) + "." + done)
        for said in _whys(graph, edges.get(own, ())) if edges is not None else ():
            lines += _wrapped("            = ", said)
    return lines


def _text(graph: Graph, action: str) -> str:
    return graph.guide.actions[action].text.rstrip(".")


_WORDS = {
    Reason.LINE: "the same line goes on from it",
    Reason.LIST: "the next line needs it",
    Reason.EARLIER_LIST: "the list after it needs it",
    Reason.NESTED: "it is how the line above it is done",
    Reason.OPERATION: "operation `{operation}` comes after `{thing}`",
    Reason.AFTER: "operation `{operation}` comes after `{thing}`",
    Reason.HOLDS: "`{thing}` holds what comes off in {lines}",
    Reason.SUPPOSED: "`{thing}` is taken to hold what comes off in {lines}",
    Reason.UNDER: "`{thing}` lies over what comes off in {lines}",
    Reason.CONNECTOR: "`{thing}` is plugged into what comes off in {lines}",
    Reason.ISOLATION: "it makes the device dead before `{operation}`",
}


MOST = 6
"""So many reasons are given for one action, and so many lines for one of them; the number of the rest is told."""


def _whys(graph: Graph, edges: Sequence[Edge]) -> list[str]:
    """All that needs an action, in words: the same reason for several lines once."""
    if not edges:
        return ["this is what the way is for"]
    lines: dict[tuple[str, str, str], dict[int, None]] = {}
    for edge in edges:
        action = graph.guide.actions[edge.needs]
        operation = graph.names_of_operations[action.operation]
        key = (_WORDS[edge.reason], graph.names.get(edge.thing or "", "it"), operation)
        key = key if "{operation}" in key[0] else (*key[:2], "")
        lines.setdefault(key, {})[graph.guide.source.place(action.span.start).line] = None
    said = [
        words.format(thing=thing, operation=operation, lines=_lines([*found]))
        for (words, thing, operation), found in lines.items()
    ]
    said = list(dict.fromkeys(said))
    return said if len(said) <= MOST + 1 else [*said[:MOST], f"and {len(said) - MOST} reasons more"]


def _lines(numbers: Sequence[int]) -> str:
    """`line 6`, `lines 6 and 8`, `lines 6, 8, 9 and 12 more`."""
    shown = [str(number) for number in numbers[:MOST]]
    if len(numbers) > MOST + 1:
        shown.append(f"{len(numbers) - MOST} more")
    else:
        shown = [str(number) for number in numbers]
    return f"line {shown[0]}" if len(shown) == 1 else f"lines {', '.join(shown[:-1])} and {shown[-1]}"


def _wrapped(indent: str, text: str) -> list[str]:
    """A text within the width, its further lines under its first."""
    return wrap(text, WIDTH, initial_indent=indent, subsequent_indent=" " * len(indent)) or [indent.rstrip()]
