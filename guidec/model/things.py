"""A document -> the things it declares, what each mark names, and the values its marks give."""

from __future__ import annotations

from collections.abc import Iterable, Mapping

from guidec.model.circles import circular
from guidec.model.drivers import add_drivers, driver_of
from guidec.model.language import language_of
from guidec.model.makers import Common, make
from guidec.model.merge import merge
from guidec.model.naming import Naming, name_things
from guidec.model.near_misses import lists_for_names, near_misses
from guidec.model.notation_names import details_for_names
from guidec.model.references import Names
from guidec.model.said import Said, front_rows, marks_in
from guidec.model.strays import broken_names, stray
from guidec.model.types import Heat, Kind, Measure, Quantity, Ref, Thing, Wait
from guidec.model.values import read_value
from guidec.notes.kinds import VALUES
from guidec.notes.syntax import Document, Mark
from guidec.quick import dataclass
from guidec.rules.finding import Finding
from guidec.source import Span

__all__ = ["Declared", "declare", "driver_of"]


@dataclass(frozen=True)
class Declared:
    """The things of a note.

    `things`: by id, in order of first appearance, the drivers that follow from drives last. `names`: folded name
    -> id. `resolved`: the span of every mark that names a thing -> its id, those inside other marks too; a mark in
    it names that thing whatever its kind word says (`{side key}` where a side key is declared). `values`: the span
    of every value mark that could be read. `drivers`: a screw set's id -> the tool that turns it.
    """

    things: Mapping[str, Thing]
    names: Mapping[str, str]
    resolved: Mapping[Span, str]
    values: Mapping[Span, Heat | Wait | Measure | Quantity]
    drivers: Mapping[str, str]
    known: Names

    def find(self, name: str) -> str | None:
        """The id of the thing of a name, case and white space folded, or None."""
        return self.known.find(name)

    def nearest(self, name: str, n: int = 4) -> tuple[str, ...]:
        """Up to `n` declared names that were most likely meant, nearest first."""
        return self.known.nearest(name, n)

    def excused(self, name: str) -> bool:
        """Whether a name that is not declared needs no message: the wall, or a mark that was reported before."""
        return self.known.excused(name)

    def driver(self, screws: Thing) -> str | None:
        """The id of the tool that turns a screw set, or None where nothing says what drive it has."""
        return self.drivers.get(screws.id)

    def ref(self, name: str, span: Span) -> Ref:
        """A reference by name, resolved where it can be."""
        return Ref(name, span, self.find(name))


def declare(document: Document) -> tuple[Declared, tuple[Finding, ...]]:
    """Gather what a note says of its things. The findings are in the order of their places."""
    marks = marks_in(document.inlines)
    naming = name_things(front_rows(document), marks)
    firsts = {folded: _declaration(places) for folded, places in naming.things.items()}
    spelled = {folded: " ".join(first.name.split()) for folded, first in firsts.items()}
    kinds = {folded: first.kind for folded, first in firsts.items()}
    names = Names(naming.ids, spelled, kinds, broken_names(naming.strays))
    findings: list[Finding] = []
    things = _things(naming, names, firsts, language_of(document.front), findings)
    resolved = _resolved(naming, kinds)
    findings += [finding for mark in naming.strays for finding in stray(mark, names)]
    findings += near_misses(naming)
    findings += lists_for_names(naming)
    findings += details_for_names(naming)
    findings += _risks(marks, resolved, names)
    values = _values(marks, resolved, findings)
    findings += [Finding.at("D101", mark.span, mark=mark.text) for mark in marks if mark.draft]
    findings += circular(things)
    drivers = add_drivers(things, language_of(document.front))
    declared = Declared(things, naming.ids, resolved, values, drivers, names)
    return declared, tuple(sorted(findings, key=lambda finding: finding.span))


def _declaration(places: list[Said]) -> Said:
    """The place that declares a thing: the first with a kind."""
    for said in places:
        if said.kind:
            return said
    return places[0]


def _things(
    naming: Naming, names: Names, firsts: Mapping[str, Said], language: str, findings: list[Finding]
) -> dict[str, Thing]:
    things: dict[str, Thing] = {}
    for folded, places in naming.things.items():
        first = firsts[folded]
        kind = first.kind
        agreeing = [said for said in places if not said.kind or said.kind == kind]
        if len(agreeing) < len(places):
            findings += [_two_kinds(first, said) for said in places if said.kind not in ("", kind)]
        name = names.spelled[folded]
        facts, faults = merge(name, kind, agreeing, names.refs)
        findings += faults
        common = Common(
            id=naming.ids[folded],
            name=name,
            span=first.span,
            places=tuple([said.span for said in places]),
            draft=False not in [said.draft for said in agreeing if said.kind],
            language=language,
        )
        things[common.id] = make(Kind(kind), common, facts)
    return things


def _two_kinds(first: Said, said: Said) -> Finding:
    labels = {"first": _head(first)}
    return Finding.at("M104", _head(said), labels=labels, name=said.name, kind=said.kind, first_kind=first.kind)


def _head(said: Said) -> Span:
    """Kind and name of a mark; the name in the front matter."""
    return said.mark.kind_span.to(said.name_span) if said.mark else said.name_span


def _resolved(naming: Naming, kinds: Mapping[str, str]) -> dict[Span, str]:
    """Mark -> thing. A mark of another kind than its name was declared with stays unknown: that is said."""
    return {
        said.span: naming.ids[folded]
        for folded, places in naming.things.items()
        for said in places
        if said.mark is not None and (not said.kind or said.kind == kinds[folded])
    }


def _values(
    marks: Iterable[Mark], resolved: Mapping[Span, str], findings: list[Finding]
) -> dict[Span, Heat | Wait | Measure | Quantity]:
    values: dict[Span, Heat | Wait | Measure | Quantity] = {}
    for mark in marks:
        if mark.kind in VALUES and mark.span not in resolved:
            value, faults = read_value(mark)
            findings += faults
            if value is not None:
                values[mark.span] = value
    return values


def _risks(marks: Iterable[Mark], resolved: Mapping[Span, str], names: Names) -> Iterable[Finding]:
    """`{risk THING: TEXT}` whose thing nobody declares."""
    for mark in marks:
        named = mark.kind == "risk" and mark.details and mark.name and not mark.inner and mark.span not in resolved
        if named and names.find(mark.name) is None and not names.excused(mark.name):
            near = names.nearest(mark.name)
            yield Finding.at("M113", mark.name_span, variant="risk", suggest=near, name=mark.name)
