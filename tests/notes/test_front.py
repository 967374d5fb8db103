"""Front matter: read with places, in YAML 1.2's plain words, within bounds, and checked in our words."""

from __future__ import annotations

import json
import re
from typing import Any

import pytest
import yaml
from hypothesis import given, settings
from hypothesis import strategies as st

from guidec.notes.syntax import Heading
from guidec.rules.book import wording
from guidec.source import Span
from tests.notes.reading import Read, inlines, note, words


def front(text: str) -> Read:
    return note(f"---\n{text}---\n\n# Lamp\n", plain=True)


def values(read: Read) -> Any:
    return read.document.front.plain()


# ---------------------------------------------------------------- where it begins and ends


def test_a_note_without_front_matter_has_an_empty_mapping() -> None:
    read = note("# Lamp\n")
    assert (values(read), read.codes) == ({}, [])


RULES = [
    "---\n\nText\n\n---\n\n# Lamp\n",
    "***\n\n# Lamp\n",
    "Text\n\n---\na: x\n---\n",
    "---\nJust words under a rule.\n\nMore.\n\n---\n\n# Lamp\n",
    "---\n# Lamp\n\nText.\n\n---\n",
    "---\n- a list\n---\n",
    "---\n# Lamp\n",
    "---\nNote: a lamp.\n\n# Lamp\n",
]


@pytest.mark.parametrize("text", RULES)
def test_a_rule_across_the_page_is_no_front_matter(text: str) -> None:
    read = note(text, plain=True)
    assert (values(read), read.codes) == ({}, [])


@pytest.mark.parametrize(
    "text", ["---\ntitle: x\n---\n# L", "---  \ntitle: x\n...\n# L", "\n\n---\ntitle: x\n---\n# L"]
)
def test_front_matter_stands_between_its_lines(text: str) -> None:
    read = note(text, plain=True)
    assert (values(read), read.codes) == ({"title": "x"}, [])
    assert [type(block) for block in read.document.blocks] == [Heading]


def test_an_empty_one_is_fine() -> None:
    assert front("").codes == []
    assert front("# only a comment\n").codes == []


def test_one_that_is_not_closed_ends_before_the_first_empty_line_or_heading() -> None:
    for rest in ("\n# Lamp\n\n{part lid}\n", "# Lamp\n\n{part lid}\n"):
        read = note(f"---\ntitle: x\nauthor: y\n{rest}", plain=True)
        assert read.found() == [("N010", "", "---")]
        assert values(read) == {"title": "x", "author": "y"}
        assert [words(inline)[-1] for inline in inlines(read.document.blocks)] == ["Lamp", "{part lid}"]


def test_a_rule_further_down_does_not_close_it() -> None:
    read = note("---\ntitle: x\n\n# Lamp\n\n1. Lift {part lid}: it is: loose.\n\n---\n\nEnd\n", plain=True)
    assert read.codes == ["N010"]
    assert values(read) == {"title": "x"}
    assert [words(inline)[0] for inline in inlines(read.document.blocks)] == ["Lamp", "Lift", "End"]


# ---------------------------------------------------------------- values and places


def test_plain_words_are_those_of_yaml_1_2() -> None:
    """YAML 1.2.2, section 10.3 (core schema): `no`, `on`, `1:30` and dates are text; `012` is twelve."""
    read = front(
        "scoring: {a: no, b: on, c: Yes, d: true, e: False, f: 1:30, g: 2026-03-01, h: 0.10, i: 012, j: 0o14,"
        " k: 0xC, l: 1_000, m: ~, n: , o: null, p: 1e3, q: '5', r: .5, s: !!str 7, t: 9:40}\n"
    )
    expected = {"a": "no", "b": "on", "c": "Yes", "d": True, "e": False, "f": "1:30", "g": "2026-03-01", "h": 0.1}
    expected |= {"i": 12, "j": 12, "k": 12, "l": "1_000", "m": None, "n": None, "o": None, "p": 1000.0, "q": "5"}
    expected |= {"r": 0.5, "s": "7", "t": "9:40"}
    found = values(read)["scoring"]
    assert found == expected
    assert [type(value) for value in found.values()] == [type(value) for value in expected.values()]
    typed = read.document.front.get("scoring")
    assert typed is not None
    assert typed.get("h").typed == "0.10"  # type: ignore[union-attr]


def test_language_no_is_norwegian() -> None:
    read = front("language: no\n")
    assert (values(read), read.codes) == ({"language": "no"}, [])


def test_keys_and_values_have_exact_places() -> None:
    read = front('title: "Füller 😀"\nsubject: {maker: Fernlicht, year: 2023}\npower: [battery, mains]\n')
    entries = read.document.front.value
    assert isinstance(entries, dict)
    slices = [
        (read.source.slice(entry.key_span), read.source.slice(entry.value.span)) for entry in entries.values()
    ]
    assert slices[0] == ("title", '"Füller 😀"')
    assert slices[1][0] == "subject"
    year = entries["subject"].value.value["year"]
    assert (read.source.slice(year.key_span), read.source.slice(year.value.span)) == ("year", "2023")
    assert [read.source.slice(item.span) for item in entries["power"].value.value] == ["battery", "mains"]


