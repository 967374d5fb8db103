"""What a build leaves in its site for the next one: which note gave which files, and the entries. JSON lines.

Nothing in it is trusted further than that: a file it cannot read, or of another form, is as good as none.
"""

from __future__ import annotations

import hashlib
import json
from collections.abc import Iterable
from dataclasses import field
from functools import cache
from pathlib import Path
from typing import Any

import msgspec

from guidec.quick import dataclass
from guidec.shelf.entry import Entry
from guidec.shelf.pages.cells import Change

__all__ = ["NAME", "GuideState", "NoteState", "Stamp", "State", "dumped", "loaded", "program"]

NAME = ".guidec-shelf"
FORMAT = "guidec shelf 2"
Stamp = tuple[int, int, str]
"""A file's size, the time it was written (ns), and its SHA-256."""


@dataclass(frozen=True, slots=True)
class NoteState:
    """A note as it was last built. `key`: of all it was made of. `slug`: its guide on the site, or None.

    `pictures`: path as typed, digest (empty where it was not there), size and time. `outcome`: `made`, or why it
    was not published: `unreadable`, `errors`, `draft`, `clash`, `failed`; `policy`: what that was decided by.
    """

    note: str
    key: str
    source: str
    pictures: tuple[tuple[str, str, int, int], ...]
    outcome: str
    policy: str
    slug: str | None
    diagnostics: tuple[dict[str, Any], ...]
    policy_slug: str | None = None
    """For a clash: the folder that it did not get."""


@dataclass(frozen=True, slots=True)
class GuideState:
    """A guide on the site: its entry, the digest of the note it was made of, its files by name in its folder."""

    entry: Entry
    source: str
    files: dict[str, Stamp]


@dataclass(slots=True)
class State:
    """Everything. `inputs`: digest of what the shared pages are made of besides the entries.

    `shows`: of the shared files that need not be made anew to know them, a digest of what they show. `lines`: of
    guides that were read from a file, the line that says it, which is written as it is.
    """

    inputs: str = ""
    notes: dict[str, NoteState] = field(default_factory=dict)
    guides: dict[str, GuideState] = field(default_factory=dict)
    shared: dict[str, Stamp] = field(default_factory=dict)
    shows: dict[str, str] = field(default_factory=dict)
    changes: tuple[Change, ...] = ()
    lines: dict[str, bytes] = field(default_factory=dict)

    def files(self) -> dict[str, Stamp]:
        """All files of the site by name, this one's apart."""
        found = dict(self.shared)
        for slug, guide in self.guides.items():
            found.update((f"guides/{slug}/{name}", stamp) for name, stamp in guide.files.items())
        return found


@dataclass(frozen=True, slots=True)
class _Line:
    """A line of the file: its head, a note or a guide."""

    head: _Head | None = None
    note: NoteState | None = None
    guide: GuideState | None = None


@dataclass(frozen=True, slots=True)
class _Head:
    format: str
    inputs: str
    shared: dict[str, Stamp]
    shows: dict[str, str]
    changes: tuple[Change, ...]


def dumped(state: State) -> bytes:
    """The state as lines: a head, then a line for each note and each guide, in the order of their names."""
    head = _Head(FORMAT, state.inputs, state.shared, state.shows, state.changes)
    lines = [_written(_Line(head)), *(_written(_Line(note=state.notes[name])) for name in sorted(state.notes))]
    for slug in sorted(state.guides):
        lines.append(state.lines.get(slug) or _written(_Line(guide=state.guides[slug])))
    return b"".join(lines)


def _written(line: _Line) -> bytes:
    try:
        return msgspec.json.encode(line) + b"\n"
    except UnicodeEncodeError:  # half a character, as an escape in a note's head can give
        text = json.dumps(msgspec.to_builtins(line), ensure_ascii=False)
        return text.encode("utf-8", "replace") + b"\n"


def loaded(lines: Iterable[bytes]) -> State | None:
    """The state of `dumped`; None for anything else."""
    state: State | None = None
    read = msgspec.json.Decoder(_Line).decode
    try:
        for text in lines:
            line = read(text)
            if state is None:
                state = _headed(line.head)
            elif line.note:
                state.notes[line.note.note] = line.note
            elif line.guide:
                slug = line.guide.entry.slug
                state.guides[slug], state.lines[slug] = line.guide, text
    except ValueError:
        return None
    return state


def _headed(head: _Head | None) -> State:
    if head is None or head.format != FORMAT:
        raise ValueError("no head of this form")
    return State(inputs=head.inputs, shared=head.shared, shows=head.shows, changes=head.changes)


@cache
def program() -> str:
    """The digest of this program's own files and of the libraries it sets pages with: other ones, another site."""
    import importlib.metadata as metadata  # here, not above: it loads much that a command in a hurry does without

    home = Path(__file__).parent.parent
    found = hashlib.sha256()
    for name in ("markdown-it-py", "jinja2", "pillow", "weasyprint", "pyyaml", "jsonschema-rs"):
        found.update(f"{name} {metadata.version(name)}\n".encode())
    for path in sorted(home.rglob("*")):
        if path.relative_to(home).parts[0] in ("draft", "preview", "commands"):
            continue
        if path.suffix in {".py", ".yaml", ".html", ".css", ".js", ".md", ".json"} and path.is_file():
            found.update(path.relative_to(home).as_posix().encode())
            found.update(path.read_bytes())
    return found.hexdigest()
