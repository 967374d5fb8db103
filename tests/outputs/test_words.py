"""The words by language: every catalogue says all that the pages ask for, and numbers and dates read as they do
there. Plural categories: Unicode CLDR, `one` for the integer 1 and `other` else in English and German."""

from __future__ import annotations

import re
import string
from pathlib import Path

import pytest
import yaml

from guidec.model.types import Kind, Signal
from guidec.outputs.sections import ORDER
from guidec.outputs.words import FOLDER, languages, words
from guidec.trade.classes import part_classes

OUTPUTS = Path(__file__).parent.parent.parent / "guidec" / "outputs"
SCORED = (
    "reuse.",
    "environment.",
    "skill.",
    *(f"score.{name}." for name in ("col", "ends", "assumed", "unknown", "reason", "verdict")),
)
"""Groups of words of scoring whose keys are put together; `tests/scoring/test_words.py` asks for each."""
GRADES = ["basic", "with-part", "with-product", "group", "trade", "maker"]


def fields(entry: object) -> set[str | None]:
    """The facts an entry asks for, over its plural forms."""
    texts = [entry] if isinstance(entry, str) else list(entry.values())  # type: ignore[attr-defined]
    return {name for text in texts for _, name, _, _ in string.Formatter().parse(text) if name}


def test_there_is_a_second_language() -> None:
    assert set(languages()) >= {"en", "de"}


@pytest.mark.parametrize("language", languages())
def test_a_catalogue_has_the_keys_and_facts_of_the_english_one(language: str) -> None:
    own, english = words(language).entries, words("en").entries
    assert own.keys() == english.keys()
    assert {key: fields(own[key]) for key in own} == {key: fields(english[key]) for key in english}


@pytest.mark.parametrize("language", languages())
def test_a_plural_entry_has_all_forms_of_its_language(language: str) -> None:
    says = words(language)
    forms = {says.plural(count) for count in range(200)}
    assert all(set(entry) == forms for entry in says.entries.values() if not isinstance(entry, str))


@pytest.mark.parametrize("language", languages())
def test_no_key_stands_twice_in_a_catalogue(language: str) -> None:
    text = (FOLDER / f"{language}.yaml").read_text(encoding="utf-8")
    keys = re.findall(r"^  ([\w.-]+):", text, re.M)
    assert len(keys) == len(set(keys)) == len(words(language).entries)


@pytest.mark.parametrize("language", languages())
def test_all_entries_are_text_and_not_empty(language: str) -> None:
    """YAML reads a bare `no` or `on` as a truth value: such a word must be quoted."""
    entries = yaml.safe_load((FOLDER / f"{language}.yaml").read_text(encoding="utf-8"))["words"].values()
    texts = [form for entry in entries for form in (entry.values() if isinstance(entry, dict) else [entry])]
    assert texts
    assert all(isinstance(text, str) and text.strip() for text in texts)


def test_every_key_that_templates_and_code_ask_for_is_there() -> None:
    english = words("en").entries
    asked = set()
    for path in [*OUTPUTS.rglob("*.html"), *OUTPUTS.glob("*.py")]:
        asked |= set(re.findall(r"""\b(?:w|says|words)\(\s*"([\w.-]+)\"""", path.read_text(encoding="utf-8")))
    assert len(asked) > 40
    assert asked <= english.keys()


def test_every_kind_class_grade_signal_and_section_has_a_word() -> None:
    english = words("en").entries
    needed = {f"thing.{kind.value}" for kind in Kind} | {signal.value for signal in Signal}
    needed |= {f"class.{name}" for name in part_classes()} | {f"grade.{name}" for name in GRADES}
    needed |= {section.title for section in ORDER if section.title}
    assert needed <= english.keys()


def test_no_word_is_left_that_nothing_asks_for() -> None:
    sources = "\n".join(
        path.read_text(encoding="utf-8")
        for path in [*OUTPUTS.parent.rglob("*.html"), *OUTPUTS.parent.rglob("*.py")]
    )
    groups = (
        "thing.",
        "class.",
        "grade.",
        "side.",
        "power.",
        "state.",
        "count.",
        "how.",
        "how-short.",
        "by.",
        "connector.",
    )
    groups += tuple(SCORED)
    single = [key for key in words("en").entries if not key.startswith(groups)]
    unused = [key for key in single if not re.search(rf"(?<![\w-]){re.escape(key)}(?![\w-])", sources)]
    assert unused == []


def test_a_missing_word_is_an_error() -> None:
    with pytest.raises(KeyError):
        words("en")("no such word")
    with pytest.raises(KeyError):
        words("en")("strip")


def test_a_language_without_a_catalogue_is_served_in_english_and_says_so() -> None:
    assert words("pt-BR").language == "en"
    assert words("de-AT").language == "de"
    assert words("EN").language == "en"


@pytest.mark.parametrize(
    ("language", "iso", "shown"),
    [
        ("en", "2026-02-03", "3 February 2026"),
        ("de", "2026-03-01", "1. März 2026"),
        ("en", "summer 2026", "summer 2026"),
        ("en", "2026-13-01", "2026-13-01"),
    ],
)
def test_dates_read_in_the_order_of_the_language(language: str, iso: str, shown: str) -> None:
    assert words(language).date(iso) == shown


def test_numbers_carry_the_decimal_sign_of_the_language() -> None:
    assert words("en").number(11.3575) == "11.36"
    assert words("de").number(11.3575) == "11,36"
    assert words("en").number(3.0) == "3"
    assert words("en").number(100, 0) == "100"
    assert words("de").figures("0.15 N·m (1.5 kgf·cm)") == "0,15 N·m (1,5 kgf·cm)"
    assert words("de").figures("Schritt 2. Dann") == "Schritt 2. Dann"


def test_items_are_joined_in_the_language() -> None:
    assert words("en").joined(["a", "b", "c"]) == "a, b and c"
    assert words("de").joined(["a", "b"]) == "a und b"
    assert words("en").joined(["a"]) == "a"
    assert words("en").joined([]) == ""
