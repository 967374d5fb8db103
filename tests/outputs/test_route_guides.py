"""The guides to single parts: what they hold and leave out, in which order, and that they stand alone."""

from __future__ import annotations

import re
import subprocess
from collections.abc import Callable, Iterator
from functools import cache
from pathlib import Path

import page as pdf_checker
import pytest

from guidec.compile import Options, build, check
from guidec.edge.load import load, of_bytes
from guidec.model.types import Content, Guide, Lines
from guidec.outputs.cut import cut
from guidec.outputs.labels import labels
from guidec.plan import Graph, Route, graph, refit, routes

from .conftest import NOTES, NPM, SAMPLES, guide_at, guide_of
from .test_html import Reader

Note = Callable[[str], Guide]
ALL = (NOTES / "every.md", NOTES / "klein.md", NOTES / "odd.md", *SAMPLES)
HEAD = "---\ntitle: Lamp\nlanguage: en\npower: none\n---\n\n# Lamp\n\n"


@cache
def planned(path: Path) -> tuple[Graph, tuple[Route, ...]]:
    made = graph(guide_at(path))
    return made, routes(made)


@cache
def built(path: Path) -> dict[str, bytes]:
    return dict(build(load(path), Options(pdf=False)).files)


def made(body: str) -> dict[str, str]:
    """All text outputs of a note."""
    done = build(of_bytes("lamp.md", (HEAD + body).encode(), Path()), Options(pdf=False))
    return {name: content.decode() for name, content in done.files.items() if name.endswith(".html")}


def said(page: str) -> str:
    return " ".join(Reader(page).text.split())


def each_route() -> list[tuple[Path, str]]:
    return [(path, route.targets[0]) for path in ALL for route in planned(path)[1]]


def route_to(path: Path, part: str) -> tuple[Graph, Route]:
    made, found = planned(path)
    return made, next(route for route in found if route.targets == (part,))


def in_lines(content: tuple[Content, ...]) -> Iterator[str]:
    for item in content:
        if isinstance(item, Lines):
            for line in item.lines:
                yield from in_lines(line.content)
                yield from line.actions


@pytest.mark.parametrize(("path", "part"), each_route(), ids=lambda value: getattr(value, "stem", value))
def test_a_route_guide_holds_the_actions_of_the_route_in_its_order_and_no_others(path: Path, part: str) -> None:
    whole, route = route_to(path, part)
    alone = cut(whole.guide, route, refit(whole, route))
    last = [own for operation in whole.guide.operations if operation.refit_only for own in operation.actions]
    shown = [own for operation in alone.operations for own in in_lines(operation.content)]
    assert sorted(shown) == sorted([*route.actions, *last])
    going = [operation for operation in alone.operations if not operation.refit_only]
    assert [operation.id for operation in going] == [
        visit.operation for visit in route.visits if set(visit.actions) - visit.skipped
    ]
    assert all(operation.number == whole.guide.operation[operation.id].number for operation in alone.operations)


@pytest.mark.parametrize("path", ALL, ids=lambda path: path.stem)
def test_there_is_a_page_for_each_part_that_is_reached_and_the_whole_guide_links_to_it(path: Path) -> None:
    files = built(path)
    expected = {f"route-{route.targets[0]}.html" for route in planned(path)[1]}
    assert {name for name in files if name.startswith("route-")} == expected
    linked = set(re.findall(r'href="(route-[^"]+)"', files["index.html"].decode()))
    assert linked == expected


@pytest.mark.parametrize("path", ALL, ids=lambda path: path.stem)
def test_pages_stand_alone_every_link_within_has_its_target(path: Path) -> None:
    files = built(path)
    for name, content in files.items():
        if not name.endswith(".html"):
            continue
        read = Reader(content.decode())
        assert len(read.ids) == len(set(read.ids)), name
        assert read.targets <= set(read.ids), name
        out = set(re.findall(r'(?:href|src)="(?!#|https?:|mailto:)([^"#]+)', content.decode()))
        if name != "index.html":
            assert "index.html" in out
        assert {link for link in out if link.startswith(("route-", "index."))} <= set(files), name


