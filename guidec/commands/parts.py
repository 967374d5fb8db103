"""A part as typed on the command line -> its id, or a usage error that names the nearest parts."""

from __future__ import annotations

import click

from guidec.edge.near import near_words
from guidec.messages.text import either
from guidec.plan import Graph

__all__ = ["no_route", "part_of"]


def part_of(graph: Graph, typed: str) -> str:
    """The id of a part given by its name or id. Raises UsageError with the nearest names for an unknown one."""
    parts = {thing.id: thing.name for thing in graph.guide.things.values() if thing.kind == "part"}
    folded = " ".join(typed.split()).casefold()
    for own, name in parts.items():
        if folded in (own, " ".join(name.split()).casefold()):
            return own
    near = near_words(typed, [*parts.values()])
    thing = next((one for one in graph.guide.things.values() if one.name.casefold() == folded), None)
    if thing is not None:
        message = f"`{thing.name}` is no part, but a {thing.kind.value}"
    else:
        message = f"the note has no part `{typed}`"
    advice = f"did you mean {either(near)}?" if near else "`guidec route NOTE` lists all parts"
    raise click.UsageError(f"{message}\n  = help: {advice}")


def no_route(name: str) -> click.UsageError:
    """The error for a part that no route leads to."""
    return click.UsageError(
        f"no route leads to `{name}`\n  = help: nothing in the note takes it off, moves it or shows it"
    )
