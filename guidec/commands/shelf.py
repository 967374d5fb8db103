"""`guidec shelf DIR -o OUT`: a folder of notes made into a site, rebuilt as far as something changed."""

from __future__ import annotations

import json
import os
import sys
from collections.abc import Sequence
from pathlib import Path
from typing import Any

import click

from guidec.commands.common import coloured, format_option
from guidec.edge.write import RefusedError
from guidec.messages import diagnose
from guidec.messages.text import text
from guidec.rules.finding import Finding
from guidec.source import Source, Span

__all__ = ["command"]

_SEVERITY = {"error": "1;31", "warning": "1;33", "info": "1;36"}


@click.command(name="shelf")
@click.argument("folder", metavar="DIR", type=click.Path())
@click.option("-o", "--out", required=True, type=click.Path(), help="The folder of the site.")
@click.option("--jobs", type=click.IntRange(1), default=None, metavar="N", help="How many notes at a time.")
@click.option("--on", "address", metavar="ADDRESS", help="Make the guides on the workers of a Dask scheduler.")
@click.option("--leave-drafts", is_flag=True, help="Leave unconfirmed drafts out; without it they are errors.")
@click.option("--no-pdf", is_flag=True, help="Leave out the PDFs, which take the longest.")
@format_option("text", "json")
def command(
    folder: str, out: str, jobs: int | None, address: str | None, leave_drafts: bool, no_pdf: bool, format_: str
) -> int:
    """Make a folder of notes into a static site, and data for other programs.

    Only what changed since the last time is made anew. A note with errors stops no other: its older page is kept,
    unless `errors` in the folder's shelf.yaml says otherwise.
    """
    from guidec.shelf.build import Options, build  # here, not above: --help does without
    from guidec.shelf.run import OtherProgramError

    source, place = _places(folder, out, address)
    options = Options(_workers(jobs, address), leave_drafts, not no_pdf, _progress(), _waiting(out))
    try:
        report = build(source, place, options)
    except RefusedError as refused:
        return _refused(out, refused, format_)
    except (OtherProgramError, ImportError) as error:
        raise click.UsageError(f"cannot build on `{address}`: {error}") from error
    finally:
        _clear()
    _print_json(report, out) if format_ == "json" else _print(report, out)
    return 1 if report.errors else 0


def _places(folder: str, out: str, address: str | None) -> tuple[Any, Any]:
    """Where the notes lie and where the site does, each here or at an fsspec address. Loads the file systems."""
    # loaded here, so that the command's help needs none of it
    from guidec.shelf.far import Far
    from guidec.shelf.inputs import is_address, opened
    from guidec.shelf.store import Store

    for path in (folder, out):
        if is_address(path) and not address:
            raise click.UsageError(f"`{path}` is an address, which `--on` alone can work with")
    if not is_address(folder) and not Path(folder).is_dir():
        raise click.UsageError(f"no folder `{folder}`")
    try:
        return opened(folder), Far(out) if is_address(out) else Store(Path(out))
    except (ImportError, ValueError) as error:
        raise click.UsageError(f"`{folder}` or `{out}`: {error}") from error


def _workers(jobs: int | None, address: str | None) -> Any:
    """What opens the executor. Loads it."""
    from guidec.shelf.run import local, remote  # loads the executors

    return lambda units: remote(address) if address else local(jobs or os.cpu_count() or 1, units)


def _refused(out: str, refused: RefusedError, format_: str) -> int:
    trouble = Finding.at("N008", Span(0, 0), variant=refused.variant, **refused.facts)
    diagnostics = diagnose(Source(out, ""), [trouble])
    click.echo(text(diagnostics, colour=coloured()), nl=False, err=format_ == "json")
    click.echo(f"{out}: nothing written", err=format_ == "json")
    return 2


# ---------------------------------------------------------------- what is said


def _print(report: Any, out: str) -> None:
    """The errors by note, then what was left out, then what was done."""
    colour = coloured()
    for note, rows in sorted(report.diagnostics.items()):
        for row in rows:
            if row["severity"] != "info" and (row["severity"] == "error" or len(report.diagnostics) == 1):
                click.echo(_line(note, row, colour), color=colour)
    others = sum(row["severity"] == "warning" for rows in report.diagnostics.values() for row in rows)
    if report.stopped:
        click.echo(f"{out}: nothing written")
        return
    _say(report.old, "an older page stays for")
    _say(report.drafts, "left out as a draft:")
    if report.undated and report.settings.address:
        click.echo(f"not in the feed, for want of a `date`: {_guides(report.undated)}")
    if report.errors or others:
        known = ", ".join(_many(*one) for one in ((report.errors, "error"), (others, "warning")) if one[0])
        click.echo(f"{known} in the notes" + (" (`guidec check NOTE` shows them all)" if others else ""))
    click.echo(f"{out}: {_done(report)}")


def _line(note: str, row: dict[str, Any], colour: bool) -> str:
    head = f"{row['severity']}[{row['code']}]"
    head = f"\x1b[{_SEVERITY[row['severity']]}m{head}\x1b[0m" if colour else head
    place = f":{row['line']}:{row['column']}" if row["line"] > 1 or row["column"] > 1 else ""
    help_ = f"\n  = help: {row['help']}" if row["help"] else ""
    return f"{note}{place}: {head}: {row['message']}{help_}"


def _say(names: Sequence[str], words: str) -> None:
    for name in sorted(names):
        click.echo(f"{words} {name}")


def _done(report: Any) -> str:
    left = len(report.out) + len(report.drafts)
    left_out = [f"{_many(left, 'note')} left out"] if left else []
    if not (report.made or report.gone or report.wrote):
        return ", ".join((_guides(report.guides), *left_out, "nothing to do"))
    done = [f"{len(report.made)} made", f"{report.stayed} unchanged"]
    done += [f"{len(report.gone)} gone"] if report.gone else []
    done += left_out
    return f"{_guides(report.guides)} ({', '.join(done)}), {report.wrote} shared files written"


def _guides(count: int) -> str:
    return _many(count, "guide")


def _many(count: int, word: str) -> str:
    return f"{count} {word}" if count == 1 else f"{count} {word}s"


def _print_json(report: Any, out: str) -> None:
    data = {
        "site": None if report.stopped else out,
        "guides": report.guides,
        "made": sorted(report.made),
        "unchanged": report.stayed,
        "gone": report.gone,
        "kept_old": sorted(report.old),
        "drafts_left": sorted(report.drafts),
        "left_out": sorted(report.out),
        "undated": report.undated,
        "shared_written": report.wrote,
        "diagnostics": [row for _, rows in sorted(report.diagnostics.items()) for row in rows],
    }
    click.echo(json.dumps(data, ensure_ascii=False, indent=2))


def _progress() -> Any:
    """A bar for a person at a terminal; programs are told nothing."""
    if not sys.stderr.isatty():
        return lambda done, all_, note: None

    def said(done: int, all_: int, note: str) -> None:
        filled = round(24 * done / all_)
        bar = "#" * filled + "." * (24 - filled)
        click.echo(f"\r\x1b[K[{bar}] {done}/{all_} {note[-40:]}", nl=False, err=True)

    return said


def _waiting(out: str) -> Any:
    return lambda: click.echo(f"{out}: another build is at work here, waiting for it to end", err=True)


def _clear() -> None:
    if sys.stderr.isatty():
        click.echo("\r\x1b[K", nl=False, err=True)
