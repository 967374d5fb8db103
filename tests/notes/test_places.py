"""Every mark is found where it was typed: in generated notes whose marks' places are known beforehand."""

from __future__ import annotations

import random

import pytest

from tests.notes.reading import marks, note

NAMES = ["lid", "front housing", "Gehäuse", "电池", "lens ring 2", "😀 clip", "a", "driver board", "café"]
DETAILS = [": 4x PH0 M2x6", ": 2600 mAh, 3.7 V; class=battery", "; captive", "; holds=lid, lens ring 2", "", ""]
KINDS = ["part", "screw", "tool", "clip", "adhesive", ""]
WORDS = ["Lift", "off", "the", "slowly,", "and", "émigré", "日本", "🔧🔩", "&amp;", "\\{plain\\}", "`{code}`"]
WORDS += ["*soft*", "**strong**", "it's", "a_b_c", "5 < 6", "[link](x.md)", "x&y", "–"]


class Writer:
    """Writes a note and keeps the place of each mark."""

    def __init__(self, seed: int) -> None:
        self.random = random.Random(seed)
        self.text: list[str] = []
        self.length = 0
        self.expected: list[tuple[int, str]] = []

    def add(self, text: str) -> None:
        self.text.append(text)
        self.length += len(text)

    def mark(self, cell: bool = False, gap: str = " ") -> None:
        pick = self.random.choice
        kind = pick(KINDS)
        name = pick(NAMES).replace(" ", gap, 1)
        details = pick(DETAILS) if kind else ""
        if cell and self.random.random() < 0.4:
            details += ": SL4\\|PZ1" if ":" not in details and ";" not in details else ""
        draft = "? " if kind and self.random.random() < 0.1 else ""
        typed = "{" + draft + (f"{kind} {name}" if kind else name) + details + "}"
        self.expected.append((self.length, typed))
        self.add(typed)

    def words(self, cell: bool = False, breaks: str = "") -> None:
        """A run of words and marks; `breaks` is what begins a further line."""
        pick = self.random.choice
        self.add("Do")
        for _ in range(self.random.randrange(1, 9)):
            roll = self.random.random()
            if roll < 0.4:
                self.add(pick([" ", "  ", " (", " *" if not cell else " "]))
                gap = f"\n{breaks}" if breaks and self.random.random() < 0.15 else " "
                self.mark(cell, gap)
            elif roll < 0.55 and breaks:
                self.add(pick(["\n", "  \n", "\\\n"]) + breaks + "then")
            else:
                self.add(pick([" ", "  ", " \t"]) + pick(WORDS))
        self.add(pick(["", ".", " ", "\t"]))

    def paragraph(self, first: str, rest: str) -> None:
        lazy = rest.strip() != "" or (rest != "" and self.random.random() < 0.3)
        self.add(first)
        self.words(breaks=self.random.choice(["", rest.lstrip("> \t")]) if lazy else rest or " ")
        self.add("\n" + rest.rstrip() + "\n")

    def heading(self, first: str, rest: str) -> None:
        if self.random.random() < 0.5:
            self.add(first + self.random.choice(["# ", "##  ", "###\t"]))
            self.words()
            self.add(self.random.choice(["", " ##", " #  "]) + "\n")
        else:
            self.add(first)
            self.words(breaks=rest or "")
            self.add("\n" + rest + self.random.choice(["===", "---", "=  "]) + "\n" + rest.rstrip() + "\n")

    def table(self, first: str, rest: str) -> None:
        columns = self.random.randrange(1, 4)
        edge = self.random.choice(["| ", "|", "|\t"])
        for row in range(self.random.randrange(2, 5)):
            if row == 1:
                self.add(rest + "|" + "---|" * columns + "\n")
                continue
            self.add(first if row == 0 else rest)
            for _ in range(columns):
                self.add(edge)
                self.words(cell=True)
                self.add(" ")
            self.add("|\n")
        self.add(rest.rstrip() + "\n")

    def block(self, first: str, rest: str, depth: int) -> None:
        roll = self.random.random()
        if depth and roll < 0.25:
            sign = self.random.choice(["> ", ">"])
            self.block(first + sign, rest + "> ", depth - 1)
        elif depth and roll < 0.55:
            marker = self.random.choice(["- ", "1. ", "10) ", "*   ", "+\t" if not rest else "+ "])
            width = 4 if marker == "+\t" else len(marker)
            for _ in range(self.random.randrange(1, 4)):
                self.block(first + marker, rest + " " * width, depth - 1)
                first = rest
        elif roll < 0.7:
            self.heading(first, rest)
        elif roll < 0.8:
            self.table(first, rest)
        else:
            self.paragraph(first, rest)

    def note(self, blocks: int) -> str:
        for _ in range(blocks):
            self.block("", "", 4)
            self.add("\n")
        return "".join(self.text)


@pytest.mark.parametrize("seed", range(100))
def test_each_mark_of_a_generated_note_is_found_at_its_place(seed: int) -> None:
    writer = Writer(seed)
    text = writer.note(60)
    read = note(text, plain=True)
    found = {mark.span.start: mark.text for mark in marks(read.document)}
    assert found == dict(writer.expected)
    assert len(found) > 50


def test_line_ends_of_every_kind_give_the_same_places() -> None:
    writer = Writer(7)
    text = writer.note(40)
    plain = [mark.span for mark in marks(note(text, plain=True).document)]
    for ending in ("\r\n", "\r"):
        assert [mark.span for mark in marks(note(text.replace("\n", ending), plain=True).document)] == plain


def test_places_after_front_matter_count_from_the_top_of_the_file() -> None:
    writer = Writer(8)
    body = writer.note(20)
    front = "---\ntitle: Füllfederhalter 😀\n---\n"
    found = {mark.span.start - len(front): mark.text for mark in marks(note(front + body, plain=True).document)}
    assert found == dict(writer.expected)
