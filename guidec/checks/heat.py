"""Actions that heat -> values left out, values out of range, cells that are still in."""

from __future__ import annotations

from collections.abc import Iterator

from guidec.checks.unmarked import unmarked
from guidec.model.types import Action, Family, Guide, Part
from guidec.plan import Graph
from guidec.plan.deeds import (
    adhesives_undone,
    batteries,
    heats,
    is_lithium,
    removes,
    solders,
    temperature_c,
    words_of,
)
from guidec.plan.without import done_without
from guidec.rules.finding import Finding, Severity
from guidec.source import Span
from guidec.trade.adhesives import Softening, softening
from guidec.trade.batteries import cell_limit_c
from guidec.trade.units import convert, find_quantities

__all__ = ["check"]


def check(guide: Guide, graph: Graph) -> Iterator[Finding]:
    """T201 to T204. Soldering is another matter, and so is heat that loosens a screw or a bearing."""
    hot = [action for action in guide.actions.values() if _softens(guide, action)]
    if not hot:
        return
    beside = _beside_cells(guide, graph)
    for action in hot:
        cell = beside.get(action.id)
        yield from _values(guide, action, cell)
        yield from _range(guide, action)
        yield from _cell_adhesive(guide, action, cell)


def _softens(guide: Guide, action: Action) -> bool:
    return action.family is Family.SOFTEN and heats(guide, action) and not solders(guide, action)


def _beside_cells(guide: Guide, graph: Graph) -> dict[str, Part]:
    """Actions that can be done while a cell is still in, by some way, and the cell."""
    found: dict[str, Part] = {}
    for part in batteries(guide):
        if not is_lithium(guide, part):
            continue
        takers = {action.id for action in guide.actions.values() if removes(action, part.id)}
        for one in done_without(graph, takers) if takers else guide.actions:
            found.setdefault(one, part)
    return found


def _values(guide: Guide, action: Action, cell: Part | None) -> Iterator[Finding]:
    """T203 where a cell is in and no temperature is given; else T201."""
    timed = any(heat.duration for heat in action.heats) or any(wait.duration for wait in action.waits)
    if temperature_c(action) is None:
        code, name = "T203" if cell else "T201", cell.name if cell else ""
        plain = _plain(guide, action)
        if plain is not None:
            mark = f"{{heat {plain[0]}}}"
            yield Finding.at(
                code, plain[1], variant="plain", verb=action.verb, name=name, mark=mark, suggest=[mark]
            )
            return
        variant = "" if timed or cell else "both"
        yield Finding.at(code, action.verb_span, variant=variant, verb=action.verb, name=name)
    elif not timed:
        yield Finding.at("T201", action.heats[0].span, variant="time", severity=Severity.INFO, verb=action.verb)


def _plain(guide: Guide, action: Action) -> tuple[str, Span] | None:
    """A temperature, with the time behind it, that stands in the line without a mark; and its place."""
    typed = unmarked(guide, action.line_span)
    found = find_quantities(typed, action.line_span.start, ("temperature", "time"))
    hot = next((one for one in found if one.dimension == "temperature"), None)
    if hot is None:
        return None
    time = next((one for one in found if one.dimension == "time" and one.span.start > hot.span.end), None)
    if time is None:
        return hot.typed, hot.span
    return f"{hot.typed}, {time.typed}", hot.span.to(time.span)


def _range(guide: Guide, action: Action) -> Iterator[Finding]:
    """T202: above what the softest of the adhesives here is softened at."""
    value = temperature_c(action)
    adhesives = adhesives_undone(guide, action)
    if value is None or not adhesives:
        return
    kinds = [softening(f"{words_of(each)} {each.type}") for each in adhesives]
    kind = max(kinds, key=lambda each: each.high_c)
    if value <= kind.high_c:
        return
    span = max(action.heats, key=lambda heat: heat.temperature.high if heat.temperature else 0).span
    meant = _as_fahrenheit(value, kind)
    yield Finding.at(
        "T202",
        span,
        variant="fahrenheit" if meant else "",
        value=f"{value:g}",
        limit=f"{kind.high_c:g}",
        kind=kind.name,
        name=adhesives[kinds.index(kind)].name,
        meant=meant,
    )


def _as_fahrenheit(value: float, kind: Softening) -> str:
    """The temperature in °C if the number was meant in °F and would then be a usual one, else empty."""
    meant = (value - 32) * 5 / 9
    return f"{meant:.0f}" if 40 <= meant <= kind.high_c else ""


def _cell_adhesive(guide: Guide, action: Action, cell: Part | None) -> Iterator[Finding]:
    """T204: the adhesive that holds a cell, heated past what the cell stands."""
    value = temperature_c(action)
    if cell is None or value is None or value <= cell_limit_c():
        return
    if any(_holds(guide, action, each.id, cell.id) for each in adhesives_undone(guide, action)):
        yield Finding.at(
            "T204",
            action.heats[0].span,
            value=f"{value:g}",
            fahrenheit=f"{convert(cell_limit_c(), 'temperature', '°F'):.0f}",
            limit=f"{cell_limit_c():g}",
            name=cell.name,
        )


def _holds(guide: Guide, action: Action, adhesive: str, cell: str) -> bool:
    thing = guide.things[adhesive]
    stated = {ref.id for ref in getattr(thing, "holds", ())}
    supposed = guide.operation[action.operation].supposed
    return cell in stated or any(each.fastening == adhesive and each.part == cell for each in supposed)
