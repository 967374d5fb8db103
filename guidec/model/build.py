"""A located document -> the guide: things, operations, actions, and what each action needs."""

from __future__ import annotations

from collections.abc import Mapping, Sequence

from guidec.model.bare import check_bare
from guidec.model.between import Between
from guidec.model.content import read_intro
from guidec.model.context import Context
from guidec.model.echoes import without_echoes
from guidec.model.facts import Facts, suppose
from guidec.model.families import families
from guidec.model.handling import used_tools, with_drivers
from guidec.model.isolation import isolation
from guidec.model.keyless import keys_of_none
from guidec.model.language import language_of
from guidec.model.meta import meta, names
from guidec.model.names import fold, titles
from guidec.model.operations import read_operations
from guidec.model.order import order
from guidec.model.printed import printed_marks, text
from guidec.model.producers import Producers
from guidec.model.said import marks_in
from guidec.model.sections import Section, sections
from guidec.model.shares import check_counts, with_counts
from guidec.model.sides import with_sides
from guidec.model.things import Declared, declare
from guidec.model.timing import check_times
from guidec.model.types import Action, Guide, Hazard, Need, Operation, Reason, Ref
from guidec.notes.syntax import Document
from guidec.quick import dataclass, replace
from guidec.rules.finding import Finding
from guidec.source import Span
from guidec.trade.lexicon import lexicon, lexicon_languages

__all__ = ["build"]


@dataclass(frozen=True, slots=True)
class _Bound:
    """Operations and actions with their needs, and what makes the device dead."""

    operations: tuple[Operation, ...]
    actions: dict[str, Action]
    isolating: tuple[str, ...]


def build(document: Document) -> tuple[Guide, tuple[Finding, ...]]:
    """The guide of a note, and all that is wrong with it. Never raises for what a note says."""
    declared, findings = declare(document)
    parts, more = sections(document, declared.resolved)
    context, wrong = _context(document, declared, parts.operations)
    intro = read_intro(parts.intro, context)
    read = read_operations(parts.operations, context)
    operations, ways, circles = families(read.operations)
    actions: Mapping[str, Action] = with_drivers(read.actions, declared)
    actions = with_counts(operations, actions, ways, context)
    operations, actions = with_sides(operations, actions, context)
    producers = Producers(operations, actions, ways)
    isolate = _isolate(document, operations, context)
    bound = _bind(operations, actions, producers, isolate, context)
    check_bare(bound.actions, context)
    check_counts(bound.actions, producers, context)
    title = parts.title.inline.pieces if parts.title else ()
    heading = text(title, document.source, context.printed)
    guide = Guide(
        source=document.source,
        meta=meta(document, heading, isolate),
        things=used_tools(declared.things, bound.actions),
        operations=bound.operations,
        actions=bound.actions,
        hazards=tuple(one for one in intro if isinstance(one, Hazard)),
        intro=intro,
        resolved=declared.resolved,
        printed=context.printed,
        isolating=bound.isolating,
        doubted=tuple(sorted({declared.resolved[one] for one in context.doubted if one in declared.resolved})),
    )
    keyed = keys_of_none(marks_in(document.inlines))
    every = (*findings, *more, *wrong, *circles, *keyed, *context.findings, *check_times(guide))
    found = without_echoes(every, _told_names(guide))
    return guide, tuple(sorted(found, key=lambda one: one.span))


def _told_names(guide: Guide) -> frozenset[str]:
    """The names of the things in doubted lines; none where those doubts are silenced."""
    silenced = not guide.meta.quiet.keys().isdisjoint(("M201", "M202"))
    return frozenset([guide.things[own].name for own in guide.doubted if own in guide.things and not silenced])


def _no_lexicon(tag: str, place: Span) -> Finding:
    known = " and ".join(f"`{one}`" for one in lexicon_languages())
    return Finding.at("M209", place, language=tag, known=known)


def _context(
    document: Document, declared: Declared, parts: Sequence[Section]
) -> tuple[Context, tuple[Finding, ...]]:
    language = document.front.get("language")
    tag = language_of(document.front)
    words = lexicon(tag)
    findings = [_no_lexicon(tag, language.span)] if words is None and language is not None else []
    printed = printed_marks(document.inlines, declared, words)
    kinds = {span: declared.things[own].kind.value for span, own in declared.resolved.items()}
    refits = [mark.span for mark in marks_in(document.inlines) if mark.kind == "refit"]
    refits += [part.span for part in parts if any(mark.kind == "refit only" for mark in part.marks)]
    return Context(document.source, declared, words, printed, declared.values, kinds, tuple(refits)), tuple(
        findings
    )


def _isolate(document: Document, operations: Sequence[Operation], context: Context) -> tuple[Ref, ...]:
    """What the front matter says makes the device dead: things, or operations by title."""
    by_title = titles(operations)
    refs = []
    for name, span in names(document.front.get("isolate")):
        folded = fold(name)
        said = folded.removeprefix("operation ")
        thing = None if folded.startswith("operation ") and said in by_title else context.declared.find(name)
        known = thing or by_title.get(said)
        if known is None:
            context.report(Finding.at("M305", span, name=name, suggest=context.nearest(name, by_title)))
        refs.append(Ref(name, span, known, operation=thing is None and known is not None))
    return tuple(refs)


def _bind(
    operations: Sequence[Operation],
    actions: Mapping[str, Action],
    producers: Producers,
    isolate: Sequence[Ref],
    context: Context,
) -> _Bound:
    """Give every action what it needs: within its operation, between operations, by facts, for isolation."""
    orders = {operation.id: order(operation.content, actions) for operation in operations}
    between = Between(operations, {own: found.ends for own, found in orders.items()}, producers, context)
    dead = isolation(isolate, operations, _steps(operations, actions), producers, context)
    done = [actions[one] for found in orders.values() for one in found.needs]
    facts = Facts(done, producers, context)
    bound: dict[str, Action] = {}
    finished: list[Operation] = []
    for operation in operations:
        own = [actions[one] for one in operation.actions]
        supposed = suppose([actions[one] for one in orders[operation.id].needs], facts, context)
        finished.append(replace(operation, supposed=tuple(one for one, _ in supposed)))
        loose = {
            (one.action, by.id): Need(Reason.SUPPOSED, ((by.id,),), by.span, one.fastening) for one, by in supposed
        }
        base = (*between.needs(operation), *dead.needs[operation.id])
        within = orders[operation.id].needs
        for action in own:
            supposedly = [need for (holder, by), need in loose.items() if holder == action.id != by]
            needs = (*(within.get(action.id) or base), *facts.needs(action), *supposedly)
            bound[action.id] = replace(action, needs=needs)
    return _Bound(tuple(finished), bound, dead.actions)


def _steps(operations: Sequence[Operation], actions: Mapping[str, Action]) -> dict[str, tuple[str, ...]]:
    """The needed actions of each operation."""
    return {operation.id: tuple(one for one in operation.actions if actions[one].step) for operation in operations}
