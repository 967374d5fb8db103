"""Details: fastener notation, batteries, supplies, counts and types."""

from __future__ import annotations

import pytest
from hypothesis import given
from hypothesis import strategies as st

from guidec.model.notation import read_notation
from guidec.model.types import Clip, Connector, Fastening, Part, Reuse, ScrewSet, Solder, Supply
from tests.model.things import clean, lines

PLAIN = (4, ("PH0",), "M2×6")


@pytest.mark.parametrize(
    ("typed", "read"),
    [
        ("4x PH0 M2x6", PLAIN),
        ("4 x PH0 M2×6", PLAIN),
        ("4 × PH0 M2 × 6", PLAIN),
        ("4X ph0 m2X6", PLAIN),
        ("4xPH0M2x6", PLAIN),
        ("4 PH0 M2x6", PLAIN),
        ("four PH0 M2 x 6 mm", PLAIN),
        ("Four Phillips 0 screws, M2x6", PLAIN),
        ("PH0 M2x6, 4x", PLAIN),
        ("PH0 M2x6 (x4)", PLAIN),
        ("M2x6 PH0 4 pcs", PLAIN),
        ("4 pcs PH0 M2x6", PLAIN),
        ("4x M2x6 PH0", PLAIN),
        ("4x PH0, M2, 6 mm", (4, ("PH0",), "M2×6")),
        ("4x PH0 M2", (4, ("PH0",), "M2")),
        ("4x PH0", (4, ("PH0",), None)),
        ("PH0 M2x6", (None, ("PH0",), "M2×6")),
        ("4", (4, (), None)),
        ("six", (6, (), None)),
        ("4 screws", (4, (), None)),
        ("M10x0.75x12", (None, (), "M10×0.75×12")),
        ("2x NUT5.5 M3x0.5", (2, ("NUT5.5",), "M3×0.5")),
        ("M3x0.5 NUT5.5, 2x", (2, ("NUT5.5",), "M3×0.5")),
        ("3x NUT5 M2.5x0.45x6", (3, ("NUT5",), "M2.5×0.45×6")),
        ("4x ST2.9x9.5", (4, (), "ST2.9×9.5")),
        ("4x PH2 2.5x8", (4, ("PH2",), "2.5×8")),
        ("4x2.5x8", (4, (), "2.5×8")),
        ("4 x 2.5 x 8", (4, (), "2.5×8")),
        ("2x6", (None, (), "2×6")),
        ("4x 2 mm hex M3x10", (4, ("H2",), "M3×10")),
        ("2x 5L0.8 M1.4x3", (2, ("5L0.8",), "M1.4×3")),
        ("2x SL4|PZ1 M3x8", (2, ("SL4", "PZ1"), "M3×8")),
        ("2x SL4 | PZ1 M3x8", (2, ("SL4", "PZ1"), "M3×8")),
        ("2x SL4/PZ1 M3x8", (2, ("SL4", "PZ1"), "M3×8")),
        ("4x T5 Torx M2x6", (4, ("T5",), "M2×6")),
        ("12 x Torx T8 M2.5 x 12mm", (12, ("T8",), "M2.5×12")),
    ],
)
def test_notation_is_read_in_the_ways_people_type_it(typed: str, read: tuple[object, ...]):
    found = read_notation(typed, 50)
    assert (found.count, found.drives, found.thread and found.thread.text) == read
    assert found.rest == ""
    assert found.unknown_drives == ()


def test_each_piece_has_its_place():
    text = "4x PH0 M2x6"
    found = read_notation(text, 20)
    spans = (found.count_span, found.drive_span, found.thread_span)
    assert [text[span.start - 20 : span.end - 20] for span in spans] == ["4", "PH0", "M2x6"]


def test_three_numbers_are_size_pitch_length_and_with_a_nut_two_are_size_and_pitch():
    fine, nut = read_notation("M10x0.75x12").thread, read_notation("2x NUT7 M4x0.7").thread
    assert (fine.pitch_mm, fine.length_mm) == (0.75, 12)
    assert (nut.pitch_mm, nut.length_mm) == (0.7, None)
    assert read_notation("4x PH0 M2x6").thread.pitch_mm is None


@given(st.text(alphabet="0123456789xX×PHZTMSL NUTmJI.,|/()-HL5W3q", max_size=24), st.integers(0, 9))
def test_no_details_break_the_reader_and_nothing_is_lost(text: str, offset: int):
    found = read_notation(text, offset)
    for span in (found.count_span, found.drive_span, found.thread_span, found.rest_span):
        assert span is None or text[span.start - offset : span.end - offset].strip()
    assert found.count is None or found.count >= 0


