"""Marks: what each part of one is read as, and where it stands."""

from __future__ import annotations

import pytest

from guidec.notes.kinds import THINGS, VALUES, WORDS
from guidec.notes.syntax import Mark
from tests.notes.reading import inlines, marks, note, one_mark, words


def parts(typed: str) -> tuple[str, str, str]:
    mark = one_mark(typed)
    return mark.kind, mark.name, mark.details


@pytest.mark.parametrize(
    ("typed", "kind", "name", "details"),
    [
        ("{part front housing}", "part", "front housing", ""),
        ("{front housing}", "", "front housing", ""),
        ("{screw A: 4x PH0 M2x6; torque=0.15 N·m}", "screw", "A", "4x PH0 M2x6"),
        ("{ Part  front\thousing }", "part", "front housing", ""),
        ("{part battery: 2600 mAh: new, 3.7 V}", "part", "battery", "2600 mAh: new, 3.7 V"),
        ("{side key}", "side", "key", ""),
        ("{scrw A: 4x PH0}", "", "scrw A", "4x PH0"),
        ("{screw}", "", "screw", ""),
        ("{heat}", "", "heat", ""),
        ("{optional}", "optional", "", ""),
        ("{Optional}", "optional", "", ""),
        ("{optional lens}", "", "optional lens", ""),
        ("{refit only}", "refit only", "", ""),
        ("{live}", "live", "", ""),
        ("{partly}", "partly", "", ""),
        ("{instead of  Cut the seal: the rough way}", "instead of", "Cut the seal: the rough way", ""),
        ("{instead key}", "", "instead key", ""),
        ("{after lid, operation Undo: first}", "after", "lid, operation Undo: first", ""),
        ("{also back; cover}", "also", "back; cover", ""),
        ("{after: lid}", "after", "lid", ""),
    ],
)
def test_a_mark_is_cut_into_kind_name_and_details(typed: str, kind: str, name: str, details: str) -> None:
    found = parts(typed)
    assert found[:2] == (kind, name)
    if kind not in ("after", "also", "instead of", "side"):
        assert found[2] == details


@pytest.mark.parametrize(
    "typed",
    [
        "{heat 70 °C, 2 min}",
        "{wait 30-60 s; then go on}",
        "{measure <=5 V: across it}",
        "{torque 0.2 N·m}",
    ],
)
def test_a_value_keeps_its_text_as_name_and_details(typed: str) -> None:
    mark = one_mark(typed)
    assert mark.kind in VALUES
    assert mark.name == mark.details == typed[1:-1].split(" ", 1)[1]


def test_kind_words_of_the_language_are_all_known() -> None:
    assert len(THINGS) == 10
    for word in WORDS:
        typed = f"{{{word}}}" if word in ("optional", "partly", "live", "refit only") else f"{{{word} 1,2: x}}"
        assert one_mark(typed).kind == word


def test_the_whole_wording_is_kept_for_names_that_win_over_kinds() -> None:
    mark = one_mark("{side  key: brass; qty=2}")
    assert (mark.whole, mark.kind, mark.name) == ("side key", "side", "key: brass; qty=2")


def test_keys_have_names_values_and_places() -> None:
    read = note("{part cell: new; class = battery ; number=A=B;captive ; holds=lid, lens}")
    (mark,) = marks(read.document)
    assert [(key.name, key.value) for key in mark.keys] == [
        ("class", "battery"),
        ("number", "A=B"),
        ("captive", None),
        ("holds", "lid, lens"),
    ]
    typed = [(read.source.slice(key.name_span), read.source.slice(key.value_span)) for key in mark.keys]
    assert typed == [("class", "battery"), ("number", "A=B"), ("captive", ""), ("holds", "lid, lens")]
    assert read.codes == []


def test_a_trailing_semicolon_does_no_harm() -> None:
    read = note("{part cell: new; class=battery;}")
    assert [key.name for key in next(marks(read.document)).keys] == ["class"]
    assert read.codes == []


@pytest.mark.parametrize(
    ("typed", "name", "details"),
    [
        (r"{part a\;b: c\:d\}e}", "a;b", "c:d}e"),
        (r"{part a\\b}", "a\\b", ""),
        ("{part nuts &amp; bolts}", "nuts & bolts", ""),
        ("{part A&B; qty=2}", "A&B", ""),
        ("{part 70 &deg;C plate}", "70 °C plate", ""),
        (r"{part C\D}", "C\\D", ""),
    ],
)
def test_escapes_and_entities_are_plain_inside_a_mark(typed: str, name: str, details: str) -> None:
    mark = one_mark(typed)
    assert (mark.name, mark.details, mark.text) == (name, details, typed)


def test_braces_are_plain_with_a_backslash_and_in_code() -> None:
    read = note(r"""
        Take \{part a\} and `{part b}` and ``{part `c`}``.

            {part d}

        ~~~
        {part e}
        ~~~
        """)
    assert list(marks(read.document)) == []
    assert read.codes == []


