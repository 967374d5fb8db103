"""Guides for the tests of outputs: notes of our own and the samples, read and built as a compile does."""

from __future__ import annotations

import os
from collections.abc import Callable
from pathlib import Path

import pytest

from guidec.model import build
from guidec.model.types import Guide
from guidec.notes import read
from guidec.source import Source

REPOSITORY = Path(__file__).parent.parent.parent
NOTES = Path(__file__).parent / "notes"
SAMPLES = tuple(sorted((REPOSITORY / "samples").glob("*/*.md")))
NPM = Path(os.environ.get("GUIDEC_TEST_NPM", REPOSITORY / ".cache" / "npm" / "node_modules"))


def guide_of(text: str, name: str = "note.md") -> Guide:
    """A note's text as a guide, whatever its findings."""
    document, _ = read(Source.of(name, text))
    guide, _ = build(document)
    return guide


def guide_at(path: Path) -> Guide:
    """A note's file as a guide."""
    return guide_of(path.read_text(encoding="utf-8"), path.name)


def pictures_of(path: Path) -> dict[str, bytes]:
    """The pictures beside a note, by the path that it gives them."""
    return {
        str(file.relative_to(path.parent)): file.read_bytes()
        for file in sorted(path.parent.rglob("*"))
        if file.suffix in (".jpg", ".png") and "pic" in file.parent.name
    }


@pytest.fixture(scope="session")
def radio() -> Guide:
    """The note that uses every feature of the sheet."""
    return guide_at(NOTES / "every.md")


@pytest.fixture
def note() -> Callable[[str], Guide]:
    """Build a guide from the body of a note."""
    return lambda body: guide_of(f"---\ntitle: Test\nlanguage: en\npower: none\n---\n\n# Test\n\n{body}\n")
