"""The way back: words, order, checks, and what it takes."""

from __future__ import annotations

from textwrap import dedent

import pytest

from guidec import plan
from guidec.plan import Refit
from tests.plan.random_notes import graph_of


def refit(text: str, *parts: str) -> Refit:
    graph = graph_of(dedent(text))
    return plan.refit(graph, plan.route(graph, parts) if parts else None)


def said(found: Refit) -> list[str]:
    return [line.text for line in found.lines]


def test_screws_go_back_with_count_size_and_torque():
    found = refit(
        """\
        # Radio

        ## Back

        1. Undo {screw A: 4x PH0 M2x6; torque=0.15 N·m}.
        2. Lift off {part front housing}.
        """
    )
    assert said(found) == [
        "Refit the front housing.",
        "Fit 4 × PH0 M2×6 (A), 0.15\u00a0N·m (1.5\u00a0kgf·cm, 1.3\u00a0lbf·in).",
    ]
    assert found.screws == 4
    assert found.tools == ("ph0-screwdriver",)
    assert found.closing[0] == "Screws left over: 0. All 4 are back in."
    assert found.closing[1].startswith("Function test")


def test_shares_go_back_as_shares_and_together_where_they_follow_each_other():
    found = refit(
        """\
        # Radio

        ## One

        1. Undo 2 of {screw A: 6x PH0 M2x6}.
        2. Lift off {part lid}.

        ## Two

        - Undo 3 of {screw A}.
        - Undo the rest of {screw A}.

        1. Lift off {part tray}.
        """
    )
    assert said(found) == [
        "Refit the tray.",
        "Fit 4 of 6 × PH0 M2×6 (A).",
        "Refit the lid.",
        "Fit 2 of 6 × PH0 M2×6 (A).",
    ]
    assert found.screws == 6


def test_left_hand_locked_and_new_screws_are_said():
    found = refit(
        """\
        # Radio

        ## Back

        1. Undo {screw A: 1x H4 M6x20; hand=left; locked=medium; renew}.
        2. Slide off {part blade}.
        """
    )
    assert said(found) == [
        "Slide the blade back on.",
        "Fit 1 × H4 M6×20 (A), new ones. Left-hand thread: it tightens anticlockwise. Secure the thread: medium.",
    ]
    assert found.renewals == ("a",)


def test_glue_is_laid_before_its_part_goes_on():
    found = refit(
        """\
        # Radio

        ## Display

        1. Warm the rim to soften {adhesive bead: tape, 2 mm; holds=display} {heat 60 °C, 2 min}.
        2. Slit {bead} with {tool card}.
        3. Fold {part display; class=display} up.
        4. Unplug {connector ribbon: flip-lock; from=display; to=board}.
        5. Lift off {display}. {refit press it down for a minute with {supply clamp tape}}

        ## Board

        1. Lift out {part board; class=board}.
        """,
        "display",
    )
    assert said(found) == [
        "Clean off what is left of the bead, and lay new, tape, 2 mm.",
        "Refit the display.",
        "Insert the ribbon, and close its latch.",
        "Fold the display back.",
    ]
    assert found.lines[1].notes == ("Press it down for a minute with clamp tape.",)
    assert found.supplies == ("clamp-tape",)
    assert found.renewals == ("bead",)


def test_power_comes_back_as_late_as_the_graph_allows():
    found = refit(
        """\
        ---
        power: battery
        isolate: pack lead
        ---

        # Radio

        ## Make it dead

        1. Unplug {connector pack lead: plug}.

        ## Back

        1. Undo {screw A: 4x PH0 M2x6}.
        2. Lift off {part back}.

        ## Board

        1. Lift out {part board; class=board}.
        """
    )
    assert said(found)[-1] == "Plug in the pack lead. From here on there is power in it again."
    assert found.lines[-1].power


