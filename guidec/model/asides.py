"""The marks that say more about an action -> values, risks, refit notes."""

from __future__ import annotations

from collections.abc import Iterable

from guidec.model.context import Context
from guidec.model.types import Heat, Measure, Quantity, Ref, RefitNote, Risk, Use, Wait
from guidec.notes.kinds import ABOUT, VALUES
from guidec.notes.syntax import Inline, Mark
from guidec.quick import dataclass
from guidec.rules.finding import Finding

__all__ = ["Asides", "asides", "check_homeless", "is_optional"]


@dataclass(frozen=True, slots=True)
class Asides:
    """What the marks of one clause say besides its sentence."""

    heats: tuple[Heat, ...]
    waits: tuple[Wait, ...]
    measures: tuple[Measure, ...]
    torques: tuple[Quantity, ...]
    risks: tuple[Risk, ...]
    refits: tuple[RefitNote, ...]
    partly: bool


_NOTHING = Asides((), (), (), (), (), (), partly=False)
_SAID = frozenset((*ABOUT, *VALUES))


def asides(marks: Iterable[Mark], context: Context) -> Asides:
    """Sort the asides among `marks`. A value that could not be read was reported before and is left out."""
    marks = [mark for mark in marks if mark.kind in _SAID]
    if not marks:
        return _NOTHING
    values = [context.values[mark.span] for mark in marks if mark.span in context.values]
    return Asides(
        heats=tuple(value for value in values if isinstance(value, Heat)),
        waits=tuple(value for value in values if isinstance(value, Wait)),
        measures=tuple(value for value in values if isinstance(value, Measure)),
        torques=tuple(value for value in values if isinstance(value, Quantity)),
        risks=tuple(_risk(mark, context) for mark in marks if mark.kind == "risk"),
        refits=tuple(_refit(mark, context) for mark in marks if mark.kind == "refit"),
        partly=any(mark.kind == "partly" for mark in marks),
    )


def is_optional(inline: Inline) -> bool:
    """Whether a line says that it need not be done."""
    return "optional" in [mark.kind for mark in inline.marks]


def check_homeless(marks: Iterable[Mark], context: Context) -> None:
    """Report values and the like that stand where there is no action to say more about."""
    for mark in marks:
        if mark.kind in VALUES or mark.kind in ABOUT:
            variant = "torque" if mark.kind == "torque" else ""
            context.report(Finding.at("M206", mark.span, variant=variant, mark=mark.text, kind=mark.kind))


def _inner_text(mark: Mark, start: int, context: Context) -> str:
    """The text of a mark from `start` on, with the marks inside it as they print."""
    end = mark.span.end - (1 if mark.text.endswith("}") else 0)
    out, at = [], start
    for inner in mark.inner:
        if inner.span.start >= start:
            out += [context.source.text[at : inner.span.start], context.printed.get(inner.span, inner.text)]
            at = inner.span.end
    out.append(context.source.text[at:end])
    return " ".join("".join(out).replace("\\", "").split())


def _risk(mark: Mark, context: Context) -> Risk:
    """`{risk THING: TEXT}`; without a thing, all of it is the text."""
    if mark.details or not mark.name_span.end:
        thing = context.declared.resolved.get(mark.span)
        inner = next((context.declared.resolved.get(one.span) for one in mark.inner), None)
        name = mark.name.strip("{} ")
        known = thing or context.declared.find(name) or inner
        start = mark.details_span.start
        return Risk(mark.span, Ref(name, mark.name_span, known), _inner_text(mark, start, context))
    return Risk(mark.span, None, _inner_text(mark, mark.name_span.start, context))


def _refit(mark: Mark, context: Context) -> RefitNote:
    uses = tuple(
        Use(context.declared.resolved[inner.span], inner.span)
        for inner in mark.inner
        if inner.span in context.declared.resolved
    )
    torque = next(
        (value for inner in mark.inner if isinstance(value := context.values.get(inner.span), Quantity)), None
    )
    return RefitNote(mark.span, _inner_text(mark, mark.name_span.start, context), uses, torque)
