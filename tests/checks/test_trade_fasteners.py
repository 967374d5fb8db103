"""Screws: drives, lengths, torques, drivers, locks."""

from __future__ import annotations

import pytest

from .helpers import added, codes, ids, line, place, told


def screw(details: str) -> str:
    return line(f"Undo {{screw A: {details}}}.")


@pytest.mark.parametrize(
    ("details", "words"),
    [
        ("4x PH1 M2x6", "follows JIS (JIS1) and not ISO (PH0)"),
        ("4x PH2 M3x6", "follows JIS (JIS2) and not ISO (PH1)"),
        ("4x PH3 M8x20", "follows JIS (JIS3) and not ISO (PH4)"),
        ("4x PH3 M2x6", "unusual: PH0 by ISO, JIS1 by JIS"),
        ("4x PH0 M4x6", "unusual: PH2 by ISO, JIS2 by JIS"),
        ("4x T20 M2x6", "unusual: T6 by ISO"),
        ("4x H4 M3x6", "unusual: H2.5 by ISO"),
    ],
)
def test_an_unusual_drive_is_told_with_what_iso_and_jis_say(details: str, words: str):
    """ISO 7045 and JIS B 1111 (published), ISO 14583 and ISO 4762 (open data). Never more than information."""
    assert codes(screw(details)) == ["T101"]
    assert words in told(screw(details), "T101")[0]
    assert place(screw(details), "T101") == [details.split()[1]]


@pytest.mark.parametrize(
    "details",
    ["4x PH0 M2x6", "4x PH1 M3x6", "4x JIS2 M3x6", "4x T5 M1.6x4", "4x T8 M3x6", "4x H2 M3x6", "4x SL4|PZ1 M3x6",
     "2x 5L0.8 M1.2x3", "4x NUT5.5 M3x6", "4x PH2 2.5x8", "4x PH00 M1.4x3", "4x PH2 M3x6; head=cheese"],
)  # fmt: skip
def test_usual_drives_are_passed_over(details: str):
    assert codes(screw(details)) == []


def test_of_two_drives_one_that_suits_is_enough():
    assert codes(screw("4x PH1|SL4 M2.5x6")) == []


@pytest.mark.parametrize(
    ("details", "expected"),
    [
        ("2x PH0 M2", ["T102"]),
        ("2x PH0 M2x6", []),
        ("4x NUT5.5 M3", []),
        ("2x PH0", []),
        ("2x PH1 ST2.9", ["T102"]),
    ],
)
def test_a_length_left_out_is_asked_for(details: str, expected: list[str]):
    assert codes(screw(details)) == expected


def test_many_lengths_left_out_are_asked_for_once():
    sets = "".join(f"{at}. Undo {{screw set {at}: 2x PH0 M2}}.\n" for at in range(2, 5))
    assert codes(line("Undo {screw A: 2x PH0 M2x6}.", after=sets)) == ["T102"]
    assert "3 screw sets" in told(line("Undo {screw A: 2x PH0 M2x6}.", after=sets), "T102")[0]


def test_an_unusual_pair_is_told_once():
    note = line("Undo {screw A: 2x PH1 M2x6}.", after="2. Undo {screw B: 1x PH1 M2x8}.\n")
    assert codes(note) == ["T101"]


# ---------------------------------------------------------------- torque: each side of each bound


@pytest.mark.parametrize(
    ("torque", "expected"),
    [
        ("0.37 N·m", []),  # M2, 8.8: 0.37 N·m (ISO 898-7, from memory)
        ("0.371 N·m", ["T103"]),
        ("1.0 N·m", ["T103"]),  # M2, 12.9: 0.50 N·m, twice that 1.0
        ("1.001 N·m", ["T104"]),
        ("3.7 kgf·cm", []),
        ("3.8 kgf·cm", ["T103"]),  # 0.373 N·m
        ("0.3-0.4 N·m", ["T103"]),
    ],
)
def test_a_torque_against_the_bounds_of_its_size(torque: str, expected: list[str]):
    assert codes(screw(f"2x PH0 M2x6; torque={torque}")) == expected


@pytest.mark.parametrize(
    ("grade", "torque", "expected"),
    [
        ("12.9", "0.5 N·m", []),
        ("12.9", "0.51 N·m", ["T103"]),
        ("10.9", "0.45 N·m", []),
        ("10.9", "0.46 N·m", ["T103"]),
        ("A2-70", "0.4 N·m", []),  # ISO 3506-1 (from memory)
        ("A2-70", "0.41 N·m", ["T103"]),
    ],
)
def test_the_class_named_decides(grade: str, torque: str, expected: list[str]):
    assert codes(screw(f"2x PH0 M2x6; grade={grade}; torque={torque}")) == expected


@pytest.mark.parametrize(
    ("torque", "size", "words"),
    [
        ("15 N·m", "M2x6", "15 cN·m = 0.15 N·m"),
        ("1.5 N·m", "M2x6", "1.5 kgf·cm = 0.15 N·m"),
        ("12 Nm", "M3x6", "12 kgf·cm = 1.2 N·m"),
    ],
)
def test_a_unit_mixed_up_is_named_with_the_value(torque: str, size: str, words: str):
    """Computed: 1 kgf·cm = 0.0980665 N·m."""
    note = screw(f"2x PH1 {size}; torque={torque}")
    message = [*told(note, "T103"), *told(note, "T104")][0]
    assert words in message


