"""Entries for the tests of the data: notes compiled without PDF, each as a shelf keeps it."""

from __future__ import annotations

from functools import cache
from pathlib import Path

from guidec import compile as compiler
from guidec.edge.load import of_bytes
from guidec.messages import diagnose
from guidec.messages.data import as_data
from guidec.shelf.entry import Entry
from guidec.shelf.summary import summary

REPOSITORY = Path(__file__).parent.parent.parent


def of_text(text: str, name: str = "note.md") -> Entry:
    """The entry of a note."""
    bundle = of_bytes(name, text.encode("utf-8", "surrogatepass"), Path())
    built = compiler.build(bundle, compiler.Options(pdf=False))
    return summary(name, built, [as_data(one) for one in diagnose(bundle.source, built.findings)])


def entry(path: Path) -> Entry:
    """The entry of a file; its pictures are left aside."""
    return of_text(path.read_text(encoding="utf-8"), path.name)


@cache
def workshop() -> tuple[Entry, ...]:
    """Six small guides of invented devices."""
    return tuple(entry(path) for path in sorted(Path(__file__).with_name("workshop").glob("*.md")))