PLAIN = st.characters(exclude_categories=["Cc", "Cs", "Zl", "Zp"])
"""Text without line ends: YAML 1.1, which PyYAML writes, has more of them than 1.2."""
NUMBER_IN_1_2_ALONE = re.compile(r"[-+]?[0-9]+[eE][-+]?[0-9]+|0o[0-7]+|[-+]?0x[0-9a-fA-F]+")
"""Plain words that are numbers in the core schema of YAML 1.2.2 (section 10.3.2), and that PyYAML leaves bare."""
TEXT = st.text(PLAIN, max_size=8).filter(lambda text: not NUMBER_IN_1_2_ALONE.fullmatch(text))


def folded(pairs: list[tuple[str, Any]]) -> dict[str, Any]:
    return {" ".join(key.split()): value for key, value in pairs}


@settings(max_examples=200, deadline=None)
@given(
    st.recursive(
        st.one_of(st.integers(), st.booleans(), TEXT, st.none()),
        lambda inner: st.one_of(
            st.lists(inner, max_size=3), st.dictionaries(st.text("abcé😀", min_size=1), inner, max_size=3)
        ),
        max_leaves=8,
    )
)
def test_what_a_yaml_writer_writes_is_read_back(value: Any) -> None:
    """Against PyYAML's own writer."""
    typed = yaml.safe_dump({"scoring": {"a": value}}, allow_unicode=True, width=200)
    found = note(f"---\n{typed}---\n", plain=True).document.front.get("scoring")
    assert found is not None
    assert found.plain()["a"] == json.loads(json.dumps(value), object_pairs_hook=folded)


# ---------------------------------------------------------------- bounds and broken YAML


@pytest.mark.parametrize(
    ("text", "variant", "place"),
    [
        ("title: a: b\n", "second-colon", ":"),
        ("title: @x\n", "start", "@"),
        ("title: `x`\n", "start", "`"),
        ("title: %x\n", "start", "%"),
        ('title: "x\n', "quote", None),
        ("title: 'x\n", "quote", None),
        ("title: [a, b\n", "bracket", None),
        ("title: {a: b\n", "bracket", None),
        ("title: x\nnonsense\nauthor: y\n", "colon-missing", None),
        ("subject:\n\tmaker: x\n", "tab", "\t"),
        ("title: x\n  author: y\n", "second-colon", ":"),
        ('title: "a\\qb"\n', "escape", None),
        ("title: a\x07b\n", "control", "\x07"),
    ],
)
def test_broken_yaml_is_reported_in_our_words_where_it_breaks(text: str, variant: str, place: str | None) -> None:
    read = front(text)
    assert [(finding.code, finding.variant) for finding in read.findings] == [("N011", variant)]
    if place is not None:
        assert read.source.slice(read.findings[0].span) == place
    message = wording(read.findings[0])
    assert not any(word in message.message for word in ("token", "expected", "scanning", "mapping", "found"))
    assert message.help


def test_each_broken_key_is_reported_and_the_others_count() -> None:
    read = front("title: a: b\nauthor: Two\nlicence: 'x\npower: battery\ndate: @2\n")
    assert read.codes == ["N011", "N011", "N011"]
    assert values(read) == {"author": "Two", "power": "battery"}
    assert [words(inline) for inline in inlines(read.document.blocks)] == [["Lamp"]]


def test_a_key_that_stands_twice_shows_both_places_and_the_first_counts() -> None:
    read = front("title: a\nauthor: b\ntitle: c\nsubject: {maker: x, maker: y}\n")
    assert read.found() == [("N012", "", "title"), ("N012", "", "maker")]
    assert read.findings[0].labels[0].span == Span(4, 9)
    assert values(read)["title"] == "a"


@pytest.mark.parametrize(("text", "place"), [("[a,\n b]\n", "[a,\n b]")])
def test_front_matter_without_keys_is_reported(text: str, place: str) -> None:
    read = front(text)
    assert read.found() == [("N013", "", place)]
    assert values(read) == {}


def test_references_are_refused() -> None:
    read = front("title: &t x\nauthor: *t\n")
    assert [found for found in read.found() if found[0] == "N014"] == [("N014", "", "&t"), ("N014", "", "*t")]


def test_a_small_text_that_would_grow_without_bound_is_read_at_once() -> None:
    lines = ["a0: &a0 [x,x,x,x,x,x,x,x,x]"]
    lines += [f"a{k}: &a{k} [{','.join([f'*a{k - 1}'] * 9)}]" for k in range(1, 10)]
    read = front("scoring:\n" + "".join(f"  {line}\n" for line in lines))
    assert set(read.codes) == {"N014"}


def test_depth_length_and_number_are_bounded() -> None:
    assert front("scoring: {a: " + "[" * 200 + "]" * 200 + "}\n").found()[0][:2] == ("N015", "deep")
    assert front("scoring: " + "[" * 50_000 + "\n").codes[0] in ("N011", "N015")
    assert front("scoring: {a: [" + "1," * 60_000 + "[]]}\n").found()[0][:2] == ("N015", "")
    assert front("title: " + "x" * 600_000 + "\n").found()[0][:2] == ("N015", "long")


def test_tags_make_nothing() -> None:
    read = front("title: !!python/object/apply:os.system ['x']\n")
    assert read.codes == ["N021"]
    assert values(read)["title"] == ["x"]
