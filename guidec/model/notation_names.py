"""Names of screw sets -> those that read like details ("{screw 4x PH0 M2x6}")."""

from __future__ import annotations

from collections.abc import Iterator

from guidec.model.naming import Naming
from guidec.model.notation import read_notation
from guidec.rules.finding import Finding

__all__ = ["details_for_names"]


def details_for_names(naming: Naming) -> Iterator[Finding]:
    """A warning for each set without details whose name holds two of count, drive and thread."""
    letters = iter(one for one in "ABCDEFGHIJKLMNOPQRSTUVWXYZ" if one.casefold() not in naming.things)
    for folded, places in naming.things.items():
        here = next((said for said in places if said.kind), None)
        if here is None or here.kind != "screw" or any(said.details for said in places) or not _digit(folded):
            continue
        read = read_notation(here.name)
        if (read.count is not None) + bool(read.drives) + (read.thread is not None) >= 2:
            letter = next(letters, "A")
            suggest = f"{{screw {letter}: {here.name}}}"
            yield Finding.at("M123", here.name_span, suggest=(suggest,), name=here.name, letter=letter)


def _digit(text: str) -> bool:
    return any(char.isdigit() for char in text)
