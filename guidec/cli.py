"""Arguments -> a command carried out, and an exit status: 0 went well, 1 errors in a note, 2 not carried out.

Each command is a module of `guidec.commands` with a click command named `command`; it is imported only when it is
called or listed.
"""

from __future__ import annotations

import json
import sys
from collections.abc import Sequence
from importlib import import_module
from importlib.util import find_spec
from itertools import pairwise

import click

from guidec import __version__
from guidec.collector import paused
from guidec.edge.near import near_words
from guidec.messages.text import either

__all__ = ["COMMANDS", "main"]

COMMANDS = ("check", "compile", "route", "score", "draft", "shelf", "preview", "explain")
"""In the order they are listed."""


class _Commands(click.Group):
    """The commands that are there, found by their module's name."""

    def list_commands(self, ctx: click.Context) -> list[str]:
        return [name for name in COMMANDS if find_spec(f"guidec.commands.{name}")]

    def get_command(self, ctx: click.Context, cmd_name: str) -> click.Command | None:
        if cmd_name not in self.list_commands(ctx):
            return None
        with paused():
            found: click.Command = import_module(f"guidec.commands.{cmd_name}").command
        return found

    def resolve_command(
        self, ctx: click.Context, args: list[str]
    ) -> tuple[str | None, click.Command | None, list[str]]:
        if args and not args[0].startswith("-") and self.get_command(ctx, args[0]) is None:
            raise _unknown_command(args[0], self.list_commands(ctx))
        return super().resolve_command(ctx, args)


def _unknown_command(name: str, known: list[str]) -> click.UsageError:
    near = near_words(name, known)
    advice = f"did you mean {either(near)}?" if near else "see `guidec --help`"
    if name.endswith(".md"):
        advice = f"to check a note, write `guidec check {name}`"
    return click.UsageError(f"no such command `{name}`\n  = help: {advice}")


@click.group(
    cls=_Commands,
    context_settings={"help_option_names": ["-h", "--help"], "max_content_width": 100},
    epilog="The exit status tells how it went: 0 well, 1 with errors in a note, 2 not at all.",
)
@click.version_option(__version__, "-V", "--version", message="guidec %(version)s")
def _guidec() -> None:
    """Compile a technician's Markdown notes of a teardown into a checked guide."""


def main(arguments: Sequence[str] | None = None) -> int:
    """Carry out a call and return its exit status."""
    try:
        result = _guidec.main(arguments, prog_name="guidec", standalone_mode=False)
    except click.exceptions.NoArgsIsHelpError as error:
        click.echo(error.format_message(), err=True)
        return 2
    except click.ClickException as error:
        _complain(error, as_json=_wants_json(sys.argv[1:] if arguments is None else arguments))
        return 2
    except click.Abort:
        click.echo("error: stopped", err=True)
        return 2
    except BrokenPipeError:  # whoever read our output has seen enough
        sys.stderr.close()
        return 0
    return result if isinstance(result, int) else 0


def _wants_json(arguments: Sequence[str]) -> bool:
    """Whether a call asks for JSON, even one that could not be read."""
    return "--format=json" in arguments or ("--format", "json") in pairwise(arguments)


def _complain(error: click.ClickException, *, as_json: bool) -> None:
    """The trouble in the form of a message: lower case, no full stop, then what to do.

    Who asked for JSON gets `{"error": …, "help": …}` on standard output.
    """
    words = error.format_message()
    if isinstance(error, click.NoSuchOption):
        near = sorted(error.possibilities or ())
        words = f"no such option `{error.option_name}`"
        words += f"\n  = help: did you mean {either(near)}?" if near else ""
    elif isinstance(error, click.MissingParameter):
        words = f"missing {_called(error)}"
    words = words[:1].lower() + words[1:].removesuffix(".")
    context = getattr(error, "ctx", None)
    usage = context.get_usage().removeprefix("Usage: ").strip() if context else ""
    words, _, advice = words.partition("\n  = help: ")
    advice = advice or usage
    if as_json:
        click.echo(json.dumps({"error": words, "help": advice or None}, ensure_ascii=False, indent=2))
        return
    click.echo(f"error: {words}", err=True)
    if advice:
        click.echo(f"  = help: {advice}", err=True)


def _called(error: click.MissingParameter) -> str:
    parameter = error.param
    if isinstance(parameter, click.Argument):
        return f"`{parameter.make_metavar(error.ctx) if error.ctx else parameter.name}`"
    return f"option `{parameter.opts[-1]}`" if parameter else "something"
