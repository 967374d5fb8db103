"""What commands share: the `--format` option, the notes they are given, and how a report is printed."""

from __future__ import annotations

import os
import sys
from collections.abc import Callable, Iterable, Sequence
from pathlib import Path
from typing import Any, TypeVar

import click

from guidec import messages
from guidec.edge.load import Bundle, load, of_bytes
from guidec.messages import Diagnostic
from guidec.rules.finding import Severity

__all__ = ["coloured", "exit_status", "format_option", "notes_argument", "opened", "print_text", "width"]

Command = TypeVar("Command", bound=Callable[..., Any])


def format_option(*formats: str) -> Callable[[Command], Command]:
    """`--format` with the given choices, the first the default; passed on as `format_`."""
    return click.option(
        "--format",
        "format_",
        type=click.Choice(formats),
        default=formats[0],
        show_default=True,
        help="What to print: text for people, the rest for programs.",
    )


def notes_argument(command: Command) -> Command:
    """One or more notes, passed on as `notes`; `-` is standard input."""
    path = click.Path(path_type=Path, allow_dash=True)
    return click.argument("notes", nargs=-1, required=True, type=path, metavar="NOTE...")(command)


def opened(path: Path) -> Bundle:
    """The note of an argument. `-` is standard input, with its pictures in the current folder."""
    if str(path) == "-":
        return of_bytes("<stdin>", sys.stdin.buffer.read(), Path())
    return load(path)


def coloured() -> bool:
    """Whether standard output is a terminal that shows colour, and nobody asked for none (NO_COLOR)."""
    return sys.stdout.isatty() and not os.environ.get("NO_COLOR") and os.environ.get("TERM") != "dumb"


def width() -> int:
    """The columns for an excerpt's text: what a terminal has, less the line numbers; 120 elsewhere."""
    if not sys.stdout.isatty():
        return 120
    try:
        columns = os.get_terminal_size(sys.stdout.fileno()).columns
    except OSError:
        return 120
    return max(columns - 8, 40)


def print_text(reports: Sequence[tuple[str, Sequence[Diagnostic]]]) -> None:
    """The reports of several notes, each named by its note, and a closing line that counts."""
    for _, diagnostics in reports:
        click.echo(messages.text(diagnostics, colour=coloured(), width=width()), nl=False, color=coloured())
    total = messages.counts([one for _, diagnostics in reports for one in diagnostics])
    click.echo(f"{len(reports)} notes: {total}" if len(reports) > 1 else total)


def exit_status(diagnostics: Iterable[Diagnostic], *, wrong_call: bool = False) -> int:
    """2 for a call that could not be carried out, 1 where there are errors, else 0."""
    if wrong_call:
        return 2
    return 1 if any(one.severity is Severity.ERROR for one in diagnostics) else 0
