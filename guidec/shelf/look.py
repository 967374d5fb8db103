"""A folder of notes, and what the last build knew of them -> each note as it lies there now, with its pictures."""

from __future__ import annotations

import json
from collections.abc import Iterator, Mapping
from dataclasses import asdict

from guidec.quick import dataclass
from guidec.shelf import inputs
from guidec.shelf.frame import Frame
from guidec.shelf.settings import Settings
from guidec.shelf.state import NoteState, program
from guidec.shelf.unit import Job

__all__ = ["Note", "Notes"]

Picture = tuple[str, str, int, int]
"""Path, digest (empty where it is not there), size, time."""


@dataclass(frozen=True, slots=True)
class Note:
    """A note. `source`: the digest of its bytes; `key`: that of all its guide is made of."""

    name: str
    data: bytes
    source: str
    pictures: tuple[Picture, ...]
    key: str


@dataclass(frozen=True, slots=True)
class Notes:
    """The notes in the folder `home`, and what their guides are made of besides them."""

    home: inputs.Folder
    frame: Frame
    pdf: bool

    def look(self, settings: Settings, known: Mapping[str, NoteState]) -> Iterator[Note]:
        """Every note, in the order of their names. `known`: as the last build left them."""
        pages = settings.pages if settings.notes == "." else ()
        with_all = json.dumps([program(), asdict(self.frame), self.pdf])
        for name in inputs.note_names(self.home, settings.leave_out, pages):
            data = self.home.read(name)
            if data is not None:
                yield self._note(name, data, known.get(name), with_all)

    def _note(self, name: str, data: bytes, known: NoteState | None, with_all: str) -> Note:
        source = inputs.digest(data)
        old = {one[0]: one for one in known.pictures} if known else {}
        shown = tuple(old) if known and known.source == source else inputs.shown(name, data)
        pictures = tuple(self._picture(name, path, old.get(path)) for path in shown)
        made_of = json.dumps([with_all, name, source, [one[:2] for one in pictures]])
        return Note(name, data, source, pictures, inputs.digest(made_of.encode()))

    def _picture(self, note: str, path: str, old: Picture | None) -> Picture:
        """A picture's digest; not read anew where size and time are those of the last build."""
        stamp = inputs.picture_stamp(self.home, note, path)
        if old and stamp and (old[2], old[3]) == stamp:
            return old
        data = inputs.picture(self.home, note, path)
        size, time = stamp or (0, 0)
        return path, inputs.digest(data) if data is not None else "", size, time

    def job(self, note: Note) -> Job:
        """A note as a unit of work, with the bytes of its pictures."""
        found = (
            (path, inputs.picture(self.home, note.name, path)) for path, digest, *_ in note.pictures if digest
        )
        pictures = tuple((path, data) for path, data in found if data is not None)
        return Job(note.name, note.data, pictures, self.frame, self.pdf)