def test_what_was_assumed_is_said():
    (message,) = told(screw("2x PH1 M2.6x6; torque=1.6 N·m"), "T103")
    assert "names no class" in message
    assert "taken from M3" in message


def test_a_wrong_value_with_no_likely_unit_gets_no_guess():
    (message,) = told(screw("2x PH0 M2x6; torque=900 N·m"), "T104")
    assert "unit" in message
    assert "meant" not in message


@pytest.mark.parametrize(
    "details", ["2x PH0 ST2.9x9; torque=9 N·m", "2x PH0 2.5x8; torque=9 N·m", "1x H10 M12x40; torque=90 N·m"]
)
def test_where_there_is_no_table_there_is_no_word(details: str):
    assert [code for code in codes(screw(details)) if code in ("T103", "T104")] == []


def test_a_torque_in_the_line_is_held_against_the_set():
    assert codes(line("Undo {screw A: 2x PH0 M2x6} {torque 2 N·m}.")) == ["T104"]


def test_a_torque_in_a_refit_is_held_against_the_set():
    assert codes(line("Undo {screw A: 2x PH0 M2x6}. {refit tighten to {torque 0.6 N·m}}")) == ["T103"]


# ---------------------------------------------------------------- drivers


@pytest.mark.parametrize(
    ("drive", "tool", "expected"),
    [
        ("PH0", "PH0 driver", []),
        ("PH0", "T5 driver", ["T105"]),
        ("PH0", "PH00 driver", ["T105 info"]),
        ("PH0", "PH2 driver", ["T105"]),
        ("JIS1", "PH1 driver", ["T105 info"]),
        ("PH1", "PZ1 screwdriver", ["T105"]),
        ("T10H", "T10 driver", ["T105"]),
        ("T10", "T10H driver", []),
        ("T10", "T10 bit", []),
        ("SL4|PZ1", "PZ1 screwdriver", []),
        ("PH0", "screwdriver", []),
        ("PH0", "plastic card", []),
    ],
)
def test_a_driver_has_to_fit(drive: str, tool: str, expected: list[str]):
    """Common practice, no source."""
    note = line(f"Undo {{screw A: 2x {drive} M2.5x6}} with {{tool {tool}}}.")
    assert [code for code in codes(note) if code.startswith("T105")] == expected


# ---------------------------------------------------------------- locks


@pytest.mark.parametrize(
    ("keys", "rest", "expected"),
    [
        ("locked=threadlocker", "", ["T106"]),
        ("locked", "", ["T106 info"]),
        ("locked=yes", "", ["T106 info"]),
        ("locked=spring washer", "", []),
        ("locked=nylon patch", "", []),
        ("locked=threadlocker; renew", "", []),
        ("locked=threadlocker", " {refit a drop of {supply threadlocker: medium, 1 drop}}", []),
        ("locked=blue", " {refit new threadlocker}", []),
        ("captive; renew", "", ["T107"]),
        ("captive", "", []),
    ],
)
def test_locked_and_captive_sets(keys: str, rest: str, expected: list[str]):
    assert codes(line(f"Undo {{screw A: 2x T20 M4x12; {keys}}}.{rest}")) == expected


# ---------------------------------------------------------------- unequal lengths


def two(first: str, second: str, *, apart: bool = False) -> str:
    between = "\n## More\n\n1. " if apart else "2. "
    return line(f"Undo {{screw A: {first}}}.", after=f"{between}Undo {{screw B: {second}}}.\n")


def test_sets_of_unequal_length_in_one_operation_are_not_to_be_swapped():
    (placed,) = added(two("2x PH0 M2x4", "2x PH0 M2x6"))
    assert placed.hazard.rule == "screw-lengths"
    assert placed.hazard.added
    assert placed.operation == "work"
    assert placed.action == "work/1"
    assert "A and B" in placed.hazard.text
    assert "4 and 6 mm" in placed.hazard.text


@pytest.mark.parametrize(
    ("first", "second"),
    [
        ("2x PH0 M2x4", "2x PH0 M2x4"),
        ("2x PH0 M2x4", "2x PH0 M2.5x6"),
        ("2x PH0 M2x4", "2x T6 M2x6"),
        ("2x PH0 M2x4", "2x PH0 M2"),
    ],
)
def test_other_pairs_are_told_apart_by_themselves(first: str, second: str):
    assert ids(two(first, second)) == []


def test_sets_of_two_operations_are_kept_apart_anyway():
    assert ids(two("2x PH0 M2x4", "2x PH0 M2x6", apart=True)) == []


def test_a_left_hand_thread_is_told():
    (placed,) = added(screw("1x T20 M4x12; hand=left"))
    assert placed.hazard.rule == "left-hand"
    assert "clockwise" in placed.hazard.text
