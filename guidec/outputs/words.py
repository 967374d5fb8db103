"""A language tag -> the furniture words of a page: labels, plural forms, number and date formats.

The catalogues are `guidec/trade/data/words/LANGUAGE.yaml`. A language without one is served in English, and
`Words.language` says so.
"""

from __future__ import annotations

import re
from collections.abc import Callable, Iterable, Mapping
from functools import cache
from pathlib import Path
from typing import Any

import yaml

from guidec.quick import dataclass

__all__ = ["Words", "languages", "words"]

FOLDER = Path(__file__).parent.parent / "trade" / "data" / "words"
_ISO_DATE = re.compile(r"(\d{4})-(\d{2})-(\d{2})")
_POINT = re.compile(r"(?<=\d)\.(?=\d)")

# The forms of a plural rule, after the categories of Unicode's CLDR; a catalogue names its rule.
_PLURALS: Mapping[str, Callable[[int], str]] = {"one-other": lambda count: "one" if count == 1 else "other"}


@dataclass(frozen=True, slots=True)
class Words:
    """The words of one language. Call it with a key and the facts that the entry asks for."""

    language: str
    entries: Mapping[str, str | Mapping[str, str]]
    plural: Callable[[int], str]
    decimal: str
    date_pattern: str
    months: tuple[str, ...]
    between: str
    last: str

    def __call__(self, key: str, **facts: Any) -> str:
        """The words of a key. Raises KeyError for a key, a plural form or a fact that is missing."""
        entry = self.entries[key]
        if not isinstance(entry, str):
            entry = entry[self.plural(facts["count"])]
        return entry.format(**facts) if facts or "{" in entry else entry

    def named(self, group: str, name: str) -> str:
        """The word for one of a group (`side`, `front`), or the name itself where the group has none."""
        key = f"{group}.{name}"
        return self(key) if key in self.entries else name

    def figures(self, text: str) -> str:
        """A text with decimal points -> with this language's decimal sign."""
        return text if self.decimal == "." else _POINT.sub(self.decimal, text)

    def number(self, value: float, places: int = 2) -> str:
        """A number without needless noughts, at most `places` decimals."""
        text = f"{value:.{places}f}"
        return self.figures(text.rstrip("0").rstrip(".") if "." in text else text)

    def date(self, iso: str) -> str:
        """An ISO 8601 day in this language's order; anything else as it is."""
        found = _ISO_DATE.fullmatch(iso)
        if not found or not 1 <= int(found[2]) <= 12:
            return iso
        month = self.months[int(found[2]) - 1]
        return self.date_pattern.format(year=found[1], month=month, day=int(found[3]))

    def joined(self, items: Iterable[str]) -> str:
        """`a, b and c`."""
        *head, tail = [*items] or [""]
        return self.between.join(head) + self.last + tail if head else tail


def languages() -> tuple[str, ...]:
    """The languages that have a catalogue."""
    return tuple(sorted(path.stem for path in FOLDER.glob("*.yaml")))


@cache
def words(language: str) -> Words:
    """The words for a BCP 47 tag: its own catalogue, that of its primary language, or English."""
    tag = language.lower()
    for name in (tag, tag.split("-")[0], "en"):
        if name in languages():
            return _load(name)
    raise FileNotFoundError(FOLDER / "en.yaml")


@cache
def _load(name: str) -> Words:
    loader = getattr(yaml, "CSafeLoader", yaml.SafeLoader)
    data = yaml.load((FOLDER / f"{name}.yaml").read_text(encoding="utf-8"), Loader=loader)
    return Words(
        language=data["language"],
        entries=data["words"],
        plural=_PLURALS[data["plural"]],
        decimal=data["decimal"],
        date_pattern=data["date"],
        months=tuple(data["months"]),
        between=data["list"]["between"],
        last=data["list"]["last"],
    )
