"""Threads as typed; coarse pitches against the open tables of a fastener package."""

from __future__ import annotations

import pytest

from guidec.trade.threads import coarse_pitch, scan_thread
from tests.trade.open_tables import COARSE


@pytest.mark.parametrize(
    ("typed", "nut", "read"),
    [
        ("M2x6", False, ("M2×6", "M", 2, None, 6)),
        ("M2×6", False, ("M2×6", "M", 2, None, 6)),
        ("M2 X 6 mm", False, ("M2×6", "M", 2, None, 6)),
        ("m2x6mm", False, ("M2×6", "M", 2, None, 6)),
        ("M2,5x6", False, ("M2.5×6", "M", 2.5, None, 6)),
        ("M2 6 mm", False, ("M2×6", "M", 2, None, 6)),
        ("M1.6", False, ("M1.6", "M", 1.6, None, None)),
        ("M10x0.75x12", False, ("M10×0.75×12", "M", 10, 0.75, 12)),
        ("M3x0.5", True, ("M3×0.5", "M", 3, 0.5, None)),
        ("M3x0.5x8", True, ("M3×0.5×8", "M", 3, 0.5, 8)),
        ("ST2.9x9.5", False, ("ST2.9×9.5", "ST", 2.9, None, 9.5)),
        ("2.5x8", False, ("2.5×8", "", 2.5, None, 8)),
    ],
)
def test_threads_are_read_as_the_language_writes_them(typed: str, nut: bool, read: tuple[object, ...]):
    found = scan_thread(typed, 0, nut)
    assert found is not None
    assert (found.text, found.system, found.diameter, found.pitch, found.length) == read
    assert found.end == len(typed)


@pytest.mark.parametrize("typed", ["PH0", "6 mm", "M", "Mx6", "black", "M2x6x", "MX5", "M2.5.6"])
def test_what_is_no_thread_is_none(typed: str):
    assert scan_thread(typed, 0) is None


@pytest.mark.parametrize(("size", "pitch"), COARSE.items())
def test_coarse_pitches_are_those_of_iso_261(size: float, pitch: float):
    assert coarse_pitch(size) == pitch


def test_a_size_outside_the_table_has_no_pitch():
    assert coarse_pitch(2.9) is None
