"""A guide -> its colophon: whose it is, what the compiler added or proposed, which rules the note silences."""

from __future__ import annotations

from collections.abc import Iterator
from pathlib import PurePath

from guidec import __version__
from guidec.model.types import Guide
from guidec.outputs.words import words
from guidec.quick import dataclass
from guidec.rules.book import codes, page
from guidec.rules.finding import Severity

__all__ = ["Colophon", "colophon"]


@dataclass(frozen=True, slots=True)
class Colophon:
    """`said`: sentences. `quiet`: code, rule's name in words, and the reason for each silenced rule."""

    said: tuple[str, ...]
    quiet: tuple[tuple[str, str, str], ...]


def colophon(guide: Guide, *, added: int = 0) -> Colophon:
    """The colophon of a guide. `added`: how many cautions the compiler put in."""
    says, meta = words(guide.meta.language), guide.meta
    proposed = sum(
        bool(getattr(thing, "cls_proposed", False) or getattr(thing, "grade_proposed", False))
        for thing in guide.things.values()
    )
    said = [says("made-of", name=PurePath(guide.source.name).name, version=__version__)]
    nobody = says("not-stated")
    said += [says("colophon-author", author=meta.author or nobody, licence=meta.licence or nobody)]
    said += [says("colophon-added", count=added)] if added else []
    said += [says("colophon-proposed", count=proposed)] if proposed else []
    return Colophon(tuple(said), tuple(_silenced(guide)))


def _silenced(guide: Guide) -> Iterator[tuple[str, str, str]]:
    """The rules that the note silences, with its reasons; what silences nothing is left out."""
    for code, why in guide.meta.quiet.items():
        if code in codes() and page(code).severity is not Severity.ERROR:
            yield code, page(code).name.replace("-", " "), why
