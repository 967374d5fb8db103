"""The lines of a way back -> stages, one for each operation that they take back."""

from __future__ import annotations

from collections.abc import Iterable

from guidec.model.types import Effect, Guide, Operation
from guidec.plan.refit_order import Wish
from guidec.quick import dataclass

__all__ = ["Refit", "RefitLine", "RefitStage", "own_stage", "sentence", "stages"]


@dataclass(frozen=True, slots=True)
class RefitLine:
    """One thing done on the way back.

    `text`: the sentence. `notes`: the author's refit notes, as sentences. `action`: the action that it undoes, or
    the line of a `refit only` operation; None for a turn-over. `effect`: what it takes back, None for a note
    alone, a turn-over, or a line of the author's. `power`: the device is no longer dead after it.
    """

    text: str
    action: str | None = None
    effect: Effect | None = None
    notes: tuple[str, ...] = ()
    power: bool = False


@dataclass(frozen=True, slots=True)
class RefitStage:
    """The lines that take back one operation, or those of a `refit only` one (`own`)."""

    operation: str
    number: int
    title: str
    lines: tuple[RefitLine, ...]
    own: bool = False


@dataclass(frozen=True, slots=True)
class Refit:
    """The way back. `screws`: single screws that go back in (one of a set that nobody counted).
    `closing`: the checks at the end, as sentences.

    `refused`: refit notes whose wish for another order cannot be granted. `tools`, `supplies`, `renewals`: ids.
    """

    stages: tuple[RefitStage, ...]
    closing: tuple[str, ...]
    screws: int
    tools: tuple[str, ...]
    supplies: tuple[str, ...]
    renewals: tuple[str, ...]
    refused: tuple[Wish, ...]

    @property
    def lines(self) -> tuple[RefitLine, ...]:
        """All lines in order."""
        return tuple(line for stage in self.stages for line in stage.lines)


def sentence(text: str) -> str:
    words = text.strip()
    if not words:
        return ""
    words = words[0].upper() + words[1:]
    return words if words[-1] in ".!?" else words + "."


def stages(guide: Guide, lines: Iterable[RefitLine]) -> list[RefitStage]:
    """The lines, put together where those of one operation follow each other; a turn-over goes with the next."""
    found: list[tuple[str, list[RefitLine]]] = []
    waiting: list[RefitLine] = []
    for line in lines:
        if line.action is None:
            waiting.append(line)
            continue
        operation = guide.actions[line.action].operation
        if not found or found[-1][0] != operation:
            found.append((operation, []))
        found[-1][1].extend([*waiting, line])
        waiting = []
    return [_stage(guide.operation[operation], own) for operation, own in found]


def _stage(operation: Operation, lines: list[RefitLine]) -> RefitStage:
    return RefitStage(operation.id, operation.number, operation.title, tuple(lines))


def own_stage(guide: Guide, operation: Operation) -> RefitStage:
    """A `refit only` operation: its lines as the author has them."""
    lines = tuple(RefitLine(sentence(guide.actions[action].text), action, None) for action in operation.actions)
    return RefitStage(operation.id, operation.number, operation.title, lines, own=True)
