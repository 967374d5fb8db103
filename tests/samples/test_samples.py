"""The samples: clean, complete, with pictures that their script draws and pins that hit what they name."""

from __future__ import annotations

import importlib.util
import sys
from functools import cache
from io import BytesIO
from pathlib import Path
from types import ModuleType

import pytest
from PIL import Image, ImageChops

from guidec.compile import check, load
from guidec.model.types import Change, Guide, Hazard, Line, Lines, Part, ScrewSet, Shown
from guidec.rules.book import page
from guidec.rules.finding import Severity
from guidec.trade.load import data
from tests.outputs.conftest import REPOSITORY, SAMPLES, guide_at

FOLDER = REPOSITORY / "samples"
NAMES = ("head-torch", "induction-plate", "pocket-phone")
each = pytest.mark.parametrize("name", NAMES)


@cache
def draw() -> ModuleType:
    """The script that draws, as a module."""
    spec = importlib.util.spec_from_file_location("samples_draw", FOLDER / "draw.py")
    assert spec
    assert spec.loader
    module = importlib.util.module_from_spec(spec)
    sys.modules["samples_draw"] = module
    spec.loader.exec_module(module)
    return module


@cache
def guide(name: str) -> Guide:
    return guide_at(FOLDER / name / f"{name}.md")


def pictures(held: object) -> list[Shown]:
    if isinstance(held, Shown):
        return [held]
    if isinstance(held, Lines):
        return [one for line in held.lines for one in pictures(line)]
    if isinstance(held, Line):
        return [one for inner in held.content for one in pictures(inner)]
    return []


def all_pictures(name: str) -> list[Shown]:
    return [one for operation in guide(name).operations for held in operation.content for one in pictures(held)]


def test_the_three_are_there() -> None:
    assert tuple(path.stem for path in SAMPLES) == NAMES


@each
def test_no_error_and_no_warning(name: str) -> None:
    checked = check(load(FOLDER / name / f"{name}.md"))
    told = [
        (finding.code, checked.bundle.source.slice(finding.span), dict(finding.facts))
        for finding in checked.findings
        if (finding.severity or page(finding.code).severity) is not Severity.INFO
    ]
    assert told == []


@each
def test_eight_to_twenty_operations_with_times_hazards_and_refit(name: str) -> None:
    made = guide(name)
    assert 8 <= len(made.operations) <= 20
    assert all(operation.time for operation in made.operations)
    assert made.operations[-1].refit_only
    assert made.hazards
    assert any(operation.hazards for operation in made.operations)
    assert any(action.hazards for action in made.actions.values())
    assert any(action.refits for action in made.actions.values())
    assert any(action.risks for action in made.actions.values())


def test_between_them_they_use_the_whole_language() -> None:
    made = [guide(name) for name in NAMES]
    operations = [operation for one in made for operation in one.operations]
    actions = [action for one in made for action in one.actions.values()]
    hazards = {action.hazards[0].signal for action in actions if action.hazards}
    hazards |= {hazard.signal for one in operations for hazard in one.hazards}
    hazards |= {hazard.signal for one in made for hazard in one.hazards if isinstance(hazard, Hazard)}
    assert {str(signal) for signal in hazards} == {"DANGER", "WARNING", "CAUTION", "NOTICE"}
    assert any(operation.instead_of for operation in operations)
    assert any(after.nothing for operation in operations for after in operation.after)
    assert any(after.also for operation in operations for after in operation.after)
    assert any(operation.live for operation in operations)
    assert any(operation.optional for operation in operations)
    assert any(action.partly for action in actions)
    assert any(action.optional for action in actions)
    assert any(action.turn for action in actions)
    assert {action.family.value for action in actions} == {
        *("undo", "soften", "move", "turn", "treat", "check", "look")
    }
    assert {effect.change for action in actions for effect in action.effects} == set(Change)
    assert {thing.kind.value for one in made for thing in one.things.values()} == {
        *("part", "screw", "clip", "adhesive", "connector", "solder", "thermal", "fastening", "tool", "supply")
    }
    assert any(action.heats for action in actions)
    assert any(action.waits for action in actions)
    assert any(action.measures for action in actions)


