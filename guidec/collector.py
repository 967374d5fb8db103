"""Python's cycle collector, paused while modules are loaded and a note is worked through.

A compile makes many objects that live until its end, and no garbage in cycles; each full collection would look at
all of them again, which makes long notes cost more for each action than short ones.
"""

from __future__ import annotations

import gc
from collections.abc import Iterator
from contextlib import contextmanager
from itertools import count

__all__ = ["paused", "spared"]


_pauses = count(1)
_OFTEN = 32
"""What so many pauses leave in cycles is collected at once: a process that makes guide after guide does hardly
anything outside of them, and would never collect."""


@contextmanager
def paused() -> Iterator[None]:
    """No collections inside; as it was afterwards."""
    was_on = gc.isenabled()
    gc.disable()
    try:
        yield
    finally:
        if was_on:
            _ended(next(_pauses))


def _ended(pauses: int) -> None:
    if pauses % _OFTEN:
        gc.freeze()  # these two put what was made among the old objects; as young ones, all would
        gc.unfreeze()  # be looked at right after the pause: a tenth of a long check
    else:
        gc.collect()
    gc.enable()


def spared() -> None:
    """For the end of the process: nothing that is left is searched for cycles again.

    The interpreter's last collections took 30 of a check's 180 ms.
    """
    gc.freeze()
