"""Cautions along a route: once, at their place, and only where they are called for."""

from __future__ import annotations

from .helpers import added, codes, guide_of, ids, line

PHONE = """
---
power: battery
isolate: battery lead
---

# Phone

## Back

1. Heat the edge {heat 70 °C, 2 min} to soften {adhesive back tape}.
2. Lift off {part back cover; class=cover}.

## Battery

1. Unplug {connector battery lead; from=battery}.
2. Soak {adhesive cell tape} with {supply isopropyl alcohol: 2 ml}.
3. Pry out {part battery: 3000 mAh, 3.85 V; class=battery}.

## Screen {after nothing}

1. Heat the rim {heat 70 °C, 2 min} to soften {adhesive rim tape}.
2. Pry off {part display; class=display}. {risk display: cracks}

## Board

1. Lift out {part main board; class=board}.
"""
WHOLE = ["heat-near-cell", "hot-surface", "solvent", "lever-cell", "wet-solvent", "glass", "static"]


def test_the_whole_guide_has_each_once_in_the_order_of_the_work():
    assert ids(PHONE) == WHOLE


def test_a_route_has_only_what_it_calls_for():
    guide = guide_of(PHONE)
    board = guide.operation["board"].actions
    battery = guide.operation["battery"].actions
    assert ids(PHONE, (*battery, *board)) == ["solvent", "lever-cell", "static"]
    assert ids(PHONE, guide.operation["screen"].actions) == ["heat-near-cell", "hot-surface", "live-work", "glass"]


def test_a_cell_that_is_out_by_then_is_not_warned_of():
    guide = guide_of(PHONE)
    order = (*guide.operation["battery"].actions, *guide.operation["screen"].actions)
    assert "heat-near-cell" not in ids(PHONE, order)
    assert "heat-near-cell" in ids(PHONE, tuple(reversed(order)))


def test_each_stands_at_the_action_that_calls_for_it():
    places = {placed.hazard.rule: placed.action for placed in added(PHONE)}
    assert places["heat-near-cell"] == "back/1"
    assert places["lever-cell"] == "battery/3"
    assert places["wet-solvent"] == "screen/1"
    assert places["static"] == "board/1"


def test_work_before_the_device_is_dead_is_told():
    board = guide_of(PHONE).operation["board"].actions
    assert ids(PHONE, board) == ["live-work", "static"]
    assert "main board can still be under voltage" in added(PHONE, board)[0].hazard.text


def test_they_are_marked_as_added_and_carry_their_rule():
    for placed in added(PHONE):
        assert placed.hazard.added
        assert placed.hazard.rule in WHOLE


def test_they_point_at_the_action():
    guide = guide_of(PHONE)
    for placed in added(PHONE):
        assert placed.hazard.span == guide.actions[placed.action].span


def test_an_authors_hazard_in_another_operation_further_on_does_not_count_yet():
    note = line(
        "Pry out {part battery; class=battery}.",
        after="\n## Later\n\n> WARNING: A bent cell can burn.\n\n1. Lift off {part lid}.\n",
    )
    assert ids(note) == ["lever-cell"]


def test_an_authors_hazard_before_everything_counts_everywhere():
    note = "# Radio\n\n> WARNING: A bent battery can burn. Discharge it below 25 %.\n" + line(
        "Pry out {part battery; class=battery}."
    ).removeprefix("# Device\n")
    assert ids(note) == []


GERMAN = """
---
language: de
---

# Gerät

## Öffnen

1. Heble {part Akku: 3000 mAh, 3.85 V; class=battery} heraus.
"""


def test_words_follow_the_notes_language():
    (placed,) = added(GERMAN)
    assert placed.hazard.text.startswith("Eine Lithiumzelle (Akku) wird gehebelt.")
    assert codes(GERMAN) == ["T404"]


def test_a_drying_action_takes_the_wet_solvent_away():
    wet = line(
        "Soak {adhesive pad tape} with {supply isopropyl alcohol: 2 ml}.",
        after="2. {dry}Desolder {solder leads}.\n",
    )
    assert "wet-solvent" in ids(wet.replace("{dry}", ""))
    assert "wet-solvent" not in ids(wet.replace("{dry}", "Let it dry for a while.\n3. "))
    assert "wet-solvent" not in ids(wet.replace("{dry}", "Dry the board and desolder {solder other}.\n3. "))
