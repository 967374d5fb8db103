"""`guidec route NOTE [PART…]`: the table of all ways, or the way to some parts action by action."""

from __future__ import annotations

from pathlib import Path

import click

from guidec import compile as compiler
from guidec.commands.common import format_option, opened
from guidec.commands.parts import no_route, part_of
from guidec.outputs.guide_json import dumped
from guidec.outputs.routes_json import as_data
from guidec.outputs.routes_text import table, way
from guidec.plan import By, Graph, UnknownPartError, route, routes

__all__ = ["command"]


@click.command()
@click.argument("note", type=click.Path(path_type=Path, allow_dash=True), metavar="NOTE")
@click.argument("parts", nargs=-1, metavar="[PART]...")
@click.option(
    "--by",
    type=click.Choice(("damage", "steps", "time")),
    default="damage",
    show_default=True,
    help="What the route spares first.",
)
@click.option("--why", is_flag=True, help="Say of each action what needs it.")
@format_option("text", "json")
def command(note: Path, parts: tuple[str, ...], by: By, why: bool, format_: str) -> int:
    """Show the best way to each part of a note, or to some parts in one visit.

    NOTE is a Markdown file, `-` standard input. PART is a part's name or id; with several, one way that reaches
    all of them. Without any, the table of all parts.
    """
    checked = compiler.check(opened(note))
    if checked.model is None:
        raise click.ClickException(f"`{note}` cannot be read\n  = help: see `guidec check {note}`")
    graph = checked.model.graph
    if not parts:
        if format_ == "json":
            click.echo(dumped(as_data(graph, routes(graph, by), by, clean=checked.clean)), nl=False)
        else:
            click.echo(table(graph, by))
        return _status(note, checked.clean)
    targets = [part_of(graph, part) for part in parts]
    try:
        found = route(graph, targets, by)
    except UnknownPartError as error:
        raise no_route(graph.names[error.args[0]]) from None
    if found is None:
        click.echo(f"error: the order of work goes round in a circle before {_named(graph, targets)}", err=True)
        click.echo(f"  = help: see `guidec check {note}`", err=True)
        if format_ == "json":
            click.echo(dumped(as_data(graph, [], by, clean=False)), nl=False)
        return 1
    if format_ == "json":
        click.echo(dumped(as_data(graph, [found], by, clean=checked.clean)), nl=False)
    else:
        click.echo(way(graph, found, why=why))
    return _status(note, checked.clean)


def _named(graph: Graph, targets: list[str]) -> str:
    return ", ".join(f"`{graph.names[target]}`" for target in targets)


def _status(note: Path, clean: bool) -> int:
    """1 for a note with errors, said in one line on standard error."""
    if clean:
        return 0
    click.echo(f"note: `{note}` has errors, so these ways may be wrong; see `guidec check {note}`", err=True)
    return 1
