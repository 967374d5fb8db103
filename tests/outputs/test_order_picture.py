"""The order of work as a picture: what it says, and that it can be read.

The waits that are drawn are held against networkx's transitive reduction; text widths against Pillow's measure of
Source Sans Pro. Boxes and lines are held apart by plain geometry, not by the layout library's word.
"""

from __future__ import annotations

import random
import re
import subprocess
import sys
from collections.abc import Callable
from itertools import combinations, pairwise
from pathlib import Path
from xml.etree import ElementTree

import font_source_sans_pro
import networkx
import pytest
from PIL import ImageFont

from guidec.model.types import Guide
from guidec.outputs import box_text, order_picture
from guidec.outputs.order_layout import FITS, Laid, lay_out
from guidec.outputs.order_picture import order_view
from guidec.outputs.precedence import Node, Precedence, Wait, precedence
from guidec.outputs.words import words
from guidec.plan import graph

from .conftest import NOTES, SAMPLES, guide_at

Note = Callable[[str], Guide]
SVG = "{http://www.w3.org/2000/svg}"
TITLES = (
    "Take out the main board",
    "Open the housing",
    "Free the left speaker and its gasket",
    "Lift off the lid",
)
PARTS = ("driver board", "battery pack", "left speaker grille", "charging socket", "seal")


def some_order(seed: int, operations: int, parts: int = 25, *, far: int = 6) -> Precedence:
    """An order with waits for one or two of the operations before, some free, some with two ways."""
    dice = random.Random(seed)
    shares = [dice.randrange(operations) for _ in range(parts)]
    nodes, waits = [], []
    for at in range(operations):
        own = tuple((f"{dice.choice(PARTS)} {number}", "removed") for number in range(shares.count(at)))
        other = nodes[-1].number if at > 2 and dice.random() < 0.1 else None
        nodes.append(Node(f"o{at}", at * 10 + 10, dice.choice(TITLES), own, other, at == 2, False))
        before = {dice.randrange(max(0, at - far), at) for _ in range(dice.choice((0, 1, 1, 2)))} if at else set()
        if len(before) == 2 and dice.random() < 0.3:
            waits.append(Wait(tuple(f"o{one}" for one in sorted(before)), f"o{at}"))
        else:
            waits += [Wait((f"o{one}",), f"o{at}") for one in sorted(before)]
    return Precedence(tuple(nodes), tuple(waits))


def chain(operations: int) -> Precedence:
    nodes = tuple(Node(f"o{at}", at * 10 + 10, TITLES[at % 4], (), None, False, False) for at in range(operations))
    return Precedence(nodes, tuple(Wait((f"o{at}",), f"o{at + 1}") for at in range(operations - 1)))


def star(operations: int) -> Precedence:
    nodes = tuple(Node(f"o{at}", at * 10 + 10, TITLES[at % 4], (), None, False, False) for at in range(operations))
    return Precedence(nodes, tuple(Wait(("o0",), f"o{at}") for at in range(1, operations)))


def laid_out(order: Precedence) -> Laid:
    texts = {node.id: order_picture._Text(node, words("en")) for node in order.nodes}
    pairs = [(before, wait.after) for wait in order.waits for before in wait.before]
    choices = {(before, wait.after) for wait in order.waits if len(wait.before) > 1 for before in wait.before}
    return lay_out({own: (order_picture.WIDE, text.height) for own, text in texts.items()}, pairs, choices)


ORDERS = {
    **{f"random {seed}": some_order(seed, 20) for seed in range(12)},
    **{f"random {seed} of 60": some_order(seed, 60, 70) for seed in range(3)},
    "chain": chain(20),
    "star": star(20),
    "free": Precedence(chain(20).nodes, ()),
    **{path.stem: precedence(graph(guide_at(path))) for path in (NOTES / "every.md", *SAMPLES)},
}


