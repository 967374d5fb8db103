"""Actions -> who does what to a thing, and the ways in which it can be done.

Operations that are ways to the same result each may do it; what several operations do in shares must be done by
all of them. A way is one choice among each family's members, as the tuple of the actions that do it.
"""

from __future__ import annotations

from collections.abc import Iterable, Mapping, Sequence
from itertools import islice, product

from guidec.model.families import Families
from guidec.model.types import Action, Change, Operation

__all__ = ["DONE", "Producers", "Ways"]

Ways = tuple[tuple[str, ...], ...]
DONE = (Change.OFF, Change.UNDONE, Change.OPEN)
MOST_WAYS = 64


class Producers:
    """Looks up, for a thing, the actions that take it off, undo or open it (refit-only operations left out)."""

    def __init__(self, operations: Sequence[Operation], actions: Mapping[str, Action], families: Families) -> None:
        self.operations = {operation.id: operation for operation in operations}
        self.index = {operation.id: at for at, operation in enumerate(operations)}
        self.families = families
        self._by_thing: dict[tuple[str, Change], list[str]] = {}
        for operation in operations:
            if operation.refit_only:
                continue
            for action in operation.actions:
                for effect in actions[action].effects:
                    self._by_thing.setdefault((effect.id, effect.change), []).append(action)

    def of(self, thing: str, *changes: Change) -> tuple[str, ...]:
        """The actions that do any of `changes` to a thing (off, undone or open where none is named)."""
        found = [self._by_thing.get((thing, change), ()) for change in changes or DONE]
        return tuple(dict.fromkeys(action for actions in found for action in actions))

    def ways(self, thing: str, *changes: Change, without: Iterable[str] = ()) -> Ways:
        """The ways in which a thing can be done, the note's own first; none where nobody does it.

        `without`: operations whose actions do not count.
        """
        left_out = set(without)
        kept = [one for one in self.of(thing, *changes) if operation_of(one) not in left_out]
        return self.combine(kept)

    def combine(self, actions: Iterable[str]) -> Ways:
        """One choice among each family's members, for the families that the actions belong to."""
        by_family: dict[str, dict[str, list[str]]] = {}
        for one in actions:
            operation = operation_of(one)
            by_family.setdefault(self.families.root[operation], {}).setdefault(operation, []).append(one)
        if not by_family:
            return ()
        choices = [
            [tuple(done) for _, done in sorted(members.items(), key=lambda item: self.index[item[0]])]
            for members in by_family.values()
        ]
        return tuple(
            tuple(one for part in choice for one in part) for choice in islice(product(*choices), MOST_WAYS)
        )


def operation_of(action: str) -> str:
    """The id of an action's operation."""
    return action.rpartition("/")[0]