def test_a_mark_may_stand_wherever_text_may() -> None:
    read = note("""
        # Lamp {part a}

        Under {part b}
        ======

        > Quote {part c}
        lazy {part d}

        - item *{part e}* [link {part f}](x.md)
          1. **deep {part g}**

        | head {part h} | x |
        |---|---|
        | y | {part i: SL4\\|PZ1} |

        ![alt {part j}](a.png)
        """)
    found = [(mark.name, mark.details) for mark in marks(read.document)]
    assert [name for name, _ in found] == list("abcdefghij")
    assert found[8] == ("i", "SL4|PZ1")
    for mark in marks(read.document):
        assert read.source.slice(mark.span) == mark.text


def test_a_mark_crosses_a_soft_line_break_also_in_a_quote() -> None:
    read = note("> - Lift {part front\n>   housing: a\n>   b; class=\n>   cover}.", plain=True)
    (mark,) = marks(read.document)
    assert (mark.name, mark.details, mark.keys[0].value) == ("front housing", "a b", "cover")
    assert read.source.slice(mark.span) == mark.text
    assert read.source.slice(mark.name_span) == "front\n>   housing"
    assert read.source.slice(mark.keys[0].value_span) == "cover"


def test_marks_inside_refit_and_risk_are_read_one_level_deep() -> None:
    read = note(
        "Fit {refit put {supply grease: lithium; link=x} on {the seal}; {torque 0.2 N·m}} {risk {lid}: a: b}."
    )
    refit, risk = marks(read.document, inner=False)
    assert [(mark.kind, mark.name) for mark in refit.inner] == [
        ("supply", "grease"),
        ("", "the seal"),
        ("torque", "0.2 N·m"),
    ]
    assert refit.details == "put {supply grease: lithium; link=x} on {the seal}; {torque 0.2 N·m}"
    assert (risk.name, risk.details) == ("lid", "a: b")
    assert read.source.slice(risk.name_span) == "{lid}"
    assert read.codes == []


def test_a_risk_is_cut_at_the_first_colon_outside_other_marks() -> None:
    (risk,) = marks(note("{risk {part gasket: foam}: tears}").document, inner=False)
    assert (risk.name, risk.details) == ("gasket", "tears")
    assert one_mark("{risk gasket}").name == "gasket"


@pytest.mark.parametrize("typed", ["{? part lid}", "{?part lid}", "{ ? part lid}"])
def test_a_question_mark_makes_a_draft(typed: str) -> None:
    mark = one_mark(typed)
    assert (mark.draft, mark.kind, mark.name, mark.text) == (True, "part", "lid", typed)
    assert not one_mark("{part lid?}").draft


def test_a_pin_has_points_and_a_thing() -> None:
    mark = one_mark("{pin 12,18 88.5,18 0,100: screw A: left}")
    assert mark.points == ((12, 18), (88.5, 18), (0, 100))
    assert (mark.name, mark.details) == ("screw A: left", "12,18 88.5,18 0,100")


@pytest.mark.parametrize(
    ("typed", "variant", "place", "points", "name"),
    [
        ("{pin battery}", "points", "battery", 0, "battery"),
        ("{pin : lid}", "points", "lid", 0, "lid"),
        ("{pin 1,2 3;4: lid}", "shape", "3;4", 1, "lid"),
        ("{pin 1,2 101,4: lid}", "range", "101,4", 1, "lid"),
        ("{pin -1,2: lid}", "range", "-1,2", 0, "lid"),
        ("{pin 1,2:}", "thing", "1,2:", 1, ""),
        ("{pin 1,2 3,4 lid}", "colon", "lid", 2, "lid"),
    ],
)
def test_a_pin_that_cannot_be_read_says_why(typed: str, variant: str, place: str, points: int, name: str) -> None:
    read = note(f"![a](a.png) {typed}")
    assert read.found() == [("N106", variant, place)]
    (mark,) = marks(read.document)
    assert (len(mark.points), mark.name) == (points, name)


# ---------------------------------------------------------------- what is wrong with a mark


def test_an_open_mark_ends_with_its_line_and_prints_as_typed() -> None:
    read = note("1. Lift off {part lid with *care*.\n   Then {part lens}.\n", plain=True)
    assert read.found() == [("N101", "", "{part lid with *care*.")]
    (mark,) = marks(read.document)
    assert mark.name == "lens"
    assert "{" in words(next(inlines(read.document.blocks)))
    assert read.document.broken == (read.findings[0].span,)


def test_an_open_mark_ends_at_the_next_one() -> None:
    read = note("Lift {part lid with {tool card} and {part lens.")
    assert read.found() == [("N101", "", "{part lid with"), ("N101", "", "{part lens.")]
    assert [mark.name for mark in marks(read.document)] == ["card"]
    assert [finding.suggestions[0] for finding in read.findings] == ["{part lid} with", "{part lens}."]


def test_the_brace_that_an_open_mark_left_over_is_not_reported_again() -> None:
    assert note("Lift {part front {tool card} housing}.").codes == ["N101"]


