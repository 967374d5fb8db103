"""Where a site lies on this machine: a new one is made beside it, and takes its place in one move.

Files that did not change are second names of the old ones (hard links; copies where the file system has none), so
nothing is written twice. A build that is killed leaves the old site as it was; what it left beside it, the next
build takes away. Files in the folder that no build wrote are taken along.
"""

from __future__ import annotations

import contextlib
import hashlib
import os
import shutil
import time
from collections.abc import Callable, Iterable, Iterator, Mapping
from contextlib import AbstractContextManager
from pathlib import Path
from typing import Protocol

from guidec.edge.swap import exchange
from guidec.edge.write import RefusedError
from guidec.shelf.inputs import digest
from guidec.shelf.state import NAME, Stamp, State, dumped, loaded

__all__ = ["Place", "Store", "second_name"]


OWN = frozenset(("guides", "assets", "makers", "kinds", "years", "parts", "compare", "tools", "hazards", "tables"))
"""The folders of a site."""


class Place(Protocol):
    """Where a site lies and the next one is made: `Store` on this machine, `far.Far` at an address."""

    def turn(self, waiting: Callable[[], None]) -> AbstractContextManager[None]:
        """Hold the site alone for a build."""

    def state(self) -> State | None:
        """What the last build left."""

    def intact(self, name: str, stamp: Stamp) -> bool:
        """Whether a file is still as it was written."""

    def here(self) -> Path | None:
        """The folder of the old site, where it lies on this machine."""

    def begin(self) -> None:
        """An empty new site."""

    def put(self, name: str, data: bytes) -> Stamp:
        """Write a file of the new site."""

    def room(self) -> Path:
        """A folder on this machine where files of the new site can be written under their names."""

    def written(self, name: str, old: Stamp | None) -> Stamp:
        """Take a file that was written there into the new site. `old`: the one of its name in the old site."""

    def keep(self, name: str, stamp: Stamp) -> Stamp:
        """Take a file of the old site into the new one."""

    def keep_all(self, folder: str, names: Iterable[str]) -> None:
        """Take files of one folder of the old site into the new one."""

    def drop(self, folder: str) -> None:
        """Take a folder out of the new site again."""

    def finish(self, state: State, before: State | None) -> None:
        """Let the new site take the old one's place."""


