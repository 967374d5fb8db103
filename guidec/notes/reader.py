"""A note's source -> `Document`: its front matter and its blocks, located; and what is wrong with either."""

from __future__ import annotations

from typing import Any

from guidec.notes.blocks import BlockReader
from guidec.notes.front import read as front_matter
from guidec.notes.front_check import check as check_front
from guidec.notes.front_loose import loose_keys
from guidec.notes.front_meant import meant
from guidec.notes.markdown import parser
from guidec.notes.strays import named_after_all, stray_marks
from guidec.notes.syntax import Document
from guidec.rules.finding import Finding
from guidec.source import Source

__all__ = ["read"]

_BROKEN = ("N101", "N103", "N107", "N109")


def read(source: Source) -> tuple[Document, tuple[Finding, ...]]:
    """The located syntax of a note, and all that is wrong with it. Never raises for what a text says."""
    findings: list[Finding] = []
    front, body, wrong = front_matter(source)
    front, understood = meant(front)
    findings += [*wrong, *understood, *check_front(front)]
    text = source.text[body:].replace("\0", "\ufffd")
    env: dict[str, Any] = {"source": source, "offset": body, "findings": findings, "headed": []}
    tokens = parser().parse(text, env)
    first = source.place(body).line - 1
    blocks, inlines = BlockReader(source, tokens, first, findings).read()
    broken = tuple(sorted(finding.span for finding in findings if finding.code in _BROKEN))
    document = Document(source, front, blocks, inlines, broken)
    findings += [*stray_marks(document, env["headed"]), *loose_keys(document)]
    findings = named_after_all(document, findings)
    return document, tuple(sorted(findings, key=lambda finding: finding.span))
