"""The cycle collector: off inside a pause, as it was after it, and not put off for ever by many pauses."""

from __future__ import annotations

import gc
import weakref

from guidec.collector import paused


class Knot:
    """Holds itself, so that only the collector takes it away."""

    def __init__(self) -> None:
        self.itself = self


def test_nothing_is_collected_inside_and_all_is_as_it_was_afterwards() -> None:
    assert gc.isenabled()
    with paused():
        assert not gc.isenabled()
        with paused():
            assert not gc.isenabled()
        assert not gc.isenabled()
    assert gc.isenabled()


def test_pause_after_pause_leaves_no_more_than_a_few_of_their_knots() -> None:
    knots: list[weakref.ref[Knot]] = []
    for _ in range(200):
        with paused():
            knots.append(weakref.ref(Knot()))
    assert sum(one() is not None for one in knots) <= 32
