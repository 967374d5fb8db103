"""One list line -> its actions, without what they need (see `guidec.model.needs`).

The clauses of the line become actions; what the line says besides (values, risks, refit notes, `{optional}`)
goes to the action in whose clause it stands, and what stands in further paragraphs of the line to the last one.
"""

from __future__ import annotations

from collections.abc import Iterable
from dataclasses import dataclass, replace

from guidec.model.asides import Asides, asides
from guidec.model.clauses import Clause, clauses
from guidec.model.context import Context
from guidec.model.names import fold, rest_of
from guidec.model.objects import Roles, roles
from guidec.model.printed import sentence
from guidec.model.remarks import check_loose, check_remark
from guidec.model.types import Action, Change, Effect, Family, Time, Use
from guidec.notes.syntax import Inline, Mark, Word
from guidec.source import Span

__all__ = ["LinePlace", "line_actions"]

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
    found = clauses(first.pieces, context.lexicon) if context.lexicon else ()
    if not found:
        check_remark(first, context)
        return ()
    optional = place.optional or any(mark.kind == "optional" for mark in first.marks)
    time = Time(first.time.start, first.time.end, first.time.span) if first.time else None
    parts = [roles(clause, context.lexicon, context.acted_on) for clause in found] if context.lexicon else []
    actions = [
        _action(clause, part, replace(place, number=place.number + at, optional=optional), time, context)
        for at, (clause, part) in enumerate(zip(found, parts, strict=True))
    ]
    extra = [mark for inline in more for mark in inline.marks]
    actions[-1] = _with_asides(actions[-1], asides(extra, context), extra, context)
    check_loose(tuple(zip(actions, parts, strict=True)), context)
    return tuple(actions)


def _action(clause: Clause, part: Roles, place: LinePlace, time: Time | None, context: Context) -> Action:
    family = Family(clause.sense.family)
    said = asides(clause.marks, context)
    verb = Word(context.source.slice(clause.verb_span), clause.verb_span)
    objects = [(taken.mark, context.declared.resolved[taken.mark.span]) for taken in part.objects]
    mentions = [mark for mark in (*part.governed, *part.loose) if mark.span in context.declared.resolved]
    context.shares.update({taken.mark.span: taken.share for taken in part.objects if taken.share is not None})
    action = Action(
        id=f"{place.operation}/{place.number}",
        operation=place.operation,
        span=clause.span,
        line_span=place.span,
        verb=clause.sense.verb,
        verb_span=clause.verb_span,
        family=family,
        text=sentence((verb, *clause.pieces), context.source, context.printed),
        objects=tuple(Use(thing, mark.span) for mark, thing in objects),
        mentions=_uses(mentions, context),
        tools=_of_kind(clause.marks, "tool", context),
        supplies=_of_kind(clause.marks, "supply", context),
        effects=_effects(family, part, said, clause, context),
        optional=place.optional,
        partly=said.partly,
        step=not place.optional and not _never_needed(family, clause, said),
        free=place.free,
        turn=_turned_to(family, clause, context),
        draft=any(mark.draft for mark in clause.marks),
        time=time,
    )
    return _with_asides(action, said, (), context)


def _turned_to(family: Family, clause: Clause, context: Context) -> str | None:
    """The side that a turn's `{side …}` says is up then."""
    side = next((mark for mark in clause.marks if mark.kind == "side"), None)
    return fold(rest_of(side, context.source)[0]) if side is not None and family is Family.TURN else None


def _with_asides(action: Action, said: Asides, extra: Iterable[Mark], context: Context) -> Action:
    """The action with what is said of it besides; `extra` are marks of further paragraphs of its line."""
    extra = tuple(extra)
    return replace(
        action,
        heats=action.heats + said.heats,
        waits=action.waits + said.waits,
        measures=action.measures + said.measures,
        torques=action.torques + said.torques,
        risks=action.risks + said.risks,
        refits=action.refits + said.refits,
        tools=action.tools + _of_kind(extra, "tool", context),
        supplies=action.supplies + _of_kind(extra, "supply", context),
        partly=action.partly or said.partly,
    )


def _never_needed(family: Family, clause: Clause, said: Asides) -> bool:
    """Looks and plain checks; a check with a measured value is needed."""
    return family is Family.LOOK or (family is Family.CHECK and not said.measures)


def _uses(marks: Iterable[Mark], context: Context) -> tuple[Use, ...]:
    return tuple(Use(context.declared.resolved[mark.span], mark.span) for mark in marks)


def _of_kind(marks: Iterable[Mark], kind: str, context: Context) -> tuple[Use, ...]:
    """The things of one kind that are named, each once."""
    found = {context.declared.resolved[mark.span]: mark for mark in marks if context.kind(mark) == kind}
    return tuple(Use(thing, mark.span) for thing, mark in found.items())


def _effects(family: Family, part: Roles, said: Asides, clause: Clause, context: Context) -> tuple[Effect, ...]:
    """What the action changes: decided by the object's kind."""
    marks = [taken.mark for taken in part.objects]
    if family is Family.SOFTEN:
        marks = [mark for mark in clause.marks if context.kind(mark) == "adhesive"]
    effects = []
    for mark in marks:
        change = _change(family, clause.sense.verb, context.kind(mark), partly=said.partly)
        if change is not None:
            effects.append(Effect(context.declared.resolved[mark.span], change, mark.span))
    return tuple(effects)


def _change(family: Family, verb: str, kind: str, *, partly: bool) -> Change | None:
    if family is Family.LOOK:
        return Change.EXPOSED if kind == "part" else None
    if family is Family.SOFTEN:
        return Change.UNDONE
    if family is Family.MOVE and verb == "open" and kind in ("connector", "clip"):
        return Change.OPEN if kind == "connector" else Change.UNDONE
    if family is Family.MOVE or (family is Family.UNDO and partly):
        return Change.MOVED if kind == "part" else None
    if family is not Family.UNDO:
        return None
    if kind in UNDONE:
        return Change.UNDONE
    return {"part": Change.OFF, "connector": Change.OPEN}.get(kind)
