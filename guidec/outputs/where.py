"""A guide -> in which operations each thing is undone, comes off, is used: operation ids in note order.

An operation that is another way to the same (`instead of`) comes after all others, so that the first of a list is
the note's own way.
"""

from __future__ import annotations

from bisect import bisect_right
from collections.abc import Iterable, Mapping

from guidec.model.types import Action, Change, Guide, Operation, Use
from guidec.quick import dataclass

__all__ = ["Where", "where"]

_CHANGED = (Change.UNDONE, Change.OPEN, Change.OFF)


@dataclass(frozen=True, slots=True)
class Where:
    """By the id of a thing. A thing that has no entry never is.

    `changed`: undone, opened or taken off; `shown`: exposed or moved; `named`: used, or named in any way.
    `refit_only`: the things used for going back and for nothing else.
    """

    changed: Mapping[str, tuple[str, ...]]
    shown: Mapping[str, tuple[str, ...]]
    named: Mapping[str, tuple[str, ...]]
    refit_only: frozenset[str]

    def first(self, name: str) -> str | None:
        """Where it is undone, opened or taken off; else shown; else named; else None."""
        for found in (self.changed, self.shown, self.named):
            if name in found:
                return found[name][0]
        return None


def where(guide: Guide) -> Where:
    """Look through all actions and marks of a guide."""
    order = {one.id: at for at, one in enumerate(sorted(guide.operations, key=_other_way))}
    changed, shown, named = dict[str, set[str]](), dict[str, set[str]](), dict[str, set[str]]()
    for action in guide.actions.values():
        for effect in action.effects:
            found = changed if effect.change in _CHANGED else shown
            found.setdefault(effect.id, set()).add(action.operation)
        for use in (*_worked(action), *_refitted(action)):
            named.setdefault(use.id, set()).add(action.operation)
    for name, operation in _places(guide):
        named.setdefault(name, set()).add(operation)
    return Where(_sorted(changed, order), _sorted(shown, order), _sorted(named, order), _refit_only(guide))


def _other_way(operation: Operation) -> bool:
    return operation.instead_of is not None


def _sorted(found: Mapping[str, set[str]], order: Mapping[str, int]) -> Mapping[str, tuple[str, ...]]:
    return {name: tuple(sorted(ids, key=lambda one: order[one])) for name, ids in found.items()}


def _worked(action: Action) -> tuple[Use, ...]:
    return (*action.objects, *action.mentions, *action.tools, *action.supplies)


def _refitted(action: Action) -> Iterable[Use]:
    return (use for refit in action.refits for use in refit.uses)


def _places(guide: Guide) -> Iterable[tuple[str, str]]:
    """Each thing named by a mark of an operation, in an action or not."""
    starts = [operation.span.start for operation in guide.operations]
    for thing in guide.things.values():
        for place in thing.places:
            at = bisect_right(starts, place.start) - 1
            if at >= 0:
                yield thing.id, guide.operations[at].id


def _refit_only(guide: Guide) -> frozenset[str]:
    """Things of which every use is inside a `refit`, or in a `refit only` operation."""
    inside, outside = set[str](), set[str]()
    for action in guide.actions.values():
        back = guide.operation[action.operation].refit_only
        (inside if back else outside).update(use.id for use in _worked(action))
        inside.update(use.id for use in _refitted(action))
    return frozenset(inside - outside)
