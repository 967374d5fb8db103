"""The rule pages, run: each bad example raises just its code, each mended one is clean, every wording fits."""

from __future__ import annotations

import ast
import re
from collections.abc import Callable, Iterator, Mapping
from functools import cache
from pathlib import Path
from string import Template

import pytest

from guidec import compile as compiler
from guidec.messages import diagnose, text
from guidec.messages.diagnostic import Diagnostic
from guidec.rules.book import PAGES, codes, page
from guidec.rules.finding import Finding, Severity
from guidec.source import Source

REPOSITORY = Path(__file__).parent.parent
CODE = re.compile(r"[NMPTSIDB]\d{3}")

MISSING = "base.jpg"
"""The one picture that is not there when a page's examples are run: the page of N005 shows it."""

WITHOUT_A_NOTE = {
    "N001": "a file that is not there",
    "N002": "bytes that are not UTF-8, and a page is",
    "N004": "a file of many megabytes",
    "N007": "a folder in a picture's place",
    "N008": "a trouble of the output folder",
    "N009": "a system without Pango",
    "B110": "another note of the shelf",
    "B111": "what a shelf publishes",
    "B112": "a fault of the program or the machine",
    "B113": "a folder without notes",
    "B114": "a file that is not there",
    "B115": "a library that is not installed",
    "I105": "what is inside a picture, which a check does not open",
    "I106": "what is inside a picture, which a check does not open",
    "I107": "what is inside a picture, which a check does not open",
    **dict.fromkeys(("S110", "S111", "S112", "S113", "S114", "S115"), "a method's or a times table's file"),
    **dict.fromkeys(("S120", "S121", "S122"), "what is supposed in a call"),
}
"""Rules that no note can raise by its text alone; the tests of edge, cli, scoring and shelf raise them."""


PICTURE = re.compile(r"!\[[^\]]*\]\(<?([\w][\w ./-]*)")


def checked(note: str, folder: Path) -> tuple[Diagnostic, ...]:
    at = folder / "note.md"
    at.write_text(note, encoding="utf-8")
    for name in PICTURE.findall(note):
        if name != MISSING and ".." not in name:
            (folder / name).parent.mkdir(parents=True, exist_ok=True)
            (folder / name).write_bytes(b"a picture")
    bundle = compiler.load(at, "note.md")
    return diagnose(bundle.source, compiler.check(bundle).findings)


def scored(note: str, folder: Path) -> tuple[Diagnostic, ...]:
    """A note checked and assessed: rules of scoring are no part of a check."""
    from guidec.scoring import assess

    first = checked(note, folder)
    found = compiler.check(compiler.load(folder / "note.md", "note.md"))
    assert found.model is not None
    return (*first, *diagnose(found.bundle.source, assess(found.model.graph)[1]))


def settings(text: str, folder: Path) -> tuple[Diagnostic, ...]:
    """The examples of the rules for shelves are a shelf's settings."""
    from guidec.shelf.settings import read

    source = Source.of("shelf.yaml", text)
    return diagnose(source, read(source, "shelf")[1])


RUNNERS: Mapping[str, Callable[[str, Path], tuple[Diagnostic, ...]]] = {"S": scored, "B": settings}
"""How the examples of a family of rules are run, by the code's first letter, where it is not a check."""


def run(code: str, note: str, folder: Path) -> tuple[Diagnostic, ...]:
    return RUNNERS.get(code[0], checked)(note, folder)


def test_there_are_rules():
    assert len(codes()) > 10


@pytest.mark.parametrize("code", codes())
def test_the_bad_example_raises_just_its_code(code: str, tmp_path: Path):
    examples = page(code).examples("raises")
    assert bool(examples) != (code in WITHOUT_A_NOTE), "a page shows a note that raises its rule"
    for note in examples:
        found = run(code, note, tmp_path)
        assert code in {one.code for one in found}, f"the example does not raise {code}:\n{text(found)}"
        others = [one for one in found if one.code != code and one.severity is not Severity.INFO]
        assert not others, f"the example raises more than {code}:\n{text(others)}"


@pytest.mark.parametrize("code", codes())
def test_the_mended_example_is_clean(code: str, tmp_path: Path):
    examples = page(code).examples("mended")
    assert bool(examples) != (code in WITHOUT_A_NOTE), "a page shows the note mended"
    for note in examples:
        found = run(code, note, tmp_path)
        loud = [one for one in found if one.severity is not Severity.INFO or one.code == code]
        assert not loud, text(loud)


