"""The headings of operations -> what each operation needs as a whole before it begins."""

from __future__ import annotations

from collections.abc import Mapping, Sequence

from guidec.model.context import Context
from guidec.model.producers import Producers, Ways
from guidec.model.types import After, Change, Need, Operation, Reason, Ref
from guidec.rules.finding import Finding

__all__ = ["Between"]


class Between:
    """Works out, once for each operation, the needs that its first actions have."""

    def __init__(
        self,
        operations: Sequence[Operation],
        ends: Mapping[str, tuple[str, ...]],
        producers: Producers,
        context: Context,
    ) -> None:
        self._ends = ends
        self._producers = producers
        self._context = context
        self._by_id = {operation.id: operation for operation in operations}
        self._before = _befores(operations)
        self._known: dict[str, tuple[Need, ...]] = {}

    def needs(self, operation: Operation) -> tuple[Need, ...]:
        """The needs of an operation as a whole. Every action without a need within it has them."""
        if operation.id not in self._known:
            self._known[operation.id] = ()  # a chain that comes back here asks for nothing more
            self._known[operation.id] = self._work_out(operation)
        return self._known[operation.id]

    def whole(self, operation: str) -> Ways:
        """The ways in which an operation's result is had: it, or another way to it; none where it does nothing."""
        return tuple(self._ends[member] for member in self._producers.families.of(operation) if self._ends[member])

    def _work_out(self, operation: Operation) -> tuple[Need, ...]:
        if operation.refit_only:
            return ()
        said = [need for after in operation.after for need in self._said(after, operation)]
        if operation.after and not any(after.also for after in operation.after):
            return tuple(said)
        if operation.instead_of is not None:
            return (*self.needs(self._by_id[operation.instead_of]), *said)
        return (*self._usual(operation), *said)

    def _usual(self, operation: Operation) -> tuple[Need, ...]:
        """The operation before it; where that one does nothing that counts, what that one needs."""
        before = self._before[operation.id]
        while before is not None:
            ways = self.whole(before)
            if ways:
                return (Need(Reason.OPERATION, ways, self._by_id[before].heading_span, before),)
            earlier = self._by_id[before]
            if earlier.after:
                return self.needs(earlier)
            before = self._before[before]
        return ()

    def _said(self, after: After, operation: Operation) -> list[Need]:
        return [need for ref in after.refs if ref.id is not None for need in self._ref(ref, ref.id, operation)]

    def _ref(self, ref: Ref, target: str, operation: Operation) -> list[Need]:
        """What one name in `after` asks for."""
        if ref.operation:
            return self._operation(ref, target, operation)
        thing = self._context.declared.things[target]
        ways = self._producers.ways(target, without=[operation.id])
        if not ways and thing.kind.value == "part":
            ways = self._producers.ways(target, Change.MOVED, without=[operation.id])
        if not ways:
            self._context.report(Finding.at("M302", ref.span, name=thing.name))
            return []
        return [Need(Reason.AFTER, ways, ref.span, target)]

    def _operation(self, ref: Ref, target: str, operation: Operation) -> list[Need]:
        if target == operation.id or self._by_id[target].refit_only:
            self._context.report(Finding.at("M302", ref.span, variant="operation", name=ref.name))
            return []
        ways = self.whole(target)
        if not ways:
            return list(self.needs(self._by_id[target]))
        return [Need(Reason.AFTER, ways, ref.span, target)]


def _befores(operations: Sequence[Operation]) -> dict[str, str | None]:
    """For each operation the one before it that it needs: other ways, optional and refit-only ones skipped."""
    found: dict[str, str | None] = {}
    last: str | None = None
    for operation in operations:
        found[operation.id] = last
        if operation.instead_of is None and not operation.refit_only and not operation.optional:
            last = operation.id
    return found
