"""One list line -> its actions, without what they need (see `guidec.model.needs`).

The clauses of the line become actions; what the line says besides (values, risks, refit notes, `{optional}`)
goes to the action in whose clause it stands, and what stands in further paragraphs of the line to the last one.
"""

from __future__ import annotations

from collections.abc import Iterable

from guidec.model.asides import Asides, asides, is_optional
from guidec.model.bare import find_bare
from guidec.model.carried import carried, gone
from guidec.model.clauses import Clause, clauses
from guidec.model.context import Context
from guidec.model.last_objects import last_roles
from guidec.model.objects import Roles, roles
from guidec.model.printed import sentence
from guidec.model.remarks import check_loose, check_remark
from guidec.model.settled import settled
from guidec.model.sides import side_named
from guidec.model.types import Action, Adhesive, Change, Effect, Family, Thermal, Time, Use
from guidec.notes.syntax import Inline, Mark, Word
from guidec.quick import dataclass, replace
from guidec.source import Span
from guidec.trade.deeds import is_deed

__all__ = ["LinePlace", "line_actions"]

_FAMILIES = {str(family): family for family in Family}
UNDONE = frozenset(("screw", "clip", "adhesive", "thermal", "solder", "fastening"))


@dataclass(frozen=True, slots=True)
class LinePlace:
    """Where a line stands: its operation, the number its first action gets, its span, and how it is bound."""

    operation: str
    number: int
    span: Span
    free: bool
    optional: bool


def line_actions(first: Inline, more: Iterable[Inline], place: LinePlace, context: Context) -> tuple[Action, ...]:
    """The actions of a line: `first` is its text, `more` its further paragraphs."""
    first = settled(first, context)
    found = clauses(first.pieces, context.lexicon) if context.lexicon else ()
    if not found:
        check_remark(first, context)
        return ()
    optional = place.optional or is_optional(first)
    time = Time(first.time.start, first.time.end, first.time.span) if first.time else None
    parts: list[Roles] = []
    actions: list[Action] = []
    before = Roles((), (), ())
    for at, clause in enumerate(found):
        part = _roles(clause, context)
        if before.objects and not part.objects:
            part = carried(clause, part, before, gone(actions), context)
        before = part if part.objects else before
        find_bare(clause, part, place.span, context)
        parts.append(part)
        actions.append(_action(clause, part, place, at, optional, time, context))
    extra = tuple([mark for inline in more for mark in inline.marks])
    if extra:
        actions[-1] = _with_more(actions[-1], extra, context)
    if [part for part in parts if part.loose]:
        check_loose(tuple(zip(actions, parts, strict=True)), context)
    return tuple(actions)


def _roles(clause: Clause, context: Context) -> Roles:
    if context.lexicon is None:
        return Roles((), (), ())
    read = roles if clause.last is None else last_roles
    return read(clause, context.lexicon, context.acted_on)


def _action(
    clause: Clause, part: Roles, place: LinePlace, at: int, optional: bool, time: Time | None, context: Context
) -> Action:
    """The action of the clause that is number `at` of its line."""
    family = _FAMILIES[clause.sense.family]
    marks = clause.marks
    said = asides(marks, context)
    verb = Word(context.source.slice(clause.verb_span), clause.verb_span)
    at_verb = clause.last or 0
    resolved = context.declared.resolved
    for taken in part.objects:
        if taken.share is not None:
            context.shares[taken.mark.span] = taken.share
    return Action(
        id=f"{place.operation}/{place.number + at}",
        operation=place.operation,
        span=clause.span,
        line_span=place.span,
        verb=clause.sense.verb,
        verb_span=clause.verb_span,
        family=family,
        text=sentence((*clause.pieces[:at_verb], verb, *clause.pieces[at_verb:]), context.source, context.printed),
        objects=tuple([Use(resolved[taken.mark.span], taken.mark.span) for taken in part.objects]),
        mentions=tuple([Use(resolved[mark.span], mark.span) for mark in (*part.governed, *part.loose)]),
        tools=_of_kind(marks, "tool", context),
        supplies=_of_kind(marks, "supply", context),
        effects=_effects(family, part, said, marks, clause.sense.verb, context),
        heats=said.heats,
        waits=said.waits,
        measures=said.measures,
        torques=said.torques,
        risks=said.risks,
        refits=said.refits,
        optional=optional,
        partly=said.partly,
        step=not optional and not _never_needed(family, said),
        free=place.free,
        turn=_turned_to(marks, context) if family is Family.TURN else None,
        draft=True in [mark.draft for mark in marks],
        time=time,
    )


