"""A site at an fsspec address: files go up as they are made, pages after what they lead to, the state last.

Most such places know no move of a whole folder, so a reader can meet a new page beside an old one for as long as
the upload takes. What a killed build put up the next one writes over; nothing is taken away before all is there.
"""

from __future__ import annotations

import contextlib
import hashlib
import shutil
import tempfile
from collections.abc import Callable, Iterable, Iterator
from pathlib import Path
from typing import Any

from guidec.edge.write import RefusedError
from guidec.shelf.inputs import digest
from guidec.shelf.state import NAME, Stamp, State, dumped, loaded

__all__ = ["Far"]


class Far:
    """The site at an address. Two builds at once are told apart by nobody: see the documents."""

    def __init__(self, address: str) -> None:
        import fsspec  # type: ignore[import-untyped]  # here, not above: it comes with the extra `dask`

        self.address = address.rstrip("/")
        self.files: Any
        self.files, root = fsspec.core.url_to_fs(self.address)
        self.root = root.rstrip("/")
        self._stage = Path()
        self._new: list[str] = []
        self._known: set[str] | None = None

    @contextlib.contextmanager
    def turn(self, waiting: Callable[[], None]) -> Iterator[None]:
        """A folder on this machine for what is to go up."""
        self._stage = Path(tempfile.mkdtemp(prefix="guidec-"))
        try:
            yield
        except OSError as error:
            reason = (error.strerror or str(error)).lower()
            raise RefusedError("", path=self.address, reason=reason) from error
        finally:
            shutil.rmtree(self._stage, ignore_errors=True)

    def state(self) -> State | None:
        """What the last build left; None where there was none."""
        try:
            data: bytes = self.files.cat_file(self._at(NAME))
        except (OSError, ValueError):
            return None
        return loaded(data.splitlines(keepends=True))

    def intact(self, name: str, stamp: Stamp) -> bool:
        """Whether a file is there; that it is as it was written is taken on trust."""
        if self._known is None:
            found = self.files.find(self.root) if self.files.exists(self.root) else []
            self._known = {path[len(self.root) :].lstrip("/") for path in found}
        return name in self._known

    def here(self) -> Path | None:
        """Nowhere on this machine."""
        return None

    def begin(self) -> None:
        """Nothing to go up yet."""
        self._new = []

    def put(self, name: str, data: bytes) -> Stamp:
        """Make a file ready to go up."""
        at = self._stage / name
        at.parent.mkdir(parents=True, exist_ok=True)
        at.write_bytes(data)
        self._new.append(name)
        return len(data), 0, digest(data)

    def room(self) -> Path:
        """The folder of what is to go up."""
        return self._stage

    def written(self, name: str, old: Stamp | None) -> Stamp:
        """A file that was written there; the same as the one that is there already need not go up."""
        at = self._stage / name
        with at.open("rb") as file:
            stamp = at.stat().st_size, 0, hashlib.file_digest(file, "sha256").hexdigest()
        if old and stamp[2] == old[2] and self.intact(name, old):
            return old
        self._new.append(name)
        return stamp

    def keep(self, name: str, stamp: Stamp) -> Stamp:
        """What is there stays there."""
        return stamp

    def keep_all(self, folder: str, names: Iterable[str]) -> None:
        """What is there stays there."""

    def drop(self, folder: str) -> None:
        """Take a folder out of what is to go up."""
        self._new = [name for name in self._new if not name.startswith(f"{folder}/")]

    def finish(self, state: State, before: State | None) -> None:
        """Put everything up, then take away what is of no use any more."""
        guides = [name for name in self._new if name.startswith("guides/")]
        rest = [name for name in self._new if not name.startswith("guides/")]
        for name in (*guides, *rest):
            self._folder_of(name)
            self.files.put_file(str(self._stage / name), self._at(name))
        self._folder_of(NAME)
        self.files.pipe_file(self._at(NAME), dumped(state))
        for name in (before.files().keys() if before else set()) - state.files().keys():
            with contextlib.suppress(FileNotFoundError):
                self.files.rm_file(self._at(name))

    def _folder_of(self, name: str) -> None:
        self.files.makedirs(self._at(name).rpartition("/")[0], exist_ok=True)

    def _at(self, name: str) -> str:
        return f"{self.root}/{name}"
