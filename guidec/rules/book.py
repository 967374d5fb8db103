"""The rule pages -> words for findings, and the text that `guidec explain` prints.

A page is one Markdown file `pages/CODE-name.md`. Its front matter holds the words, written with `$fact`
placeholders; its body explains the rule to the person who met it, with one example that raises just this code
(a fenced block ```` ```note raises ````) and the same one mended (```` ```note mended ````).
"""

from __future__ import annotations

import re
from collections.abc import Mapping
from dataclasses import dataclass
from functools import cache
from pathlib import Path
from string import Template

import yaml

from guidec.rules.finding import Finding, Severity

__all__ = ["Page", "Wording", "codes", "page", "wording"]

PAGES = Path(__file__).parent / "pages"
_EXAMPLE = re.compile(r"^(?P<fence>`{3,})note (?P<use>raises|mended)\n(?P<text>.*?)^(?P=fence)$", re.M | re.S)


@dataclass(frozen=True, slots=True)
class Page:
    """One rule: its words by variant (`""` is the usual one), and its explanation."""

    code: str
    name: str
    severity: Severity
    messages: Mapping[str, str]
    helps: Mapping[str, str]
    labels: Mapping[str, str]
    text: str

    def examples(self, use: str) -> tuple[str, ...]:
        """The example notes on the page: `use` is `raises` or `mended`."""
        return tuple(found["text"] for found in _EXAMPLE.finditer(self.text) if found["use"] == use)


@dataclass(frozen=True, slots=True)
class Wording:
    """A finding in words: the first line, what to do, and a word for each label, in their order."""

    severity: Severity
    message: str
    help: str
    labels: tuple[str, ...]


@cache
def _files() -> dict[str, Path]:
    return {path.name.split("-", 1)[0]: path for path in sorted(PAGES.glob("*.md"))}


def codes() -> tuple[str, ...]:
    """All codes that have a page, in order."""
    return tuple(_files())


@cache
def page(code: str) -> Page:
    """The page of a code. Raises KeyError for a code without one."""
    path = _files()[code]
    _, head, text = path.read_text(encoding="utf-8").split("---\n", 2)
    data = yaml.safe_load(head)
    return Page(
        code=code,
        name=path.stem.split("-", 1)[1],
        severity=Severity(data["severity"]),
        messages=_variants(data, "message"),
        helps=_variants(data, "help"),
        labels=data.get("labels", {}),
        text=text.strip() + "\n",
    )


def _variants(data: Mapping[str, str], key: str) -> dict[str, str]:
    """`message` and `message.VARIANT` entries as a mapping from the variant's name."""
    heads = {name: str(words) for name, words in data.items() if name.split(".")[0] == key}
    return {name.partition(".")[2]: words for name, words in heads.items()}


def wording(finding: Finding) -> Wording:
    """The words of a finding. Raises KeyError where the page asks for a fact the finding has not."""
    rule = page(finding.code)
    help_ = rule.helps.get(finding.variant, rule.helps.get("", ""))
    return Wording(
        severity=finding.severity or rule.severity,
        message=_fill(rule.messages[finding.variant], finding),
        help=_fill(help_, finding),
        labels=tuple(_fill(rule.labels.get(label.name, ""), finding) for label in finding.labels),
    )


def _fill(words: str, finding: Finding) -> str:
    return Template(words).substitute(finding.facts)
