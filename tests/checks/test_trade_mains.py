"""Mains, stored charge, devices for licensed practice, safety devices."""

from __future__ import annotations

import pytest

from .helpers import added, codes, ids, line, place

OPEN = "\n## Open\n\n1. Undo {screw A: 2x PH2 M4x10}.\n2. Lift off {part cover}.\n"


def mains(body: str, *, isolate: str = "", kind: str = "appliance") -> str:
    extra = f"\nisolate: {isolate}" if isolate else ""
    return f"---\nsubject: {{kind: {kind}}}\npower: mains{extra}\n---\n\n# Device\n{body}"


DEAD = "\n## Make it dead\n\n1. Unplug {connector mains plug}.\n"


@pytest.mark.parametrize(
    ("note", "expected"),
    [
        (mains(OPEN), ["T501"]),
        (mains(DEAD + OPEN, isolate="mains plug"), []),
        (mains(DEAD + OPEN), []),
        (mains("\n## Dead\n\n1. Unplug {connector lead}.\n" + OPEN, isolate="lead"), []),
        (mains(OPEN + DEAD), ["T501"]),
        (mains(DEAD + OPEN.replace("## Open", "## Open {after nothing}")), ["T501"]),
        (mains(DEAD + "\n## Tank {after nothing}\n\n1. Lift off {part water tank}.\n"), []),
        (mains("\n> WARNING: Unplug it from the wall first.\n" + OPEN), []),
        (mains("\nPull the plug out of the wall socket.\n" + OPEN), []),
        (mains("\n## Look\n\n- See {part lid}.\n"), []),
        (line("Undo {screw A: 2x PH2 M4x10}."), []),
    ],
)
def test_the_plug_is_pulled_first(note: str, expected: list[str]):
    assert codes(note) == expected


SUPPLY = "\n## Supply\n\n1. Lift out {part supply board; class=supply-unit}.\n"
CHECK = "\n## Check\n\n1. Measure {measure <=5 V across the capacitor}.\n"


@pytest.mark.parametrize(
    ("body", "expected"),
    [
        (SUPPLY, ["T502"]),
        (CHECK + SUPPLY, []),
        (SUPPLY + CHECK, ["T502"]),
        (CHECK + SUPPLY.replace("## Supply", "## Supply {after operation make it dead}"), ["T502"]),
        (CHECK.replace("<=5 V", "10 µF") + SUPPLY, ["T502"]),
        ("\n## Supply\n\n1. Look at {part supply board; class=supply-unit}.\n", []),
        ("\n## Supply\n\n1. Lift out {part lamp}.\n", []),
        ("\n## Supply\n\n1. Unplug {part power brick; class=supply-unit}.\n", []),
    ],
)
def test_a_supply_unit_is_measured_before_the_first_touch(body: str, expected: list[str]):
    assert codes(mains(DEAD + body, isolate="mains plug")) == expected


@pytest.mark.parametrize(
    ("line_", "language", "expected"),
    [
        ("Lift out {part capacitor: 450 V}.", "en", ["T502"]),
        ("Pull out {part start capacitor}.", "en", ["T502"]),
        ("Take out {part motor run capacitor: 8 µF; qty=2}.", "en", ["T502"]),
        ("Unplug {part smoothing capacitor}.", "en", ["T502"]),
        ("Unplug {connector leads: plug; from=filter cap}. {part filter cap}", "en", ["T502"]),
        ("Desolder {solder joints: 2x; holds=capacitor C1}, then lift out {part capacitor C1}.", "en", ["T502"]),
        ("Nimm {part Kondensator} ab.", "de", ["T502"]),
        ("{part Anlaufkondensator: 30 µF} abnehmen.", "de", ["T502"]),
        ("Hebe {part Siebelko} heraus.", "de", ["T502"]),
        ("Lift out {part capacitor: 2200 µF, 16 V}.", "en", []),
        ("Lift out {part capacitor: 1000 µF, 59.9 V}.", "en", []),
        ("Lift out {part capacitor: 1000 µF, 60 V}.", "en", ["T502"]),
        ("Lift out {part capacitor bracket}.", "en", []),
        ("Lift out {part lamp on the capacitor}.", "en", []),
        ("Lift out {part bottom cap}.", "en", []),
        ("Lift out {part tuning capacitor}.", "en", []),
        ("Nimm {part Kondensatorhalter} ab.", "de", []),
        ("Look at {part start capacitor}.", "en", []),
        ("Discharge {part start capacitor}.", "en", []),
        ("Measure {part start capacitor} {measure 10±1 µF}.", "en", []),
    ],
)
def test_a_capacitor_on_the_mains_is_measured_before_the_first_touch(
    line_: str, language: str, expected: list[str]
):
    """60 V: IEC 60204-1, 6.2.4 (published)."""
    note = mains(f"{DEAD}\n## Work\n\n1. {line_}\n", isolate="mains plug")
    if language == "de":
        dead = "\n## Aus\n\n1. Ziehe {connector Netzstecker} ab.\n"
        note = mains(f"{dead}\n## Arbeit\n\n1. {line_}\n", isolate="Netzstecker").replace(
            "power:", "language: de\npower:"
        )
    assert codes(note) == expected


