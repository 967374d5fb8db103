"""Diagnostics -> text for people, with an excerpt of the note and carets; in colour if asked for."""

from __future__ import annotations

from collections import Counter
from collections.abc import Iterable, Iterator, Sequence

from guidec.messages.cells import one_line
from guidec.messages.diagnostic import Diagnostic
from guidec.messages.excerpt import Paint, excerpt, gutter
from guidec.rules.finding import Severity

__all__ = ["counts", "either", "text"]

_SEVERITY = {Severity.ERROR: "1;31", Severity.WARNING: "1;33", Severity.INFO: "1;36"}
_STYLE = {"gutter": "2", "other": "36", "strong": "1", "code": "1"}


def text(diagnostics: Sequence[Diagnostic], *, colour: bool = False, width: int = 120) -> str:
    """The diagnostics as text, one blank line after each. `width`: columns that an excerpt's text may take."""
    return "".join(f"{line}\n" for one in diagnostics for line in (*_lines(one, colour, width), ""))


def counts(diagnostics: Iterable[Diagnostic]) -> str:
    """`2 errors, 1 warning`; `clean` where there are neither errors nor warnings nor infos."""
    number = Counter(one.severity for one in diagnostics)
    said = [_plural(number[severity], severity) for severity in Severity if number[severity]]
    return ", ".join(said) or "clean"


def _plural(number: int, severity: Severity) -> str:
    return f"{number} {severity}" + ("s" if number != 1 else "")


def _lines(one: Diagnostic, colour: bool, width: int) -> Iterator[str]:
    paint = _paint(one.severity) if colour else _plain
    yield paint("main", f"{one.severity}[{one.code}]") + paint("strong", f": {one.message}")
    indent = " " * gutter([one.here, *one.labels])
    name = one_line(one.source.name)
    place = f":{one.here.start.line}:{one.here.start.column}" if one.source.text else ""
    yield f"{paint('gutter', f'{indent}-->')} {name}{place}"
    if one.source.text:
        yield from excerpt(one.source, one.here, one.labels, paint, width)
    for word, said in _advice(one):
        yield f"{paint('gutter', f'{indent} =')} {paint('strong', f'{word}:')} {said}"


def _advice(one: Diagnostic) -> Iterator[tuple[str, str]]:
    if one.suggestions:
        yield "help", f"did you mean {either(one.suggestions)}?"
    if one.help:
        yield "help", one.help


def either(words: Sequence[str]) -> str:
    """`a`, `b` or `c`, each in back-ticks."""
    quoted = [f"`{word}`" for word in words]
    return " or ".join([", ".join(quoted[:-1]), quoted[-1]] if len(quoted) > 1 else quoted)


def _plain(style: str, words: str) -> str:
    return words


def _paint(severity: Severity) -> Paint:
    styles = {**_STYLE, "main": _SEVERITY[severity]}
    return lambda style, words: f"\x1b[{styles[style]}m{words}\x1b[0m"
