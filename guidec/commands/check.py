"""`guidec check NOTE…`: all that is wrong with some notes, on standard output."""

from __future__ import annotations

from pathlib import Path

import click

from guidec import compile as compiler
from guidec import messages
from guidec.commands.common import exit_status, format_option, notes_argument, opened, print_text

__all__ = ["command"]


@click.command()
@notes_argument
@format_option("text", "json", "sarif")
def command(notes: tuple[Path, ...], format_: str) -> int:
    """Say what is wrong with notes, with the place and a way out.

    NOTE is a Markdown file; `-` reads one from standard input. Nothing is written.
    """
    reports = []
    wrong_call = False
    for path in notes:
        bundle = opened(path)
        wrong_call = wrong_call or not bundle.found
        reports.append((str(path), messages.diagnose(bundle.source, compiler.check(bundle).findings)))
    everything = [one for _, diagnostics in reports for one in diagnostics]
    if format_ == "text":
        print_text(reports)
    else:
        click.echo((messages.as_json if format_ == "json" else messages.sarif)(everything), nl=False)
    return exit_status(everything, wrong_call=wrong_call)
