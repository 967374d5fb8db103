"""Notes of every shape give a sound page and sheet: the examples of all rule pages, an odd note, random ones."""

from __future__ import annotations

import random
from pathlib import Path

import page as pdf_checker
import pytest

from guidec.outputs import html, pdf
from guidec.rules import book

from .conftest import NOTES, guide_at, guide_of
from .test_html import Reader

PIECES = [
    "# T\n\n",
    "## One\n\n",
    "## Two {after nothing} @0:10-0:20\n\n",
    "## Three {instead of One}\n\n",
    "### g\n\n",
    "1. Undo {screw A: 4x PH0 M2x6}.\n",
    "2. Undo 2 of {A} and lift off {part lid}.\n",
    "   - Note {lid}.\n",
    "- Warm {adhesive glue} with {tool gun} {heat 70 °C}.\n",
    "     1. Clean {lid}.\n",
    "> WARNING: hot {lid}\n\n",
    "   > CAUTION: x\n",
    "![alt](p.jpg)\n",
    "{pin 1,2: lid}\n\n",
    "{",
    "}",
    "{part",
    "text `code` <b>\n\n",
    "{side back} ",
    "```\nx\n```\n\n",
    "| a | {lid} |\n|---|---|\n| b | {wait 5 s} |\n\n",
    "{? part odd} ",
    "\n",
    "# x\n",
    "* * *\n",
    "{risk lid: x} {refit with {supply grease: 1 g}}\n",
    "> # head\n> - a {lid}\n\n",
    "[x](y.html) ",
    "**{lid}** ",
    "[{lid}](http://a.example) ",
    "&lt;",
    "\\{lid\\}",
    "<script>",
    "{optional} ",
    "{partly} ",
    "{live}",
    "- a\n\n  b\n",
]


def sound(text: str) -> None:
    """Every id stands once, and every link within the page has its target."""
    read = Reader(html.page(guide_of(text), clean=False).decode())
    assert len(read.ids) == len(set(read.ids))
    assert read.targets <= set(read.ids)


@pytest.mark.parametrize("code", book.codes())
def test_the_examples_of_every_rule_give_a_sound_page(code: str) -> None:
    examples = [text for use in ("raises", "mended") for text in book.page(code).examples(use)]
    for text in examples:
        sound(text)


@pytest.mark.parametrize("seed", range(8))
def test_notes_thrown_together_give_a_sound_page(seed: int) -> None:
    draw = random.Random(seed)
    for _ in range(40):
        sound("".join(draw.choices(PIECES, k=draw.randint(3, 18))))


@pytest.mark.parametrize("source", ["odd", "empty", "no operation", *range(4)])
def test_odd_notes_give_a_tagged_sheet(source: str | int, tmp_path: Path) -> None:
    draw = random.Random(source)
    text = {"odd": "", "empty": "", "no operation": "Words.\n"}.get(
        str(source), "".join(draw.choices(PIECES, k=30))
    )
    guide = guide_at(NOTES / "odd.md") if source == "odd" else guide_of(text)
    made = tmp_path / "sheet.pdf"
    made.write_bytes(pdf.sheet(guide, clean=False))
    report = str(pdf_checker.validate_pdf(str(made), profile="ua1"))
    assert "no failures" in report, f"{text}\n{report}"


def test_an_odd_note_loses_nothing() -> None:
    whole = Reader(html.page(guide_at(NOTES / "odd.md"), clean=True).decode()).text
    for words in (
        "A heading before any operation",
        "A heading in a quote",
        "of two paragraphs",
        "A list that starts at three",
        "Of a remark.",
        "code in a line",
        "Another paragraph.",
        "A quote in a line in a line.",
        "A small heading",
        "A link with lid in it",
        "<b>bold</b>",
        "30 Empty",
        "20 An operation with a lid in its title",
    ):
        assert words in whole, words