def test_a_bar_in_a_cell_that_cuts_a_mark_is_explained() -> None:
    read = note("| a | b |\n|---|---|\n| {screw A: SL4|PZ1} | x |\n", plain=True)
    assert (read.findings[0].code, read.findings[0].variant) == ("N101", "cell")


def test_a_lone_closing_brace_is_pointed_out() -> None:
    assert note("Lift part lid} off.").found() == [("N102", "", "}")]
    assert note(r"Lift part lid\} off `}`.").codes == []


@pytest.mark.parametrize("typed", ["{}", "{ }", "{?}", "{ ? }"])
def test_an_empty_mark_is_reported_once_and_prints_as_typed(typed: str) -> None:
    read = note(f"Lift {typed} off.")
    assert read.found() == [("N103", "", typed)]
    assert list(marks(read.document)) == []


@pytest.mark.parametrize(
    ("keys", "variant", "place", "suggestion"),
    [
        ("=battery", "name", "=battery", None),
        ("class=", "value", "class=", None),
        ("class: battery", "colon", "class: battery", "class=battery"),
        ("class battery", "spaces", "class battery", "class=battery"),
    ],
)
def test_a_malformed_key_says_why(keys: str, variant: str, place: str, suggestion: str | None) -> None:
    read = note(f"{{part cell; {keys}; qty=2}}")
    assert read.found() == [("N104", variant, place)]
    assert read.findings[0].suggestions == ((suggestion,) if suggestion else ())
    assert [key.name for key in next(marks(read.document)).keys] == ["qty"]


def test_a_key_that_comes_twice_shows_both_places() -> None:
    read = note("{part cell; class=battery; Class=other}")
    assert read.found() == [("N105", "", "Class")]
    assert read.source.slice(read.findings[0].labels[0].span) == "class"
    assert [key.value for key in next(marks(read.document)).keys] == ["battery"]


def test_nesting_too_deep_is_reported_and_the_outer_marks_stand() -> None:
    read = note("{refit do {risk lid: its {part tab} breaks} and {tool card}}")
    assert read.found() == [("N107", "", "{part tab}")]
    (refit,) = marks(read.document, inner=False)
    assert [mark.kind for mark in refit.inner] == ["risk", "tool"]


def test_an_open_mark_inside_refit_is_reported_in_its_place() -> None:
    read = note("{refit put {supply grease on, then {tool card} away}")
    assert read.found() == [("N101", "", "{supply grease on, then")]
    (refit,) = marks(read.document, inner=False)
    assert [mark.name for mark in refit.inner] == ["card"]


@pytest.mark.parametrize(
    ("typed", "variant"), [("{screw: 4x PH0}", ""), ("{part; class=cover}", ""), ("{: 4x PH0}", "nothing")]
)
def test_details_without_a_name_are_reported(typed: str, variant: str) -> None:
    assert note(typed).found() == [("N109", variant, typed)]


# ---------------------------------------------------------------- marks that belong on headings

ON_A_HEADING = ["{after lid}", "{also lid}", "{instead of Other}", "{live}", "{refit only}", "{side back}"]


@pytest.mark.parametrize("typed", [*ON_A_HEADING, "{optional}"])
def test_heading_marks_are_fine_on_a_heading_and_right_below_it(typed: str) -> None:
    assert note(f"## Do it {typed}\n\n- Lift off {{part lid}}.\n", plain=True).codes == []
    assert note(f"## Do it\n{typed}\n\n- Lift off {{part lid}}.\n", plain=True).codes == []
    assert note(f"Do it {typed}\n---\n{typed}\n", plain=True).codes == []


@pytest.mark.parametrize("typed", ON_A_HEADING[:-1])
@pytest.mark.parametrize(
    "place", ["1. Lift it {}.", "Some text {}.", "> Text {}", "|a|\n|-|\n|{}|", "### Group {}"]
)
def test_heading_marks_elsewhere_are_reported(typed: str, place: str) -> None:
    read = note(f"## Do it\n\nText.\n\n{place.format(typed)}\n", plain=True)
    assert read.found() == [("N108", "", typed)]


def test_side_and_optional_may_stand_on_a_list_line() -> None:
    assert note("## Do\n\n- Turn over. {side back}\n- Lift {part lid}. {optional}\n", plain=True).codes == []
    assert note("## Do\n\nText.\n\nText {side back}.\n", plain=True).codes == ["N108"]


def test_a_declared_name_wins_over_a_heading_kind() -> None:
    assert note("## Do\n\n- Lift off {part side key}.\n\nText on {side key}.\n", plain=True).codes == []
    front = "---\nparts:\n  after burner: {class: other}\n---\n"
    assert note(f"{front}## Do\n\nText.\n\nOn {{After burner}}.\n", plain=True).codes == []


def test_marks_compare_by_value() -> None:
    assert one_mark("{part lid}") == one_mark("{part lid}")
    assert isinstance(one_mark("{part lid}"), Mark)
