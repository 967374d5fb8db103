"""The head of a note -> its front matter as `Located`, and the offset at which the note's text begins."""

from __future__ import annotations

import re
from collections.abc import Mapping

from guidec.notes import yaml_faults
from guidec.notes.front_check import SCHEMA
from guidec.notes.syntax import Entry, Located
from guidec.notes.yaml_tree import BrokenError, located
from guidec.rules.finding import Finding
from guidec.schemas import schema
from guidec.source import Source, Span

__all__ = ["read"]

_OPEN = re.compile(r"(?:[ \t]*\n)*---[ \t]*\n")
_CLOSE = re.compile(r"^(?:---|\.\.\.)[ \t]*$", re.M)
_KEY = re.compile(r"[ \t]*[\"']?(?P<key>[A-Za-z][\w -]*?)[\"']?[ \t]*:(?:[ \t]|$)", re.M)
_FIRST = re.compile(r"(?:#[^\n]*\n)*([^\n]*)")
_ENDS = re.compile(r"^[ \t]*$|^#{1,6} ", re.M)
_TOP = re.compile(r"^[^\s#\]})|-][^\n]*", re.M)
_LONGEST = 500_000


def read(source: Source) -> tuple[Located, int, tuple[Finding, ...]]:
    """The front matter (an empty mapping where there is none), where the text after it begins, findings."""
    text = source.text
    nothing = Located({}, Span(0, 0))
    opened = _OPEN.match(text)
    if not opened:
        return nothing, 0, ()
    start = opened.end()
    fence = text.rfind("---", 0, start)
    closed = _CLOSE.search(text, start)
    if not _is_front_matter(text, start, closed.start() if closed else None):
        return nothing, 0, ()
    if closed and not _swallows(text, start, closed.start()):
        end, body, findings = closed.start(), min(closed.end() + 1, len(text)), []
    else:
        end = body = _unclosed(text, start)
        findings = [Finding.at("N010", Span(fence, fence + 3))]
    if end - start > _LONGEST:
        findings.append(Finding.at("N015", Span(fence, fence + 3), variant="long"))
        return nothing, body, tuple(findings)
    value, wrong = _value(text[start:end], start)
    return value, body, (*findings, *wrong)


def _is_front_matter(text: str, start: int, end: int | None) -> bool:
    """Whether keys follow the first `---`, and not the text of a note that begins with a rule across the page."""
    if start == end:
        return True
    found = _FIRST.match(text, start)
    line = found[1] if found else ""
    key = _KEY.match(line)
    if end is None:
        return key is not None and key["key"] in schema(SCHEMA)["properties"]
    comments_only = not line.strip() and text[start:end].startswith("#")
    flow = line[:1] in ("{", "[") and text[start:end].rstrip()[-1:] in ("}", "]")
    return key is not None or flow or (comments_only and not text[start:end].partition("\n\n")[2].strip())


def _swallows(text: str, start: int, end: int) -> bool:
    """Whether the closing line is a rule further down in the note, and the front matter's own is missing.

    So it is where the whole cannot be read, and what stands before the first empty line or heading can.
    """
    stop = _unclosed(text, start)
    if stop >= end:
        return False
    try:
        located(text[start:end], start)
    except BrokenError:
        return bool(text[start:stop].strip()) and _reads(text[start:stop], start)
    return False


def _reads(text: str, offset: int) -> bool:
    try:
        value, _ = located(text, offset)
    except BrokenError:
        return False
    return isinstance(value.value, Mapping)


def _unclosed(text: str, start: int) -> int:
    """Where front matter without an end ends: before the first empty line or heading."""
    found = _ENDS.search(text, start)
    return found.start() if found else len(text)


def _value(text: str, offset: int) -> tuple[Located, list[Finding]]:
    """The mapping; where the YAML is broken, what can be read of it key by key."""
    try:
        value, wrong = located(text, offset)
    except BrokenError as broken:
        return _by_key(text, offset, broken)
    findings = list(wrong)
    if value.value is None:
        return Located({}, value.span), findings
    if not isinstance(value.value, Mapping):
        findings.append(Finding.at("N013", value.span))
        return Located({}, value.span), findings
    return value, findings


def _by_key(text: str, offset: int, whole: BrokenError) -> tuple[Located, list[Finding]]:
    """Front matter that cannot be read as a whole: each top key by itself."""
    starts = [found.start() for found in _TOP.finditer(text)]
    if len(starts) < 2:
        return Located({}, Span(offset, offset)), [yaml_faults.finding(whole, text, offset)]
    findings: list[Finding] = []
    entries: dict[str, Entry] = {}
    for start, end in zip(starts, [*starts[1:], len(text)], strict=True):
        piece = text[start:end]
        try:
            value, wrong = located(piece, offset + start)
        except BrokenError as broken:
            findings.append(yaml_faults.finding(broken, piece, offset + start))
            continue
        findings += wrong
        if not isinstance(value.value, Mapping):
            findings.append(Finding.at("N011", value.span, variant="colon-missing", typed=piece.strip()[:40]))
            continue
        for key, entry in value.value.items():
            if entries.setdefault(key, entry) is not entry:
                place = {"first": entries[key].key_span}
                findings.append(Finding.at("N012", entry.key_span, labels=place, key=key))
    if not findings:
        findings.append(yaml_faults.finding(whole, text, offset))
    return Located(entries, Span(offset, offset + len(text.rstrip()))), findings
