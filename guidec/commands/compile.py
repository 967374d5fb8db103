"""`guidec compile NOTE… -o OUT`: notes checked and made into guides, each a folder in OUT."""

from __future__ import annotations

import json
import sys
from collections.abc import Sequence
from dataclasses import replace
from pathlib import Path
from typing import Any

import click

from guidec import compile as compiler
from guidec import messages
from guidec.commands.common import exit_status, format_option, notes_argument, opened, print_text
from guidec.commands.parts import no_route, part_of
from guidec.edge.write import RefusedError
from guidec.messages import Diagnostic
from guidec.messages.data import as_data
from guidec.plan import Graph
from guidec.plan.reach import reaches
from guidec.quick import dataclass
from guidec.rules.finding import Finding, Severity
from guidec.source import Source, Span
from guidec.trade.label_sheets import grids

__all__ = ["command"]


@dataclass(frozen=True, slots=True)
class _Done:
    """One note of the call: what was found, and the folder it went to, if it went anywhere."""

    note: str
    diagnostics: Sequence[Diagnostic]
    folder: Path | None
    files: tuple[str, ...]
    wrong_call: bool


@click.command(name="compile")
@notes_argument
@click.option(
    "-o", "--out", type=click.Path(path_type=Path), required=True, help="The folder for the guides' folders."
)
@click.option("--strict", is_flag=True, help="Write nothing for a note that has errors.")
@click.option(
    "--for",
    "parts",
    metavar="PART",
    multiple=True,
    help="Make the PDF and the data of the way to this part too; may be given again.",
)
@click.option("--no-pdf", is_flag=True, help="Leave out the PDF, which takes the longest.")
@click.option(
    "--paper", type=click.Choice(("a4", "letter")), default="a4", show_default=True, help="What is printed on."
)
@click.option(
    "--labels", metavar="SHEET", default="", help="The label sheet, such as a4-3x8; `docs/commands.md` lists them."
)
@click.option(
    "--address", metavar="URL", default="", help="Where the guide can be read: the labels' codes lead there."
)
@click.option(
    "--cache",
    type=click.Path(path_type=Path, file_okay=False),
    help="Where worked-up pictures are kept from build to build.",
)
@format_option("text", "json")
def command(
    notes: tuple[Path, ...],
    out: Path,
    strict: bool,
    parts: tuple[str, ...],
    no_pdf: bool,
    format_: str,
    **printing: Any,
) -> int:
    """Check notes, and make each into a guide: pages, PDF and data.

    A guide goes to OUT/SLUG, where SLUG is made of the note's title. A note with errors is compiled as far as it
    can be, with "not clean" on every page, unless --strict.
    """
    done: list[_Done] = []
    sheet = _label_sheet(printing.pop("labels"))
    for path in notes:
        options = compiler.Options(
            strict=strict, pdf=not no_pdf, said=_progress(path), label_sheet=sheet, **printing
        )
        done.append(_one(path, out, options, parts, done))
    _clear()
    everything = [one for note in done for one in note.diagnostics]
    _print_json(done) if format_ == "json" else _print(done)
    return exit_status(everything, wrong_call=any(note.wrong_call for note in done))


def _label_sheet(name: str) -> str:
    """The name, if there is such a sheet. Raises click.BadParameter."""
    if name and name not in grids():
        raise click.BadParameter(f"there is no label sheet {name}; there are {', '.join(grids())}")
    return name


def _one(path: Path, out: Path, options: compiler.Options, parts: Sequence[str], before: Sequence[_Done]) -> _Done:
    bundle = opened(path)
    checked = compiler.check(bundle)
    if parts and checked.model is not None:
        options = replace(options, alone=_reached(checked.model.graph, parts))
    built = compiler.build(bundle, options, checked)
    diagnostics = messages.diagnose(bundle.source, built.findings)
    if not built.files:
        return _Done(str(path), diagnostics, None, (), not bundle.found)
    options.said("write")
    try:
        _not_twice(path, out / built.slug, before)
        folder = compiler.write(built, out)
    except RefusedError as refused:
        trouble = Finding.at("N008", Span(0, 0), variant=refused.variant, **refused.facts)
        diagnostics = (*messages.diagnose(Source(str(out), ""), [trouble]), *diagnostics)
        return _Done(str(path), diagnostics, None, (), True)
    return _Done(str(path), diagnostics, folder, tuple(sorted(built.files)), False)


def _reached(graph: Graph, parts: Sequence[str]) -> tuple[str, ...]:
    """The ids of parts as typed. Raises UsageError for one that is unknown, or that no route leads to."""
    found = tuple(part_of(graph, part) for part in parts)
    known = reaches(graph)
    for own in found:
        if own not in known:
            raise no_route(graph.names[own])
    return found


def _not_twice(path: Path, folder: Path, before: Sequence[_Done]) -> None:
    for note in before:
        if note.folder == folder:
            raise RefusedError("twice", path=str(folder), first=note.note, second=str(path))


def _print(done: Sequence[_Done]) -> None:
    print_text([(note.note, note.diagnostics) for note in done])
    for note in done:
        if note.folder:
            broken = any(one.severity is Severity.ERROR for one in note.diagnostics)
            click.echo(f"{note.folder}: {len(note.files)} files" + (", marked not clean" if broken else ""))
        else:
            click.echo(f"{note.note}: nothing written")


def _print_json(done: Sequence[_Done]) -> None:
    guides = [
        {"note": note.note, "folder": str(note.folder) if note.folder else None, "files": list(note.files)}
        for note in done
    ]
    diagnostics = [as_data(one) for note in done for one in note.diagnostics]
    click.echo(json.dumps({"guides": guides, "diagnostics": diagnostics}, ensure_ascii=False, indent=2))


def _progress(path: Path) -> compiler.Said:
    """Tells a person at a terminal what is being done; programs are told nothing."""
    if not sys.stderr.isatty():
        return lambda phase: None
    return lambda phase: click.echo(f"\r\x1b[K{path.name}: {phase} …", nl=False, err=True)


def _clear() -> None:
    if sys.stderr.isatty():
        click.echo("\r\x1b[K", nl=False, err=True)