def test_the_phone_has_every_class_a_phone_can_have() -> None:
    found = {thing.cls for thing in guide("pocket-phone").things.values() if isinstance(thing, Part)}
    assert found >= set(data("classes")["classes"].split()) - {"supply-unit", "other"}


def test_the_mains_sample_is_unplugged_waited_for_and_measured_before_its_power_unit_is_touched() -> None:
    made = guide("induction-plate")
    actions = list(made.actions.values())
    assert actions[0].effects[0].id == "mains-plug"
    assert actions[0].waits
    measured = next(at for at, action in enumerate(actions) if action.measures)
    unit = {thing.id for thing in made.things.values() if isinstance(thing, Part) and _in(thing, "power-unit")}
    touched = [
        at
        for at, action in enumerate(actions)
        if any(use.id in unit for use in action.objects) and action.family.value not in ("look", "check")
    ]
    assert measured < min(touched)


def _in(part: Part, assembly: str) -> bool:
    return part.id == assembly or (part.inside is not None and part.inside.id == assembly)


@each
def test_torques_are_below_what_breaks_a_screw(name: str) -> None:
    """ISO 898-7:1992, grade 8.8 (from memory, as the trade's data says)."""
    breaking = {1.2: 0.075, 1.4: 0.12, 1.6: 0.16, 2.0: 0.37, 2.5: 0.82, 3.0: 1.5, 4.0: 3.6}
    for thing in guide(name).things.values():
        if isinstance(thing, ScrewSet) and thing.torque and thing.thread and thing.thread.system == "M":
            assert thing.torque.high <= 0.65 * breaking[thing.thread.diameter_mm]


# ---------------------------------------------------------------- pictures


@each
def test_every_picture_is_drawn_by_the_script_and_shown_in_the_note(name: str) -> None:
    files = {path.name for path in (FOLDER / name / "pics").iterdir()}
    assert files == {f"{scene}.jpg" for scene in draw().SCENES[name]}
    assert {Path(shown.path).name for shown in all_pictures(name)} == files
    assert 4 <= len(files) <= 8
    for path in (FOLDER / name / "pics").iterdir():
        assert path.stat().st_size < 250_000
        with Image.open(path) as image:
            assert (image.format, image.size) == ("JPEG", (1600, 1200))


@pytest.mark.parametrize(("name", "scene"), [("head-torch", "rear-open"), ("pocket-phone", "plugs")])
def test_a_picture_drawn_again_is_the_same(name: str, scene: str) -> None:
    """Compared by what is seen: another version of an image library may store it in other bytes."""
    data = draw().draw(name, scene).jpeg()
    assert data == draw().draw(name, scene).jpeg()
    with Image.open(BytesIO(data)) as new, Image.open(FOLDER / name / "pics" / f"{scene}.jpg") as old:
        difference = ImageChops.difference(new.convert("L"), old.convert("L"))
    tiles = difference.resize((100, 75), Image.Resampling.BOX)
    assert tiles.getextrema()[1] < 6, "the stored picture is not what the script draws: run samples/draw.py"


@each
def test_pins_hit_what_they_name(name: str) -> None:
    """Each pin of a note stands where the layout has the thing, to the percent."""
    drawn = {scene: draw().layout(name, scene) for scene in draw().SCENES[name]}
    shown = [one for one in all_pictures(name) if one.pins]
    assert len(shown) >= 4
    for picture in shown:
        known = drawn[Path(picture.path).stem]
        for pin in picture.pins:
            thing = guide(name).things[str(pin.thing.id)]
            here = known.get(f"screw {thing.name}") or known[thing.name]
            assert sorted(pin.points) == sorted(tuple(map(float, point)) for point in here), thing.name
            if isinstance(thing, ScrewSet):
                assert len(pin.points) == thing.count
