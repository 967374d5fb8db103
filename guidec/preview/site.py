"""Notes in a folder -> their pages as they are now, each made when it is asked for or when its file changes.

Nothing is written. A note in whatever state gives a page: its guide with what is wrong with it, or that alone.
"""

from __future__ import annotations

import os
import threading
import time
import traceback
from collections.abc import Callable, Mapping
from dataclasses import field
from pathlib import Path

from guidec import compile as compiler
from guidec.edge.load import load
from guidec.messages import Diagnostic, diagnose
from guidec.quick import dataclass
from guidec.shelf.inputs import Here, note_names, shown
from guidec.shelf.settings import settings_of
from guidec.shelf.words import Words, words

__all__ = ["Made", "Notes"]


@dataclass(frozen=True, slots=True)
class Made:
    """A note as last made. `files`: the guide's, by name; `fault`: of the program, with where it came from.

    `version`: another each time it is made. `seconds`: what making it took.
    """

    version: int
    files: Mapping[str, bytes] = field(default_factory=dict)
    diagnostics: tuple[Diagnostic, ...] = ()
    fault: str = ""
    seconds: float = 0.0
    title: str = ""


class Notes:
    """The notes of a folder, or one note. Safe to use from several threads.

    `said` is told of each note that was made: its name, and what came of it.
    """

    def __init__(self, folder: Path, only: str | None, said: Callable[[str, Made], None]) -> None:
        self.folder = folder.resolve()
        self.only = only
        self._said = said
        self._made: dict[str, Made] = {}
        self._shown: dict[str, frozenset[Path]] = {}
        self._version = 0
        self._lock = threading.RLock()
        self._changed = threading.Condition(threading.Lock())
        self._changes = 0

    def names(self) -> tuple[str, ...]:
        """The notes, by their path from the folder."""
        return (self.only,) if self.only else tuple(note_names(Here(self.folder), (), ()))

    def words(self) -> Words:
        """What the preview itself says, in the first language of the folder's `shelf.yaml`, else English."""
        settings, _ = settings_of(Here(self.folder))
        return words(settings.languages[0])

    def get(self, name: str) -> Made:
        """A note as it is now; made at the first call."""
        with self._lock:
            found = self._made.get(name)
            return found or self._make(name)

    def known(self, name: str) -> Made | None:
        """A note if it was made before."""
        return self._made.get(name)

    @property
    def version(self) -> int:
        """Another number after each change."""
        return self._changes

    def version_of(self, name: str) -> int:
        """That of one note as last made, or of the list of notes where it names none."""
        found = self._made.get(name)
        return found.version if found else self._changes

    def changed(self, paths: set[Path]) -> None:
        """Files were written or went away: make the notes anew that depend on them, and tell those who wait."""
        with self._lock:
            stale = [name for name in self._made if self._touches(name, paths)]
            fresh = [
                path.relative_to(self.folder).as_posix() for path in paths if path.is_relative_to(self.folder)
            ]
            notes = set(self.names())
            for name in dict.fromkeys((*stale, *(name for name in sorted(fresh) if name in notes))):
                self._make(name)
        with self._changed:
            self._changes += 1
            self._changed.notify_all()

    def wait(self, seen: int, seconds: float) -> bool:
        """Wait until the version is another than the one seen; false where it stays so long."""
        with self._changed:
            return self._changed.wait_for(lambda: self._changes != seen, seconds)

    def _touches(self, name: str, paths: set[Path]) -> bool:
        """Whether a change concerns a note: the note itself, or a picture that it shows."""
        at = self.folder / name
        return any(path == at or path in self._shown.get(name, ()) for path in paths)

    def _make(self, name: str) -> Made:
        self._version += 1
        start = time.perf_counter()
        at = self.folder / name
        made = _made(at, name, self._version, start)
        self._shown[name] = _pictures(at, name)
        self._made[name] = made
        self._said(name, made)
        return made


def _pictures(path: Path, name: str) -> frozenset[Path]:
    """The pictures that a note shows, there or not."""
    try:
        data = path.read_bytes()
    except OSError:
        return frozenset()
    return frozenset(Path(os.path.normpath(path.parent / one)) for one in shown(name, data))


def _made(path: Path, name: str, version: int, start: float) -> Made:
    bundle = load(path, name)
    try:
        built = compiler.build(bundle, compiler.Options(pdf=False))
    except Exception:  # the preview goes on, whatever a note sets off
        return Made(version, fault=traceback.format_exc(limit=-4), seconds=time.perf_counter() - start)
    model = built.checked.model
    return Made(
        version,
        built.files,
        diagnose(bundle.source, built.findings),
        seconds=time.perf_counter() - start,
        title=model.guide.meta.title if model else "",
    )
