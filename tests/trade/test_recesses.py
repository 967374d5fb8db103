"""Drives and threads, held against tables of standards."""

from __future__ import annotations

import pytest

from guidec.trade.heads import form, head_size
from guidec.trade.load import data
from guidec.trade.recesses import recess_numbers, suits

from .open_tables import column

SIZES = (1.6, 2.0, 2.5, 3.0, 3.5, 4.0, 5.0, 6.0, 8.0, 10.0)


def numbers(table: dict[float, str], prefix: str) -> dict[float, int]:
    return {size: int(text.removeprefix(prefix)) for size, text in table.items()}


def test_cross_recesses_are_those_of_iso_7045_and_7046_in_the_open_tables():
    """Open data: bd_warehouse, iso7045 and iso7046, all rows from M1.6 to M10.

    Its iso7047 (raised countersunk) is left out: it gives M2 a No. 1 recess, where ISO 7047 has 0 like the others.
    """
    ours = {size: recess_numbers("ISO", size)[0] for size in SIZES}
    assert numbers(column("raised_cheese_head", "iso7045:recess"), "PH") == ours
    assert numbers(column("countersunk_head", "iso7046:recess"), "PH") == ours
    theirs = numbers(column("raised_countersunk_oval_head", "iso7047:recess"), "PH")
    assert {size for size in SIZES if theirs[size] != ours[size]} == {2.0}, "the row left out, and no other"


def test_cheese_heads_are_those_of_iso_7048_in_the_open_tables():
    """Open data: bd_warehouse, iso7048, all rows."""
    theirs = numbers(column("cheese_head", "iso7048:recess"), "PH")
    assert theirs == {size: recess_numbers("ISO cheese head", size)[0] for size in theirs}
    assert len(theirs) == 7


@pytest.mark.parametrize(
    ("table", "key"),
    [("pan_head", "iso14583:recess"), ("countersunk_head", "iso14581:recess"), ("cheese_head", "iso14580:recess")],
)
def test_hexalobular_numbers_are_those_of_the_open_tables(table: str, key: str):
    """Open data: bd_warehouse, iso14583, iso14581 and iso14580, all rows (M2 to M10)."""
    ours = {float(size): number for size, number in data("recesses")["hexalobular"]["sizes"].items()}
    assert numbers(column(table, key), "T") == ours


def test_hexagons_of_socket_heads_are_those_of_the_open_tables():
    """Open data: bd_warehouse, iso4762, rows up to M12. Its head diameters are of knurled heads: left out here."""
    ours = hexagons("ISO 4762")
    theirs = {size: float(text) for size, text in column("socket_head_cap", "iso4762:s").items() if size <= 12}
    assert theirs == ours


@pytest.mark.parametrize(
    ("table", "key", "name"),
    [
        ("button_head", "iso7380_1:s", "ISO 7380-1, ISO 10642"),
        ("countersunk_head", "iso10642:s", "ISO 7380-1, ISO 10642"),
        ("setscrew", "iso4026:s", "ISO 4026"),
    ],
)
def test_other_hexagons_agree_to_the_tolerance_of_the_key(table: str, key: str, name: str):
    """Open data: bd_warehouse, all rows to M12; it gives the largest width of the socket (2.08 for a 2 mm key)."""
    ours = hexagons(name)
    theirs = {size: float(text) for size, text in column(table, key).items() if size in ours}
    assert set(theirs) == set(ours)
    for size, width in theirs.items():
        assert width == pytest.approx(ours[size], abs=0.18), f"M{size}"


def hexagons(name: str) -> dict[float, float]:
    table = next(row for row in data("recesses")["hexagon"] if row["name"] == name)
    return {float(size): float(width) for size, width in table["sizes"].items()}


def test_pan_heads_have_the_sizes_of_the_open_table():
    """Open data: bd_warehouse, iso7045 dk and k, M1.6 to M8."""
    heights = column("raised_cheese_head", "iso7045:k")
    for size, diameter in column("raised_cheese_head", "iso7045:dk").items():
        if size <= 8:
            assert head_size(size, "pan") == (float(diameter), float(heights[size]))


def test_hexagon_heads_have_the_sizes_of_the_open_table():
    """Open data: bd_warehouse, iso4017 s and k, M1.6 to M12 (its M3.5 is left out)."""
    heights = column("hex_head", "iso4017:k")
    for size, across in column("hex_head", "iso4017:s").items():
        if size <= 12 and size != 3.5:
            assert head_size(size, "hexagon") == (float(across), float(heights[size]))


