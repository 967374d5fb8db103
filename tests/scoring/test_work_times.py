"""Work times: MOST arithmetic, a published worked example through the same engine, and what is measured."""

from __future__ import annotations

from fractions import Fraction
from pathlib import Path

import pytest

from guidec.plan import graph
from guidec.plan.times import of_table
from guidec.scoring import assess
from guidec.scoring.files import read_times
from guidec.source import Source
from guidec.trade.work_times import Table, own_table, seconds, tmu
from tests.scoring.helpers import graph_of

# Zandin, MOST Work Measurement Systems: time = sum of the index values x 10 TMU, 1 TMU = 0.036 s.
ZANDIN = [("A6 B6 G1 A1 B0 P3 A0", 170, "6.12"), ("A1 B0 G1 M1 X10 I0 A0", 130, "4.68")]

# Design for Six Sigma: A Roadmap for Product Development, ch. 10, Table 10.5 (times after Abbatiello 1995):
# disassembly of a pressure recorder, seconds: acquiring the tool + n x (removal + setting aside). Total 104.3 s.
RECORDER = """
title: Pressure recorder
source: Design for Six Sigma, Table 10.5, times after Abbatiello 1995
status: published
change: 0 s
turn: 0 s
rows:
  - {on: {family: turn}, each: {removal: 4.5 s}}
  - {on: {name: cover screws}, once: {tool: 4.2 s}, each: {removal: 11.3 s, aside: 1.4 s}}
  - {on: {name: setscrew}, once: {tool: 4.2 s}, each: {removal: 8.0 s}}
  - {on: {name: board screws}, once: {tool: 4.2 s}, each: {removal: 8.0 s, aside: 1.4 s}}
  - {on: {kind: connector}, each: {removal: 6.4 s}}
  - {on: {kind: part}, each: {removal: 2.4 s, aside: 1.4 s}}
"""
NOTE = """
# Pressure recorder

## Take it apart {side front} @0:10-2:10

1. Undo {screw cover screws: 3x PH1 M4x10}.
2. Turn over.
3. Undo {screw setscrew: 1x SL2 M3x5}.
4. Pull off {part knob; class=button}.
5. Lift off {part cover; class=cover}.
6. Turn over.
7. Unplug {connector lead: plug}.
8. Undo {screw board screws: 2x PH1 M3x6}.
9. Lift out {part board; class=board}.
"""


def recorder() -> Table:
    table, found = read_times(Source.of("recorder.yaml", RECORDER))
    assert found == ()
    assert table is not None
    return table


@pytest.mark.parametrize(("sequence", "units", "time"), ZANDIN)
def test_the_time_of_a_sequence(sequence: str, units: int, time: str):
    assert tmu(sequence) == units
    assert seconds(sequence) == Fraction(time)


@pytest.mark.parametrize(("written", "time"), [("4.2 s", "4.2"), ("4,2", "4.2"), (3, "3"), (0.5, "0.5")])
def test_plain_seconds(written: str | float, time: str):
    assert seconds(written) == Fraction(time)


@pytest.mark.parametrize("written", ["", "soon", "A", "A1 B", "-3 s", "a1 b2"])
def test_what_is_no_time_is_refused(written: str):
    with pytest.raises(ValueError):
        seconds(written)


@pytest.mark.parametrize(
    ("work", "count", "time"),
    [
        ({"name": "cover screws"}, 3, "42.3"),
        ({"family": "turn"}, 1, "4.5"),
        ({"name": "setscrew"}, 1, "12.2"),
        ({"kind": "part"}, 1, "3.8"),
        ({"kind": "connector"}, 1, "6.4"),
        ({"name": "board screws"}, 2, "23.0"),
    ],
)
def test_each_row_of_the_published_example(work: dict[str, str], count: int, time: str):
    row = recorder().row(work)
    assert row is not None
    assert row.total(count) == Fraction(time)


def test_the_published_example_written_as_a_note_takes_what_it_should():
    guide = graph_of(NOTE).guide
    assessment, _ = assess(graph(guide, of_table(recorder())), None, recorder())
    (operation,) = assessment.times.operations
    assert operation.hand == Fraction("104.3")
    way = assessment.ways.off("board")
    assert way is not None
    assert assessment.times.route(guide, way).hand == Fraction("104.3")


def test_what_the_recording_spans_stands_beside_the_estimate():
    assessment, _ = assess(graph_of(NOTE))
    (operation,) = assessment.times.operations
    assert operation.measured == 120
    assert operation.hand != 120
    way = assessment.ways.off("board")
    assert way is not None
    assert assessment.times.route(assessment.guide, way).measured == 120


def test_waiting_and_heating_stand_apart_from_hand_time():
    text = """
    # Lamp

    ## Open

    1. Warm {adhesive seal} with {tool heat gun} {heat 70 °C, 2 min}.
    2. Pry off {part lid; class=cover} {wait 30-60 s}.
    """
    (operation,) = assess(graph_of(text))[0].times.operations
    assert operation.wait == 180
    assert 0 < operation.hand < 60


def test_shares_of_a_set_take_the_time_of_the_set():
    whole = assess(graph_of("# L\n\n## O\n\n1. Undo {screw A: 4x PH0 M2x6}.\n"))[0].times
    shares = assess(graph_of("# L\n\n## O\n\n1. Undo 3 of {screw A: 4x PH0 M2x6}.\n2. Undo the last of {A}.\n"))[0]
    once = own_table().row({"kind": "screw"})
    assert once is not None
    extra = sum(once.once.values())
    assert sum(one.hand for one in shares.times.operations) == whole.operations[0].hand + extra


def test_the_own_table_knows_every_piece_of_work_of_the_samples():
    from guidec import compile as compiler

    for note in Path("samples").glob("*/*.md"):
        known = compiler.check(compiler.load(note)).model
        if known is not None:
            assert assess(known.graph)[0].times.unknown == ()


def test_the_own_table_says_that_it_is_assumed():
    assert own_table().status == "own assumption"
    assert "not measured" in own_table().source
