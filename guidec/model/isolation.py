"""`isolate` -> the actions that make the device dead, and who needs them.

Operations that follow an isolating action in the note wait for it, unless their heading says `{after nothing}` or
`{live}`. Another way counts as standing where the operation stands that it replaces.
"""

from __future__ import annotations

from collections.abc import Iterable, Mapping, Sequence

from guidec.model.context import Context
from guidec.model.producers import Producers, Ways, operation_of
from guidec.model.types import Change, Need, Operation, Reason, Ref
from guidec.quick import dataclass
from guidec.rules.finding import Finding

__all__ = ["Isolation", "isolation"]


@dataclass(frozen=True, slots=True)
class Isolation:
    """`actions`: all isolating ones. `needs`: operation id -> the isolation it needs."""

    actions: tuple[str, ...]
    needs: Mapping[str, tuple[Need, ...]]


def isolation(
    refs: Iterable[Ref],
    operations: Sequence[Operation],
    steps: Mapping[str, tuple[str, ...]],
    producers: Producers,
    context: Context,
) -> Isolation:
    """Work out isolation. `steps`: operation id -> its needed actions."""
    found: list[tuple[Ref, str, Ways]] = []
    for ref in refs:
        if ref.id is None:
            continue
        groups = _by_family(ref, steps, producers)
        if not groups and context.lexicon is not None:
            context.report(Finding.at("M306", ref.span, name=ref.name))
        found += [(ref, root, ways) for root, ways in groups]
    actions = dict.fromkeys(one for _, _, ways in found for way in ways for one in way)
    needs = {operation.id: tuple(_needs(operation, found, producers)) for operation in operations}
    return Isolation(tuple(actions), needs)


def _by_family(ref: Ref, steps: Mapping[str, tuple[str, ...]], producers: Producers) -> list[tuple[str, Ways]]:
    """The family of operations in which the isolating actions stand, with the ways to do them there."""
    families = producers.families
    if ref.operation:
        own = ref.id or ""
        ways = tuple(steps[member] for member in families.of(own) if steps[member])
        return [(families.root[own], ways)] if ways else []
    groups: dict[str, list[str]] = {}
    for one in producers.of(ref.id or "") or producers.of(ref.id or "", Change.MOVED):
        groups.setdefault(families.root[operation_of(one)], []).append(one)
    return [(root, producers.combine(actions)) for root, actions in groups.items()]


def _needs(operation: Operation, found: Sequence[tuple[Ref, str, Ways]], producers: Producers) -> Iterable[Need]:
    if operation.live or operation.refit_only or any(after.nothing for after in operation.after):
        return
    root = producers.families.root[operation.id]
    for ref, isolating, ways in found:
        if producers.index[root] > producers.index[isolating]:
            yield Need(Reason.ISOLATION, ways, ref.span, ref.id)