@pytest.mark.parametrize("name", ORDERS)
def test_no_box_overlaps_another_and_no_line_runs_through_a_box(name: str) -> None:
    laid = laid_out(ORDERS[name])
    for one, two in combinations(laid.boxes.values(), 2):
        apart = (
            abs(one.x - two.x) >= (one.width + two.width) / 2
            or abs(one.y - two.y) >= (one.height + two.height) / 2
        )
        assert apart
    for line in laid.lines:
        for (x1, y1), (x2, y2) in pairwise(line.points):
            assert abs(x1 - x2) < 0.5 or abs(y1 - y2) < 0.5, "a line runs aslant"
            for box in laid.boxes.values():
                across = max(x1, x2) > box.x - box.width / 2 + 0.5 and min(x1, x2) < box.x + box.width / 2 - 0.5
                along = max(y1, y2) > box.y - box.height / 2 + 0.5 and min(y1, y2) < box.y + box.height / 2 - 0.5
                assert not (across and along)


@pytest.mark.parametrize("name", ORDERS)
def test_no_line_lies_on_a_line_of_another_wait(name: str) -> None:
    """Lines may cross; where two run along each other they come from one box, which is one wait for both."""
    pieces = [
        (line, x1, y1, x2, y2)
        for line in laid_out(ORDERS[name]).lines
        for (x1, y1), (x2, y2) in pairwise(line.points)
    ]
    for (one, *a), (two, *b) in combinations(pieces, 2):
        if one.before == two.before or one.after == two.after:
            continue
        for at in (0, 1):
            level = abs(a[at] - a[at + 2]) < 0.01 and abs(b[at] - b[at + 2]) < 0.01 and abs(a[at] - b[at]) < 1
            low, high = (
                max(min(a[1 - at], a[3 - at]), min(b[1 - at], b[3 - at])),
                min(max(a[1 - at], a[3 - at]), max(b[1 - at], b[3 - at])),
            )
            assert not (level and high - low > 2), (one, two)


@pytest.mark.parametrize("name", ORDERS)
def test_every_wait_is_drawn_and_leads_down_to_its_box(name: str) -> None:
    order = ORDERS[name]
    laid = laid_out(order)
    drawn = {(line.before, line.after) for line in laid.lines if line.after}
    assert drawn == {(before, wait.after) for wait in order.waits for before in wait.before}
    for line in laid.lines:
        if line.after:
            box, (x, y) = laid.boxes[line.after], line.points[-1]
            assert abs(x - box.x) <= box.width / 2 + 0.5
            assert abs(abs(y - box.y) - box.height / 2) < 0.5 or abs(abs(x - box.x) - box.width / 2) < 0.5


@pytest.mark.parametrize("name", [name for name in ORDERS if "60" not in name])
def test_twenty_operations_fit_the_width_so_that_they_can_be_read(name: str) -> None:
    """At the width of A4 less its margins (178 mm) the smallest text is 6.5 points or more."""
    laid = laid_out(ORDERS[name])
    points = 178 / 25.4 * 72 / (laid.width + 8) * order_picture.SMALL
    assert points >= 6.5
    if name in ("chain", "star", "free"):
        assert laid.width <= FITS


@pytest.mark.parametrize("name", ORDERS)
def test_texts_stay_in_their_boxes_in_the_fonts_that_may_set_them(name: str) -> None:
    folder = Path(font_source_sans_pro.__file__).parent / "files"
    bold = ImageFont.truetype(str(folder / "SourceSansPro-Bold.ttf"), 135)
    plain = ImageFont.truetype(str(folder / "SourceSansPro-Regular.ttf"), 120)
    room = order_picture.WIDE - 2 * order_picture.PAD
    for node in ORDERS[name].nodes:
        text = order_picture._Text(node, words("en"))
        assert all(bold.getlength(line) / 10 <= room for line in text.title)
        assert all(plain.getlength(line) / 10 <= room for line in (*text.more, *text.parts))


@pytest.mark.parametrize("name", ORDERS)
@pytest.mark.parametrize("paper", [False, True])
def test_every_word_and_box_is_drawn_once_in_whatever_pieces(name: str, paper: bool) -> None:
    order = ORDERS[name]
    view = order_view(order, words("en"), paper=paper)
    trees = [ElementTree.fromstring(str(picture)) for picture in view.pictures]
    drawn = [str(text.text) for tree in trees for text in tree.iter(f"{SVG}text")]
    for node in order.nodes:
        start = f"{node.number} {node.title.split()[0]}"
        assert sum(line.startswith(start) for line in drawn) == 1
    assert len(view.pictures) == 1 or paper
    for tree in trees:
        height = float(tree.attrib["height"])
        assert height <= order_picture.PAGE + 200 or not paper
        assert tree.find(f"{SVG}title") is not None
        assert tree.find(f"{SVG}desc") is not None
        assert tree.attrib["role"] == "img"


