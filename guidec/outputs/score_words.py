"""Pieces of an assessment -> sentences in a language: assumptions, unknowns, reasons, changes, times."""

from __future__ import annotations

from collections.abc import Iterable, Sequence
from fractions import Fraction
from typing import Any

from guidec.model import printed
from guidec.model.types import Guide
from guidec.outputs.words import Words
from guidec.quick import dataclass
from guidec.scoring.assess import Assessment
from guidec.scoring.assumed import Assumption
from guidec.scoring.change import Answer, Change, Edge, Gone, Grade, OfClass, Through
from guidec.scoring.index import Range, Unknown
from guidec.scoring.limits import Reason
from guidec.scoring.method import Method

__all__ = ["Speech", "change_text"]


@dataclass(frozen=True, slots=True)
class Speech:
    """Says things of one assessment in one language."""

    assessment: Assessment
    says: Words

    @property
    def guide(self) -> Guide:
        """The guide that is spoken of."""
        return self.assessment.guide

    def thing(self, own: str) -> str:
        """A thing's name as it prints."""
        found = self.guide.things.get(own)
        return printed.thing_text(found) if found else own

    def number(self, value: Fraction | float) -> str:
        """A number with at most four decimals."""
        return self.says.number(float(value), 4)

    def range(self, value: Range) -> str:
        """A number, or from where to where."""
        if value.known:
            return self.number(value.low)
        return self.says("score.range", low=self.number(value.low), high=self.number(value.high))

    def seconds(self, value: Fraction | float) -> str:
        """Minutes and seconds; nothing for none."""
        whole = round(float(value))
        return f"{whole // 60}:{whole % 60:02}" if whole else ""

    def word(self, group: str, name: str) -> str:
        """A word of the language for how a fastening comes through, a grade, a class of part."""
        return self.says.named(group, name) if name else self.says("score.unknown")

    def line(self, own: str) -> int:
        """The line of an action."""
        return self.guide.source.place(self.guide.actions[own].span.start).line

    def action(self, own: str) -> str:
        """An action's sentence and its line."""
        text = self.guide.actions[own].text.rstrip(".")
        return self.says("score.action", text=text, line=self.line(own))

    # ------------------------------------------------------------ sentences

    def assumption(self, one: Assumption) -> str:
        """One assumption."""
        return self._assumed([one])

    def assumptions(self, every: Iterable[Assumption]) -> list[str]:
        """All assumptions, those that take several things for the same said together."""
        alike: dict[tuple[str, str, str], list[Assumption]] = {}
        for one in every:
            alike.setdefault((one.why, one.word, str(one.text or "")), []).append(one)
        return [self._assumed(found) for found in alike.values()]

    def _assumed(self, alike: Sequence[Assumption]) -> str:
        first = alike[0]
        if first.text is not None:
            return first.text.said(self.says.language)
        groups = {"fastenings": "reuse", "tools": "grade", "class": "class"}
        word = self.word(groups[first.why], first.word) if first.why in groups else first.word
        names = "; ".join(self.thing(one.about) for one in alike if one.about)
        return self.says(f"score.assumed.{first.why}", name=names, word=word)

    def unknown(self, one: Unknown) -> str:
        """One unknown, and what knowing it could move."""
        facts: dict[str, Any] = {"answer": one.key, "name": self.thing(one.key), "part": self._row(one.about)}
        if one.why == "class":
            facts["name"] = self.says.named("class", one.key)
        why = self.says(f"score.unknown.{one.why}", **facts)
        key = "score.moves" if one.moves else "score.moves-nothing"
        if one.why == "answer":
            key = "score.answer-moves" if one.moves else "score.moves-nothing"
        moved = self.says.figures(f"{float(one.moves):.2f}")
        return f"{why}: {self.says(key, answer=one.key, moved=moved)}"

    def _row(self, own: str) -> str:
        method = self.assessment.method
        rows = method.parts if method else ()
        return next((row.name.said(self.says.language) for row in rows if row.id == own), own)

    def reason(self, one: Reason) -> str:
        """One reason of a line that a part passes or fails."""
        ok = {True: "yes", False: "no", None: "open"}[one.ok]
        if one.about == "heat":
            things = self.says.joined(self.says("score.line", line=self.line(own)) for own in one.things)
        else:
            things = self.says.joined(self.thing(own) for own in one.things)
        groups = {"fastenings": "reuse", "tools": "grade", "environment": "environment", "skill": "skill"}
        group = groups.get(one.about, "")
        found = self.says.joined(self.word(group, word) if group else word for word in one.found)
        text = self.says(f"score.reason.{one.about}.{ok}", things=things, found=found)
        return text + (self.says("score.assumed-mark") if one.assumed and one.ok is not None else "")

    def criterion(self, method: Method, own: str) -> str:
        """A criterion's name."""
        return next(one.name.said(self.says.language) for one in method.criteria if one.id == own)


def change_text(guide: Guide, change: Change) -> str:
    """A change as it is typed after `--what-if`."""
    if isinstance(change, Answer):
        value = ", ".join(change.value) if isinstance(change.value, list) else change.value
        value = {True: "yes", False: "no"}[value] if isinstance(value, bool) else value
        thing = guide.things.get(change.part or "")
        part = f"{thing.name}: " if thing else ""
        return f"{part}{change.key} = {value}"
    if isinstance(change, Edge):
        names = ", ".join(guide.things[own].name for own in change.things)
        return f"{guide.things[change.part].name}: not after {names}"
    name = guide.things[change.thing].name
    if isinstance(change, Through):
        return f"{name}: reuse = {change.reuse.value}"
    if isinstance(change, Grade):
        return f"{name}: grade = {change.grade}"
    if isinstance(change, OfClass):
        return f"{name}: class = {change.cls}"
    assert isinstance(change, Gone)
    return f"{name}: absent"
