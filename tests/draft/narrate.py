"""A few words of narration -> what the drafter makes of them, short enough to compare."""

from __future__ import annotations

from guidec.draft import Drafted, draft
from guidec.draft.story import Act, Named, Screws

__all__ = ["acts", "drafted", "kinds", "sets"]


def drafted(*lines: str) -> Drafted:
    """The draft of lines, one each five seconds, none with a stop."""
    return draft("\n".join(f"{5 * n // 60}:{5 * n % 60:02} {line}" for n, line in enumerate(lines)).encode())


def acts(*lines: str) -> list[str]:
    """`remove fan`, `undo 4x PH0`, `unplug battery connector`, …: what is done, looks and tools left out."""
    return [f"{act.do} {named(thing)}".strip() for act in work(*lines) for thing in act.things or [None]]


def work(*lines: str) -> list[Act]:
    return [act for job in drafted(*lines).jobs for act in job.acts if act.do not in ("look", "hand")]


def named(thing: Named | Screws | None) -> str:
    if isinstance(thing, Screws):
        return " ".join(filter(None, (f"{thing.count}x" if thing.count else "", thing.drive, thing.size)))
    return thing.name if thing else ""


def sets(*lines: str) -> list[str]:
    """The screw sets told."""
    return [named(row) for row in drafted(*lines).story.screws]


def kinds(kind: str, *lines: str) -> list[str]:
    """The names of all things of a kind."""
    return [thing.name for thing in drafted(*lines).story.named if thing.kind == kind]
