"""`guidec explain [CODE]`: the page of a rule, or the list of all rules."""

from __future__ import annotations

import json
import re
import sys
from collections.abc import Mapping
from importlib import import_module
from typing import Any

import click

from guidec.commands.common import coloured, format_option
from guidec.edge.near import near_words
from guidec.messages.text import either
from guidec.rules.book import Page, codes, page

__all__ = ["TOPICS", "command"]

TOPICS: Mapping[str, tuple[str, str]] = {"sources": ("guidec.trade.sources", "explained")}
"""Other words that can be explained: word -> module and function; the function returns (Markdown, plain data)."""

_COLUMNS = 80


@click.command()
@click.argument("code", required=False)
@format_option("text", "json")
def command(code: str | None, format_: str) -> int:
    """Explain a rule by its CODE (such as N003), or list all rules."""
    text, data = _all() if code is None else _one(code)
    if format_ == "json":
        click.echo(json.dumps(data, ensure_ascii=False, indent=2))
    elif code is not None and sys.stdout.isatty():
        _pretty(text)
    else:
        click.echo(text, nl=False)
    return 0


def _one(word: str) -> tuple[str, Any]:
    if word.lower() in TOPICS:
        module, function = TOPICS[word.lower()]
        found: tuple[str, Any] = getattr(import_module(module), function)()
        return found
    rule = _page(word)
    return as_markdown(rule), _data(rule)


def _page(word: str) -> Page:
    for code in codes():
        if word.upper() == code or word.lower() == page(code).name:
            return page(code)
    known = [*codes(), *TOPICS, *(page(code).name for code in codes())]
    near = near_words(word, known) or tuple(code for code in codes() if code[:2] == word[:2].upper())[:4]
    help_ = f"did you mean {either(near)}?" if near else "`guidec explain` lists all"
    raise click.UsageError(f"there is no rule `{word}`\n  = help: {help_}")


def as_markdown(rule: Page) -> str:
    """A rule's page with a head that says what it looks like when it is met."""
    says = "".join(f"- {_shown(words)}\n" for words in rule.messages.values())
    text = rule.text
    for use, said in (("raises", "Raises it:"), ("mended", "Mended:")):
        text = re.sub(rf"^(`{{3,}})note {use}$", rf"{said}\n\n\1", text, flags=re.M)
    return f"# {rule.code} {rule.name.replace('-', ' ')}\n\n{rule.severity}:\n\n{says}\n{text}"


def _shown(words: str) -> str:
    """A message with a sign where a name or number of the note goes."""
    return re.sub(r"\$\{?(\w+)\}?", lambda found: f"‹{found[1]}›", words.replace("$$", "$"))


def _data(rule: Page) -> dict[str, Any]:
    return {
        "code": rule.code,
        "name": rule.name,
        "severity": str(rule.severity),
        "messages": list(rule.messages.values()),
        "text": rule.text,
    }


def _all() -> tuple[str, Any]:
    rules = [page(code) for code in codes()]
    lines = [f"{rule.code}  {rule.severity:<7}  {_shown(next(iter(rule.messages.values())))}\n" for rule in rules]
    lines += [f"{topic}\n" for topic in TOPICS]
    keys = ("code", "name", "severity")
    return "".join(lines), {"rules": [{key: _data(rule)[key] for key in keys} for rule in rules]}


def _pretty(text: str) -> None:
    from rich.console import Console  # here, not above: only a terminal needs it
    from rich.markdown import Markdown

    columns = min(_COLUMNS, Console().width)
    Console(width=columns, no_color=not coloured(), highlight=False).print(Markdown(text, code_theme="ansi_dark"))
