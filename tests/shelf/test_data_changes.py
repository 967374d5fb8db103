"""`changes.json`: what is told of two builds, worked out here by hand from two revisions of a note."""

from __future__ import annotations

import json
from typing import Any

import jsonschema
import pytest

from guidec.schemas import schema
from guidec.shelf.catalogue import data_files, guides_of
from guidec.shelf.entry import Entry
from tests.shelf.entries import of_text, workshop

FIRST = """---
title: Desk radio
revision: 1
---

# Desk radio

## Open

1. Undo {screw A: 4x PH1 M3x8; holds=lid}.
2. Lift off {part lid; class=cover}.

## Speaker

1. Unplug {connector lead: plug; from=speaker}.
2. Undo {screw B: 2x PH0 M2x6; holds=speaker}.
3. Lift out {part speaker; class=speaker}.
4. Slide out {part felt}.
"""


def told(before: list[Entry], after: list[Entry]) -> dict[str, Any]:
    found = json.loads(data_files(after, before=before)["changes.json"])
    jsonschema.Draft202012Validator(schema("changes.schema.json")).validate(found)
    by_catalogue = data_files(after, before=guides_of(data_files(before)["catalogue.json"]))["changes.json"]
    assert json.loads(by_catalogue) == found, "from the entries or from the catalogue of the build before"
    return dict(found)


def edited(*pairs: tuple[str, str]) -> dict[str, Any]:
    text = FIRST
    for old, new in pairs:
        assert old in text
        text = text.replace(old, new)
    found = told([of_text(FIRST)], [of_text(text)])
    assert found["added"] == found["removed"] == []
    return dict(found["changed"][0]) if found["changed"] else {}


def section(found: dict[str, Any], name: str) -> dict[str, Any]:
    return {key: value for key, value in found[name].items() if value}


def test_a_first_build_tells_nothing():
    found = json.loads(data_files(workshop())["changes.json"])
    assert found["first"]
    assert not any(found[key] for key in ("added", "removed", "renamed", "changed"))


def test_nothing_changed_where_only_the_lines_moved():
    assert edited(("# Desk radio\n", "# Desk radio\n\nA radio for the desk.\n")) == {}


def test_guides_that_come_and_go():
    one, other = of_text(FIRST), of_text(FIRST.replace("Desk radio", "Shelf radio"))
    assert told([one], [one, other])["added"] == [{"id": "shelf-radio", "title": "Shelf radio"}]
    assert told([one, other], [other])["removed"] == [{"id": "desk-radio", "title": "Desk radio"}]


def test_a_guide_that_says_what_it_was_is_renamed_and_not_new():
    now = of_text(FIRST.replace("title: Desk radio", "title: Desk radio, all of it\nwas: Desk radio"))
    found = told([of_text(FIRST)], [now])
    assert found["renamed"] == [{"from": "desk-radio", "to": "desk-radio-all-of-it"}]
    assert found["added"] == found["removed"] == []
    (guide,) = found["changed"]
    assert guide["guide"] == [{"field": "title", "before": "Desk radio", "after": "Desk radio, all of it"}]
    silent = told([of_text(FIRST)], [of_text(FIRST.replace("title: Desk radio", "title: Desk radio, all of it"))])
    assert silent["renamed"] == []
    assert len(silent["added"]) == len(silent["removed"]) == 1


def test_a_part_that_changed_and_one_that_is_new():
    found = edited(
        ("{part lid; class=cover}", "{part lid; class=cover; number=DR-1}"), ("{part felt}", "{part mesh}")
    )
    assert section(found, "parts") == {
        "added": ["mesh"],
        "removed": ["felt"],
        "changed": [{"id": "lid", "field": "number", "before": None, "after": "DR-1"}],
    }
    assert section(found, "routes") == {"added": ["mesh"], "removed": ["felt"]}
    assert section(found, "screws") == {}


def test_screws_that_changed_reach_the_routes():
    found = edited(("{screw A: 4x PH1 M3x8; holds=lid}", "{screw A: 6x PH1 M3x10; holds=lid}"))
    assert section(found, "screws")["changed"] == [
        {"id": "a", "field": "count", "before": 4, "after": 6},
        {"id": "a", "field": "length_mm", "before": 8, "after": 10},
        {"id": "a", "field": "notation", "before": "4 × PH1 M3×8", "after": "6 × PH1 M3×10"},
    ]
    screws = [one for one in found["routes"]["changed"] if one["field"] == "screws"]
    assert screws == [
        {"id": "lid", "field": "screws", "before": 4, "after": 6},
        {"id": "speaker", "field": "screws", "before": 6, "after": 8},
        {"id": "felt", "field": "screws", "before": 6, "after": 8},
    ]


@pytest.mark.parametrize("said", [True, False])
def test_a_renaming_is_told_once_where_the_note_says_so(said: bool):
    was = "; was=lid" if said else ""
    found = edited(
        ("{part lid; class=cover}", f"{{part back cover; class=cover{was}}}"), ("holds=lid", "holds=back cover")
    )
    if said:
        assert section(found, "parts") == {"renamed": [{"from": "lid", "to": "back-cover"}]}
        assert section(found, "screws") == section(found, "routes") == {}
    else:
        assert section(found, "parts") == {"added": ["back-cover"], "removed": ["lid"]}
        assert [one["field"] for one in found["screws"]["changed"]] == ["holds"]


def test_an_operation_with_a_new_title_is_told_once():
    found = edited(("## Open\n", "## Take the lid off {was Open}\n"))
    assert section(found, "operations") == {"renamed": [{"from": "open", "to": "take-the-lid-off"}]}
    assert all(section(found, name) == {} for name in ("parts", "screws", "connectors", "routes"))


def test_an_index_that_moved_is_told_with_both_ranges():
    """An answer more narrows the range; an index that was not there before has no range before."""
    lamp = FIRST
    phone, answered = (
        FIRST.replace("revision: 1", f"revision: 1\nsubject: {{kind: smartphone}}\nscoring: {{{answers}}}")
        for answers in ("update_years: 2", "update_years: 7")
    )
    entries = {name: of_text(text) for name, text in (("lamp", lamp), ("phone", phone), ("answered", answered))}
    (moved,) = told([entries["phone"]], [entries["answered"]])["changed"][0]["index"]
    assert moved["method"] == "eu-2023-1669"
    assert moved["before"]["low"] < moved["after"]["low"]
    assert moved["before"]["high"] < moved["after"]["high"]
    found = told([entries["lamp"]], [entries["phone"]])["changed"][0]["index"]
    (new,) = (one for one in found if one["method"] == "eu-2023-1669")
    assert new["before"] is None
    assert new["after"] == moved["before"]