@pytest.mark.parametrize(("path", "part"), each_route(), ids=lambda value: getattr(value, "stem", value))
def test_the_authors_hazards_go_along_whole_and_others_stay_away(path: Path, part: str) -> None:
    whole, route = route_to(path, part)
    guide = whole.guide
    page = said(built(path)[f"route-{part}.html"].decode())
    went = {guide.actions[own].operation for own in route.actions}
    went |= {operation.id for operation in guide.operations if operation.refit_only}
    for operation in guide.operations:
        for item in operation.hazards:
            words = " ".join(item.text.split())[:60]
            assert (words in page) == (operation.id in went), words
    for item in guide.hazards:
        assert " ".join(item.text.split())[:60] in page


@pytest.mark.parametrize(("path", "part"), each_route(), ids=lambda value: getattr(value, "stem", value))
def test_only_the_tools_and_supplies_of_the_way_and_the_way_back_are_laid_out(path: Path, part: str) -> None:
    whole, route = route_to(path, part)
    back = refit(whole, route)
    alone = cut(whole.guide, route, back)
    last = {
        use.id
        for operation in whole.guide.operations
        if operation.refit_only
        for own in operation.actions
        for use in (*whole.guide.actions[own].tools, *whole.guide.actions[own].supplies)
    }
    used = {own for own, thing in alone.things.items() if thing.kind.value in ("tool", "supply")}
    allowed = {*back.tools, *back.supplies, *last}
    allowed |= {use.id for own in route.actions for use in whole.guide.actions[own].tools}
    allowed |= {use.id for own in route.actions for use in whole.guide.actions[own].supplies}
    named = {risk.thing.id for own in route.actions for risk in whole.guide.actions[own].risks if risk.thing}
    assert set(route.tools) <= used
    assert set(route.supplies) <= used
    assert used <= allowed | named


@pytest.mark.parametrize("path", ALL, ids=lambda path: path.stem)
def test_labels_are_those_of_the_whole_guide(path: Path) -> None:
    """A line's number is read off the whole page and looked for on the route's."""
    files = built(path)
    pattern = r'<li class="line"[^>]* id="(a-[^"]+)".*?<span class="n">([^<]*)</span>'
    whole = dict(re.findall(pattern, files["index.html"].decode(), re.S))
    assert whole or path.stem == "klein"
    for name, content in files.items():
        if name.startswith("route-") and name.endswith(".html"):
            for own, label in re.findall(pattern, content.decode(), re.S):
                assert whole.get(own, label) == label, (name, own)


def test_labels_are_counted_as_the_page_counts_them() -> None:
    guide = guide_at(NOTES / "every.md")
    assert "1.2" in labels(guide).values()
    assert "a" in labels(guide).values()


# ---------------------------------------------------------------- what goes along


def test_a_remark_goes_with_the_action_after_it_and_the_last_with_the_one_before() -> None:
    files = made(
        "## Open {after nothing}\n\n- The hinge pin is loose in old ones.\n- Pull {part hinge} out.\n"
        "- Mind the wire that is glued in here.\n- Pull {part lens} out.\n- It is mirrored on one face.\n"
    )
    hinge, lens = said(files["route-hinge.html"]), said(files["route-lens.html"])
    assert "hinge pin is loose" in hinge
    assert "Mind the wire" not in hinge
    assert "mirrored" not in hinge
    assert "Mind the wire" in lens
    assert "mirrored" in lens
    assert "hinge pin is loose" not in lens


def test_a_line_of_which_a_part_is_done_is_cut_to_that() -> None:
    files = made(
        "## Open\n\n1. Lift off {part lid} with {tool card}, then take out {part lens} with {tool tweezers}.\n"
    )
    lid, lens = said(files["route-lid.html"]), said(files["route-lens.html"])
    assert "Lift off lid with card ." in lid or "Lift off lid with card." in lid
    assert "take out lens" not in lid
    assert "tweezers" not in lid
    assert "then take out lens with tweezers" in lens


def test_a_line_with_markdown_of_its_own_is_cut_without_showing_its_signs() -> None:
    files = made("## Open\n\n1. Lift off the **old** {part lid}, then take out {part lens}.\n")
    assert "**" not in said(files["route-lid.html"])
    assert "Lift off the old lid" in said(files["route-lid.html"])