def test_a_discharge_alone_leaves_the_charge_unknown():
    work = "\n## Work\n\n1. Discharge {part capacitor} with {tool resistor}.\n2. Lift out {capacitor}.\n"
    checked = work.replace("2. ", "2. Measure {measure <=5 V across the capacitor}.\n3. ")
    assert codes(mains(DEAD + work, isolate="mains plug")) == ["T502"]
    assert codes(mains(DEAD + checked, isolate="mains plug")) == []


@pytest.mark.parametrize(
    ("name", "expected"),
    [("capacitor: 330 V", ["T502"]), ("capacitor: 6.3 V", []), ("capacitor", []), ("capacitor C12: 10 µF", [])],
)
def test_on_batteries_only_a_capacitor_for_60_volts_or_more_is_feared(name: str, expected: list[str]):
    assert codes(line(f"Lift out {{part {name}}}.", front="power: battery\nisolate: lead")) == expected


def test_in_a_dryer_a_german_kondensator_may_be_the_heat_exchanger():
    note = "\n## Aus\n\n1. Ziehe {connector Netzstecker} ab.\n2. Nimm {part Kondensator} ab.\n"
    dryer = mains(note, isolate="Netzstecker", kind="Wäschetrockner").replace("power:", "language: de\npower:")
    assert codes(dryer) == []
    assert codes(dryer.replace("Kondensator}", "Motorkondensator}")) == ["T502"]


def test_a_charged_capacitor_is_warned_of():
    note = mains(DEAD + "\n## Work\n\n1. Lift out {part start capacitor}.\n", isolate="mains plug")
    assert "charged-capacitor" in ids(note)


def test_without_mains_no_check_is_asked_for():
    assert codes(line("Lift out {part supply board; class=supply-unit}.")) == []


@pytest.mark.parametrize(
    ("value", "expected"),
    [("<=60 V", []), ("<60 V", []), ("<61 V", ["T503"]), ("<= 60.5 V", ["T503"]), ("230 V", []), (">100 V", [])],
)
def test_a_check_is_content_with_60_volts_at_most(value: str, expected: list[str]):
    """IEC 60204-1, 6.2.4: 60 V (published)."""
    assert codes(line(f"Check {{measure {value} across the capacitor}}.")) == expected


@pytest.mark.parametrize(
    ("kind", "caution"),
    [
        ("microwave oven", "microwave"),
        ("CRT monitor", "picture-tube"),
        ("flash gun", "flash"),
        ("valve amplifier", "tube-amplifier"),
    ],
)
def test_devices_that_kill_get_a_danger_and_the_words_for_licensed_practice(kind: str, caution: str):
    note = mains("\n> WARNING: Pull the mains plug first.\n" + OPEN, kind=kind)
    assert codes(note) == ["T504"]
    (placed,) = added(note)
    assert placed.hazard.rule == caution
    assert placed.hazard.signal == "DANGER"
    assert "licensed practice" in placed.hazard.text
    assert (placed.operation, placed.action) == (None, None)


def test_the_authors_own_danger_is_enough():
    own = (
        "\n> DANGER: The high-voltage capacitor kills. Only for licensed people. Unplug it from the mains first.\n"
    )
    assert ids(mains(own + OPEN, kind="microwave oven")) == []
    assert codes(mains(own + OPEN, kind="microwave oven")) == []


def test_a_note_in_which_nothing_is_opened_gets_no_cautions():
    assert ids(mains("\n## Look\n\n- See {part lid}.\n", kind="microwave oven")) == []


@pytest.mark.parametrize(
    ("words", "expected"),
    [
        ("Bridge the door interlock with a wire.", ["T505"]),
        ("Lift off {part cover}, then run it with the interlock bypassed.", ["T505"]),
        ("Lift out {part thermal fuse}. {refit bridge the thermal fuse if none is at hand}", ["T505"]),
        ("Lift out {part thermal fuse}. {refit fit a new one, never bridge it}", []),
        ("Desolder {solder fuse leads} at {part bridge rectifier}.", []),
        ("Check that the interlock is not bridged.", []),
    ],
)
def test_no_instruction_defeats_a_safety_device(words: str, expected: list[str]):
    assert [code for code in codes(line(words)) if code == "T505"] == expected


@pytest.mark.parametrize(
    ("text", "expected"),
    [
        ("To test it, bypass the lid switch.\n", ["T505"]),
        ("> NOTICE: Somebody had bypassed the lid switch.\n", []),
        ("> DANGER: Never bypass the lid switch.\n", []),
    ],
)
def test_prose_is_read_and_hazards_are_let_be(text: str, expected: list[str]):
    assert codes(line("Lift off {part cover}.", before=text)) == expected


def test_it_cannot_be_silenced():
    from guidec.checks.quiet import silence
    from guidec.notes import read
    from guidec.source import Source

    from .helpers import found

    note = line("Bridge the door interlock.", front="quiet: {T505: we know what we do}")
    document, _ = read(Source.of("note.md", note))
    assert "T505" in [each.code for each in silence(document.front, found(note))]


def test_the_place_is_the_words_themselves():
    assert place(line("Now bridge the door interlock with a wire."), "T505") == ["bridge the door interlock"]