class Store:
    """The site folder `out`. Use it within `turn`: `state`, then `begin`, `put` and `keep`, then `finish`."""

    def __init__(self, out: Path) -> None:
        self.out = out.parent.resolve() / out.name if out.name else out.resolve()
        self.work = self.out.with_name(f".{self.out.name}.guidec-work")
        self._made: set[str] = set()

    @contextlib.contextmanager
    def turn(self, waiting: Callable[[], None]) -> Iterator[None]:
        """Hold the site alone. `waiting` is called where another build is at work and this one waits for it."""
        if self.out.is_symlink() or (self.out.exists() and not self.out.is_dir()):
            raise RefusedError("link" if self.out.is_symlink() else "file", path=str(self.out))
        try:
            self.out.parent.mkdir(parents=True, exist_ok=True)
            with _locked(self.out.with_name(f".{self.out.name}.guidec-lock"), waiting):
                shutil.rmtree(self.work, ignore_errors=True)
                try:
                    yield
                finally:
                    shutil.rmtree(self.work, ignore_errors=True)
        except OSError as error:
            reason = (error.strerror or str(error)).lower()
            raise RefusedError("", path=str(error.filename or self.out), reason=reason) from error

    def state(self) -> State | None:
        """What the last build left; None where there was none."""
        try:
            with (self.out / NAME).open("rb") as lines:
                return loaded(lines)
        except OSError:
            return None

    def intact(self, name: str, stamp: Stamp) -> bool:
        """Whether a file is still as it was written."""
        try:
            found = os.stat(f"{self.out}/{name}")  # noqa: PTH116  # a third of the time, and there are many files
        except OSError:
            return False
        if found.st_size != stamp[0]:
            return False
        return found.st_mtime_ns == stamp[1] or digest((self.out / name).read_bytes()) == stamp[2]

    def here(self) -> Path | None:
        """The folder of the old site."""
        return self.out

    def begin(self) -> None:
        """An empty new site."""
        self.work.mkdir()
        self._made = {""}

    def put(self, name: str, data: bytes) -> Stamp:
        """Write a file of the new site."""
        at = self._place(name)
        at.write_bytes(data)
        return len(data), at.stat().st_mtime_ns, digest(data)

    def room(self) -> Path:
        """The new site itself."""
        return self.work

    def written(self, name: str, old: Stamp | None) -> Stamp:
        """A file that was written there; one of the old site's size and time is a second name of that."""
        at = self.work / name
        found = at.stat()
        if old and (found.st_size, found.st_mtime_ns) == old[:2]:
            return old
        with at.open("rb") as file:
            stamp = found.st_size, found.st_mtime_ns, hashlib.file_digest(file, "sha256").hexdigest()
        if old and stamp[2] == old[2] and self.intact(name, old):
            at.unlink()
            return self.keep(name, old)
        return stamp

    def keep(self, name: str, stamp: Stamp) -> Stamp:
        """Take a file of the old site into the new one."""
        self._place(name)
        second_name(f"{self.out}/{name}", f"{self.work}/{name}")
        return stamp

    def keep_all(self, folder: str, names: Iterable[str]) -> None:
        """Take files of one folder of the old site into the new one."""
        for below in {name.rpartition("/")[0] for name in names}:
            self._place(f"{folder}/{below}/_")
        for name in names:
            second_name(f"{self.out}/{folder}/{name}", f"{self.work}/{folder}/{name}")

    def drop(self, folder: str) -> None:
        """Take a folder out of the new site again."""
        shutil.rmtree(self.work / folder, ignore_errors=True)
        self._made = {one for one in self._made if not f"{one}/".startswith(f"{folder}/")}

    def finish(self, state: State, before: State | None) -> None:
        """Let the new site take the old one's place."""
        (self.work / NAME).write_bytes(dumped(state))
        if not self.out.exists():
            self.work.rename(self.out)
            return
        self._take_along(before.files() if before else {})
        exchange(self.work, self.out)

    def _take_along(self, ours: Mapping[str, Stamp]) -> None:
        """Files that no build wrote. One that stands where the new site needs its place stops the build.

        Where the state is there and cannot be read (another version wrote it), the site's folders count as ours.
        """
        known = {*ours, NAME}
        lost = not ours and (self.out / NAME).exists()
        for own in _files_below(str(self.out)):
            if own in known or (lost and own.partition("/")[0] in OWN):
                continue
            old, new = self.out / own, self._place(own)
            if os.path.lexists(new):
                if lost:
                    continue
                raise RefusedError("foreign", path=str(old))
            if old.is_symlink():
                new.symlink_to(old.readlink())
            else:
                self.keep(own, (0, 0, ""))

    def _place(self, name: str) -> Path:
        folder = name.rpartition("/")[0]
        if folder not in self._made:
            (self.work / folder).mkdir(parents=True, exist_ok=True)
            self._made.add(folder)
        return self.work / name


def second_name(old: str, new: str) -> None:
    """Give a file a second name; a copy where the file system has none."""
    try:
        os.link(old, new)
    except OSError:
        shutil.copy2(old, new)


def _files_below(root: str, inside: str = "") -> Iterator[str]:
    """Files and links in a folder and below it, by their path from there. As strings: there may be many."""
    with os.scandir(f"{root}/{inside}") as found:
        for one in found:
            if one.is_dir(follow_symlinks=False):
                yield from _files_below(root, f"{inside}{one.name}/")
            else:
                yield f"{inside}{one.name}"


@contextlib.contextmanager
def _locked(path: Path, waiting: Callable[[], None]) -> Iterator[None]:
    """Hold a lock file, which is gone afterwards. Without file locks (not Linux, not macOS) nobody waits."""
    try:
        import fcntl  # here, not above: not every system has it
    except ImportError:  # pragma: no cover
        yield
        return
    said = False
    while True:
        handle = os.open(path, os.O_RDWR | os.O_CREAT, 0o644)
        try:
            fcntl.flock(handle, fcntl.LOCK_EX | fcntl.LOCK_NB)
        except BlockingIOError:
            os.close(handle)
            if not said:
                waiting()
                said = True
            time.sleep(0.1)
            continue
        if path.exists() and os.path.samestat(os.fstat(handle), path.stat()):
            break
        os.close(handle)  # it was taken away between the two calls: its holder has gone
    try:
        yield
    finally:
        path.unlink(missing_ok=True)
        os.close(handle)