def test_a_list_below_a_line_that_is_not_done_stands_by_itself() -> None:
    files = made(
        "## Open\n\n1. Take out {part frame}:\n   1. Undo {screw A: 2x PH0 M2x4}.\n   2. Pull {part clip} off.\n"
    )
    clip = said(files["route-clip.html"])
    assert "Undo 2 × PH0 M2×4 (A)" in clip
    assert "Take out frame" not in clip


def test_turn_overs_that_the_route_puts_in_are_lines_and_the_strip_starts_after_them() -> None:
    files = made(
        "## Front {side front}\n\n1. Lift off {part lens}.\n\n## Back {side back} {after lens}\n\n"
        "1. Lift off {part door}.\n"
    )
    door = said(files["route-door.html"])
    assert "Turn the device over: back is up now." in door
    assert "Side back In hand" in door
    assert "Turn the device over" not in said(files["route-lens.html"])


def test_a_turn_over_before_what_stands_below_a_line_is_told_once_before_that_line() -> None:
    files = made(
        "## Front {side front}\n\n1. Lift off {part lens}.\n\n## Back {side back}\n\n"
        "1. Undo {screw A: 2x PH0 M2x6; holds=door}.\n   - Peel off {part foot}.\n2. Lift off {part door}.\n"
    )
    door = said(files["route-door.html"])
    assert door.count("Turn the device over") == 1
    assert door.index("Turn the device over") < door.index("Undo 2 × PH0") < door.index("Peel off foot")
    assert "in any order" not in door


def test_an_optional_operation_is_not_optional_on_the_way_to_its_part() -> None:
    files = made(
        "## Open\n\n1. Lift off {part lid}.\n\n## Look {optional}\n\n1. Pull {part lamp} out. {optional}\n"
    )
    assert "optional" in said(files["index.html"])
    assert "optional" not in said(files["route-lamp.html"])


def test_a_picture_goes_with_the_list_before_it_and_prose_with_the_list_after_it() -> None:
    files = made(
        "## Open\n\nStart at the notch.\n\n1. Lift off {part lid}.\n\n![Lid off](pics/lid.png)\n\n"
        "The lens is glued.\n\n1. Pull {part lens} out.\n\n![Lens out](pics/lens.png)\n"
    )
    lid, lens = said(files["route-lid.html"]), said(files["route-lens.html"])
    assert "Start at the notch" in lid
    assert "Lid off" in lid
    assert "The lens is glued" not in lid
    assert "Lens out" not in lid
    assert "The lens is glued" in lens
    assert "Picture 2" in lens


# ---------------------------------------------------------------- what it says besides


def test_it_says_how_the_part_is_reached_what_other_ways_cost_and_why_isolation_is_there() -> None:
    files = made(
        "## Open\n\n1. Undo {screw A: 4x PH0 M2x6}.\n2. Lift off {part lid}.\n\n"
        "## Pry {instead of Open} {after nothing}\n\n1. Pry off {lid}. {risk lid: it cracks}\n\n"
        "## Inside {after lid}\n\n1. See {part fuse}.\n"
    )
    lid = said(files["route-lid.html"])
    assert "Lid comes off in operation 10." in lid
    assert "20 Pry, in place of 10 Open" in lid
    assert "Fuse stays in; it can be seen and reached in operation 30." in said(files["route-fuse.html"])
    torch = next(path for path in SAMPLES if path.stem == "head-torch")
    board = said(built(torch)["route-light-board.html"].decode())
    assert "Operation 30, Disconnect the cell, is on this way because it makes the device dead" in board


def test_an_operation_that_makes_the_device_dead_in_several_actions_gives_one_reason() -> None:
    plate = next(path for path in SAMPLES if path.stem == "induction-plate")
    fan = said(built(plate)["route-fan.html"].decode())
    assert fan.count("Operation 30, Prove it dead, is on this way because") == 1
    assert "dead before operation 40 works on what can be live" in fan


def test_a_way_without_isolation_says_so_and_not_that_the_note_has_none() -> None:
    torch = next(path for path in SAMPLES if path.stem == "head-torch")
    band = said(built(torch)["route-headband.html"].decode())
    assert band.count("Nothing on this way makes the device dead.") == 2
    assert "The note names nothing" not in band
    pack = said(built(torch)["route-battery-pack.html"].decode())
    assert "Operation 30, Disconnect the cell, makes the device dead from there on" in pack


