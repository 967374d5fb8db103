"""Turns and `{side …}` -> the side that is up for each operation and action.

A heading may name the side that its operation starts on; without that it is the one on which the operation above
ended, and another way starts where the one that it replaces does. A note that never names a side nor turns the
device has none.
"""

from __future__ import annotations

from collections.abc import Mapping, Sequence

from guidec.model.context import Context
from guidec.model.names import fold, rest_of
from guidec.model.types import Action, Family, Operation
from guidec.notes.syntax import Mark
from guidec.quick import replace
from guidec.rules.finding import Finding
from guidec.source import Span
from guidec.trade.likeness import nearest

__all__ = ["side_named", "with_sides"]


def side_named(mark: Mark, context: Context) -> str:
    """The side that a `{side …}` names, folded."""
    typed, start = rest_of(mark, context.source)
    side = fold(typed)
    at = start + len(typed) - len(typed.lstrip())
    context.sides.setdefault(side, []).append(Span(at, at + len(typed.strip())))
    return side


def with_sides(
    operations: Sequence[Operation], actions: Mapping[str, Action], context: Context
) -> tuple[tuple[Operation, ...], dict[str, Action]]:
    """The operations and actions with their sides filled in."""
    turned = any(action.family is Family.TURN for action in actions.values())
    _check_names(context)
    if context.lexicon is None or not (turned or any(operation.side_stated for operation in operations)):
        return tuple(operations), dict(actions)
    sided = dict(actions)
    done: dict[str, Operation] = {}
    up: str | None = context.lexicon.first_side
    for operation in operations:
        start = up
        if operation.instead_of is not None and operation.instead_of in done:
            start = done[operation.instead_of].side
        if operation.side_stated:
            start = operation.side
        end = _walk(operation, start, sided, context)
        done[operation.id] = replace(operation, side=start, ends_side=end)
        if operation.instead_of is None and not operation.refit_only:
            up = end
    return tuple(done.values()), sided


def _check_names(context: Context) -> None:
    """Report a side that is named once and spelled nearly like a usual one, or like another one."""
    usual = context.lexicon.sides if context.lexicon else {}
    for side, places in context.sides.items():
        others = [*usual, *(other for other in context.sides if other != side and other not in usual)]
        near = nearest(side, others) if side not in usual and len(places) == 1 else ()
        if near:
            context.report(Finding.at("M213", places[0], variant="near", side=side, near=near[0], suggest=near))


def _walk(operation: Operation, up: str | None, sided: dict[str, Action], context: Context) -> str | None:
    """Set the side of each action of an operation in turn; return the one at its end."""
    for own in operation.actions:
        action = sided[own]
        turn = action.turn
        if action.family is Family.TURN:
            turn = turn or _turned(action, up, context)
        sided[own] = replace(action, side=up, turn=turn)
        up = turn or up
    return up


def _turned(action: Action, up: str | None, context: Context) -> str | None:
    swapped = context.lexicon.sides.get(up) if context.lexicon and up else None
    if swapped is None:
        context.report(Finding.at("M213", action.span, side=up or "unknown"))
    return swapped