@pytest.mark.parametrize(
    ("details", "code", "typed", "suggestions"),
    [
        ("4x PH9 M2x6", "M120", "PH9", ("PH0", "PH1", "PH2", "PH3")),
        ("4x P5 M1.2x3", "M120", "P5", ("5L1.2",)),
        ("4x XZ9 M2x6", "M120", "XZ9", ()),
        ("4x Phillips M2x6", "M120", "Phillips", ("PH000", "PH00", "PH0")),
        ("4x widget M2x6", "M120", "widget", ()),
        ("4x PH0 M2x6 black", "M121", "black", ("colour=black",)),
        ("4x PH0 M2x6 pan", "M121", "pan", ("head=pan",)),
        ("4x PH0 M2x6 captive", "M121", "captive", ("captive",)),
        ("4x NUT8 M5x0.8x20 8.8", "M121", "8.8", ("grade=8.8",)),
        ("4x PH0 M2x6 frobbed", "M121", "frobbed", ()),
        ("4x PH0 M2-6", "M121", "-6", ()),
        ("4x PH0, 6 mm", "M121", "6 mm", ()),
        ("4x PH2 #6-32 x 1/4", "M121", "#6-32 x 1/4", ("3.51x6.35",)),
        ("4x PH2 1/4-20 x 1 1/2", "M121", "1/4-20 x 1 1/2", ("6.35x38.1",)),
        ("4x NUT5 M2.5x6", "M122", "M2.5x6", ("M2.5x0.45x6",)),
        ("4x PH0 M3x12x0.5", "M122", "M3x12x0.5", ("M3x0.5x12",)),
        ("0x PH0 M2x6", "M112", "0", ()),
    ],
)
def test_what_cannot_be_read_is_told_at_its_place(
    details: str, code: str, typed: str, suggestions: tuple[str, ...]
):
    _, findings = lines(f"{{screw A: {details}}}")
    assert [(one.code, one.typed) for one in findings] == [(code, typed)]
    assert findings[0].suggestions[: len(suggestions)] == suggestions


def test_an_unknown_drive_is_kept_as_typed_and_has_a_driver():
    declared, _ = lines("{screw A: 4x XZ9 M2x6}")
    screws = declared.things["a"]
    assert isinstance(screws, ScrewSet)
    assert screws.drives == ("XZ9",)
    assert declared.things[declared.drivers["a"]].name == "XZ9 driver"


def test_what_is_left_over_is_kept():
    declared, _ = lines("{screw A: 4x PH0 M2x6 frobbed twice}")
    screws = declared.things["a"]
    assert isinstance(screws, ScrewSet)
    assert screws.notation.rest == "frobbed twice"
    assert screws.details == "4x PH0 M2x6 frobbed twice"


def test_places_hold_across_a_line_break_in_a_quote():
    _, findings = lines("x\n\n> {screw A: 4x\n> PH9\n> M2x6}")
    assert [(one.code, one.typed) for one in findings] == [("M120", "PH9")]


def test_alternatives_work_in_a_table_where_the_bar_is_escaped():
    declared, findings = lines("x\n\n| a |\n|---|\n| {screw A: 2x SL4\\|PZ1 M3x8} |")
    screws = declared.things["a"]
    assert findings == []
    assert isinstance(screws, ScrewSet)
    assert screws.drives == ("SL4", "PZ1")


@pytest.mark.parametrize(
    ("details", "capacity", "voltage", "energy"),
    [
        ("2600 mAh, 3.7 V", 2600, 3.7, 9.62),
        ("2.6Ah 3.7V", 2600, 3.7, 9.62),
        ("2,600 mAh, 3,7 V", 2600, 3.7, 9.62),
        ("Li-ion 3000 mAh 3.85 V", 3000, 3.85, 11.55),
        ("11.1 Wh", None, None, 11.1),
        ("7.4 V, 5000 mAh, 37 Wh", 5000, 7.4, 37),
        ("3.7 V", None, 3.7, None),
        ("", None, None, None),
        ("swollen", None, None, None),
    ],
)
def test_a_battery_has_its_energy(
    details: str, capacity: float | None, voltage: float | None, energy: float | None
):
    """Wh = rated Ah x nominal V (UN Model Regulations); 3000 mAh at 3.85 V is 11.55 Wh (computed)."""
    battery = clean(f"{{part battery pack: {details}}}").things["battery-pack"]
    assert isinstance(battery, Part)
    assert battery.cls == "battery"
    assert battery.cls_proposed
    assert (battery.battery.capacity_mah, battery.battery.voltage_v) == (capacity, voltage)
    assert battery.battery.energy_wh == (None if energy is None else pytest.approx(energy))