def test_it_ends_with_the_way_back_of_this_route_alone() -> None:
    torch = next(path for path in SAMPLES if path.stem == "head-torch")
    page = said(built(torch)["route-battery-pack.html"].decode())
    refit_ = page[page.rindex("Putting it back, in this order:") :]
    assert "Plug in the cell lead. From here on there is power in it again." in refit_
    assert "Screws left over: 0. All 4 are back in." in refit_
    assert "headband" not in refit_
    assert refit_.index("Refit the battery pack") < refit_.index("Plug in the cell lead")


def test_usual_cautions_are_those_the_route_calls_for() -> None:
    """The caution on two unequal sets stands on the way that undoes them, and on no other."""
    files = made(
        "## Open\n\n1. Lift off {part lid}.\n\n## Frame {after lid}\n\n"
        "1. Undo {screw A: 2x PH0 M2x6} and {screw B: 2x PH0 M2x8}.\n"
        "2. Lift out {part frame}.\n"
    )
    assert "do not swap them" in said(files["route-frame.html"])
    assert "do not swap them" not in said(files["route-lid.html"])
    assert said(files["route-frame.html"]).count("do not swap them") == 1


def test_german_notes_get_german_route_guides() -> None:
    note = (
        "---\ntitle: Wetterfest W1\nlanguage: de\npower: none\n---\n\n# W1\n\n## Öffnen {side back}\n\n"
        "1. Löse {screw A: 2x PH0 M2x6; torque=0,2 N·m}.\n2. Nimm {part Deckel} ab.\n\n"
        "## Linse {after nothing} {side front}\n\n1. Nimm {part Linse} ab.\n"
    )
    done = build(of_bytes("w1.md", note.encode(), Path()), Options(pdf=False)).files
    page = said(done["route-deckel.html"].decode())
    assert "Weg zu: Deckel – Wetterfest W1" in page
    assert "Deckel ist mit Arbeitsgang 10 ab." in page
    assert "Zusammenbau in dieser Reihenfolge" in page
    assert "Wenden: die Rückseite liegt oben." in said(done["index.html"].decode())
    assert not re.search(r"\b(Way|Steps|Refit|the|Turn over)\b", page)


def test_a_note_that_is_not_clean_says_so_on_every_route_page() -> None:
    done = build(
        of_bytes("lamp.md", (HEAD + "## A\n\n1. Lift off {part lid}.\n2. Undo {scew B}.\n").encode(), Path())
    )
    pages = [done.files[name] for name in ("index.html", "route-lid.html")]
    assert all(b"Not clean" in page for page in pages)


def test_the_same_note_gives_the_same_pages() -> None:
    path = SAMPLES[0]
    again = dict(build(load(path), Options(pdf=False)).files)
    assert again == built(path)


def test_data_of_one_route_holds_what_it_meets_and_nothing_else() -> None:
    path = next(path for path in SAMPLES if path.stem == "head-torch")
    checked = check(load(path))
    files = build(load(path), Options(pdf=False, alone=("lens",)), checked).files
    parts = files["route-lens/parts.csv"].decode()
    assert "lens ring" in parts
    assert "battery pack" not in parts
    assert {name for name in files if name.startswith("route-lens/")} == {
        f"route-lens/{name}"
        for name in ("bom.json", "routes.json", "parts.csv", "fasteners.csv", "tools.csv", "supplies.csv")
    }
    assert '"part": "lens"' in files["route-lens/routes.json"].decode()


def test_a_route_with_nothing_to_take_off_still_has_a_page() -> None:
    guide = guide_of(HEAD + "## Look\n\n1. See {part label}.\n")
    assert guide.things
    assert "route-label.html" in made("## Look\n\n1. See {part label}.\n")


# ---------------------------------------------------------------- gates


