"""What all tests share: rules are strict, and a wording may not have a hole."""

from __future__ import annotations

from collections.abc import Callable
from pathlib import Path

import pytest

from guidec.rules import book
from guidec.rules.finding import Finding

REPOSITORY = Path(__file__).parent.parent


@pytest.fixture(autouse=True)
def no_holes_in_wordings(monkeypatch: pytest.MonkeyPatch) -> None:
    """A finding that lacks what its page asks for prints with a hole; under test it fails."""
    lenient = book.wording

    def strict(finding: Finding) -> book.Wording:
        assert not book.lacking(finding), f"{finding.code}: {book.lacking(finding)}"
        return lenient(finding)

    monkeypatch.setattr("guidec.messages.diagnostic.wording", strict)


@pytest.fixture
def write_page(tmp_path: Path, monkeypatch: pytest.MonkeyPatch) -> Callable[[str, str], None]:
    """Write a rule page of the test's own: `write_page("X100-name", text)`; only such pages exist in the test."""
    pages = tmp_path / "pages"
    pages.mkdir()
    monkeypatch.setattr(book, "PAGES", pages)
    book._files.cache_clear()
    book.page.cache_clear()

    def write(name: str, text: str) -> None:
        (pages / f"{name}.md").write_text(text, encoding="utf-8")
        book._files.cache_clear()

    yield write
    monkeypatch.undo()
    book._files.cache_clear()
    book.page.cache_clear()
