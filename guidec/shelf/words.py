"""A language tag -> the furniture words of a shelf: those of a guide's page, and the shelf's own."""

from __future__ import annotations

from dataclasses import replace
from functools import cache
from pathlib import Path

import yaml

from guidec.outputs.words import Words
from guidec.outputs.words import words as furniture

__all__ = ["Words", "words"]

FOLDER = Path(__file__).parent / "words"


@cache
def words(language: str) -> Words:
    """The words for a language, English where the shelf has none in it."""
    said = furniture(language)
    path = FOLDER / f"{said.language}.yaml"
    if not path.is_file():
        return words("en")
    loader = getattr(yaml, "CSafeLoader", yaml.SafeLoader)
    own = yaml.load(path.read_text(encoding="utf-8"), Loader=loader)["words"]
    return replace(said, entries={**said.entries, **own})
