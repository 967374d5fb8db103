"""Any text at all can be read, and what comes out points at what was typed."""

from __future__ import annotations

from hypothesis import example, given, settings
from hypothesis import strategies as st

from guidec.notes.syntax import Block, Mark, Word
from guidec.rules.book import lacking, wording
from tests.notes.reading import Read, inlines, marks, note

PIECES = [
    *(
        "{part lid}",
        "{screw A: 4x PH0; captive}",
        "{",
        "}",
        "{refit ",
        "{risk ",
        "{pin 1,2: ",
        "{after x}",
        "{?",
        "{{",
    ),
    *("{?", "{{", ";", ":", "=", "\\", "`", "``", "*", "**", "_", "[", "](", ")", "![", "<b>", "<http://a.b>"),
    *(
        "\n",
        "\n\n",
        "  \n",
        "\r\n",
        "> ",
        "- ",
        "1. ",
        "\t",
        "    ",
        "# ",
        "## ",
        "---\n",
        "===\n",
        "| ",
        "|-|-|\n",
    ),
    *(
        "~~~\n",
        "[a]: b\n",
        "@0:35",
        "@1:50-0:35",
        "title: ",
        "é",
        "😀",
        "\u200b",
        "\u2028",
        "\x00",
        "\x0c",
        "\x85",
    ),
    *("\xa0", "word", "'", '"', "&x ", "*x", "!!python/name:os.system ", "@", "%", "}}", "<!--", "-->"),
]
TEXTS = st.one_of(st.text(max_size=60), st.lists(st.sampled_from(PIECES), max_size=30).map("".join))
NOTES = st.one_of(TEXTS, TEXTS.map(lambda text: f"---\n{text}\n---\n{text}"))


def same(read: Read, start: int, end: int, said: str) -> bool:
    """Whether a place says what was read there: white space apart, where nothing is escaped."""
    typed = read.source.text[start:end]
    if any(sign in typed for sign in "\\&\n\x00"):
        return True
    return " ".join(typed.split()) == said


def check_mark(read: Read, mark: Mark) -> None:
    source = read.source
    assert source.slice(mark.span) == mark.text
    assert mark.text[0] == "{"
    assert mark.text[-1] == "}"
    assert same(read, *mark.name_span, mark.name) or mark.kind == "risk"
    assert same(read, *mark.whole_span, mark.whole)
    assert same(read, *mark.details_span, mark.details)
    spans = [mark.name_span, mark.whole_span, mark.details_span, mark.kind_span]
    for key in mark.keys:
        spans += [key.name_span, key.value_span]
        assert same(read, *key.name_span, key.name) or source.slice(key.name_span).casefold() == key.name
        assert same(read, *key.value_span, key.value or "")
    for span in spans:
        assert mark.span.start < span.start <= span.end < mark.span.end
    for inner in mark.inner:
        assert mark.span.start < inner.span.start
        assert inner.span.end < mark.span.end


def check_blocks(blocks: tuple[Block, ...], start: int, end: int) -> None:
    for block in blocks:
        assert start <= block.span.start <= block.span.end <= end
        check_blocks(getattr(block, "blocks", ()), *block.span)
        for item in getattr(block, "items", ()):
            assert block.span.start <= item.marker.start <= item.span.end <= block.span.end
            check_blocks(item.blocks, item.marker.end, item.span.end)


@settings(max_examples=600, deadline=None)
@given(NOTES)
@example("---\n")
@example("---\n\x00: a\n---\n")
@example("- \x0c\n\x0c  {part a}\n")
@example("| \\| |\n|-|\n")
@example("{refit {part a} {risk {part b}: {part c}}}")
@example("{\u2028part\u2028x\u2028}")
def test_any_text_is_read_and_its_places_hold(text: str) -> None:
    read = note(text, plain=True)
    length = len(read.source.text)
    check_blocks(read.document.blocks, 0, length)
    for inline in inlines(read.document.blocks):
        assert [piece.span for piece in inline.pieces] == sorted(piece.span for piece in inline.pieces)
        for piece in inline.pieces:
            if isinstance(piece, Word):
                assert 0 <= piece.span.start < piece.span.end <= length
    for mark in marks(read.document):
        check_mark(read, mark)
    for finding in read.findings:
        assert 0 <= finding.span.start <= finding.span.end <= length
        assert not lacking(finding)
        assert wording(finding).message


@settings(max_examples=300, deadline=None)
@given(st.text(alphabet=st.characters(exclude_characters="{}\\&*_`[]!<>\r\n\x00")))
def test_words_say_what_stands_at_their_place(text: str) -> None:
    read = note(f"Take {text}", plain=True)
    for inline in inlines(read.document.blocks):
        for piece in inline.pieces:
            assert read.source.slice(piece.span) == piece.text


def test_a_long_text_does_not_make_a_long_message() -> None:
    read = note(f"Take {{part {'very ' * 200}\n\n{{part a; {'x ' * 200}}}\n\n[a](ftp://{'b' * 500})\n", plain=True)
    assert len(read.findings) == 3
    for finding in read.findings:
        assert len(wording(finding).message) < 140
        assert sum(map(len, finding.suggestions)) < 500