def test_the_markup_validator_finds_no_error_in_whole_guides_and_guides_to_parts(tmp_path: Path) -> None:
    """The W3C's checker (npm `vnu-jar`)."""
    jar = NPM / "vnu-jar" / "build" / "dist" / "vnu.jar"
    for path in ALL:
        for name, content in built(path).items():
            if name.endswith(".html"):
                (tmp_path / f"{path.stem}-{name}").write_bytes(content)
    command = ["java", "-jar", str(jar), "--errors-only", "--skip-non-html", str(tmp_path)]
    done = subprocess.run(command, capture_output=True, text=True, timeout=240)
    assert (done.returncode, done.stderr) == (0, "")


@pytest.mark.parametrize("path", [NOTES / "every.md", NOTES / "klein.md", *SAMPLES], ids=lambda path: path.stem)
def test_the_sheets_of_a_whole_guide_and_of_a_route_are_tagged_soundly(path: Path, tmp_path: Path) -> None:
    """ISO 14289-1 (PDF/UA-1) as the PyPI package `page-validation` checks it; syntax by `qpdf --check`."""
    alone = tuple(route.targets[0] for route in planned(path)[1])[-1:]
    files = build(load(path), Options(alone=alone)).files
    sheets = [name for name in files if name.endswith(".pdf") and name.startswith(("guide", "route"))]
    assert len(sheets) == 1 + len(alone)
    for name in sheets:
        (tmp_path / name).write_bytes(files[name])
        report = str(pdf_checker.validate_pdf(str(tmp_path / name), profile="ua1"))
        assert "no failures" in report, report
        done = subprocess.run(
            ["qpdf", "--check", str(tmp_path / name)], capture_output=True, text=True, check=True
        )
        assert "No syntax or stream encoding errors" in done.stdout
    if alone:
        words = subprocess.run(
            ["pdftotext", "-raw", str(tmp_path / f"route-{alone[0]}.pdf"), "-"],
            capture_output=True,
            text=True,
            check=True,
        ).stdout
        assert "Way to:" in words
        assert "closing checks" in words.lower() or "Nothing has to be put back" in words


def test_the_whole_sheet_has_routes_order_refit_and_colophon(tmp_path: Path) -> None:
    path = next(path for path in SAMPLES if path.stem == "pocket-phone")
    (tmp_path / "guide.pdf").write_bytes(build(load(path), Options()).files["guide.pdf"])
    command = ["pdftotext", "-layout", str(tmp_path / "guide.pdf"), "-"]
    words = subprocess.run(command, capture_output=True, text=True, check=True).stdout
    heads = ("Usual cautions", "Ways to the parts", "Order of work", "Refit", "Bill of materials", "Colophon")
    places = [words.rindex(f"\n{head}\n") if f"\n{head}\n" in words else words.rindex(head) for head in heads]
    assert places == sorted(places)
    row = next(line for line in words.splitlines() if line.strip().startswith("hinge ") and "10 20 30" in line)
    assert re.search(r"10 20 30 60 100 120 130 140\s+\d+\s+\d+\s+\d+\s", row), "a way fits one line"


def test_usual_cautions_of_a_mains_device_without_cells_do_not_speak_of_them() -> None:
    plate = next(path for path in SAMPLES if path.stem == "induction-plate")
    phone = next(path for path in SAMPLES if path.stem == "pocket-phone")
    for name in ("index.html", "route-fan.html"):
        assert "swollen" not in said(built(plate)[name].decode())
    for name in ("index.html", "route-hinge.html"):
        assert "Cells, once swollen" in said(built(phone)[name].decode())


def test_a_supply_unit_of_which_nothing_more_is_said_is_not_told_to_hold_capacitors() -> None:
    head = "---\npower: mains\nisolate: mains plug\n---\n\n# Lamp\n\n"
    dead = "## Dead\n\n1. Unplug {connector mains plug: plug; to=wall}.\n\n"
    note = (
        head + dead + "## Open\n\n1. Undo {screw A: 2x PH2 M4x8}.\n2. Lift out {part driver; class=supply-unit}.\n"
    )
    for more, told in (
        ("", "If driver holds capacitors"),
        ("\nTwo capacitors stand at its end.\n", "Capacitors in driver can"),
    ):
        page = build(of_bytes("lamp.md", (note + more).encode(), Path()), Options(pdf=False)).files["index.html"]
        assert told in said(page.decode())
        assert "go on only at 60 V or less" in said(page.decode())
