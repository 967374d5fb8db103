"""YAML that cannot be read -> a finding in our words, at the place that is to be mended."""

from __future__ import annotations

import re

from guidec.notes.yaml_tree import BrokenError
from guidec.rules.finding import Finding
from guidec.source import Span

__all__ = ["finding"]

_VARIANTS = (
    (re.compile(r"mapping values are not allowed"), "second-colon"),
    (re.compile(r"cannot start any token|found unexpected ':'"), "start"),
    (re.compile(r"unexpected end of stream|end of stream while scanning a quoted|document indicator"), "quote"),
    (re.compile(r"did not find expected ',' or|expected ',' or '[\]}]'|found unexpected end of flow"), "bracket"),
    (re.compile(r"could not find expected ':'|simple key"), "colon-missing"),
    (re.compile(r"alphabetic or numeric character|undefined alias"), "start"),
    (re.compile(r"unknown escape|expected hexdecimal|hexadecimal|hexdigit"), "escape"),
    (re.compile(r"control character"), "control"),
    (re.compile(r"second document"), "second-document"),
    (re.compile(r"did not find expected key|block end|block mapping|block sequence|block entry"), "indent"),
)


def finding(broken: BrokenError, text: str, offset: int) -> Finding:
    """The finding for YAML `text`, which starts at `offset` of its source, that breaks where `broken` says."""
    at = min(broken.offset, len(text))
    while at > 0 and (at == len(text) or text[at] == "\n") and text[at - 1].isspace():
        at -= 1
    variant = next((name for shape, name in _VARIANTS if shape.search(broken.problem)), "")
    tab = re.compile(r"(?:^|(?<=[:\-,\[{]))[ ]*(\t)", re.M).search(text)
    line_start = text.rfind("\n", 0, at) + 1
    if tab and variant in ("start", "indent", "") and text[line_start : at + 1].strip(" ").startswith("\t"):
        variant = "tab"
    if text[line_start : at + 1].strip(" ").startswith("|"):
        variant, at = "table", text.index("|", line_start)
    line = text[line_start:].partition("\n")[0].strip()
    typed = text[at : at + 1].strip()
    end = min(at + 1, len(text))
    return Finding.at(
        "N011", Span(offset + at, offset + max(end, at)), variant=variant, typed=typed or line[:40], line=line[:60]
    )
