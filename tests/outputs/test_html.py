"""The page of a guide: what stands on it and in which order, and that nothing a note says can break out of it.

Signal words, their order of gravity and that the hazard stands before the action: ANSI Z535.6. Markup: the Nu Html
Checker (npm `vnu-jar`)."""

from __future__ import annotations

import re
import subprocess
from collections.abc import Callable
from dataclasses import replace
from html.parser import HTMLParser
from pathlib import Path

import pytest
from jinja2 import ChoiceLoader, DictLoader

from guidec import compile as compiler
from guidec.model.types import Guide, Hazard, Signal
from guidec.outputs import html, sections, template
from guidec.outputs.inline import bound
from guidec.source import Span

from .conftest import NOTES, NPM, SAMPLES, guide_at, guide_of

Note = Callable[[str], Guide]


class Reader(HTMLParser):
    """Collects a page's text, ids, link targets and attributes."""

    def __init__(self, page: str) -> None:
        super().__init__()
        self.tags: list[tuple[str, dict[str, str | None]]] = []
        self.pieces: list[str] = []
        self.hidden = 0
        self.feed(page)

    def handle_starttag(self, tag: str, attrs: list[tuple[str, str | None]]) -> None:
        self.tags.append((tag, dict(attrs)))
        self.hidden += tag in ("style", "script")
        if tag in ("div", "p", "li", "h1", "h2", "h3", "dt", "dd", "td", "th", "caption", "tr", "figcaption"):
            self.pieces.append(" ")

    def handle_endtag(self, tag: str) -> None:
        self.hidden -= tag in ("style", "script")

    def handle_data(self, data: str) -> None:
        if not self.hidden:
            self.pieces.append(data)

    @property
    def text(self) -> str:
        return " ".join("".join(self.pieces).split())

    @property
    def ids(self) -> list[str]:
        return [attrs["id"] or "" for _, attrs in self.tags if "id" in attrs]

    @property
    def targets(self) -> set[str]:
        return {
            (attrs.get("href") or "")[1:] for _, attrs in self.tags if (attrs.get("href") or "").startswith("#")
        }


def page(guide: Guide, clean: bool = True) -> str:
    return html.page(guide, clean=clean).decode()


def text(guide: Guide, clean: bool = True) -> str:
    return Reader(page(guide, clean)).text


def in_order(whole: str, *parts: str) -> bool:
    """Whether the parts stand in the text one after the other."""
    at = -1
    for part in parts:
        at = whole.find(part, at + 1)
        if at < 0:
            return False
    return True


def test_the_page_has_its_contents_in_order(radio: Guide) -> None:
    assert in_order(
        text(radio),
        "Kestrel K9 bench radio",
        "Device Kestrel K9 230 V <EU>",
        "Author Workbench Two",
        "Licence CC-BY-4.0",
        "Revision 3",
        "Date 3 February 2026",
        "Recording k9.mp4, 1:09:40",
        "Hazards and isolation",
        "Danger Mains voltage kills.",
        "Isolation",
        "Lay out before you start",
        "Tools",
        "Supplies",
        "10 Pull the plug",
        "80 Before it goes back into use",
        "Bill of materials",
        "Index of things",
    )


def test_every_action_of_the_note_is_a_line_that_can_be_linked_to(radio: Guide) -> None:
    ids = Reader(page(radio)).ids
    assert radio.actions
    assert {f"a-{name.replace('/', '-')}" for name in radio.actions} <= set(ids)


@pytest.mark.parametrize("path", [NOTES / "every.md", NOTES / "klein.md", *SAMPLES], ids=lambda path: path.stem)
def test_ids_are_alone_and_every_link_within_the_page_has_its_target(path: Path) -> None:
    read = Reader(page(guide_at(path)))
    assert len(read.ids) == len(set(read.ids))
    assert read.targets
    assert read.targets <= set(read.ids)


def test_hazards_stand_before_the_action_they_belong_to(radio: Guide) -> None:
    whole = text(radio)
    assert in_order(whole, "20 Open the case Time", "Warning The reservoir", "Undo 4 × PH0 M2×6 (A)")
    assert in_order(whole, "Caution Panel pins", "Lift off back panel")
    assert in_order(whole, "Notice The aerial wire", "Unplug cell lead", "Peel off cell tape")


def test_each_hazard_is_shown_once(radio: Guide) -> None:
    assert text(radio).count("Panel pins stand out") == 1
    assert text(radio).count("The aerial wire is stuck") == 1
    assert text(radio).count("Mains voltage kills") == 1


