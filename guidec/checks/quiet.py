"""The front matter's `quiet` and all findings -> the findings that are left, and what is wrong with `quiet`.

`quiet` is a mapping from a rule's code to the reason for silencing it. Warnings and infos of that code are
dropped; errors stay.
"""

from __future__ import annotations

from collections.abc import Iterable, Iterator, Mapping

from guidec.notes.syntax import Entry, Located
from guidec.rules.book import codes, page
from guidec.rules.finding import Finding, Severity

__all__ = ["silence"]


def silence(front: Located, findings: Iterable[Finding]) -> tuple[Finding, ...]:
    """The findings without the silenced ones, and with those about `quiet` itself."""
    entries = _entries(front)
    if not entries:
        return tuple(findings)
    kept = [finding for finding in findings if not _silenced(finding, entries)]
    return (*kept, *_about(entries))


def _entries(front: Located) -> Mapping[str, Entry]:
    quiet = front.get("quiet")
    return quiet.value if quiet and isinstance(quiet.value, Mapping) else {}


def _silenced(finding: Finding, entries: Mapping[str, Entry]) -> bool:
    severity = finding.severity or page(finding.code).severity
    return finding.code in entries and severity is not Severity.ERROR


def _about(entries: Mapping[str, Entry]) -> Iterator[Finding]:
    known = codes()
    for code, entry in entries.items():
        if code not in known and " " in code and entry.value.value is None:
            yield Finding.at("N091", entry.key_span, variant="comma", rule=code)
        elif code not in known:
            near = sorted(
                (one for one in known if one[:2] == code.upper()[:2]), key=lambda one: one != code.upper()
            )
            yield Finding.at("N091", entry.key_span, rule=code, suggest=near)
        elif page(code).severity is Severity.ERROR:
            yield Finding.at("N092", entry.key_span, rule=code)
        elif not str(entry.value.value or "").strip():
            yield Finding.at("N093", entry.key_span, rule=code)
