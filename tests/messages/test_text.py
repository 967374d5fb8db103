"""Reports as people read them: whole reports are compared where the wording and the drawing matter."""

from __future__ import annotations

import re
from collections.abc import Callable, Sequence

import pytest

from guidec.messages import counts, diagnose, text
from guidec.rules.finding import Finding
from guidec.source import Source, Span

PAGE = """---
severity: error
message: "screw set `$name` is taken out $out times, and has $count"
help: "if there are $out, write `${out}x` on line $line"
labels: {declared: "$count declared here", here: "1 too many", there: "and here"}
---
Why.
"""


@pytest.fixture(autouse=True)
def rule(write_page: Callable[[str, str], None]) -> None:
    write_page("X100-count", PAGE)


def report(note: str, main: str, labels: dict[str, str] | None = None, suggest: Sequence[str] = ()) -> str:
    source = Source.of("radio.md", note)
    marked = {name: span(source, words) for name, words in (labels or {}).items()}
    finding = Finding.at(
        "X100", span(source, main), labels=marked, suggest=suggest, name="A", out=5, count=4, line=3
    )
    return text(diagnose(source, [finding]))


def span(source: Source, words: str) -> Span:
    at = source.text.index(words)
    return Span(at, at + len(words))


def test_two_places_that_disagree_are_both_shown():
    note = "# Radio\n\n1. Undo {screw A: 4x PH0 M2x6}.\n2. Undo 5 of {screw A}.\n"
    assert report(note, "5 of {screw A}", {"declared": "{screw A: 4x PH0 M2x6}"}) == (
        "error[X100]: screw set `A` is taken out 5 times, and has 4\n"
        " --> radio.md:4:9\n"
        "  |\n"
        "3 | 1. Undo {screw A: 4x PH0 M2x6}.\n"
        "  |         ---------------------- 4 declared here\n"
        "4 | 2. Undo 5 of {screw A}.\n"
        "  |         ^^^^^^^^^^^^^^ 1 too many\n"
        "  = help: if there are 5, write `5x` on line 3\n"
        "\n"
    )


def test_two_places_in_one_line_have_a_row_each():
    assert "\n".join(report("one two three\n", "two", {"declared": "three"}).splitlines()[2:6]) == (
        "  |\n1 | one two three\n  |     ^^^ ----- 4 declared here\n  |     1 too many"
    )


def test_a_place_inside_another_keeps_its_own_sign():
    assert "|     ---^^^---" in report("one {x two y} three\n", "two", {"declared": "{x two y}"})
    assert "|     ^^^---^^^" in report("one {x two y} three\n", "{x two y}", {"declared": "two"})


def test_lines_far_apart_are_parted_by_dots_and_lines_near_are_joined():
    note = "".join(f"line {n}\n" for n in "abcdefghij")
    far = report(note, "line j", {"declared": "line a"}).splitlines()
    assert far[3:8] == [
        " 1 | line a",
        "   | ------ 4 declared here",
        "...",
        "10 | line j",
        "   | ^^^^^^ 1 too many",
    ]
    near = report(note, "line c", {"declared": "line a"}).splitlines()
    assert near[3:8] == [
        "1 | line a",
        "  | ------ 4 declared here",
        "2 | line b",
        "3 | line c",
        "  | ^^^^^^ 1 too many",
    ]


def test_a_place_over_many_lines_shows_its_first_two_and_its_last():
    note = "## A\nb\nc\nd\ne\nf\n"
    assert report(note, "b\nc\nd\ne").splitlines()[3:10] == [
        "2 | b",
        "  | ^",
        "3 | c",
        "  | ^",
        "4 | d",
        "5 | e",
        "  | ^ 1 too many",
    ]


def test_a_place_that_ends_with_a_line_end_does_not_run_into_the_next_line():
    assert report("a\nb\n", "a\n").splitlines()[3:] == [
        "1 | a",
        "  | ^ 1 too many",
        "  = help: if there are 5, write `5x` on line 3",
        "",
    ]


def test_the_end_of_a_note_can_be_pointed_at():
    source = Source.of("n.md", "abc")
    out = text(diagnose(source, [Finding.at("X100", Span(3, 3), name="A", out=5, count=4, line=3)]))
    assert "1 | abc\n  |    ^ 1 too many\n" in out


@pytest.mark.parametrize(
    ("before", "width"),
    [
        ("\t", 4),
        ("ab\t", 4),
        ("漢字", 4),
        ("e\u0301", 1),
        ("👩\u200d🔧", 2),
        ("🇩🇪", 2),
        ("½", 1),
        ("ｗ", 2),
        ("\u202eab", 3),
        ("\x1b[31m", 5),
    ],
)
def test_carets_stand_under_their_text(before: str, width: int):
    """Widths after Unicode Standard Annexes 11 (wide characters) and 29 (clusters); tabs go to every fourth."""
    lines = report(f"{before}{{x}}\n", "{x}").splitlines()
    assert lines[4] == f"  | {' ' * width}^^^ 1 too many"


