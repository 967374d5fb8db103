"""A note or a folder and a port -> a preview that runs until it is stopped: a server, and an eye on the files."""

from __future__ import annotations

import contextlib
import threading
from collections.abc import Callable, Iterator
from pathlib import Path

from watchfiles import Change, DefaultFilter, watch

from guidec.preview.server import Server
from guidec.preview.site import Made, Notes

__all__ = ["preview"]

_QUIET_MS, _STEP_MS = 400, 25


class _Wanted(DefaultFilter):
    """Notes and pictures; not the files that editors leave while they save, nor what hides."""

    def __call__(self, change: Change, path: str) -> bool:
        """Whether a change is worth a look."""
        name = Path(path).name
        return (
            not name.startswith(".")
            and not name.endswith(("~", ".swp", ".tmp"))
            and super().__call__(change, path)
        )


@contextlib.contextmanager
def preview(target: Path, port: int, said: Callable[[str, Made], None]) -> Iterator[Server]:
    """Serve a note or a folder of notes while the context lasts. Raises OSError where the port is taken.

    `said` is told of each note that was made.
    """
    only = target.name if not target.is_dir() else None
    folder = target.parent if only else target
    notes = Notes(folder, only, said)
    server = Server(notes, port)
    stop = threading.Event()
    threads = [
        threading.Thread(target=server.serve_forever, kwargs={"poll_interval": 0.1}, daemon=True),
        threading.Thread(target=_look, args=(notes, stop), daemon=True),
    ]
    for thread in threads:
        thread.start()
    try:
        yield server
    finally:
        stop.set()
        server.ending = True
        server.shutdown()
        server.server_close()


def _look(notes: Notes, stop: threading.Event) -> None:
    """Tell the notes of every change below their folder. A folder that goes away ends it, and not the server."""
    with contextlib.suppress(OSError, RuntimeError):
        for changes in watch(
            notes.folder,
            watch_filter=_Wanted(),
            debounce=_QUIET_MS,
            step=_STEP_MS,
            stop_event=stop,
            rust_timeout=200,
            raise_interrupt=False,
            ignore_permission_denied=True,
        ):
            notes.changed({Path(path) for _, path in changes})
