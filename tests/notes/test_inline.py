"""Words, times, pictures and links: what stands in a line beside its marks."""

from __future__ import annotations

import pytest

from guidec.notes.markdown import parser
from guidec.notes.syntax import Heading, Inline, ItemList, Paragraph, Word
from guidec.notes.times import seconds
from tests.notes.reading import Read, inlines, note, pictures, words


def line(read: Read) -> Inline:
    return next(inlines(read.document.blocks))


def printed(inline: Inline) -> str:
    md = parser()
    return str(md.renderer.render(list(inline.tokens), md.options, {}))


# ---------------------------------------------------------------- words


@pytest.mark.parametrize(
    ("typed", "expected"),
    [
        ("Undo it, then lift off.", ["Undo", "it", ",", "then", "lift", "off", "."]),
        ("Lift-off the e.g. lid's edge", ["Lift-off", "the", "e.g", ".", "lid's", "edge"]),
        ("Warm to 70.5 °C (1:30)", ["Warm", "to", "70.5", "°C", "(", "1:30", ")"]),
        ("un**screw** it", ["unscrew", "it"]),
        ("don\\'t &amp; do", ["don't", "&", "do"]),
        ("2 * 3 and a_b", ["2", "*", "3", "and", "a_b"]),
        ("drück `a b` ein", ["drück", "a", "b", "ein"]),
        ("see [the lid](x.md) now", ["see", "the", "lid", "now"]),
        ("<https://a.example/x> ok", ["https", ":", "/", "/", "a.example/x", "ok"]),
        ("one\ntwo  \nthree", ["one", "two", "three"]),
        ("“Lift” – off…", ["“", "Lift", "”", "–", "off", "…"]),
        ("取り外す。次", ["取り外す", "。", "次"]),
    ],
)
def test_text_is_cut_into_words_and_punctuation(typed: str, expected: list[str]) -> None:
    assert words(line(note(typed, plain=True))) == expected


def test_words_have_exact_places_through_escapes_emphasis_and_code() -> None:
    typed = "> don\\'t *un*screw\n> `code x` 😀 &lt;end"
    read = note(typed, plain=True)
    found = [read.source.slice(piece.span) for piece in line(read).pieces]
    assert found == ["don\\'t", "un*screw", "code", "x", "😀", "&lt;", "end"]
    assert [piece.code for piece in line(read).pieces if isinstance(piece, Word)] == [
        False, False, True, True, False, False, False,
    ]  # fmt: skip


# ---------------------------------------------------------------- times


@pytest.mark.parametrize(
    ("typed", "expected"),
    [
        ("0:35", 35),
        ("1:02:03", 3723),
        ("75:10", 4510),
        ("0:05.5", 5.5),
        ("0:60", None),
        ("1:60:00", None),
        ("35", None),
        ("0:5", None),
        ("", None),
    ],
)
def test_a_time_is_minutes_and_seconds_or_hours_before_them(typed: str, expected: float | None) -> None:
    assert seconds(typed) == expected


@pytest.mark.parametrize(
    ("end", "start", "until"),
    [
        ("@0:35-1:50", 35, 110),
        ("@0:35–1:50", 35, 110),
        ("@0:35 - 1:50", 35, 110),
        ("@2:05", 125, None),
        ("@1:02:03-1:02:04", 3723, 3724),
        ("@2:05.", 125, None),
        ("@2:05 {after lid} {live}", 125, None),
        ("{after lid} @2:05", 125, None),
    ],
)
@pytest.mark.parametrize("before", ["## Open it ", "- Open it ", "1. Open\n   it "])
def test_a_time_at_the_end_of_a_heading_or_list_line_is_taken_out(
    before: str, end: str, start: float, until: float | None
) -> None:
    read = note(before + end, plain=True)
    inline = line(read)
    assert inline.time is not None
    assert (inline.time.start, inline.time.end) == (start, until)
    assert read.source.slice(inline.time.span) == end.split("@")[1].join(["@", ""]).split(" {")[0].rstrip(".")
    assert "@" not in words(inline)
    assert "@" not in printed(inline)
    assert "it" in printed(inline)


def test_a_time_may_stand_at_the_end_of_any_line_of_a_list_line() -> None:
    read = note("1. Lift {part lid}. @0:35\n   {refit press it}\n", plain=True)
    inline = line(read)
    assert inline.time is not None
    assert printed(inline) == "Lift lid.\npress it"
    assert read.codes == []


