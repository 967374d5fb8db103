"""Scoring: a telephone's index with its workings, and each single change that could raise it."""

from __future__ import annotations

import re
from functools import cache, partial
from typing import Any

from bench.notes import note
from bench.row import Figure, timed

__all__ = ["ROWS"]


@cache
def _guide(actions: int) -> Any:
    from guidec import model, notes
    from guidec.source import Source

    text = re.sub(r"kind: [^}]*}", "kind: smartphone}", note(actions), count=1)
    return model.build(notes.read(Source.of("bench.md", text))[0])[0]


def _assessed(graph: Any) -> Any:
    from guidec.scoring import assess

    found, _ = assess(graph)
    assert found.index, "a telephone has an index"
    return found


def _seconds(actions: int, *, ideas: bool) -> float:
    """The median of five runs, each on a graph of its own, which has no routes yet."""
    from guidec import plan
    from guidec.scoring.ideas import ideas as changes

    def job() -> None:
        found = _assessed(plan.graph(_guide(actions)))
        assert not ideas or changes(found), "some change must raise the index"

    return sorted(timed(job) for _ in range(5))[2]


ROWS = (
    Figure("score of a telephone, 60 actions", partial(_seconds, 60, ideas=False), "s", 0.25),
    Figure(
        "score of a telephone and what could raise it, 60 actions", partial(_seconds, 60, ideas=True), "s", 1.0
    ),
    Figure("score of a telephone, 1,000 actions", partial(_seconds, 1_000, ideas=False), "s"),
)
