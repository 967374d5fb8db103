"""Drives and drivers. The families and their sizes are those of the language page."""

from __future__ import annotations

import pytest
from hypothesis import given
from hypothesis import strategies as st

from guidec.trade.drives import drive, drive_family, driver_name, likely_drives, scan_drive, sizeless_drives
from guidec.trade.tools import driver_grade, propose_grade, turned_drives

LANGUAGE = (
    [f"PH{size}" for size in ("000", "00", "0", "1", "2", "3", "4")]
    + [f"PZ{size}" for size in range(5)]
    + [f"JIS{size}" for size in range(4)]
    + [f"T{size}" for size in range(1, 51)]
    + ["T10H", "H0.7", "H1.5", "H2.5", "H10", "SL4", "SL2.5", "5L0.8", "5L1.2", "3W0.6", "NUT5.5", "NUT4"]
)


@pytest.mark.parametrize("code", LANGUAGE)
def test_every_drive_of_the_language_is_known_as_it_is_written(code: str):
    assert drive(code) == code
    assert drive(code.lower()) == code


@pytest.mark.parametrize(
    "code", ["PH5", "PH0000", "PZ5", "JIS4", "T0", "T51", "T5.5", "H0.6", "H11", "PH", "XZ9", "P5", "Y000", ""]
)
def test_what_is_no_drive_is_none(code: str):
    assert drive(code) is None


@pytest.mark.parametrize(
    ("typed", "code"),
    [
        ("PH 0", "PH0"),
        ("ph-00", "PH00"),
        ("Phillips 0", "PH0"),
        ("Phillips #00", "PH00"),
        ("phillips PH1", "PH1"),
        ("cross-head 1", "PH1"),
        ("cross head 1", "PH1"),
        ("Pozidriv 2", "PZ2"),
        ("Torx T5", "T5"),
        ("torx 5", "T5"),
        ("TX10", "T10"),
        ("TR10", "T10H"),
        ("security T10", "T10H"),
        ("tamper-proof Torx T10", "T10H"),
        ("six-lobe 8", "T8"),
        ("H 2,5", "H2.5"),
        ("hex 2 mm", "H2"),
        ("2 mm hex", "H2"),
        ("Allen 2.5", "H2.5"),
        ("hex socket 3 mm", "H3"),
        ("slotted 4 mm", "SL4"),
        ("flat 3", "SL3"),
        ("five-lobe 0.8 mm", "5L0.8"),
        ("three-wing 0.6", "3W0.6"),
        ("nut 5.5 mm", "NUT5.5"),
        ("5.5 mm nut", "NUT5.5"),
        ("hex nut 5", "NUT5"),
    ],
)
def test_the_trades_words_are_read_as_codes(typed: str, code: str):
    assert drive(typed) == code


def test_a_word_without_a_size_is_a_family_and_suggests_its_sizes():
    assert scan_drive("Phillips M2x6", 0).code == ""
    assert sizeless_drives("Phillips")[0].startswith("cross recess")
    assert set(sizeless_drives("torx")[1:]) <= set(LANGUAGE)
    assert sizeless_drives("XZ9") == ()


def test_an_unknown_drive_gets_the_nearest_codes():
    assert likely_drives("PH9")[0].startswith("PH")
    assert likely_drives("P5")[0] == "5L1.2"
    assert len(likely_drives("T51")) <= 4


@pytest.mark.parametrize(
    ("code", "name", "grade"),
    [
        ("PH0", "PH0 screwdriver", "basic"),
        ("T5", "T5 driver", "basic"),
        ("T10H", "T10H driver", "trade"),
        ("H2.5", "2.5 mm hex key", "basic"),
        ("SL4", "4 mm slotted screwdriver", "basic"),
        ("NUT5.5", "5.5 mm nut driver", "trade"),
        ("5L0.8", "0.8 mm five-lobe driver", "trade"),
        ("3W0.6", "0.6 mm three-wing driver", "trade"),
        ("XZ9", "XZ9 driver", None),
    ],
)
def test_each_drive_has_a_driver(code: str, name: str, grade: str | None):
    """Basic: the list of Reg. (EU) 2023/1669, Annex I (43): slotted, cross recess, hexalobular, hex key."""
    assert driver_name(code) == name
    assert driver_grade(code) == grade


@pytest.mark.parametrize("code", LANGUAGE)
@pytest.mark.parametrize("language", ["en", "de"])
def test_a_tool_with_the_drivers_own_name_turns_that_drive(code: str, language: str):
    assert turned_drives(driver_name(code, language)) == (code,)


@pytest.mark.parametrize(
    ("name", "size", "codes"),
    [
        ("PH0 driver", "", ("PH0",)),
        ("screwdriver", "PH0", ("PH0",)),
        ("screwdriver PH0", "", ("PH0",)),
        ("small magnetic screwdriver", "Torx T5", ("T5",)),
        ("slotted screwdriver 4 mm", "", ("SL4",)),
        ("five-lobe driver 0.8 mm", "", ("5L0.8",)),
        ("T5 bit", "", ("T5",)),
        ("T5", "", ("T5",)),
        ("3 mm Allen key", "", ("H3",)),
        ("bits", "PH0, T5", ("PH0", "T5")),
        ("5.5 mm spanner", "", ("NUT5.5",)),
        ("combination wrench", "8 mm", ("NUT8",)),
        ("torque wrench", "8 mm", ()),
        ("screwdriver", "", ()),
        ("spudger", "", ()),
        ("drill", "2 mm", ()),
        ("T5 holder for the lamp", "", ()),
        ("nut", "", ()),
    ],
)
def test_a_tool_that_plainly_is_a_driver_is_known_for_one(name: str, size: str, codes: tuple[str, ...]):
    assert turned_drives(name, size) == codes


@given(st.text(alphabet="PHZTJISLNUW5310248.,|/ xmM-#", max_size=16))
def test_no_text_breaks_the_reader(text: str):
    found = scan_drive(text, 0)
    if found:
        assert 0 < found.end <= len(text)
        assert not found.code or drive(found.code) == found.code
        assert drive_family(found.code) == (found.family if found.code else "")


@pytest.mark.parametrize(
    "name",
    [
        "screwdriver for slotted heads",
        "cross-head screwdriver",
        "hexagon socket key",
        "combination wrench",
        "combination pliers",
        "wire strippers",
        "half-round nose pliers",
        "diagonal cutters",
        "multigrip pliers",
        "locking pliers",
        "prying lever",
        "tweezers",
        "magnifying glass",
        "spudger",
        "pick",
        "curved tweezers",
    ],
)
def test_the_regulations_basic_tools_are_basic(name: str):
    """Reg. (EU) 2023/1669, Annex I (43)."""
    assert propose_grade(name) == "basic"


@pytest.mark.parametrize(
    "name", ["hot-air gun", "soldering iron", "suction cup", "multimeter", "plastic card", "five-lobe driver"]
)
def test_what_anybody_can_buy_and_is_not_on_the_list_is_trade(name: str):
    assert propose_grade(name) == "trade"


def test_a_spanner_is_basic_and_a_nut_driver_is_not():
    assert propose_grade("5.5 mm spanner", ("NUT5.5",)) == "basic"
    assert propose_grade("combination wrench", ("NUT8",)) == "basic"
    assert propose_grade("5.5 mm nut driver", ("NUT5.5",)) == "trade"


def test_a_tool_nobody_knows_gets_no_grade():
    assert propose_grade("frobnicator") is None
    assert propose_grade("service cradle") is None
