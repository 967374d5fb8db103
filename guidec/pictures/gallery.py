"""The photos that a guide shows -> what is shown and printed of each, from the cache or newly made.

A photo that is shown twice, or that lies in two places, is worked on once.
"""

from __future__ import annotations

import hashlib
from collections.abc import Callable, Iterable, Mapping
from concurrent.futures import as_completed
from pathlib import Path
from threading import Lock

from guidec.pictures.cache import Cache, standard_folder
from guidec.pictures.crew import Crew, hired, processors
from guidec.pictures.recipe import key
from guidec.pictures.types import Box, Derived, UnreadableError

__all__ = ["Gallery", "Photo", "gallery"]

Photo = tuple[str, Box | None]
"""A path as typed, and the part that is shown."""
_BAR = 20


class Gallery:
    """`derived`: by photo; `troubles`: why a path gave none. `worked`: how many photos had to be worked on."""

    def __init__(self) -> None:
        self.derived: dict[Photo, Derived] = {}
        self.troubles: dict[str, str] = {}
        self.worked = 0


def gallery(
    photos: Iterable[Photo],
    read: Callable[[str], bytes],
    *,
    folder: Path | None = None,
    workers: int | None = None,
    said: Callable[[str], None] = lambda words: None,
) -> Gallery:
    """All that comes of some photos. Never raises for what a photo is.

    `read` gives the bytes of a path, or raises OSError. `folder`: the cache's, else the system's own place.
    `workers`: how many processes, one for each processor unless given. `said` is told how far it is.
    """
    found, cache = Gallery(), Cache(folder or standard_folder())
    wanted: dict[str, list[Photo]] = {}
    paths: dict[str, str] = {}
    digests: dict[str, str | None] = {}
    for photo in dict.fromkeys(photos):
        path, box = photo
        if path not in digests:
            digests[path] = _digest(path, read, found.troubles)
        digest = digests[path]
        if digest is not None:
            name = key(digest, box)
            wanted.setdefault(name, []).append(photo)
            paths.setdefault(name, path)
    missing = [name for name in wanted if not _known(cache, name, wanted[name], found.derived)]
    if missing:
        jobs = {name: (paths[name], wanted[name][0][1], digests[paths[name]]) for name in missing}
        _make(jobs, wanted, read, cache, found, workers or processors(), said)
        cache.prune()
    return found


def _digest(path: str, read: Callable[[str], bytes], troubles: dict[str, str]) -> str | None:
    try:
        return hashlib.sha256(read(path)).hexdigest()
    except OSError as error:
        troubles[path] = (error.strerror or str(error) or "it is gone").lower()
        return None


def _known(cache: Cache, name: str, photos: Iterable[Photo], derived: dict[Photo, Derived]) -> bool:
    kept = cache.get(name)
    if kept is not None:
        derived.update(dict.fromkeys(photos, kept))
    return kept is not None


Job = tuple[str, Box | None, str | None]


def _make(
    jobs: Mapping[str, Job],
    wanted: Mapping[str, list[Photo]],
    read: Callable[[str], bytes],
    cache: Cache,
    found: Gallery,
    workers: int,
    said: Callable[[str], None],
) -> None:
    """Work on what the cache does not hold."""
    lock = Lock()

    def work(name: str, crew: Crew) -> None:
        path, box, digest = jobs[name]
        try:
            photo = read(path)
            if hashlib.sha256(photo).hexdigest() != digest:
                raise UnreadableError("the file changes while it is read")
            made = crew.derive(photo, box)
        except (UnreadableError, OSError) as error:
            words = (error.strerror or "it is gone").lower() if isinstance(error, OSError) else str(error)
            with lock:
                found.troubles.update((photo_path, words) for photo_path, _ in wanted[name])
            return
        cache.put(name, made)
        with lock:
            found.derived.update(dict.fromkeys(wanted[name], made))
            found.worked += 1

    with hired(min(workers, len(jobs))) as give:
        futures = give([lambda crew, name=name: work(name, crew) for name in jobs])  # type: ignore[misc]
        said(bar(0, len(futures)))
        for done, future in enumerate(as_completed(futures), 1):
            future.result()
            said(bar(done, len(futures)))


def bar(done: int, all_: int) -> str:
    """How far it is, for a terminal."""
    full = _BAR * done // all_
    return f"pictures [{'#' * full}{'.' * (_BAR - full)}] {done} of {all_}"
