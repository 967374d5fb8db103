"""A key -> what was derived under it by an earlier build, from a folder that several builds may use at once.

Each entry is one file with a digest before it; it appears whole, in one move, and a damaged one counts as missing.
"""

from __future__ import annotations

import contextlib
import hashlib
import os
import time
from pathlib import Path

from guidec.pictures.types import Derived, packed, unpacked

__all__ = ["Cache", "standard_folder"]

_MOST_BYTES = 1 << 30
_FRESH = 24 * 3600
_DIGEST = 32


def standard_folder() -> Path:
    """Where caches belong: `guidec` in `$XDG_CACHE_HOME`, on a Mac in `~/Library/Caches`, else in `~/.cache`."""
    base = os.environ.get("XDG_CACHE_HOME", "")
    if base and Path(base).is_absolute():
        return Path(base) / "guidec"
    mac = Path.home() / "Library" / "Caches"
    return (mac if mac.is_dir() else Path.home() / ".cache") / "guidec"


class Cache:
    """The folder. One that cannot be read or written is a cache that holds nothing."""

    def __init__(self, folder: Path) -> None:
        self.folder = folder / "pictures"

    def get(self, key: str) -> Derived | None:
        """What is known under a key."""
        path = self._path(key)
        try:
            data = path.read_bytes()
            if hashlib.sha256(data[_DIGEST:]).digest() != data[:_DIGEST]:
                return None
            found = unpacked(data[_DIGEST:])
        except (OSError, ValueError, KeyError, TypeError):
            return None
        with contextlib.suppress(OSError):
            if time.time() - path.stat().st_mtime > _FRESH:
                os.utime(path)
        return found

    def put(self, key: str, derived: Derived) -> None:
        """Keep it. Nothing is said where it cannot be kept."""
        path = self._path(key)
        work = path.with_name(f".{path.name}.{os.getpid()}.{time.monotonic_ns()}")
        data = packed(derived)
        try:
            path.parent.mkdir(parents=True, exist_ok=True, mode=0o700)
            work.write_bytes(hashlib.sha256(data).digest() + data)
            work.replace(path)
        except OSError:
            with contextlib.suppress(OSError):
                work.unlink(missing_ok=True)

    def prune(self, most: int = _MOST_BYTES) -> None:
        """Throw out what was not used for longest until the rest fits, and what killed builds left half made."""
        entries: list[tuple[float, int, Path]] = []
        for path in self.folder.glob("*/*"):
            with contextlib.suppress(OSError):
                status = path.stat()
                age = time.time() - status.st_mtime
                if path.name.startswith(".") and age > _FRESH:
                    path.unlink()
                elif not path.name.startswith("."):
                    entries.append((status.st_mtime, status.st_size, path))
        room = most
        for _, size, path in sorted(entries, reverse=True):
            room -= size
            if room < 0:
                with contextlib.suppress(OSError):
                    path.unlink()

    def _path(self, key: str) -> Path:
        return self.folder / key[:2] / key
