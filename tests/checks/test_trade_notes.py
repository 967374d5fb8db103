"""Small notes of many kinds of device: what a colleague would object to, and nothing else."""

from __future__ import annotations

from pathlib import Path

import pytest

from .helpers import codes, guide_of, ids

NOTES = Path(__file__).parent / "notes"

CLEAN = {
    "bench-supply": [],
    "bicycle-light": ["T405"],
    "camera": [],
    "coffee-machine": [],
    "cordless-drill": [],
    "dishwasher": [],
    "drone": [],
    "e-reader": ["T405"],
    "game-console": [],
    "game-pad": [],
    "hair-dryer": [],
    "handlebar-lamp": ["T404 info", "T405"],
    "ink-printer": [],
    "kettle": [],
    "kitchen-scale-de": [],
    "laptop": [],
    "led-lamp": [],
    "phone": ["T405"],
    "radio": [],
    "router": [],
    "sewing-machine": [],
    "smart-watch": ["T405"],
    "speaker-box": [],
    "toaster-plain": [],
    "vacuum": [],
    "wall-clock": [],
}
"""Notes that are as they should be: no warning, no error; what is said as information."""

FAULTY = {
    "bad-battery": ["T401", "T403", "T404", "T406", "T407"],
    "bad-heat-order": ["T202", "T203", "T204", "T206", "T401", "T404", "T405"],
    "bad-mains": ["T501", "T502", "T503", "T504", "T505"],
    "bad-screws": ["T101", "T102", "T103", "T104", "T105", "T106", "T107", "T601"],
    "bad-solvents": ["T301", "T302", "T303"],
    "bad-unnamed-glue": ["T201 info", "T205"],
}
"""Notes with faults, each found once."""

CAUTIONS = {
    "handlebar-lamp": ["heat-near-cell", "solvent", "discharge-first", "static"],
    "phone": ["heat-near-cell", "static"],
    "kettle": [],
    "bench-supply": ["mains"],
    "led-lamp": ["mains", "stored-charge"],
    "drone": ["screw-lengths", "hot-surface"],
    "ink-printer": ["mains", "spring"],
    "cordless-drill": ["left-hand"],
    "wall-clock": [],
    "game-pad": ["screw-lengths", "solvent", "static"],
    "bad-mains": ["microwave", "mains", "stored-charge"],
    "bad-battery": ["static", "swollen-cell", "lever-cell"],
    "bad-solvents": ["solvent", "solvent-on-plastic", "hot-surface", "wet-solvent", "static"],
}
"""The cautions that are added to the whole guide."""


def note(name: str) -> str:
    return (NOTES / f"{name}.md").read_text(encoding="utf-8")


def test_every_note_is_looked_at():
    assert {path.stem for path in NOTES.glob("*.md")} == {*CLEAN, *FAULTY}
    assert len(CLEAN) >= 25


@pytest.mark.parametrize("name", CLEAN)
def test_a_clean_note_is_left_in_peace(name: str):
    assert codes(note(name)) == CLEAN[name]


@pytest.mark.parametrize("name", FAULTY)
def test_faults_are_found_once_each(name: str):
    assert codes(note(name)) == FAULTY[name]


@pytest.mark.parametrize("name", CAUTIONS)
def test_cautions_are_added_once(name: str):
    assert ids(note(name)) == CAUTIONS[name]


@pytest.mark.parametrize("name", [*CLEAN, *FAULTY])
def test_no_caution_is_added_twice_and_the_authors_stay(name: str):
    guide = guide_of(note(name))
    every = ids(note(name))
    about_screws = {"screw-lengths", "left-hand", "solvent-on-plastic", "wet-solvent"}
    once = [each for each in every if each not in about_screws]
    assert len(once) == len(set(once))
    assert not any(hazard.added for operation in guide.operations for hazard in operation.hazards)
