"""A picture as Markdown read it -> its `Picture`, and what is wrong with its path."""

from __future__ import annotations

import posixpath
import re
from collections.abc import Sequence
from urllib.parse import unquote

from markdown_it.helpers import parseLinkDestination
from markdown_it.token import Token

from guidec.notes.chart import Chart
from guidec.notes.shown import short
from guidec.notes.syntax import Picture
from guidec.notes.trace import Event
from guidec.rules.finding import Finding
from guidec.source import Span

__all__ = ["picture"]

_SIMPLE = re.compile(r"\(([A-Za-z0-9_./-]+)\)\Z")
_SCHEME = re.compile(r"[A-Za-z][A-Za-z0-9+.-]+:")
_DRIVE = re.compile(r"[A-Za-z]:")


def picture(event: Event, content: str, chart: Chart) -> tuple[Picture, tuple[Finding, ...]]:
    """The picture of an event. A path that may not be read is left out of it, and of its token."""
    _, start, end, token = event
    typed = content[start:end]
    label_end = 2 + len(token.content)
    span = chart.span(start, end)
    path, place = _path(token, typed, label_end)
    path_span = chart.span(start + place[0], start + place[1])
    alt = " ".join(_alt(token.children).split())
    alt_span = chart.span(start + 2, start + label_end)
    findings = []
    if not alt:
        findings.append(Finding.at("N212", span))
    wrong = _wrong(path)
    if wrong or _outside(path):
        rule = Finding.at("N211", path_span if path else span, variant=wrong, path=short(path))
        findings.append(rule if wrong else Finding.at("N006", path_span, path=short(path)))
        path = ""
        token.attrs["src"] = ""
    title = str(token.attrs.get("title") or "")
    return Picture(span, alt, alt_span, path, path_span, title), tuple(findings)


def _path(token: Token, typed: str, label_end: int) -> tuple[str, Span]:
    """The path, percent-decoded, and where it stands in the picture's text (all of it for a reference)."""
    simple = _SIMPLE.match(typed, label_end + 1)
    if simple:
        return simple[1], Span(*simple.span(1))
    if typed[label_end + 1 : label_end + 2] == "(":
        start = label_end + 2
        while typed[start : start + 1].isspace():
            start += 1
        found = parseLinkDestination(typed, start, len(typed))
        if found.ok:
            angle = typed[start : start + 1] == "<"
            return unquote(found.str), Span(start + angle, found.pos - angle)
        return "", Span(start, start)
    return unquote(str(token.attrs.get("src") or "")), Span(0, len(typed))


def _alt(tokens: Sequence[Token] | None) -> str:
    """The alt text, marks as their names."""
    out = []
    for token in tokens or ():
        if token.children:
            out.append(_alt(token.children))
        elif token.type in ("softbreak", "hardbreak"):
            out.append(" ")
        elif token.type != "image":
            out.append(token.content)
    return "".join(out)


def _outside(path: str) -> bool:
    """Whether a path leads out of the note's folder by its wording."""
    if path.startswith(("/", "~")) or _DRIVE.match(path):
        return True
    if ".." not in path:
        return False
    parts = posixpath.normpath(path).split("/")
    return parts[0] == ".."


def _wrong(path: str) -> str:
    """Why a path may not be read, as a variant of the rule; empty where it may."""
    if not path.strip():
        return "empty"
    if path.startswith(("//", "\\\\")) or (_SCHEME.match(path) and not _DRIVE.fullmatch(path[:2])):
        return "url"
    if "\\" in path:
        return "backslash"
    return "control" if any(ord(each) < 32 for each in path) else ""
