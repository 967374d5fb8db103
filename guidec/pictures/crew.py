"""Photos -> derived pictures, by as many processes as there are processors.

A photo that ends its worker, or keeps it for too long, costs that worker alone; the next photo gets a new one.
"""

from __future__ import annotations

import json
import os
import subprocess
import sys
import threading
from collections.abc import Callable, Iterator, Sequence
from concurrent.futures import Future, ThreadPoolExecutor
from contextlib import contextmanager
from pathlib import Path
from queue import SimpleQueue

from guidec.pictures.types import Box, Derived, UnreadableError, unpacked

__all__ = ["LONGEST", "Crew", "processors"]

LONGEST = 120.0
"""Seconds for one photo."""
_ROOT = str(Path(__file__).resolve().parents[2])
_START = "import sys; sys.path.insert(0, sys.argv[1]); from guidec.pictures.worker import main; main()"


def processors() -> int:
    """How many processors this process may use."""
    return len(os.sched_getaffinity(0)) if hasattr(os, "sched_getaffinity") else os.cpu_count() or 1


class _Worker:
    """One process."""

    def __init__(self) -> None:
        command = [sys.executable, "-c", _START, _ROOT]
        pipe = subprocess.PIPE
        self.process = subprocess.Popen(command, stdin=pipe, stdout=pipe, stderr=subprocess.DEVNULL)
        self.late = False

    def ask(self, photo: bytes, box: Box | None) -> Derived:
        """Raises UnreadableError for the photo's own faults, EOFError where the process is gone."""
        assert self.process.stdin
        assert self.process.stdout
        timer = threading.Timer(LONGEST, self._too_late)
        timer.start()
        try:
            question = json.dumps({"length": len(photo), "box": box}).encode()
            self.process.stdin.write(question + b"\n" + photo)
            self.process.stdin.flush()
            answer = json.loads(self.process.stdout.readline() or b"null")
            if answer is None:
                raise EOFError
            if "error" in answer:
                raise UnreadableError(answer["error"])
            return unpacked(self.process.stdout.read(answer["length"]))
        except (OSError, ValueError) as error:
            raise EOFError from error
        finally:
            timer.cancel()

    def _too_late(self) -> None:
        self.late = True
        self.process.kill()

    def end(self) -> None:
        """Let the process go."""
        for stream in (self.process.stdin, self.process.stdout):
            if stream:
                try:
                    stream.close()
                except OSError:
                    continue
        if self.process.poll() is None:
            try:
                self.process.wait(5)
            except subprocess.TimeoutExpired:
                self.process.kill()
                self.process.wait()


class Crew:
    """Up to `size` workers, each started when it is first needed."""

    def __init__(self, size: int) -> None:
        self.size = size
        self.free: SimpleQueue[_Worker | None] = SimpleQueue()
        for _ in range(size):
            self.free.put(None)

    def derive(self, photo: bytes, box: Box | None) -> Derived:
        """What comes of a photo. Waits for a free worker. Raises UnreadableError."""
        worker = self.free.get()
        try:
            worker = worker or _Worker()
            return worker.ask(photo, box)
        except EOFError:
            assert worker
            late = worker.late
            worker.process.kill()
            worker.end()
            worker = None
            raise UnreadableError(_gone(late)) from None
        except OSError as error:
            raise UnreadableError(f"no process could be started for it ({error.strerror})") from None
        finally:
            self.free.put(worker)

    def end(self) -> None:
        """Let all workers go."""
        for _ in range(self.size):
            worker = self.free.get()
            if worker:
                worker.end()


def _gone(late: bool) -> str:
    if late:
        return f"it took longer than {LONGEST:g} seconds"
    return "reading it ended the process that read it; it is damaged or far too large"


@contextmanager
def hired(size: int) -> Iterator[Callable[[Sequence[Callable[[Crew], None]]], list[Future[None]]]]:
    """A crew and the threads that talk to it: give jobs, get futures. Everybody goes home at the end."""
    crew = Crew(size)
    threads = ThreadPoolExecutor(size)
    try:
        yield lambda jobs: [threads.submit(job, crew) for job in jobs]
    finally:
        threads.shutdown(cancel_futures=True)
        crew.end()
