"""What came of a note, and what the shelf publishes -> whether it is, and what is said of it."""

from __future__ import annotations

from typing import Any

from guidec.messages.data import as_data
from guidec.messages.diagnostic import diagnose
from guidec.quick import dataclass
from guidec.rules.finding import Finding
from guidec.shelf.unit import Made
from guidec.source import Source, Span

__all__ = ["Judge", "Verdict"]

Row = dict[str, Any]


@dataclass(frozen=True, slots=True)
class Verdict:
    """What becomes of a note. `keep_old`: its older page stays; `ousts`: a note whose folder it takes.

    `wanted`: the folder it did not get.
    """

    outcome: str
    diagnostics: tuple[Row, ...]
    publish: bool = False
    keep_old: bool = False
    ousts: str | None = None
    wanted: str | None = None


@dataclass(frozen=True, slots=True)
class Judge:
    """The shelf's word on notes with errors (`keep-old`, `leave-out`, `publish`) and on drafts (`refuse`,
    `leave-out`)."""

    errors: str
    drafts: str

    def policy(self, outcome: str) -> str:
        """What an outcome was decided by: the same note is judged anew once that is another."""
        if outcome == "draft":
            return f"{self.errors}, {self.drafts}"
        return self.errors if outcome in ("errors", "unreadable", "failed") else ""

    def __call__(self, note: str, made: Made | str, holder: str | None) -> Verdict:
        """The verdict on one note. `holder`: the note that has its folder so far."""
        old = self.errors != "leave-out"
        if isinstance(made, str):
            return Verdict("failed", (_row(note, "B112", reason=made),), keep_old=old)
        if made.entry is None:
            return Verdict("unreadable", made.diagnostics, keep_old=old)
        if made.entry.draft:
            if self.drafts == "leave-out":
                return Verdict("draft", ())
            return Verdict("draft", (_row(note, "B111"), *made.diagnostics), keep_old=old)
        if made.entry.errors and self.errors != "publish":
            return Verdict("errors", made.diagnostics, keep_old=old)
        if holder is not None and holder < note:
            return self.clash(note, made.diagnostics, holder, made.entry.slug)
        return Verdict("errors" if made.entry.errors else "made", made.diagnostics, publish=True, ousts=holder)

    def clash(self, note: str, diagnostics: tuple[Row, ...], other: str, slug: str) -> Verdict:
        """The verdict on a note whose folder another has."""
        said = (_row(note, "B110", other=other, slug=slug), *diagnostics)
        return Verdict("clash", said, wanted=slug)


def _row(note: str, code: str, **facts: Any) -> Row:
    (one,) = diagnose(Source(note, ""), [Finding.at(code, Span(0, 0), **facts)])
    return as_data(one)
