"""Operations -> which are ways to the same result.

`{instead of OPERATION}` may name another way: a chain leads to one root, the way that the note takes itself.
"""

from __future__ import annotations

from collections.abc import Mapping, Sequence

from guidec.model.types import Operation
from guidec.quick import dataclass, replace
from guidec.rules.finding import Finding

__all__ = ["Families", "families"]


@dataclass(frozen=True, slots=True)
class Families:
    """`root`: operation id -> the id of its family's first way. `members`: root -> all ways, the root first."""

    root: Mapping[str, str]
    members: Mapping[str, tuple[str, ...]]

    def of(self, operation: str) -> tuple[str, ...]:
        """All ways to what an operation does, the note's own first."""
        return self.members[self.root[operation]]


def families(
    operations: Sequence[Operation],
) -> tuple[tuple[Operation, ...], Families, tuple[Finding, ...]]:
    """The families, and the operations with chains that run in a circle cut (each reported)."""
    findings: list[Finding] = []
    targets = {operation.id: operation.instead_of for operation in operations}
    mended: list[Operation] = []
    for operation in operations:
        if operation.instead_of is not None and _circles(operation.id, targets):
            findings.append(
                Finding.at(
                    "M303", operation.instead_span or operation.span, variant="circle", name=operation.title
                )
            )
            targets[operation.id] = None
            operation = replace(operation, instead_of=None)
        mended.append(operation)
    root = {operation.id: _root(operation.id, targets) for operation in mended}
    members: dict[str, list[str]] = {own: [own] for own in root if targets[own] is None}
    for own, first in root.items():
        if own != first:
            members[first].append(own)
    return tuple(mended), Families(root, {key: tuple(ids) for key, ids in members.items()}), tuple(findings)


def _circles(start: str, targets: Mapping[str, str | None]) -> bool:
    seen = {start}
    at = targets[start]
    while at is not None:
        if at in seen:
            return True
        seen.add(at)
        at = targets[at]
    return False


def _root(start: str, targets: Mapping[str, str | None]) -> str:
    at, target = start, targets[start]
    while target is not None:
        at, target = target, targets[target]
    return at
