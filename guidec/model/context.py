"""What every module that reads operations needs at hand: the source, the things, the words, how marks print."""

from __future__ import annotations

from collections.abc import Mapping
from dataclasses import field
from difflib import get_close_matches

from guidec.model.objects import Bare, Share
from guidec.model.things import Declared
from guidec.model.types import Heat, Measure, Quantity, Ref, Thing, Wait
from guidec.notes.kinds import THINGS
from guidec.notes.syntax import Mark
from guidec.quick import dataclass
from guidec.rules.finding import Finding
from guidec.source import Source, Span
from guidec.trade.lexicon import Lexicon

__all__ = ["Context"]

_ACTED_ON = frozenset(THINGS) - {"tool", "supply"}


@dataclass(frozen=True, slots=True)
class Context:
    """`values`: the span of every value mark -> what it says. `kinds`: the span of every mark that names a thing
    -> the thing's kind. `refits`: the spans in which nothing comes apart.

    What grows while the note is read: `findings`, `shares`, the span of an object -> the share taken of it,
    `doubted`, the marks of lines that were said to be read otherwise than they may be meant, `sides`, where each
    side is named, `titles`, how an operation's folded title or id reads in its heading, and `bare`, what stands
    without braces where something is undone.
    """

    source: Source
    declared: Declared
    lexicon: Lexicon | None
    printed: Mapping[Span, str]
    values: Mapping[Span, Heat | Wait | Measure | Quantity]
    kinds: Mapping[Span, str]
    refits: tuple[Span, ...] = ()
    shares: dict[Span, Share] = field(default_factory=dict)
    doubted: set[Span] = field(default_factory=set)
    sides: dict[str, list[Span]] = field(default_factory=dict)
    titles: dict[str, str] = field(default_factory=dict)
    bare: list[Bare] = field(default_factory=list)
    findings: list[Finding] = field(default_factory=list)

    def thing(self, mark: Mark) -> Thing | None:
        """The thing a mark names, if it names one."""
        found = self.declared.resolved.get(mark.span)
        return self.declared.things[found] if found is not None else None

    def kind(self, mark: Mark) -> str:
        """The kind of thing a mark names; nothing where it names none."""
        return self.kinds.get(mark.span, "")

    def acted_on(self, mark: Mark) -> bool:
        """Whether a mark names a thing that an action can act on: not a tool, not a supply."""
        return self.kinds.get(mark.span) in _ACTED_ON

    def ref(self, name: str, span: Span) -> Ref:
        """A reference by name, resolved where it can be."""
        return Ref(name, span, self.declared.find(name))

    def nearest(self, name: str, by_title: Mapping[str, str], *, things: bool = True) -> tuple[str, ...]:
        """Up to four names of things and operations that a misspelt one may stand for, nearest first."""
        folded = " ".join(name.casefold().split()).removeprefix("operation ")
        known = [self.declared.things[one].name for one in self.declared.things] if things else []
        near = get_close_matches(folded, [*known, *by_title], n=8, cutoff=0.6)
        return tuple(dict.fromkeys(one if one in known else self.titles.get(one, one) for one in near))[:4]

    def report(self, finding: Finding) -> None:
        """Add a finding."""
        self.findings.append(finding)