def test_the_words_say_what_the_picture_says() -> None:
    order = ORDERS["pocket-phone"]
    rows = {row.number: row for row in order_view(order, words("en"), paper=False).rows}
    assert rows[90].waits == "After 70 and (40 or 50)."
    assert rows[50].more == "Another way to 40."
    assert rows[30].more == "Makes the device dead."
    assert rows[10].waits == "Waits for nothing."
    assert rows[130].frees == "Frees front camera, earpiece and light sensor (seen)."


def test_signs_tell_apart_without_colour() -> None:
    picture = str(order_view(ORDERS["pocket-phone"], words("en"), paper=False).pictures[0])
    assert picture.count("stroke-dasharray") == 2
    assert picture.count('width="144"') == 1, "one inner frame, of the other way"
    assert picture.count('width="5"') == 1, "one bar, of what makes it dead"
    assert set(re.findall(r'(?:fill|stroke)="([^"]+)"', picture)) <= {"none", "currentColor"}


def test_hostile_names_stay_text() -> None:
    node = Node("x", 10, "<script>&{title}", (('"><b>', "removed"),), None, False, False)
    picture = str(order_view(Precedence((node,), ()), words("en"), paper=False).pictures[0])
    ElementTree.fromstring(picture)
    assert "<script" not in picture
    assert "<b>" not in picture


@pytest.mark.parametrize("title", ["", "x" * 200, "日本語" * 30, "a " * 90])
def test_any_title_is_wrapped_and_nothing_of_it_lost(title: str) -> None:
    lines = box_text.wrapped(title, 13, 134)
    assert "".join(lines).replace(" ", "") == title.replace(" ", "")
    assert all(box_text.length(line, 13) <= 134 for line in lines)


@pytest.mark.parametrize("path", SAMPLES, ids=lambda path: path.stem)
def test_waits_are_the_transitive_reduction_of_all_needs(path: Path) -> None:
    """Where no operation has another way. Outside check: networkx."""
    made = graph(guide_at(path))
    guide = made.guide
    if any(operation.instead_of for operation in guide.operations):
        pytest.skip("reductions with alternatives are no plain graphs")
    every = networkx.DiGraph()
    every.add_nodes_from(operation.id for operation in made.operations)
    for edge in made.edges:
        before, after = guide.actions[edge.needed].operation, guide.actions[edge.needs].operation
        if before != after:
            every.add_edge(before, after)
    order = precedence(made)
    assert all(len(wait.before) == 1 for wait in order.waits)
    assert {(wait.before[0], wait.after) for wait in order.waits} == set(
        networkx.transitive_reduction(every).edges
    )


def test_a_wait_for_either_way_is_said_once_and_not_again_behind_it(note: Note) -> None:
    guide = note(
        "## A\n\n1. Lift off {part lid}.\n\n## B {instead of A}\n\n1. Pry off {lid}.\n\n"
        "## C {after lid}\n\n1. Lift out {part frame}.\n\n## D {after frame}\n\n"
        "1. Lift out {part lens; under=lid}.\n"
    )
    waits = {(wait.before, wait.after) for wait in precedence(graph(guide)).waits}
    assert waits == {(("a", "b"), "c"), (("c",), "d")}


def test_a_ring_of_operations_is_drawn_too(note: Note) -> None:
    guide = note("## A {after lid}\n\n1. Pull {part seal} off.\n\n## B {after seal}\n\n1. Lift off {part lid}.\n")
    order = precedence(graph(guide))
    assert len(order_view(order, words("en"), paper=False).pictures) == 1


def test_another_process_with_another_hash_seed_draws_the_same() -> None:
    code = (
        "import sys; from tests.outputs.test_order_picture import ORDERS; from guidec.outputs.words import words;"
        "from guidec.outputs.order_picture import order_view;"
        "sys.stdout.write(str([order_view(one, words('en'), paper=True) for one in ORDERS.values()]))"
    )
    outs = [
        subprocess.run(
            [sys.executable, "-c", code], capture_output=True, env={"PYTHONHASHSEED": seed}, check=True
        ).stdout
        for seed in ("1", "2")
    ]
    assert outs[0] == outs[1] != b""
