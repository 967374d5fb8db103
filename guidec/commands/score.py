"""`guidec score NOTE`: how well the device can be repaired, by a method, with every number's way."""

from __future__ import annotations

from collections.abc import Callable, Sequence
from pathlib import Path
from typing import TypeVar

import click

from guidec import compile as compiler
from guidec import messages
from guidec.commands.common import coloured, exit_status, format_option, opened, width
from guidec.edge.load import load
from guidec.edge.near import near_words
from guidec.messages import Diagnostic
from guidec.messages.data import as_data as diagnostic_data
from guidec.messages.text import either
from guidec.outputs.guide_json import dumped
from guidec.outputs.score_json import as_data, supposed_data
from guidec.outputs.score_supposed import moved_text
from guidec.outputs.score_text import text
from guidec.outputs.score_view import score_view
from guidec.outputs.words import words
from guidec.plan import Graph, graph
from guidec.plan.times import of_table
from guidec.quick import dataclass
from guidec.rules.finding import Finding
from guidec.scoring import Assessment, assess
from guidec.scoring.answers import typed_elsewhere
from guidec.scoring.change import Change, supposed
from guidec.scoring.files import read_method, read_times
from guidec.scoring.ideas import ideas
from guidec.scoring.library import known
from guidec.scoring.library import method as method_called
from guidec.scoring.method import Method
from guidec.scoring.what_if import read as read_changes
from guidec.source import Source
from guidec.trade.likeness import fold
from guidec.trade.work_times import Table

__all__ = ["command"]

Read = TypeVar("Read")


class _RefusedError(Exception):
    """What the call hands over cannot be used; the report was printed."""


@dataclass(frozen=True, slots=True)
class _Call:
    """What was asked: the method and times of the call, what is supposed."""

    method: Method | None
    table: Table | None
    what_if: tuple[str, ...]


@click.command()
@click.argument("note", type=click.Path(path_type=Path, allow_dash=True), metavar="NOTE")
@click.option("--method", "method_", metavar="ID|FILE", help="Score by this method, or by the one in this file.")
@click.option(
    "--times", "times_", type=click.Path(path_type=Path), metavar="FILE", help="Use this table of times."
)
@click.option("--what-if", multiple=True, metavar="CHANGES", help="Suppose changes, and show what moves.")
@format_option("text", "json")
def command(note: Path, method_: str | None, times_: Path | None, what_if: tuple[str, ...], format_: str) -> int:
    """Score how well a device can be repaired, with the workings.

    NOTE is a Markdown file, `-` standard input. The method is the one asked for, else the note's
    (`scoring.method`), else the one made for the subject's kind.
    """
    checked = compiler.check(opened(note))
    if checked.model is None:
        click.echo(f"error: `{note}` cannot be read\n  = help: see `guidec check {note}`", err=True)
        return 2
    try:
        table = _from_file(times_, read_times) if times_ else None
        call = _Call(_method(method_), table, what_if)
        base = checked.model.graph
        base = graph(base.guide, of_table(table)) if table else base
        return _scored(note, checked, base, call, format_)
    except _RefusedError:
        return 2


def _scored(note: Path, checked: compiler.Checked, base: Graph, call: _Call, format_: str) -> int:
    assessment, found = assess(base, call.method, call.table)
    changes = [change for said in call.what_if for change in _changes(said, assessment)]
    places = {(one.span.start, one.span.end): one.code for one in checked.findings}
    diagnostics = messages.diagnose(
        checked.bundle.source, [one for one in found if not typed_elsewhere(one, places)]
    )
    then = _with(changes, assessment, call) if changes else None
    if format_ == "json":
        data = as_data(assessment, ideas(assessment), clean=checked.clean)
        if then is not None:
            data["what_if"] = supposed_data(assessment, then, changes)
        data["diagnostics"] = [diagnostic_data(one) for one in diagnostics]
        click.echo(dumped(data), nl=False)
    else:
        _print(assessment, then, changes, diagnostics)
    if not checked.clean:
        click.echo(f"note: `{note}` has errors, so this score may be wrong; see `guidec check {note}`", err=True)
    return exit_status(diagnostics) or (0 if checked.clean else 1)


def _with(changes: Sequence[Change], assessment: Assessment, call: _Call) -> Assessment:
    """The assessment with changes; what a part's own edges spare counts in the index."""
    made = supposed(assessment.graph, changes)
    return assess(made.graph, call.method or assessment.method, call.table, (made.guide, made.to))[0]


def _print(
    assessment: Assessment, then: Assessment | None, changes: Sequence[Change], found: Sequence[Diagnostic]
) -> None:
    says = words("en")
    if found:
        click.echo(messages.text(found, colour=coloured(), width=width()), nl=False, color=coloured())
    if then is not None:
        click.echo(moved_text(assessment, then, changes, says), nl=False)
    else:
        click.echo(text(score_view(assessment, says, ideas(assessment)), says), nl=False)


# ---------------------------------------------------------------- what the call hands over


def _method(given: str | None) -> Method | None:
    """The method of that id, or in that file."""
    if given is None:
        return None
    if fold(given) in known():
        return method_called(fold(given))
    if not Path(given).exists() and not given.endswith((".yaml", ".yml")) and "/" not in given:
        near = near_words(given, list(known()))
        advice = f"did you mean {either(near)}?" if near else f"known are {either(known())}, or give a file"
        raise click.UsageError(f"no scoring method is called `{given}`\n  = help: {advice}")
    return _from_file(Path(given), read_method)


def _from_file(path: Path, read: Callable[[Source], tuple[Read | None, tuple[Finding, ...]]]) -> Read:
    """What a file holds. Raises _RefusedError after the report of what is wrong with it."""
    bundle = load(path)
    value, found = read(bundle.source) if bundle.readable else (None, bundle.findings)
    if value is None:
        raise _refused(bundle.source, found)
    return value


def _changes(said: str, assessment: Assessment) -> tuple[Change, ...]:
    source = Source.of("--what-if", said)
    changes, found = read_changes(source, assessment.guide, assessment.method)
    if found:
        raise _refused(source, found)
    return changes


def _refused(source: Source, found: Sequence[Finding]) -> _RefusedError:
    """Print what is wrong."""
    diagnostics = messages.diagnose(source, found)
    click.echo(messages.text(diagnostics, width=width()), nl=False, err=True)
    return _RefusedError()