def test_power_comes_back_before_what_has_to_cover_it_and_after_all_else():
    found = refit(
        """\
        ---
        power: battery
        isolate: pack lead
        ---

        # Radio

        ## Strap {after nothing}

        1. Pull off {part strap}.

        ## Back

        1. Undo {screw A: 4x PH0 M2x6}.
        2. Lift off {part back}.
        3. Unplug {connector pack lead: plug}.

        ## Handle {after nothing}

        1. Pull off {part handle}.
        """
    )
    texts = said(found)
    power = next(at for at, text in enumerate(texts) if text.startswith("Plug in the pack lead"))
    assert texts[power + 1] == "Refit the back."
    assert "Push the handle back on." in texts[:power]


def test_a_refit_note_may_ask_for_another_place():
    text = """\
        # Radio

        ## Back

        1. Undo {screw A: 4x PH0 M2x6}.
        2. Lift off {part back}.

        ## Cap {after nothing}

        1. Pull off {part cap}. {refit WHERE back: with its arrow up}
        """
    assert said(refit(text.replace("WHERE", "after")))[-1] == "Push the cap back on."
    assert said(refit(text.replace("WHERE", "before")))[0] == "Push the cap back on."
    assert refit(text.replace("WHERE", "after")).lines[-1].notes == ("With its arrow up.",)
    assert refit(text.replace("WHERE", "after")).refused == ()


def test_a_wish_that_the_graph_forbids_is_refused():
    found = refit(
        """\
        # Radio

        ## Back

        1. Lift off {part back}.
        2. Pull off {part cap}. {refit after back: with its arrow up}
        """
    )
    assert [wish.thing for wish in found.refused] == ["back"]
    assert said(found) == ["Push the cap back on.", "Refit the back."]


def test_refit_only_operations_come_last_and_stand_for_the_function_test():
    found = refit(
        """\
        # Radio

        ## Before use {refit only}

        - Check that it plays.
        - Measure {measure 5 V at the socket} with {tool meter}.

        ## Back

        1. Undo {screw A: 4x PH0 M2x6}.
        2. Lift off {part back}.
        """
    )
    assert [stage.operation for stage in found.stages] == ["back", "before-use"]
    assert found.stages[-1].lines[0].text == "Check that it plays."
    assert found.stages[-1].own
    assert found.closing == ("Screws left over: 0. All 4 are back in.",)
    assert "meter" in found.tools


def test_turn_overs_are_put_in_on_the_way_back():
    found = refit(
        """\
        # Radio

        ## Front {side front}

        1. Lift off {part bezel}.

        ## Rear {side back}

        1. Lift off {part foot}.
        """
    )
    assert said(found) == ["Refit the foot.", "Turn over: front is up.", "Refit the bezel."]


def test_only_what_the_route_undid_goes_back():
    text = """\
        # Radio

        ## Front {after nothing}

        1. Undo {screw A: 2x PH0 M2x6}.
        2. Lift off {part bezel}.

        ## Rear {after nothing}

        1. Undo {screw B: 3x PH0 M2x6}.
        2. Lift off {part foot}.
        """
    assert said(refit(text, "foot")) == ["Refit the foot.", "Fit 3 × PH0 M2×6 (B)."]


def test_a_german_note_goes_back_in_german():
    found = refit(
        """\
        ---
        language: de
        ---

        # Radio

        ## Rückwand

        1. Löse {screw A: 4x PH0 M2x6; torque=0,15 N·m}.
        2. Hebe {part Rückwand} ab.
        """
    )
    assert said(found) == [
        "Rückwand wieder auflegen.",
        "4 × PH0 M2×6 (A) eindrehen, 0,15\u00a0N·m (1,5\u00a0kgf·cm, 1,3\u00a0lbf·in).",
    ]


GLUED = """\
    ---
    power: battery
    isolate: flash cable
    ---

    # Tablet

    ## Open

    1. Warm {adhesive back glue: foam tape%s} {heat 80 °C, 2 min} with {tool heat mat}.
    2. %s {part back glass}%s.
    3. Unplug {connector flash cable: press-fit}.
    """


