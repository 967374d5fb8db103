"""What things and operations were called before: in the model, in the data, and where it cannot be."""

from __future__ import annotations

from pathlib import Path

import pytest

from guidec import compile as compiler
from guidec.compile import Checked
from guidec.edge.load import of_bytes
from guidec.messages import diagnose
from guidec.rules.finding import Severity


def checked(text: str) -> Checked:
    return compiler.check(of_bytes("note.md", text.encode(), Path()))


def found(text: str) -> list[tuple[str, Severity, int, int]]:
    one = checked(text)
    rows = [row for row in diagnose(one.bundle.source, one.findings) if row.severity is not Severity.INFO]
    return [(row.code, row.severity, row.here.start.line, row.here.start.column) for row in rows]


RADIO = """# Radio

## Open

1. Undo {{screw A: 2x PH1 M3x8{screw}}}.
2. Lift off {{part lid{lid}}}.

## Board{board}

1. Lift out {{part board}}.
"""


def radio(screw: str = "", lid: str = "", board: str = "") -> str:
    return RADIO.format(screw=screw, lid=lid, board=board)


def test_names_are_kept_as_the_ids_that_they_were():
    one = checked(
        radio(screw="; was=Set 1", lid="; was=Back Cover, rear lid", board=" {was Lift, then turn}")
    ).model
    assert one
    assert one.guide.things["a"].was == ("set-1",)
    assert one.guide.things["lid"].was == ("back-cover", "rear-lid")
    assert one.guide.operation["board"].was == ("lift-then-turn",)


@pytest.mark.parametrize("was", ["was: Old radio, small", 'was: ["Old radio, small"]'])
def test_a_guide_has_the_titles_it_had(was: str):
    one = checked(f"---\n{was}\n---\n\n" + radio()).model
    assert one
    assert one.guide.meta.was == ("old-radio-small",)


def test_a_table_of_the_front_matter_takes_it_too():
    one = checked("---\nparts:\n  lid: {was: [cap, hood]}\n---\n\n" + radio()).model
    assert one
    assert one.guide.things["lid"].was == ("cap", "hood")


@pytest.mark.parametrize("text", [radio(lid="; was=cover"), radio(lid="; was=open"), radio(board=" {was lid}")])
def test_a_name_that_is_free_is_no_fault(text: str):
    """Things and operations have ids of their own, so that one may be what the other was."""
    assert found(text) == []


def test_the_name_of_a_thing_that_is_still_there():
    assert found(radio(lid="; was=board")) == [("M116", Severity.ERROR, 6, 28)]
    assert found(radio(board=" {was Open}")) == [("M116", Severity.ERROR, 8, 15)]


def test_a_name_that_two_claim():
    assert found(radio(screw="; was=old", lid="; was=Old")) == [("M116", Severity.ERROR, 6, 28)]


def test_a_name_that_is_the_same_id():
    assert found(radio(lid="; was=Lid")) == [("M116", Severity.WARNING, 6, 28)]


def test_a_word_for_headings_elsewhere():
    assert [row[0] for row in found(radio() + "\n1. Lift out {part coil}. {was spool}\n")] == ["N108"]