def test_a_caret_under_wide_characters_is_as_wide_as_they_are():
    assert report("a漢字b\n", "漢字").splitlines()[4] == "  |  ^^^^ 1 too many"


def test_half_a_cluster_is_underlined_as_a_whole():
    assert report("ae\u0301b\n", "\u0301").splitlines()[4] == "  |  ^ 1 too many"


def test_a_note_cannot_write_to_the_terminal():
    out = report("\x1b[2J\x07{x}\n", "{x}")
    assert "\x1b" not in out
    assert "\x07" not in out
    assert "␛[2J␇{x}" in out


def test_a_note_cannot_turn_the_reading_direction_of_a_message():
    source = Source.of("a\u202eb.md", "x\n")
    out = text(diagnose(source, [Finding.at("X100", Span(0, 1), name="a\u202e\x1bb\nc", out=5, count=4, line=3)]))
    assert not {"\u202e", "\x1b"} & set(out)
    assert "`a\ufffd␛b c`" in out


def test_a_long_line_is_cut_to_what_matters():
    note = "x" * 400 + "{here}" + "y" * 400 + "\n"
    lines = report(note, "{here}").splitlines()
    assert len(lines[3]) < 135
    shown, carets = lines[3][4:], lines[4][4:]
    assert shown.startswith("…")
    assert shown.endswith("…")
    at = carets.index("^")
    assert shown[at : at + 6] == "{here}"


def test_a_long_line_of_wide_characters_is_cut_to_columns():
    lines = report("漢" * 300 + "{here}" + "字" * 300 + "\n", "{here}").splitlines()
    shown, carets = lines[3][4:], lines[4][4:]
    before = shown[: shown.index("{here}")]
    assert sum(2 if char == "漢" else 1 for char in before) == carets.index("^")


def test_suggestions_come_before_the_help_and_are_four_at_most():
    lines = report("{x}\n", "{x}", suggest=["a", "b", "c", "d", "e"]).splitlines()
    assert lines[5] == "  = help: did you mean `a`, `b`, `c` or `d`?"
    assert lines[6].startswith("  = help: if there are")


def test_findings_come_in_the_order_of_their_places_and_once_each():
    source = Source.of("n.md", "a b c\n")
    facts = {"name": "A", "out": 5, "count": 4, "line": 3}
    findings = [Finding.at("X100", Span(at, at + 1), **facts) for at in (4, 0, 2, 0)]
    assert [one.here.start.column for one in diagnose(source, findings)] == [1, 3, 5]


def test_a_finding_in_another_text_is_shown_in_that_text():
    other = Source.of("method.yaml", "points: 11\n")
    finding = Finding.at("X100", Span(0, 6), source=other, name="A", out=5, count=4, line=3)
    out = text(diagnose(Source.of("n.md", "note\n"), [finding]))
    assert "--> method.yaml:1:1" in out
    assert "1 | points: 11" in out


def test_a_file_without_text_is_named_without_a_line():
    out = text(diagnose(Source("gone.md", ""), [Finding.at("X100", Span(0, 0), name="A", out=5, count=4, line=3)]))
    assert out.splitlines()[1] == " --> gone.md"
    assert len(out.splitlines()) == 4


def test_colour_is_added_and_changes_nothing_else():
    source = Source.of("n.md", "a {x} b\n")
    finding = Finding.at("X100", Span(2, 5), labels={"there": Span(0, 1)}, name="A", out=5, count=4, line=3)
    plain, painted = (text(diagnose(source, [finding]), colour=colour) for colour in (False, True))
    assert "\x1b[1;31merror[X100]" in painted
    assert re.sub(r"\x1b\[[\d;]*m", "", painted) == plain


def test_the_closing_line_counts(write_page: Callable[[str, str], None]):
    for severity in ("warning", "info"):
        write_page(f"X20{len(severity)}-{severity}", f"---\nseverity: {severity}\nmessage: m\n---\nWhy.\n")
    source = Source.of("n.md", "abcdef\n")
    facts = {"name": "A", "out": 5, "count": 4, "line": 3}
    errors = [Finding.at("X100", Span(at, at + 1), **facts) for at in (0, 1)]
    warning, infos = Finding.at("X207", Span(2, 3)), [Finding.at("X204", Span(at, at + 1)) for at in (3, 4)]
    assert counts(diagnose(source, [*errors, warning, *infos])) == "2 errors, 1 warning, 2 infos"
    assert counts(diagnose(source, [errors[0]])) == "1 error"
    assert counts(()) == "clean"