@pytest.mark.parametrize(
    ("deed", "goes_back"),
    [
        (("Open", " like a book"), "Close the back glass."),
        (("Fold", " aside"), "Fold the back glass back."),
        (("Lift off", ""), "Refit the back glass."),
    ],
)
def test_glue_is_laid_before_what_it_holds_is_closed_or_put_on(deed: tuple[str, str], goes_back: str):
    verb, rest = deed
    lines = said(refit(GLUED % ("; holds=back glass", verb, rest)))
    assert lines[0].startswith("Plug in the flash cable.")
    assert lines[1].startswith("Clean off what is left of the back glue, and lay new")
    assert lines[2] == goes_back


@pytest.mark.parametrize(("verb", "rest"), [("Open", " like a book"), ("Lift off", "")])
def test_glue_that_nobody_says_what_it_holds_is_laid_before_the_part_behind_it_goes_back(verb: str, rest: str):
    lines = said(refit(GLUED % ("", verb, rest)))
    assert [line.split(" ")[0] for line in lines] == ["Plug", "Clean", {"Open": "Close"}.get(verb, "Refit")]


def test_only_what_cuts_the_power_is_said_to_bring_it_back():
    found = refit(
        """\
        ---
        power: mains
        isolate: pull the plug
        ---

        # Machine

        ## Pull the plug

        1. Unplug {connector mains plug}.
        2. Take off {part hose}.
        3. Unplug {connector signal lead}.

        ## Open

        1. Undo {screw A: 4x PH1 M3x8}.
        2. Lift off {part back}.
        """
    )
    power = [line.text for line in found.lines if line.power]
    assert [text.split(".")[0] for text in power] == ["Plug in the mains plug"]
    assert said(found)[-1] == power[0]
    assert "Refit the hose." in said(found)


def test_where_nothing_in_an_isolating_operation_names_the_plug_its_connector_brings_the_power():
    found = refit(
        """\
        ---
        power: mains
        isolate: make it dead
        ---

        # Machine

        ## Make it dead

        1. Take off {part flap}.
        2. Unplug {connector lead}.
        """
    )
    assert [line.text.split(".")[0] for line in found.lines if line.power] == ["Plug in the lead"]


@pytest.mark.parametrize("deed", ["Clean off", "Wipe off", "Scrape off", "Clean"])
@pytest.mark.parametrize("holds", ["", "; holds=heatsink"])
def test_paste_that_was_cleaned_off_is_put_on_before_its_part_goes_back(deed: str, holds: str):
    found = refit(
        f"""\
        # Board

        ## Open

        1. Undo {{screw A: 4x PH1 M3x8; holds=heatsink}}.
        2. Lift off {{part heatsink}}.
        3. {deed} {{thermal paste: grey{holds}}} with {{supply alcohol: 99 %, 2 ml}}.
        4. Lift out {{part fan}}.
        """
    )
    assert said(found) == [
        "Refit the fan.",
        "Clean both faces, and put on new paste, grey.",
        "Refit the heatsink.",
        "Fit 4 × PH1 M3×8 (A).",
    ]
    assert found.renewals == ("paste",)


def test_a_torque_that_the_note_on_putting_back_says_is_said_once():
    found = refit(
        """\
        # Pump

        ## Head

        1. Undo {screw P: 8x H5 M6x40; torque=12 N·m}. {refit tighten crosswise to {torque 12 N·m}}
        2. Undo {screw Q: 2x H4 M5x10; torque=6 N·m}. {refit tighten to {torque 12 N·m} first}
        """
    )
    lines = {name: next(one for one in said(found) if f"({name})" in one) for name in "PQ"}
    assert "12" not in lines["P"]
    assert "6\u00a0N·m" in lines["Q"]


def test_screws_of_a_set_that_nobody_counted_make_the_total_a_least_one():
    note = """\
        # Radio

        ## Back

        1. Undo {screw A: 4x PH0 M2x6}.
        2. Undo {screw B: PH0 M2x8}.
        3. Lift off {part back}.
        """
    assert refit(note).closing[0].startswith("Screws left over: 0. Back in: at least 5;")
    assert refit(note.replace("B: PH0", "B: 2x PH0")).closing[0] == "Screws left over: 0. All 6 are back in."
