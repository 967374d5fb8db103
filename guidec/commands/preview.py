"""`guidec preview NOTE|DIR`: the guide in a browser while its note is written."""

from __future__ import annotations

import time
from pathlib import Path
from typing import Any

import click

from guidec import messages
from guidec.commands.common import coloured, width

__all__ = ["command"]

_MOST = 60


@click.command(name="preview")
@click.argument("target", metavar="NOTE|DIR", type=click.Path(path_type=Path))
@click.option(
    "--port", type=click.IntRange(0, 65535), default=8765, show_default=True, help="0: any that is free."
)
@click.option("--open", "open_", is_flag=True, help="Open it in the browser.")
def command(target: Path, port: int, open_: bool) -> int:
    """Show the guide of a note (or of each note in a folder) in a browser, anew on every save.

    Only this machine can see it. What is wrong with the note stands on the page and here. Control-C ends it.
    """
    from guidec.preview.run import preview  # here, not above: --help does without the watcher

    if not target.exists():
        raise click.UsageError(f"no note or folder `{target}`")
    try:
        with preview(target, port, Reports().said) as server:
            click.echo(f"{server.address} shows {target}; Control-C ends it", err=True)
            if open_:
                click.launch(server.address)
            _until_stopped()
    except OSError as error:
        reason = (error.strerror or str(error)).lower()
        raise click.UsageError(f"cannot serve on port {port}: {reason}\n  = help: try `--port 0`") from error
    return 0


def _until_stopped() -> None:
    try:
        while True:
            time.sleep(3600)
    except KeyboardInterrupt:
        click.echo("", err=True)


class Reports:
    """What came of notes, as `check` says it; of each note only what is another report than its last."""

    def __init__(self) -> None:
        self._last: dict[str, str] = {}

    def said(self, name: str, made: Any) -> None:
        """Print the report of a note that was made, where it differs from the last one printed."""
        report = _report(made)
        if self._last.get(name) == report:
            return
        self._last[name] = report
        click.echo(report, nl=False, color=coloured())
        ending = "" if made.fault else f": {messages.counts(made.diagnostics)} ({made.seconds:.2f} s)"
        click.echo(f"{name}{ending}")


def _report(made: Any) -> str:
    if made.fault:
        return f"a fault of the program\n{made.fault}\n"
    shown = made.diagnostics[:_MOST]
    more = len(made.diagnostics) - len(shown)
    return messages.text(shown, colour=coloured(), width=width()) + (f"and {more} more\n\n" if more else "")