def test_only_a_battery_has_a_battery():
    lamp = clean("{part lamp: 3.7 V; class=other}").things["lamp"]
    assert isinstance(lamp, Part)
    assert lamp.battery is None


@pytest.mark.parametrize(
    ("details", "strength", "amount", "ml"),
    [
        ("99 %, 2 ml", "99 %", "2 ml", 2),
        ("2 ml", "", "2 ml", 2),
        ("99 %", "99 %", None, None),
        ("silicone, 0,5 ml", "silicone", "0,5 ml", 0.5),
        ("2 swabs", "", "2 swabs", None),
        ("a few drops", "", "a few drops", None),
    ],
)
def test_a_supply_has_strength_and_amount(details: str, strength: str, amount: str | None, ml: float | None):
    supply = clean(f"{{supply stuff: {details}}}").things["stuff"]
    assert isinstance(supply, Supply)
    assert supply.strength == strength
    assert (supply.amount.text if supply.amount else None) == amount
    assert (supply.amount.quantity.low if supply.amount and supply.amount.quantity else None) == ml


@pytest.mark.parametrize(
    ("details", "count", "kind"),
    [
        ("6", 6, ""),
        ("6x plastic", 6, "plastic"),
        ("four hooks", 4, "hooks"),
        ("4 × hidden, along the edge", 4, "hidden, along the edge"),
        ("plastic", None, "plastic"),
        ("6-pin", None, "6-pin"),
        ("2.5 mm pitch", None, "2.5 mm pitch"),
        ("", None, ""),
    ],
)
def test_clips_have_a_count_or_a_type(details: str, count: int | None, kind: str):
    clips = clean(f"{{clip edge: {details}}}").things["edge"]
    assert isinstance(clips, Clip)
    assert (clips.count, clips.type) == (count, kind)


@pytest.mark.parametrize(
    ("mark", "reuse", "renew"),
    [
        ("{screw x: 1x T5}", Reuse.REUSABLE, False),
        ("{screw x: 1x T5; renew}", Reuse.REMOVABLE, True),
        ("{screw x: 1x T5; reuse=neither}", Reuse.NEITHER, False),
        ("{clip x}", Reuse.REUSABLE, False),
        ("{adhesive x}", Reuse.REMOVABLE, True),
        ("{adhesive x; renew=no}", Reuse.REMOVABLE, False),
        ("{adhesive x; reuse=reusable; renew=no}", Reuse.REUSABLE, False),
        ("{thermal x}", Reuse.REMOVABLE, True),
        ("{solder x}", Reuse.REMOVABLE, False),
        ("{fastening x}", Reuse.UNKNOWN, False),
        ("{fastening x; renew}", Reuse.REMOVABLE, True),
        ("{fastening x; reuse=resupplied}", Reuse.RESUPPLIED, False),
    ],
)
def test_how_fastenings_come_through_unless_said(mark: str, reuse: Reuse, renew: bool):
    """The words of Reg. (EU) 2023/1669; what holds unless said is the language page's."""
    thing = clean(mark).things["x"]
    assert isinstance(thing, ScrewSet | Fastening | Solder)
    assert (thing.reuse, thing.renew) == (reuse, renew)
    assert thing.reuse_stated == ("reuse=" in mark)


def test_a_connector_that_is_nearly_a_known_type_is_asked_about():
    _, findings = lines("{connector J1: pres-fit}", "{connector J2: press-fit}", "{connector J3: 4 pins, bent}")
    assert [(one.code, one.typed, one.suggestions) for one in findings] == [("M115", "pres-fit", ("press-fit",))]


def test_a_connectors_ends_and_type():
    connector = clean("{part lamp} {connector J1: Flip Lock; from=lamp; to=wall; qty=2}").things["j1"]
    assert isinstance(connector, Connector)
    assert (connector.type, connector.from_.id, connector.to.id, connector.qty) == ("flip-lock", "lamp", None, 2)
