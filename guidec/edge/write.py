"""Named bytes -> files, whole or not at all.

A folder is first written beside its place and then put there in one move, so a run that is killed leaves the
earlier folder as it was. The names that were written are kept in the folder (`.guidec`): at the next build of the
same guide those are replaced, and every other file is taken along untouched. A file that was not written by
guidec and stands where an output must go stops the build before anything is changed.
"""

from __future__ import annotations

import contextlib
import os
import shutil
from collections.abc import Iterator, Mapping
from pathlib import Path
from typing import Any

from guidec.edge.swap import exchange

__all__ = ["MANIFEST", "RefusedError", "write_file", "write_folder"]

MANIFEST = ".guidec"
_WORK = ".guidec-work-"


class RefusedError(Exception):
    """An output cannot be written. `variant` names the words of rule N008; `facts` fill them."""

    def __init__(self, variant: str, **facts: Any) -> None:
        super().__init__(variant, facts)
        self.variant = variant
        self.facts = facts


def write_folder(out: Path, slug: str, files: Mapping[str, bytes]) -> Path:
    """Make `out/slug` hold `files` (relative names with `/`), and return it.

    Raises RefusedError where that cannot be, with everything left as it was. Two runs into one `out` take turns.
    """
    target = out / slug
    try:
        out.mkdir(parents=True, exist_ok=True)
        with _turn(out):
            _sweep(out)
            _may_replace(target, files)
            work = out / f"{_WORK}{slug}"
            try:
                _fill(work, files)
                _place(work, target)
            finally:
                shutil.rmtree(work, ignore_errors=True)
    except OSError as error:
        raise RefusedError("", path=str(target), reason=(error.strerror or str(error)).lower()) from error
    return target


def write_file(path: Path, data: bytes) -> None:
    """Make the file at `path` hold `data`. Raises RefusedError, the old file left as it was, where it cannot."""
    work = path.with_name(f"{_WORK}{os.getpid()}-{path.name}")
    try:
        path.parent.mkdir(parents=True, exist_ok=True)
        work.write_bytes(data)
        work.replace(path)
    except OSError as error:
        raise RefusedError("", path=str(path), reason=(error.strerror or str(error)).lower()) from error
    finally:
        work.unlink(missing_ok=True)


@contextlib.contextmanager
def _turn(out: Path) -> Iterator[None]:
    """Hold the output folder alone; a second run waits. Without file locks (not Linux, not macOS) nobody waits."""
    try:
        import fcntl  # here, not above: not every system has it
    except ImportError:  # pragma: no cover
        yield
        return
    handle = os.open(out, os.O_RDONLY)
    try:
        fcntl.flock(handle, fcntl.LOCK_EX)
        yield
    finally:
        os.close(handle)


def _sweep(out: Path) -> None:
    """Remove what killed runs left: nobody else is at work here now."""
    for stale in out.glob(f"{_WORK}*"):
        if stale.is_dir() and not stale.is_symlink():
            shutil.rmtree(stale, ignore_errors=True)


def _written(target: Path) -> frozenset[str]:
    """The names that an earlier build of the same guide wrote."""
    try:
        return frozenset((target / MANIFEST).read_text(encoding="utf-8").splitlines())
    except (OSError, UnicodeDecodeError):
        return frozenset()


def _may_replace(target: Path, files: Mapping[str, bytes]) -> None:
    if target.is_symlink():
        raise RefusedError("link", path=str(target))
    if target.exists() and not target.is_dir():
        raise RefusedError("file", path=str(target))
    written = _written(target)
    for name in files:
        at = target / name
        if name not in written and os.path.lexists(at):
            raise RefusedError("foreign", path=str(at))
        for folder in (target / parent for parent in Path(name).parents if parent.name):
            if folder.is_symlink() or (folder.exists() and not folder.is_dir()):
                raise RefusedError("foreign", path=str(folder))


def _fill(work: Path, files: Mapping[str, bytes]) -> None:
    shutil.rmtree(work, ignore_errors=True)
    work.mkdir()
    for name, data in files.items():
        at = work / name
        at.parent.mkdir(parents=True, exist_ok=True)
        at.write_bytes(data)
    (work / MANIFEST).write_text("".join(f"{name}\n" for name in sorted(files)), encoding="utf-8")


def _place(work: Path, target: Path) -> None:
    if not target.exists():
        work.rename(target)
        return
    written = {*_written(target), MANIFEST}
    for at in sorted(target.rglob("*")):
        name = at.relative_to(target).as_posix()
        if name not in written and (at.is_symlink() or not at.is_dir()):
            _take_along(at, work / name)
    exchange(work, target)


def _take_along(old: Path, new: Path) -> None:
    """A file that is not ours, in the new folder too: as a second name for it where the file system can."""
    new.parent.mkdir(parents=True, exist_ok=True)
    if old.is_symlink():
        new.symlink_to(old.readlink())
        return
    try:
        os.link(old, new)
    except OSError:
        shutil.copy2(old, new)