def _turned_to(marks: Iterable[Mark], context: Context) -> str | None:
    """The side that a turn's `{side …}` says is up then."""
    side = next((mark for mark in marks if mark.kind == "side"), None)
    return side_named(side, context) if side is not None else None


def _with_more(action: Action, marks: tuple[Mark, ...], context: Context) -> Action:
    """The action with what further paragraphs of its line say of it."""
    said = asides(marks, context)
    return replace(
        action,
        heats=action.heats + said.heats,
        waits=action.waits + said.waits,
        measures=action.measures + said.measures,
        torques=action.torques + said.torques,
        risks=action.risks + said.risks,
        refits=action.refits + said.refits,
        tools=action.tools + _of_kind(marks, "tool", context),
        supplies=action.supplies + _of_kind(marks, "supply", context),
        partly=action.partly or said.partly,
    )


def _never_needed(family: Family, said: Asides) -> bool:
    """Looks and plain checks; a check with a measured value is needed."""
    return family is Family.LOOK or (family is Family.CHECK and not said.measures)


def _of_kind(marks: Iterable[Mark], kind: str, context: Context) -> tuple[Use, ...]:
    """The things of one kind that are named, each once."""
    kinds, resolved = context.kinds, context.declared.resolved
    spans = [mark.span for mark in marks if kinds.get(mark.span) == kind]
    found = {resolved[span]: span for span in spans} if spans else {}
    return tuple([Use(thing, span) for thing, span in found.items()])


def _effects(
    family: Family, part: Roles, said: Asides, all_marks: Iterable[Mark], verb: str, context: Context
) -> tuple[Effect, ...]:
    """What the action changes: decided by the object's kind."""
    marks = [taken.mark for taken in part.objects]
    if family is Family.SOFTEN:
        marks = [mark for mark in all_marks if context.kind(mark) == "adhesive"]
    effects = []
    for mark in marks:
        done = Family.UNDO if family is Family.TREAT and _cleaned_off(mark, verb, context) else family
        change = _change(done, verb, context.kind(mark), context, partly=said.partly)
        if change is not None:
            effects.append(Effect(context.declared.resolved[mark.span], change, mark.span))
    return tuple(effects)


def _cleaned_off(mark: Mark, verb: str, context: Context) -> bool:
    """Whether cleaning takes a thing away: paste or glue that is made new."""
    thing = context.thing(mark)
    gone = isinstance(thing, Adhesive | Thermal) and thing.renew
    return gone and context.lexicon is not None and is_deed(verb, "clean_off", context.lexicon.language)


def _change(family: Family, verb: str, kind: str, context: Context, *, partly: bool) -> Change | None:
    if family is Family.LOOK:
        return Change.EXPOSED if kind == "part" else None
    if family is Family.SOFTEN:
        return Change.UNDONE
    if family is Family.MOVE and kind != "part" and context.lexicon and verb.split()[0] in context.lexicon.opening:
        family = Family.UNDO
    if family is Family.MOVE or (family is Family.UNDO and partly):
        return Change.MOVED if kind == "part" else None
    if family is not Family.UNDO:
        return None
    if kind in UNDONE:
        return Change.UNDONE
    return {"part": Change.OFF, "connector": Change.OPEN}.get(kind)
