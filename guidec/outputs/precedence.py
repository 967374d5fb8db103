"""A graph of actions -> the order of the operations: what each waits for, with nothing said twice.

Where an operation waits for one of several (ways to the same result), that is one wait for any of them.
"""

from __future__ import annotations

from collections.abc import Iterator, Mapping

from guidec.model.types import Guide, Operation
from guidec.plan import Graph
from guidec.plan.reach import reaches
from guidec.plan.types import How
from guidec.quick import dataclass

__all__ = ["Node", "Precedence", "Wait", "precedence"]

Token = tuple[str, ...]
"""Operations of which any one serves."""


@dataclass(frozen=True, slots=True)
class Node:
    """One operation. `parts`: the names of those it frees, and how. `other`: the number of what it is another way
    to."""

    id: str
    number: int
    title: str
    parts: tuple[tuple[str, How], ...]
    other: int | None
    isolates: bool
    optional: bool


@dataclass(frozen=True, slots=True)
class Wait:
    """`after` waits for all of `before`, or where there are several for any one of them."""

    before: Token
    after: str


@dataclass(frozen=True, slots=True)
class Precedence:
    """The operations in note order, without those done on refit only, and their waits."""

    nodes: tuple[Node, ...]
    waits: tuple[Wait, ...]


def precedence(graph: Graph) -> Precedence:
    """The order of a guide's operations; a wait that follows from others is left out."""
    guide, operations = graph.guide, graph.operations
    direct = {operation.id: dict.fromkeys(_tokens(guide, operation)) for operation in operations}
    before = _before(direct)
    parts = _parts(graph)
    return Precedence(
        tuple(_node(guide, operation, parts.get(operation.id, [])) for operation in operations),
        tuple(
            Wait(token, own)
            for own, tokens in direct.items()
            for token in tokens
            if not any(_follows(token, other, before) for other in tokens)
        ),
    )


def _node(guide: Guide, operation: Operation, parts: list[tuple[str, How]]) -> Node:
    first = guide.operation.get(operation.instead_of or "")
    return Node(
        id=operation.id,
        number=operation.number,
        title=operation.title,
        parts=tuple(parts),
        other=first.number if first else None,
        isolates=any(own in guide.isolating for own in operation.actions),
        optional=operation.optional,
    )


def _parts(graph: Graph) -> Mapping[str, list[tuple[str, How]]]:
    """The parts by the operations that free them."""
    found: dict[str, list[tuple[str, How]]] = {}
    for reach in reaches(graph).values():
        tasks = 0
        for way in reach.ways:
            tasks |= way
        actions = (own for at, own in enumerate(graph.numbers.actions) if tasks >> at & 1)
        for operation in dict.fromkeys(graph.guide.actions[own].operation for own in actions):
            found.setdefault(operation, []).append((graph.names[reach.part], reach.how))
    return found


def _tokens(guide: Guide, operation: Operation) -> Iterator[Token]:
    """What the actions of an operation wait for outside it."""
    for own in operation.actions:
        for need in guide.actions[own].needs:
            ways = [{guide.actions[other].operation for other in way} - {operation.id} for way in need.ways]
            if not ways or not all(ways):
                continue
            shared = set.intersection(*ways)
            yield from ((one,) for one in sorted(shared))
            rest = sorted(set.union(*ways) - shared)
            if rest and all(way - shared for way in ways):
                yield tuple(rest)


def _before(direct: Mapping[str, Mapping[Token, None]]) -> Mapping[Token, frozenset[Token]]:
    """All that surely comes before an operation that waits for a token, the token itself too."""
    tokens = dict.fromkeys(token for own, waits in direct.items() for token in (*waits, (own,)))
    found = {token: frozenset((token,)) for token in tokens}
    changed = True
    while changed:
        changed = False
        for token in tokens:
            ways = []
            for own in token:
                waits = [found[one] for one in direct.get(own, ())]
                ways.append(frozenset((token, (own,))).union(*waits))
            new = found[token] | frozenset.intersection(*ways)
            changed = changed or new != found[token]
            found[token] = new
    return found


def _follows(token: Token, other: Token, before: Mapping[Token, frozenset[Token]]) -> bool:
    """Whether waiting for the other is waiting for the token too, and not the other way about."""
    return other != token and token in before[other] and other not in before[token]
