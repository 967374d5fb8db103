"""Batteries: energy, levering, heat and solvent on the way, isolation."""

from __future__ import annotations

import pytest

from .helpers import added, codes, ids, line, told

WARNING = "> WARNING: A bent or pierced lithium cell can catch fire.\n"
ADVICE = "> CAUTION: Run the battery down below 25 % first.\n"


def battery(details: str, verb: str = "Lift out", before: str = "") -> str:
    return line(f"{verb} {{part battery{': ' if details else ''}{details}; class=battery}}.", before=before)


@pytest.mark.parametrize(
    ("details", "expected"),
    [
        ("5194 mAh, 3.85 V", []),  # 19.997 Wh: 20 Wh a cell (SP188, published)
        ("5195 mAh, 3.85 V", ["T401"]),
        ("5195 mAh, 7.7 V", []),  # two in series: 40 Wh, a battery
        ("9009 mAh, 11.1 V", []),  # 99.9999 Wh: 100 Wh a battery
        ("9010 mAh, 11.1 V", ["T401"]),
        ("30 Ah, 3.7 V", ["T401"]),
        ("", ["T402"]),
        ("3000 mAh, 4.4 V", ["T403"]),
        ("3000 mAh, 3.85 V", []),
    ],
)
def test_energy_and_its_limits(details: str, expected: list[str]):
    assert codes(battery(details)) == expected


def test_the_provision_is_named_with_the_numbers():
    (message,) = told(battery("9010 mAh, 11.1 V"), "T401")
    for words in ("100 Wh", "UN3480", "UN3481"):
        assert words in message


def test_other_cells_are_left_out():
    assert codes(line("Take out {part AA cell: 1.5 V; class=battery}.")) == []


@pytest.mark.parametrize(
    ("verb", "before", "expected"),
    [
        ("Pry out", "", ["T404"]),
        ("Lever out", "", ["T404"]),
        ("Pry out", WARNING, ["T404 info"]),
        ("Pry out", ADVICE, ["T404 info"]),
        ("Pry out", f"{WARNING}\n{ADVICE}", []),
        ("Lift out", "", []),
    ],
)
def test_a_cell_is_levered_with_a_warning_and_run_down(verb: str, before: str, expected: list[str]):
    """25 to 30 % or less: common practice, no source."""
    assert codes(battery("3000 mAh, 3.85 V", verb, before)) == expected


@pytest.mark.parametrize(
    ("before", "expected"),
    [
        ("", ["lever-cell"]),
        (WARNING, ["discharge-first"]),
        (f"{WARNING}\n{ADVICE}", []),
    ],
)
def test_what_the_author_leaves_out_is_added(before: str, expected: list[str]):
    assert ids(battery("3000 mAh, 3.85 V", "Pry out", before)) == expected


def test_to_discharge_a_capacitor_is_no_advice_on_a_cell():
    note = battery("3000 mAh, 3.85 V", "Pry out", f"{WARNING}\nDischarge the capacitor first.\n")
    assert codes(note) == ["T404 info"]


def test_a_swollen_cell_is_not_levered():
    note = line("Pry out {part swollen battery: 3000 mAh, 3.85 V; class=battery}.")
    assert codes(note) == ["T407"]
    assert "swollen-cell" in ids(note)


def test_the_words_for_a_swollen_cell_follow_the_published_guidance():
    """NFPA: stop; FAA SAFO 09013: leave, call the fire service, water cools (published)."""
    note = line("Lift out {part swollen battery: 3000 mAh, 3.85 V; class=battery}.")
    (text,) = [placed.hazard.text for placed in added(note) if placed.hazard.rule == "swollen-cell"]
    for words in ("Stop", "fire service", "water cools"):
        assert words in text


# ---------------------------------------------------------------- Regulation (EU) 2023/1542, Article 11


def way(first: str, *, heading: str = "") -> str:
    return f"""
        # Radio

        ## Loosen

        1. {first}

        ## Battery{heading}

        1. Lift out {{part battery: 3000 mAh, 3.85 V; class=battery}}.
        """


@pytest.mark.parametrize(
    ("first", "heading", "expected"),
    [
        ("Soak {adhesive cell tape} with {supply isopropyl alcohol: 2 ml}.", "", ["T405"]),
        ("Warm the back {heat 55 °C, 1 min} to soften {adhesive cell tape}.", "", ["T405"]),
        ("Pull out {adhesive cell tape}.", "", []),
        ("Soak {adhesive cell tape} with {supply isopropyl alcohol: 2 ml}.", " {after nothing}", []),
    ],
)
def test_batteries_that_need_heat_or_solvent(first: str, heading: str, expected: list[str]):
    assert codes(way(first, heading=heading)) == expected


def test_the_law_is_told_with_its_date_and_its_exceptions():
    """Recital 38 of the Regulation, from 18 February 2027 (published)."""
    (message,) = told(way("Soak {adhesive cell tape} with {supply isopropyl alcohol: 2 ml}."), "T405")
    for words in ("2023/1542", "2027-02-18", "exceptions"):
        assert words in message


# ---------------------------------------------------------------- isolation

BOARD = "Lift out {part main board; class=board}."


@pytest.mark.parametrize(
    ("front", "words", "expected"),
    [
        ("power: battery", BOARD, ["T406"]),
        ("power: battery", "Unplug {connector lamp lead}.", ["T406"]),
        ("power: battery", "Unplug {connector battery lead}.", []),
        ("power: battery", "Lift off {part lid}.", []),
        ("power: none", BOARD, []),
        ("", BOARD, []),
        ("power: battery\nisolate: main board", BOARD, []),
    ],
)
def test_isolation_is_asked_for_where_something_could_be_live(front: str, words: str, expected: list[str]):
    assert codes(line(words, front=front)) == expected


@pytest.mark.parametrize(
    ("first", "heading", "expected"),
    [
        ("Unplug {connector battery lead}.", "", ["T406 info"]),
        ("Slide off {part battery pack: 2000 mAh, 18 V; class=battery}.", "", ["T406 info"]),
        ("Slide off {part battery pack: 2000 mAh, 18 V; class=battery}.", " {after nothing}", ["T406"]),
        ("Lift off {part lid}.", "", ["T406"]),
    ],
)
def test_a_battery_that_surely_comes_off_first_is_information(first: str, heading: str, expected: list[str]):
    note = f"""
        ---
        power: battery
        ---

        # Drill

        ## First

        1. {first}

        ## Board{heading}

        1. Lift out {{part main board; class=board}}.
        """
    assert codes(note) == expected


@pytest.mark.parametrize(("voltage", "expected"), [("60 V", []), ("60.1 V", ["high-voltage-pack"])])
def test_packs_above_60_volts(voltage: str, expected: list[str]):
    """60 V direct: IEC 60204-1, 6.2.4 (published)."""
    assert ids(battery(f"1000 mAh, {voltage}")) == expected