@pytest.mark.parametrize("typed", ["WARNING: hot", "**WARNING:** hot", "**WARNING**: hot", "**WARNING: hot**"])
def test_a_hazards_signal_word_is_said_once_however_it_is_typed(note: Note, typed: str) -> None:
    found = text(note(f"> {typed}\n\n## Lid\n\n1. Lift off {{part lid}}.\n"))
    assert "Warning hot" in found
    assert "WARNING" not in found


def test_a_hazard_after_the_last_line_stands_before_that_line(note: Note) -> None:
    whole = text(
        note("## Lid\n\n1. Undo {screw A: 2x PH0 M2x6}.\n2. Lift off {part lid}.\n\n> CAUTION: sharp rim\n")
    )
    assert in_order(whole, "Undo 2 ×", "Caution sharp rim", "Lift off lid")


def test_an_added_hazard_says_so_and_the_authors_do_not(radio: Guide) -> None:
    first = radio.operations[0]
    added = Hazard(Span(1, 2), Signal.CAUTION, "the rim is sharp", added=True, rule="rim")
    changed = replace(radio, operations=(replace(first, hazards=(added,)), *radio.operations[1:]))
    assert "added by the compiler" not in text(radio)
    assert in_order(text(changed), "Caution the rim is sharp added by the compiler, not the author")


def test_standing_of_an_operation_is_said_in_words(radio: Guide) -> None:
    whole = text(radio)
    assert "Another way to the result of 40 Main board." in whole
    assert "Optional. Nothing later needs it." in whole
    assert "Live work." in whole
    assert "Done on refit only" in whole
    assert "nothing, may be done at any time" in whole
    assert in_order(whole, "40 Main board Time", "After back panel off, clock cell off", "Off by now back panel")
    assert "back, then front" in whole


def test_what_more_is_said_of_an_action_stands_below_it_and_not_in_its_line(radio: Guide) -> None:
    whole = text(radio)
    assert in_order(whole, "Lift off back panel with plastic card.", "At risk back panel: the veneer tears")
    assert "On refit seat felt strip in its groove, then 0.15 N·m" in whole
    assert "Fold front frame aside. stays on, only moved" in whole
    assert "{" not in whole.replace("{part not a mark}", "")


def test_a_supposed_hold_is_shown_as_supposed(radio: Guide) -> None:
    assert "Taken to hold here, since the note does not say main board: 6 × PH1 M3×10 (C)" in text(radio)


def test_a_value_stands_with_its_other_units(radio: Guide) -> None:
    """158 °F = 70 °C x 9/5 + 32."""
    assert "158 °F" in text(radio)


def test_a_draft_mark_is_unconfirmed_wherever_it_stands(note: Note) -> None:
    whole = text(note("## Lid\n\n1. Lift off {? part lid}.\n2. Clean {lid}.\n"))
    assert in_order(whole, "Lift off lid unconfirmed.", "Clean lid unconfirmed.", "part, unconfirmed")


def test_a_note_that_is_not_clean_says_so_first(radio: Guide) -> None:
    assert "Not clean" not in text(radio)
    assert in_order(text(radio, clean=False), "Not clean", "Bench sheet", "Kestrel K9")


def test_ordered_lines_are_numbered_free_ones_lettered_nested_ones_both(note: Note) -> None:
    body = """## Lid

1. Undo {screw A: 2x PH0 M2x6}.
2. Free the lid:
   - Unclip {clip left catch}.
   - Unclip {clip right catch}.

![inside](in.png)

1. Lift off {part lid}.

- Clean {lid}.
- Dry {lid}.
"""
    whole = text(note(body))
    assert in_order(whole, "1 Undo", "2 Free", "2.a Unclip", "2.b Unclip", "3 Lift off", "a Clean", "b Dry")
    assert whole.count("in any order") == 2


def test_remarks_pictures_tables_and_code_are_kept(radio: Guide) -> None:
    whole, read = text(radio), Reader(page(radio))
    assert "This is a remark without any action." in whole
    assert "Picture 1 The inside, seen from the back" in whole
    assert "code {part not a mark} <tag>" in whole
    assert in_order(whole, "Screw Where Turns", "4 × PH0 M2×6 (A) rim 7")
    pictures = [attrs for tag, attrs in read.tags if tag == "img"]
    assert [(one["src"], one["alt"]) for one in pictures] == [
        ("pics/inside.png", "Back panel off: transformer left, boards right")
    ]