@pytest.mark.parametrize(
    ("head", "drive", "kind"),
    [
        ("hexagon socket", "H5", "socket"),
        ("Innensechskant", "H5", "socket"),
        ("hexalobular pan", "T20", "pan"),
        ("hex head", "NUT10", "hexagon"),
        (None, "NUT10", "hexagon"),
        (None, "H5", "socket"),
        (None, "PH2", "pan"),
    ],
)
def test_what_a_head_is_drawn_as(head: str | None, drive: str, kind: str):
    assert form(6, 20, head, drive).kind == kind


def test_other_heads():
    """ISO 7046 and ISO 4762: from memory (4.7 x 1.5 and 5.5 x 3)."""
    assert head_size(2.5, "countersunk") == (4.7, 1.5)
    assert head_size(3, "socket cap") == (5.5, 3)


def test_a_head_between_two_rows_is_scaled():
    """Own assumption: M2.6 is M2.5 scaled by 2.6 / 2.5."""
    assert head_size(2.6) == (pytest.approx(5 * 2.6 / 2.5), pytest.approx(2.1 * 2.6 / 2.5, abs=0.01))


# ---------------------------------------------------------------- what suits


@pytest.mark.parametrize("size", [2, 3, 8])
def test_iso_and_jis_disagree_at_three_sizes(size: float):
    """Published: ISO 7045 against the annex of JIS B 1111."""
    iso, jis = recess_numbers("ISO", size), recess_numbers("JIS", size)
    assert iso != jis
    by_iso, by_jis = suits(f"PH{iso[0]}", "M", size), suits(f"PH{jis[0]}", "M", size)
    assert (by_iso.fits, by_iso.only) == (True, "")
    assert (by_jis.fits, by_jis.only) == (True, "JIS")
    assert (by_jis.iso, by_jis.jis) == ((f"PH{iso[0]}",), (f"JIS{jis[0]}",))


@pytest.mark.parametrize("size", [2.5, 3.5, 4, 5, 6])
def test_iso_and_jis_agree_elsewhere(size: float):
    """Published, as above."""
    assert recess_numbers("ISO", size) == recess_numbers("JIS", size)


@pytest.mark.parametrize(
    ("drive", "size", "fits"),
    [
        ("PH0", 2.0, True),
        ("PH0", 2.6, True),  # the camera-type recess, CIPA AD-001-2020 (published) ends at M2.6
        ("PH0", 3.0, False),
        ("PH00", 1.6, True),  # trade sizes: from memory
        ("PH00", 2.0, True),
        ("PH00", 2.5, False),
        ("PH000", 1.6, True),
        ("PH000", 2.0, False),
        ("PH2", 2.5, False),
        ("JIS1", 2.0, True),
        ("JIS1", 3.0, False),
        ("JIS2", 3.0, True),
        ("PZ2", 4.0, True),
        ("PZ2", 2.0, False),
        ("H2.5", 3.0, True),
        ("H2", 3.0, True),  # button and countersunk heads
        ("H1.5", 3.0, True),  # set screws
        ("H3", 3.0, False),
        ("T10", 3.0, True),
        ("T10H", 3.0, True),
        ("T8", 3.0, True),  # one row off: small devices often do
        ("T15", 3.0, True),
        ("T6", 3.0, False),
        ("T20", 3.0, False),
        ("T3", 1.2, True),
    ],
)
def test_a_drive_suits_a_thread_or_not(drive: str, size: float, fits: bool):
    assert suits(drive, "M", size).fits is fits


@pytest.mark.parametrize(("drive", "fits"), [("PH1", True), ("PH2", False)])
def test_self_tapping_screws_have_their_own_table(drive: str, fits: bool):
    """ISO 7049, ST2.9 with No. 1: from memory."""
    assert suits(drive, "ST", 2.9).fits is fits


@pytest.mark.parametrize(
    ("drive", "system", "size"),
    [("SL4", "M", 3), ("5L0.8", "M", 1.2), ("PH1", "", 2.5), ("NUT5", "M", 3), ("T10", "ST", 3)],
)
def test_where_no_table_speaks_nothing_is_said(drive: str, system: str, size: float):
    assert suits(drive, system, size) is None


def test_cheese_heads_take_a_larger_driver():
    """Open data: ISO 7048 has No. 2 at M3."""
    assert suits("PH2", "M", 3, "cheese").only == ""
    assert suits("PH2", "M", 3, "pan").only == "JIS"
