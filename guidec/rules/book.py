"""The rule pages -> words for findings, and the text that `guidec explain` prints.

A page is one Markdown file `pages/CODE-name.md`. Its front matter holds the words, written with `$fact`
placeholders; its body explains the rule to the person who met it, with one example that raises just this code
(a fenced block ```` ```note raises ````) and the same one mended (```` ```note mended ````).
"""

from __future__ import annotations

import re
from collections.abc import Mapping
from functools import cache
from pathlib import Path
from string import Template

import yaml

from guidec.quick import dataclass
from guidec.rules.finding import Finding, Severity

__all__ = ["Page", "Wording", "codes", "lacking", "page", "wording"]

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
    replaces: bool = False
    """Each suggestion of a finding of this rule can stand in place of its main span (`replaces: true`)."""

    @property
    def prose(self) -> str:
        """The explanation without the examples."""
        return _EXAMPLE.sub("", self.text).strip()

    def examples(self, use: str) -> tuple[str, ...]:
        """The example notes on the page: `use` is `raises` or `mended`."""
        return tuple(found["text"] for found in _EXAMPLE.finditer(self.text) if found["use"] == use)


@dataclass(frozen=True, slots=True)
class Wording:
    """A finding in words: the first line, what to do, a word for the main place and one for each label."""

    severity: Severity
    message: str
    help: str
    labels: tuple[str, ...]
    here: str = ""


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
    data = yaml.load(head, getattr(yaml, "CSafeLoader", yaml.SafeLoader))
    return Page(
        code=code,
        name=path.stem.split("-", 1)[1],
        severity=Severity(data["severity"]),
        messages=_variants(data, "message"),
        helps=_variants(data, "help"),
        labels=data.get("labels", {}),
        text=text.strip() + "\n",
        replaces=bool(data.get("replaces", False)),
    )


def _variants(data: Mapping[str, str], key: str) -> dict[str, str]:
    """`message` and `message.VARIANT` entries as a mapping from the variant's name."""
    heads = {name: str(words) for name, words in data.items() if name.split(".")[0] == key}
    return {name.partition(".")[2]: words for name, words in heads.items()}


def wording(finding: Finding) -> Wording:
    """The words of a finding. Raises KeyError for a code without a page.

    A wording that asks for a fact the finding has not keeps its `$fact`: a report with a hole is worth more than
    none. The tests fail on either (see `lacking`).
    """
    rule = page(finding.code)
    help_ = rule.helps.get(finding.variant, rule.helps.get("", ""))
    return Wording(
        severity=finding.severity or rule.severity,
        message=_fill(rule.messages.get(finding.variant, rule.messages[""]), finding),
        help=_fill(help_, finding),
        labels=tuple(_fill(rule.labels.get(label.name, ""), finding) for label in finding.labels),
        here=_fill(rule.labels.get("here", ""), finding),
    )


def _fill(words: str, finding: Finding) -> str:
    return Template(str(words)).safe_substitute(finding.facts)


def lacking(finding: Finding) -> tuple[str, ...]:
    """What the page of a finding asks for and the finding has not, or the other way round; empty if well."""
    rule = page(finding.code)
    variants = [f"variant {finding.variant}"] if finding.variant not in rule.messages else []
    labels = [f"label {label.name}" for label in finding.labels if label.name not in rule.labels]
    used = [rule.messages.get(finding.variant, ""), rule.helps.get(finding.variant, rule.helps.get("", ""))]
    used += [rule.labels[label.name] for label in finding.labels if label.name in rule.labels]
    used.append(rule.labels.get("here", ""))
    facts = sorted(
        {name for words in used for name in Template(str(words)).get_identifiers()} - set(finding.facts)
    )
    return (*variants, *labels, *(f"fact {name}" for name in facts))