def test_lists_hold_every_thing_and_batteries_their_energy(radio: Guide) -> None:
    """220 mAh x 3 V = 0.66 Wh."""
    whole, ids = text(radio), Reader(page(radio)).ids
    assert {f"thing-{name}" for name in radio.things} <= set(ids)
    assert "1 clock cell 220 mAh 3 V 0.66 Wh" in whole
    assert "4 PH0 M2×6 0.15 N·m" in whole
    assert "black, locked with medium" in whole
    assert in_order(whole, "speaker lead", "speaker to main board", "40, 50")


def test_index_names_the_operations_of_a_thing(radio: Guide) -> None:
    assert "main board part 40, 50" in text(radio)
    assert "PH1 screwdriver tool 40, 50" in text(radio)


def test_a_guide_of_some_operations_in_another_order_keeps_their_numbers(radio: Guide) -> None:
    """As a route takes them: what is named in the others does not count."""
    first, case, board = (radio.operations[at] for at in (0, 1, 3))
    actions = {name: radio.actions[name] for one in (board, first) for name in one.actions}
    short = replace(radio, operations=(board, first), actions=actions, isolating=(first.actions[0],))
    whole = text(short)
    assert in_order(whole, "40 Main board Time", "10 Pull the plug Time")
    assert case.title not in whole
    assert "main board part 40" in whole
    assert "dial lamp part no operation" in whole


def test_a_german_note_gets_german_furniture_and_figures() -> None:
    whole = text(guide_at(NOTES / "klein.md"))
    assert in_order(whole, "Stand 2", "Datum 1. März 2026", "Inhalt", "Warnung Eine verbogene Zelle", "Werkzeug")
    assert "0,15 N·m" in whole
    assert "0,66 Wh" in whole
    assert "Off by now" not in whole


HOSTILE = """---
title: "</title><script>alert(1)</script>"
subject: {maker: "<img src=x onerror=alert(1)>", model: "\\"onload=alert(1)"}
author: "</style><script>alert(2)</script>"
language: en
power: none
---

# x

<script>alert(3)</script>

> DANGER: <img src=x onerror=alert(4)> [a](javascript:alert(5)) ![p](javascript:alert(6))

## </h2><script>alert(7)</script> {side "><script>alert(8)</script>}

1. Lift off {part <b onclick=alert(9)>lid</b>: "><i>; number=<u>; class=cover}. {risk "><s>: "><s>}
   {refit <script>alert(10)</script>}
2. Click [here](//evil.example/x), [there](data:text/html,x), <https://ok.example/?a=1&b="2">.

![x" onerror="alert(11)](pics/a"b.png "><script>")
"""


def test_nothing_in_a_note_becomes_markup() -> None:
    read = Reader(page(guide_of(HOSTILE)))
    tags = [tag for tag, _ in read.tags]
    assert tags.count("script") == 1
    assert tags.count("style") == 1
    assert not {"b", "i", "u", "s"} & set(tags)
    assert not [name for _, attrs in read.tags for name in attrs if name.startswith("on") or name == "style"]
    links = {attrs.get("href") or "" for tag, attrs in read.tags if tag == "a"}
    assert {link for link in links if not link.startswith("#")} == {"https://ok.example/?a=1&b=%222%22"}


def test_links_do_not_nest(note: Note) -> None:
    read = Reader(page(note("## Lid\n\n1. Lift off [the {part lid}](https://example.org).\n")))
    depth = [0]

    class Depth(HTMLParser):
        def handle_starttag(self, tag: str, attrs: object) -> None:
            depth.append(depth[-1] + (tag == "a"))

        def handle_endtag(self, tag: str) -> None:
            depth.append(depth[-1] - (tag == "a"))

    Depth().feed(page(note("## Lid\n\n1. Lift off [the {part lid}](https://example.org).\n")))
    assert max(depth) == 1
    assert "the lid" in read.text


def test_a_plain_note_without_marks_is_a_plain_page(note: Note) -> None:
    whole = text(note("Some words.\n\n## First\n\nText only.\n\n## Second\n"))
    assert in_order(whole, "Some words.", "10 First", "Text only.", "20 Second")
    assert "Bill of materials" not in whole


def test_a_note_without_anything_still_has_a_page() -> None:
    whole = text(guide_of(""))
    assert "Bench sheet" in whole


def test_the_same_guide_gives_the_same_bytes() -> None:
    path = SAMPLES[0]
    assert html.page(guide_at(path), clean=True) == html.page(guide_at(path), clean=True)


def test_only_the_sections_asked_for_are_printed(radio: Guide) -> None:
    short = Reader(html.page(radio, clean=True, sections=("title", "operations")).decode()).text
    assert "10 Pull the plug" in short
    assert "Bill of materials" not in short