def test_a_time_elsewhere_is_text() -> None:
    read = note(
        "Text @0:35\n\n> heard @1:12: words\n\n- Write to a@1:20 or \\@0:35\n\n  More @0:35\n\n  > a @0:35\n",
        plain=True,
    )
    assert [inline.time for inline in inlines(read.document.blocks)] == [None] * 5
    assert read.codes == []


@pytest.mark.parametrize("typed", ["@0:75", "@1:50-0:35", "@35", "@1:2:3:4", "@0:35-", "@0:35-0:35", "@0:35,1:50"])
def test_a_time_that_is_none_is_reported_and_not_printed(typed: str) -> None:
    read = note(f"## Open it {typed}\n", plain=True)
    assert read.codes == ["N201"]
    assert read.source.slice(read.findings[0].span).startswith("@")
    assert printed(line(read)) == "Open it"


def test_a_price_or_a_handle_is_no_time() -> None:
    assert note("- Ask @bob @work\n- Mail a@b.example\n- Set to @ 350 °C\n", plain=True).codes == []


def test_times_inside_a_line_and_second_times_are_pointed_out() -> None:
    assert note("- At @0:35 lift it\n", plain=True).found() == [("N202", "", "@0:35")]
    assert note("- Lift it @0:35\n  then that @0:40\n", plain=True).found() == [("N203", "", "@0:40")]


# ---------------------------------------------------------------- pictures and links


def test_a_picture_has_alt_path_title_and_places() -> None:
    read = note('Look ![The *front* {part lid}](<pics/a b%20c.jpg> "Ti") here.')
    (picture,) = pictures(read.document)
    assert (picture.alt, picture.path, picture.title) == ("The front lid", "pics/a b c.jpg", "Ti")
    slices = [read.source.slice(span) for span in (picture.path_span, picture.alt_span)]
    assert slices == ["pics/a b%20c.jpg", "The *front* {part lid}"]
    assert read.source.slice(picture.span).startswith("![The")
    assert read.codes == []


def test_a_picture_by_reference_has_its_path() -> None:
    (picture,) = pictures(note("![Front][f]\n\n[f]: pics/a%20b.jpg 'T'\n").document)
    assert (picture.alt, picture.path, picture.title) == ("Front", "pics/a b.jpg", "T")


@pytest.mark.parametrize(
    ("path", "code", "variant"),
    [
        ("https://a.example/x.jpg", "N211", "url"),
        ("//a.example/x.jpg", "N211", "url"),
        ("file:///etc/passwd", "N211", "url"),
        ("data:image/png;base64,AA", "N211", "url"),
        ("javascript:alert(1)", "N211", "url"),
        ("FILE:x.jpg", "N211", "url"),
        ("&#102;ile:x.jpg", "N211", "url"),
        ("f%69le:x.jpg", "N211", "url"),
        ("pics\\a.jpg", "N211", "backslash"),
        ("<>", "N211", "empty"),
        ("/etc/passwd", "N006", ""),
        ("../x.jpg", "N006", ""),
        ("a/../../x.jpg", "N006", ""),
        ("%2e%2e/x.jpg", "N006", ""),
        ("C:/x.jpg", "N006", ""),
        ("~/x.jpg", "N006", ""),
    ],
)
def test_a_path_that_may_not_be_read_is_reported_and_left_out(path: str, code: str, variant: str) -> None:
    read = note(f"![Front]({path})\n")
    assert [(finding.code, finding.variant) for finding in read.findings] == [(code, variant)]
    assert [picture.path for picture in pictures(read.document)] == [""]
    assert path.strip("<>") not in printed(line(read)) or not path.strip("<>")


@pytest.mark.parametrize("path", ["a.jpg", "pics/a.jpg", "pics/../a.jpg", "./a.jpg", "a..b.jpg", "Gehäuse 1.jpg"])
def test_a_path_inside_the_folder_is_fine(path: str) -> None:
    read = note(f"![Front](<{path}>)\n")
    assert read.codes == []
    assert [picture.path for picture in pictures(read.document)] == [path]


