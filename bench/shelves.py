"""A number and a seed -> a folder of generated notes with titles of their own; entries of a large shelf."""

from __future__ import annotations

import re
from dataclasses import replace
from pathlib import Path
from typing import Any

from bench.notes import note

__all__ = ["ACTIONS", "entries", "folder", "job", "text"]

ACTIONS = 20


def text(at: int, actions: int = ACTIONS) -> str:
    """One note; no two have one title."""
    made = note(actions, at)
    return re.sub(r"^title: (.*)$", rf"title: \1, no. {at}", made, count=1, flags=re.M)


def folder(at: Path, count: int, actions: int = ACTIONS) -> Path:
    """A folder of so many notes."""
    at.mkdir(parents=True, exist_ok=True)
    for one in range(count):
        (at / f"n{one:05}.md").write_text(text(one, actions), encoding="utf-8")
    return at


def job(at: int) -> Any:
    """One note as a unit of work."""
    from guidec.shelf.frame import Frame
    from guidec.shelf.unit import Job

    return Job(f"n{at:05}.md", text(at).encode(), (), Frame("Bench", "https://shelf.example", ""), pdf=False)


def entries(count: int, kinds: int = 100) -> list[Any]:
    """The entries of so many guides: of some notes made in earnest, each again under other names."""
    from guidec.shelf.unit import make

    made = [make(job(at)).entry for at in range(kinds)]
    found = []
    for at in range(count):
        one = made[at % kinds]
        assert one
        model = f"{one.model}-{at}"
        found.append(replace(one, slug=f"{one.slug}-{at}", title=f"{one.title} {at}", model=model))
    return found
