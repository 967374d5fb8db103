"""The lists of one operation -> what each action needs within it, and what stands at its end.

In a numbered list an action waits for the last one above it that anything waits for; in a list with bullets, for
what stood above the list. Later lists wait for earlier ones, and a line for the list inside it ("Within an
operation" in `docs/language.md`).
"""

from __future__ import annotations

from collections.abc import Iterable, Mapping, Sequence
from dataclasses import field

from guidec.model.asides import is_optional
from guidec.model.types import Action, Content, Family, Hazard, Line, Lines, Need, Prose, Reason, Shown
from guidec.notes.syntax import Quote
from guidec.quick import dataclass

__all__ = ["Order", "order"]

Ids = tuple[str, ...]


@dataclass(slots=True)
class Order:
    """`needs`: action id -> its needs within the operation; an action without any needs what the operation
    does. Its keys are in the order in which the actions are done: what is nested in a line before the line.
    `ends`: the needed actions that no other needed one of the operation comes after."""

    needs: dict[str, tuple[Need, ...]] = field(default_factory=dict)
    ends: Ids = ()


def order(content: Sequence[Content], actions: Mapping[str, Action]) -> Order:
    """The order within one operation."""
    found = Order()
    found.ends = _body(content, (), actions, found)
    return found


def never_needed(action: Action) -> bool:
    """Looks and plain checks; a check with a measured value counts."""
    return action.family is Family.LOOK or (action.family is Family.CHECK and not action.measures)


def _needs(producers: Ids, reason: Reason, actions: Mapping[str, Action]) -> tuple[Need, ...]:
    return tuple([Need(reason, ((one,),), actions[one].span) for one in producers])


def _body(content: Sequence[Content], base: tuple[Need, ...], actions: Mapping[str, Action], found: Order) -> Ids:
    """Order the lists of an operation or a line one after another; return the last one's ends."""
    ends: Ids = ()
    for group in _groups(content):
        last = (_numbered if group[0].ordered else _free)(group, base, actions, found)
        if last:
            ends, base = last, _needs(last, Reason.EARLIER_LIST, actions)
    return ends


def _groups(content: Iterable[Content]) -> list[list[Lines]]:
    """Lists of one kind that are parted only by quotes or pictures, together."""
    groups: list[list[Lines]] = []
    parted = True
    for one in content:
        if isinstance(one, Lines):
            if parted or groups[-1][0].ordered != one.ordered:
                groups.append([])
            groups[-1].append(one)
            parted = False
        elif not isinstance(one, Hazard | Shown) and not (isinstance(one, Prose) and isinstance(one.block, Quote)):
            parted = True
    return groups


def _numbered(group: list[Lines], base: tuple[Need, ...], actions: Mapping[str, Action], found: Order) -> Ids:
    ends: Ids = ()
    for line in (line for lines in group for line in lines.lines):
        last = _line(line, base, actions, found)
        if last:
            ends, base = last, _needs(last, Reason.LIST, actions)
    return ends


def _free(group: list[Lines], base: tuple[Need, ...], actions: Mapping[str, Action], found: Order) -> Ids:
    return tuple(end for lines in group for line in lines.lines for end in _line(line, base, actions, found))


def _line(line: Line, base: tuple[Need, ...], actions: Mapping[str, Action], found: Order) -> Ids:
    """Order one line, its children first; return what must be done for the line to be done."""
    children = _body(line.content, base, actions, found)
    needs = base + _needs(children, Reason.NESTED, actions) if children else base
    ends = children
    for one in line.actions:
        found.needs[one] = needs
        if not never_needed(actions[one]):
            ends, needs = (one,), _needs((one,), Reason.LINE, actions)
    return () if is_optional(line.inline) else ends