def test_a_path_with_blanks_is_pointed_out_and_the_suggestion_mends_it() -> None:
    read = note("Look ![the back](pics/the back.jpg) here.\n")
    assert read.found() == [("N214", "", "![the back](pics/the back.jpg)")]
    mended = note(f"Look {read.findings[0].suggestions[0]} here.\n")
    assert [picture.path for picture in pictures(mended.document)] == ["pics/the back.jpg"]
    assert note("Wow! [a](b c) `![a](b c)` ![a][b c] !\\[a](b c)\n").codes == []


def test_a_picture_needs_alt_text() -> None:
    assert note("![](a.jpg)\n").found() == [("N212", "", "![](a.jpg)")]
    assert note("![ ](a.jpg)\n").codes == ["N212"]


@pytest.mark.parametrize(
    "address",
    [
        "javascript:alert(1)",
        "JaVaScRiPt:alert(1)",
        "&#x6A;avascript:alert(1)",
        "vbscript:x",
        "file:///etc/passwd",
        "data:text/html,x",
        "ftp://a.example",
        "//a.example/x",
    ],
)
def test_a_link_that_is_not_followed_is_text_and_reported_at_its_address(address: str) -> None:
    read = note(f"See [the {{part lid}}]({address}) here.")
    assert read.found() == [("N210", "", address)]
    assert "<a" not in printed(line(read))
    assert "[the lid](" in printed(line(read))


def test_refused_links_of_other_shapes_are_reported_too() -> None:
    assert note("See <javascript:alert(1)>.").found() == [("N210", "", "javascript:alert(1)")]
    read = note("See [x].\n\n[x]: javascript:alert(1)\n")
    assert read.found() == [("N210", "", "javascript:alert(1)")]
    assert "<a" not in printed(line(read))


@pytest.mark.parametrize(
    "address", ["https://a.example", "http://a", "mailto:a@b.example", "x.md", "#a", "/x", "?q"]
)
def test_other_links_are_links(address: str) -> None:
    read = note(f"See [it]({address}).")
    assert read.codes == []
    assert "<a href=" in printed(line(read))


def test_raw_html_is_text() -> None:
    read = note('Lift <b onclick="x">it</b>, 5 < 6, a <- b.\n\n<script>\nalert(1)\n</script>\n', plain=True)
    assert [code for code, _, _ in read.found()] == ["N213"] * 4
    html = "".join(printed(inline) for inline in inlines(read.document.blocks))
    assert "&lt;script&gt;" in html
    assert "<b" not in html


# ---------------------------------------------------------------- blocks


def test_blocks_have_exact_spans() -> None:
    read = note(
        "# Title\n\nText one\nlazy\n\n>  - quoted {part a}\n>\n>    more\n\n"
        "Set\nup\n---\n\n3. x\n\n   ~~~\n   c\n   ~~~\n",
        plain=True,
    )
    assert [read.source.slice(block.span) for block in read.document.blocks] == [
        "# Title",
        "Text one\nlazy",
        ">  - quoted {part a}\n>\n>    more",
        "Set\nup\n---",
        "3. x\n\n   ~~~\n   c\n   ~~~",
    ]
    numbered = read.document.blocks[4]
    assert isinstance(numbered, ItemList)
    assert (numbered.ordered, numbered.start) == (True, 3)
    (item,) = numbered.items
    assert read.source.slice(item.marker) == "3."
    assert [read.source.slice(block.span) for block in item.blocks] == ["x", "~~~\n   c\n   ~~~"]


def test_several_markers_on_one_line_are_told_apart() -> None:
    read = note("> - 1) > * {part a}\n", plain=True)
    block = read.document.blocks[0]
    starts = []
    while not isinstance(block, Paragraph):
        starts.append(block.span.start)
        block = block.items[0].blocks[0] if isinstance(block, ItemList) else block.blocks[0]
    assert starts == [0, 2, 4, 7, 9]


def test_headings_of_both_shapes_have_their_level() -> None:
    read = note("# A #\n\n###\tB\n\nC\n===\n\nD\n---\n\n#### \n", plain=True)
    found = [(block.level, words(block.inline)) for block in read.document.blocks if isinstance(block, Heading)]
    assert found == [(1, ["A"]), (3, ["B"]), (1, ["C"]), (2, ["D"]), (4, [])]


def test_what_is_nested_beyond_reading_is_said() -> None:
    assert note(">" * 99 + " x {part a}\n", plain=True).codes == []
    assert note(">" * 101 + " x {part a}\n", plain=True).codes == ["N205"]
