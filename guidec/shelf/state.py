"""What a build leaves in its site for the next one: which note gave which files, and the entries. JSON lines.

Nothing in it is trusted further than that: a file it cannot read, or of another form, is as good as none.
"""

from __future__ import annotations

import hashlib
import json
from collections.abc import Iterable
from dataclasses import asdict, dataclass, field
from functools import cache
from pathlib import Path
from typing import Any

from guidec.shelf.entry import Entry, from_json, to_json
from guidec.shelf.pages.cells import Change

__all__ = ["NAME", "GuideState", "NoteState", "Stamp", "State", "dumped", "loaded", "program"]

NAME = ".guidec-shelf"
FORMAT = "guidec shelf 1"
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
    line: bytes = b""
    """The line that says all this, where it was read from one: it is written as it is."""


@dataclass(slots=True)
class State:
    """Everything. `inputs`: digest of what the shared pages are made of besides the entries."""

    inputs: str = ""
    notes: dict[str, NoteState] = field(default_factory=dict)
    guides: dict[str, GuideState] = field(default_factory=dict)
    shared: dict[str, Stamp] = field(default_factory=dict)
    changes: tuple[Change, ...] = ()

    def files(self) -> dict[str, Stamp]:
        """All files of the site by name, this one's apart."""
        found = dict(self.shared)
        for slug, guide in self.guides.items():
            found.update((f"guides/{slug}/{name}", stamp) for name, stamp in guide.files.items())
        return found


def dumped(state: State) -> bytes:
    """The state as lines: a head, then a line for each note and each guide, in the order of their names."""
    head = {
        "format": FORMAT,
        "inputs": state.inputs,
        "shared": state.shared,
        "changes": [asdict(one) for one in state.changes],
    }
    lines = [_line(head), *(_line({"note": asdict(state.notes[name])}) for name in sorted(state.notes))]
    lines += [_guide(state.guides[slug]) for slug in sorted(state.guides)]
    return b"".join(lines)


def _guide(guide: GuideState) -> bytes:
    return guide.line or _line({"guide": to_json(guide.entry), "source": guide.source, "files": guide.files})


def _line(row: dict[str, Any]) -> bytes:
    text = json.dumps(row, ensure_ascii=False, separators=(",", ":"))
    return f"{text}\n".encode("utf-8", "surrogatepass")


def loaded(lines: Iterable[bytes]) -> State | None:
    """The state of `dumped`; None for anything else."""
    state: State | None = None
    try:
        for line in lines:
            row = json.loads(line.decode("utf-8", "surrogatepass"))
            if state is None:
                state = _head(row)
            elif "note" in row:
                note = _note(row["note"])
                state.notes[note.note] = note
            else:
                guide = GuideState(from_json(row["guide"]), row["source"], _stamps(row["files"]), line)
                state.guides[guide.entry.slug] = guide
    except (ValueError, KeyError, TypeError, AttributeError):
        return None
    return state


def _head(row: dict[str, Any]) -> State:
    if row["format"] != FORMAT:
        raise ValueError(row["format"])
    changes = tuple(Change(**one) for one in row["changes"])
    return State(inputs=row["inputs"], shared=_stamps(row["shared"]), changes=changes)


def _note(row: dict[str, Any]) -> NoteState:
    pictures = tuple((path, digest, size, time) for path, digest, size, time in row["pictures"])
    return NoteState(**{**row, "pictures": pictures, "diagnostics": tuple(row["diagnostics"])})


def _stamps(rows: dict[str, Any]) -> dict[str, Stamp]:
    return {name: (int(size), int(time), str(digest)) for name, (size, time, digest) in rows.items()}


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