@pytest.mark.parametrize("code", [code for code in codes() if page(code).replaces])
def test_the_first_suggestion_put_in_place_mends_the_example(code: str, tmp_path: Path):
    for note in page(code).examples("raises"):
        first = next(one for one in run(code, note, tmp_path) if one.code == code)
        if not first.suggestions:
            continue
        span = first.here.span
        mended = note[: span.start] + first.suggestions[0] + note[span.end :]
        again = [one for one in run(code, mended, tmp_path) if one.code == code]
        assert len(again) < sum(one.code == code for one in run(code, note, tmp_path)), mended


@pytest.mark.parametrize("code", codes())
def test_a_page_is_written_to_the_house_style(code: str):
    rule = page(code)
    assert re.fullmatch(r"[a-z0-9-]+", rule.name)
    for variant, message in rule.messages.items():
        assert not message.endswith("."), "the first line ends without a full stop"
        assert message[0] in "`$'" or message[0].islower() or message[:2].isupper(), f"lower case: {message}"
        assert "\n" not in message, variant
    assert rule.helps or rule.severity is Severity.INFO, "a message says what to do"
    assert set(rule.helps) <= set(rule.messages), "each help belongs to a wording"
    sentences = re.findall(r"[.?!](?:\s|$|\)|:)", rule.prose)
    assert 2 <= len(sentences) <= 16, f"{len(sentences)} sentences"


# ---------------------------------------------------------------- codes in the source and pages


def sources() -> Iterator[tuple[Path, ast.Module]]:
    for path in sorted((REPOSITORY / "guidec").rglob("*.py")):
        yield path, ast.parse(path.read_text(encoding="utf-8"))


@cache
def used_codes() -> dict[str, str]:
    """Each code that the source names in a string, with a place."""
    found: dict[str, str] = {}
    for path, tree in sources():
        for node in ast.walk(tree):
            if isinstance(node, ast.Constant) and isinstance(node.value, str) and CODE.fullmatch(node.value):
                found.setdefault(node.value, f"{path.relative_to(REPOSITORY)}:{node.lineno}")
    return found


def test_every_code_used_has_a_page():
    assert {code: place for code, place in used_codes().items() if code not in codes()} == {}


def test_every_page_is_of_a_code_that_is_used():
    assert sorted(set(codes()) - set(used_codes())) == []


def test_no_two_pages_have_one_code():
    names = [path.name.split("-", 1)[0] for path in PAGES.glob("*.md")]
    assert len(names) == len(set(names))
    assert all(CODE.fullmatch(name) for name in names)


@cache
def raised() -> dict[str, list[ast.Call]]:
    """The calls `Finding.at("CODE", …)` by their code."""
    calls: dict[str, list[ast.Call]] = {}
    for _, tree in sources():
        for node in ast.walk(tree):
            if isinstance(node, ast.Call) and ast.unparse(node.func) == "Finding.at" and node.args:
                first = node.args[0]
                if isinstance(first, ast.Constant):
                    calls.setdefault(str(first.value), []).append(node)
    return calls


def facts_of(call: ast.Call) -> set[str] | None:
    """The facts that a call passes; None where it passes some that cannot be read here."""
    names = {keyword.arg for keyword in call.keywords}
    return None if None in names else {name for name in names if name}


def variant_of(call: ast.Call) -> str | None:
    """The variant that a call asks for; None where it cannot be read here."""
    for keyword in call.keywords:
        if keyword.arg == "variant":
            return str(keyword.value.value) if isinstance(keyword.value, ast.Constant) else None
    return ""


@pytest.mark.parametrize("code", codes())
def test_every_wording_can_be_filled_from_what_the_source_passes(code: str):
    rule = page(code)
    for call in raised().get(code, []):
        facts, variant = facts_of(call), variant_of(call)
        if facts is None or variant is None:
            continue
        assert variant in rule.messages, f"line {call.lineno}: no `message.{variant}` on the page"
        words = [
            rule.messages[variant],
            rule.helps.get(variant, rule.helps.get("", "")),
            rule.labels.get("here", ""),
        ]
        asked = {name for said in words for name in Template(str(said)).get_identifiers()}
        assert asked <= facts, f"line {call.lineno}: the page asks for {sorted(asked - facts)}"


def test_a_wording_with_a_hole_is_noticed(write_page: Callable[[str, str], None], tmp_path: Path):
    write_page("X100-x", "---\nseverity: error\nmessage: $a and $b\nhelp: h\nlabels: {}\n---\nWhy.\n")
    from guidec.rules.book import lacking, wording
    from guidec.source import Span

    finding = Finding.at("X100", Span(0, 1), labels={"there": Span(0, 1)}, variant="v", a=1)
    assert lacking(finding) == ("variant v", "label there")
    assert lacking(Finding.at("X100", Span(0, 1), a=1)) == ("fact b",)
    assert wording(Finding.at("X100", Span(0, 1), a=1)).message == "1 and $b"
