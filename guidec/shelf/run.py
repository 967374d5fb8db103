"""Jobs and an executor of `concurrent.futures` -> results as they come, one lost worker or none."""

from __future__ import annotations

import contextlib
import multiprocessing
import multiprocessing.connection
import os
import threading
from collections.abc import Callable, Iterable, Iterator
from concurrent.futures import FIRST_COMPLETED, BrokenExecutor, Executor, Future, ProcessPoolExecutor, wait
from concurrent.futures.process import BrokenProcessPool
from itertools import islice
from typing import Any

from guidec.shelf.state import program
from guidec.shelf.unit import Job, Made, make

__all__ = ["OtherProgramError", "Result", "local", "remote", "results"]

Result = tuple[Job, Made | str]
"""A job, and what came of it: the guide, or why there is none."""

_AHEAD = 4
OURS = program
"""What tells this program from others."""


class OtherProgramError(Exception):
    """Workers run another version of the program, or cannot be reached."""


def results(
    jobs: Iterable[Job], executor: Executor | None, workers: int, meanwhile: Callable[[], None] = lambda: None
) -> Iterator[Result]:
    """Every job with its result, as they end. Without an executor they are done here, one by one.

    At most a few jobs a worker are under way at a time, so that a long shelf takes no more memory than a short.
    Where a worker dies, the jobs that were under way are done again, each in a process of its own. `meanwhile` is
    done here before the first result, while others are at work where they can be.
    """
    if executor is None:
        meanwhile()
        yield from ((job, _tried(job)) for job in jobs)
        return
    waiting: dict[Future[Made], Job] = {}
    lost: list[Job] = []
    left = iter(jobs)
    for job in islice(left, workers * _AHEAD - 1):
        _submit(executor, job, waiting, lost)
    meanwhile()
    for job in left:
        _submit(executor, job, waiting, lost)
        if len(waiting) >= workers * _AHEAD:
            yield from _ended(waiting, lost)
    while waiting:
        yield from _ended(waiting, lost)
    for job in lost:
        yield job, _alone(job)


def _submit(executor: Executor, job: Job, waiting: dict[Future[Made], Job], lost: list[Job]) -> None:
    try:
        waiting[executor.submit(make, job)] = job
    except (BrokenExecutor, RuntimeError):
        lost.append(job)


def _ended(waiting: dict[Future[Made], Job], lost: list[Job]) -> Iterator[Result]:
    done, _ = wait(waiting, return_when=FIRST_COMPLETED)
    for future in done:
        job = waiting.pop(future)
        try:
            yield job, future.result()
        except BrokenExecutor:
            lost.append(job)
        except Exception as error:  # whatever a unit raises is one note's trouble
            yield job, _words(error)


def _tried(job: Job) -> Made | str:
    try:
        return make(job)
    except Exception as error:  # whatever a unit raises is one note's trouble
        return _words(error)


def _alone(job: Job) -> Made | str:
    """A job in a process of its own, so that one that kills its process is found out."""
    with ProcessPoolExecutor(1, initializer=_end_with_parent) as pool:
        try:
            return pool.submit(make, job).result()
        except BrokenProcessPool:
            return "its process was ended"
        except Exception as error:  # whatever a unit raises is one note's trouble
            return _words(error)


def _end_with_parent() -> None:
    """End a worker when the build that started it is killed: else it would wait for ever, and hold the lock."""
    parent = multiprocessing.parent_process()
    if parent is not None:
        threading.Thread(target=_follow, args=(parent.sentinel,), daemon=True).start()


def _follow(sentinel: int) -> None:
    multiprocessing.connection.wait([sentinel])
    os._exit(1)


def _words(error: Exception) -> str:
    said = str(error).splitlines()
    return f"{type(error).__name__}: {said[0]}" if said else type(error).__name__


@contextlib.contextmanager
def local(jobs: int, units: int) -> Iterator[tuple[Executor | None, int]]:
    """Processes on this machine, no more than there are units; none for one job at a time."""
    if jobs <= 1:
        yield None, 1
        return
    jobs = min(jobs, units)
    with ProcessPoolExecutor(jobs, initializer=_end_with_parent) as pool:
        try:
            yield pool, jobs
        except BaseException:
            pool.shutdown(wait=False, cancel_futures=True)
            raise


@contextlib.contextmanager
def remote(address: str) -> Iterator[tuple[Executor, int]]:
    """The workers of a Dask scheduler, by its own executor interface. Raises OtherProgramError."""
    from distributed import Client  # here, not above: it comes with the extra `dask`

    try:
        client = Client(address, timeout="10s", set_as_default=False)  # type: ignore[no-untyped-call]
    except (OSError, ValueError) as error:
        raise OtherProgramError("no scheduler answers there") from error
    with client:
        _same_program(client)
        threads = sum(client.nthreads().values())  # type: ignore[no-untyped-call]
        executor = client.get_executor(retries=3, pure=False)  # type: ignore[no-untyped-call]
        yield executor, max(threads, 1)
        executor.shutdown()


def _same_program(client: Any) -> None:
    found: dict[str, Any] = client.run(program, on_error="return")
    if not found:
        raise OtherProgramError("the scheduler has no workers")
    for worker, its in found.items():
        if isinstance(its, BaseException):
            raise OtherProgramError(f"the worker {worker} does not have guidec ({its})")
        if its != OURS():
            raise OtherProgramError(f"the worker {worker} has another version of guidec")