def test_a_section_of_another_part_is_printed_with_its_data_and_only_then(
    radio: Guide, monkeypatch: pytest.MonkeyPatch
) -> None:
    loader = DictLoader({"sections/probe.html": "<p>probe {{ data.words }} on {{ sheet.title }}</p>"})
    environment = template._environment().overlay(loader=ChoiceLoader([template._environment().loader, loader]))
    monkeypatch.setattr(template, "_environment", lambda: environment)
    monkeypatch.setattr(sections, "ORDER", (*sections.ORDER, sections.Section("probe", wants=True)))
    given = html.page(radio, clean=True, data={"probe": {"words": "<i>"}}).decode()
    assert "probe &lt;i&gt; on Kestrel K9" in given
    assert "probe" not in html.page(radio, clean=True).decode()


@pytest.mark.parametrize("path", [NOTES / "every.md", NOTES / "klein.md", *SAMPLES], ids=lambda path: path.stem)
def test_the_page_is_small_before_its_pictures_load(path: Path) -> None:
    assert len(html.page(guide_at(path), clean=True)) < 300_000


def test_the_markup_validator_finds_no_error(tmp_path: Path) -> None:
    jar = NPM / "vnu-jar" / "build" / "dist" / "vnu.jar"
    for path in [*NOTES.glob("*.md"), *SAMPLES]:
        (tmp_path / f"{path.stem}.html").write_bytes(html.page(guide_at(path), clean=path.stem != "klein"))
    (tmp_path / "hostile.html").write_bytes(html.page(guide_of(HOSTILE), clean=True))
    (tmp_path / "empty.html").write_bytes(html.page(guide_of(""), clean=True))
    command = ["java", "-jar", str(jar), "--errors-only", "--skip-non-html", str(tmp_path)]
    done = subprocess.run(command, capture_output=True, text=True, timeout=120)
    assert (done.returncode, done.stderr) == (0, "")


@pytest.mark.parametrize(
    ("typed", "together"),
    [
        ("stays below 50 °C at", "below 50\u00a0°C at"),
        ("wait 10 min or", "wait 10\u00a0min or"),
        ("a gap of 0.4 mm here", "of 0.4\u00a0mm here"),
        ("at most ≤ 5 V there", "≤\u00a05\u00a0V there"),
        ("in 2 minutes", "in 2 minutes"),
        ("4 angles", "4 angles"),
        ("2 × PH0 M2×6", "2\u00a0×\u00a0PH0 M2×6"),
    ],
)
def test_figures_stay_with_their_units(typed: str, together: str) -> None:
    assert together in bound(typed)
    assert " ".join(bound(typed).split()) == typed


def test_a_german_page_has_decimal_commas_in_its_screws() -> None:
    note = "---\nlanguage: de\n---\n# R\n\n## Öffnen\n\n1. Löse {screw A: 2x T10 ST3,5x9,5}.\n"
    whole = text(guide_of(note))
    assert "Löse 2 × T10 ST3,5×9,5 (A)" in whole
    assert "ST3.5" not in whole


def test_a_count_before_a_mark_is_printed_once(tmp_path: Path):
    note = tmp_path / "n.md"
    note.write_text("# N\n\n## W\n\n1. Undo 4 {screw H: 4x T20 5x20}.\n2. Pull 3 {part valve; qty=3} out.\n")
    page = dict(compiler.build(compiler.load(note, "n.md"), compiler.Options(pdf=False)).files)[
        "index.html"
    ].decode()
    said = re.sub(r"\s+", " ", re.sub(r"<[^>]+>", "", page))
    assert "Undo 4 × T20 5×20 (H)" in said.replace("\u00a0", " ")
    assert "Pull 3 valves out" in said.replace("\u00a0", " ")


def test_a_german_guide_names_drivers_and_kinds_of_connectors_in_german(tmp_path: Path):
    note = tmp_path / "n.md"
    lines = "1. {screw A: 4x T20 M3x8} lösen.\n2. {connector Zuleitung: plug} abziehen.\n"
    note.write_text("---\nlanguage: de\n---\n\n# N\n\n## Öffnen\n\n" + lines)
    built = compiler.build(compiler.load(note, "n.md"), compiler.Options(pdf=False))
    page = built.files["index.html"].decode()
    assert 'data-label="Bauart">Stecker</td>' in page
    assert ">plug<" not in page
    assert "driver<" not in page.casefold()
    assert "not measured" not in page
