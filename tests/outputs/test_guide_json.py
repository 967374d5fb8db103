"""`guide.json` holds the whole model, keeps to its schema, and points to the note to the character.

Outside: JSON Schema 2020-12 (`jsonschema`, its metaschema, and `jsonschema_rs`, another implementation); JSON
Pointer after RFC 6901; places are recounted here from the note's text by splitting it at its line ends.
"""

from __future__ import annotations

import copy
import dataclasses
import json
import os
import subprocess
import sys
from collections.abc import Callable, Iterator, Mapping
from enum import Enum
from functools import cache
from pathlib import Path
from typing import Any
from urllib.parse import unquote

import jsonschema
import jsonschema_rs
import pytest
from hypothesis import given, settings
from hypothesis import strategies as st

from guidec.model.types import Guide
from guidec.notes.syntax import Heading, Inline, ItemList, Located, Paragraph, Quote, Table, Verbatim
from guidec.outputs import guide_json
from guidec.outputs.jsonable import number
from guidec.plan.cautions import cautions
from guidec.source import Source, Span
from tests.outputs.conftest import NOTES, REPOSITORY, SAMPLES, guide_at, guide_of

SCHEMA = json.loads((REPOSITORY / "schema" / "guide.schema.json").read_text(encoding="utf-8"))
FAST = jsonschema_rs.Draft202012Validator(SCHEMA)
ALL = (*SAMPLES, *sorted(NOTES.glob("*.md")))
FREE = {"scoring", "quiet", "identifiers", "front_matter"}
"""Keys whose values are the note's own words, not of our design."""


@cache
def compiled(path: Path) -> tuple[Guide, Any]:
    guide = guide_at(path)
    return guide, json.loads(guide_json.encode(guide, cautions(guide)))


every_note = pytest.mark.parametrize("path", ALL, ids=lambda path: path.stem)


def objects(data: Any) -> Iterator[dict[str, Any]]:
    """All objects of our design in a document."""
    if isinstance(data, dict):
        yield data
        for key, value in data.items():
            if key not in FREE:
                yield from objects(value)
    elif isinstance(data, list):
        for item in data:
            yield from objects(item)


def places(data: Any) -> Iterator[dict[str, int]]:
    return (one for one in objects(data) if set(one) == {"line", "column", "end_line", "end_column"})


def cut(text: str, place: Mapping[str, int]) -> str:
    """What stands at a place, counted in lines and characters from 1."""
    lines = text.split("\n")[place["line"] - 1 : place["end_line"]]
    lines[-1] = lines[-1][: place["end_column"] - 1]
    lines[0] = lines[0][place["column"] - 1 :]
    return "\n".join(lines)


# ---------------------------------------------------------------- schema


def test_schema_is_valid_2020_12() -> None:
    assert SCHEMA["$schema"] == "https://json-schema.org/draft/2020-12/schema"
    jsonschema.Draft202012Validator.check_schema(SCHEMA)


@every_note
def test_guide_keeps_to_its_schema(path: Path) -> None:
    _, data = compiled(path)
    jsonschema.Draft202012Validator(SCHEMA).validate(data)
    FAST.validate(data)


@every_note
def test_no_key_may_be_missing_and_none_more(path: Path) -> None:
    _, data = compiled(path)
    seen: set[tuple[str, ...]] = set()
    for one in objects(copy.deepcopy(data)):
        shape = tuple(one)
        if shape in seen:
            continue
        seen.add(shape)
    assert len(seen) > 20
    changed = copy.deepcopy(data)
    for one in objects(changed):
        shape = tuple(one)
        if shape not in seen:
            continue
        seen.discard(shape)
        one["surplus"] = 1
        assert not FAST.is_valid(changed), shape
        del one["surplus"]
        for key in shape:
            value = one.pop(key)
            assert not FAST.is_valid(changed), (shape, key)
            one[key] = value
    assert FAST.is_valid(changed)


def test_every_object_of_the_schema_is_closed_and_described() -> None:
    for name, part in SCHEMA["$defs"].items():
        for one in objects(part):
            if one.get("type") == "object" and "properties" in one:
                assert one["additionalProperties"] is False, name
                assert set(one["required"]) == set(one["properties"]), name


# ---------------------------------------------------------------- complete


SYNTAX = (Heading, Paragraph, ItemList, Quote, Table, Verbatim, Inline)


def facts(value: Any) -> Iterator[Span | str | float]:
    """All spans, words and numbers of a model, syntax and front matter taken as one piece each."""
    if isinstance(value, Span):
        yield value
    elif isinstance(value, Located | Source) or value is None or isinstance(value, bool):
        return
    elif isinstance(value, SYNTAX):
        yield value.span
    elif isinstance(value, Enum):
        yield str(value.value)
    elif isinstance(value, str | int | float):
        yield value
    elif isinstance(value, Mapping):
        for key, one in value.items():
            yield from facts(key)
            yield from facts(one)
    elif isinstance(value, tuple | list):
        for one in value:
            yield from facts(one)
    else:
        for one in dataclasses.fields(value):
            yield from facts(getattr(value, one.name))


@every_note
def test_nothing_of_the_model_is_left_out(path: Path) -> None:
    guide, data = compiled(path)
    known: set[Any] = {tuple(place.values()) for place in places(data)}
    words = set(leaves(data))
    for value in facts(dataclasses.replace(guide, printed={})):
        if isinstance(value, Span):
            start, end = guide.source.place(value.start), guide.source.place(value.end)
            assert (*start, *end) in known, guide.source.slice(value)
        else:
            assert value in words or number(value) in words, value  # type: ignore[arg-type]


def leaves(data: Any) -> Iterator[Any]:
    if isinstance(data, dict):
        for key, value in data.items():
            yield key
            yield from leaves(value)
    elif isinstance(data, list):
        for item in data:
            yield from leaves(item)
    else:
        yield data


@every_note
def test_front_matter_is_there_with_the_place_of_each_value(path: Path) -> None:
    guide, data = compiled(path)
    text = guide.source.text
    assert data["front_matter"] == json.loads(json.dumps(guide.meta.front.plain(), default=str))
    for one in data["front_matter_places"]:
        value = data["front_matter"]
        for step in one["pointer"].split("/")[1:]:
            name = step.replace("~1", "/").replace("~0", "~")
            value = value[int(name)] if isinstance(value, list) else value[name]
        if one["key_place"]:
            assert cut(text, one["key_place"]).strip("\"'") == name
        if isinstance(value, str) and "\n" not in value:
            assert value in cut(text, one["place"])


@every_note
def test_no_syntax_of_a_library_leaks(path: Path) -> None:
    _, data = compiled(path)
    assert not {"tokens", "pieces", "inline", "span"} & {key for one in objects(data) for key in one}
    assert "Token(" not in json.dumps(data)


# ---------------------------------------------------------------- places


@every_note
def test_places_are_those_of_the_note(path: Path) -> None:
    guide, data = compiled(path)
    text = guide.source.text
    for mark in data["marks"]:
        typed = cut(text, mark["place"])
        assert typed[0] + typed[-1] == "{}", typed
    for one in objects(data):
        if "typed" in one:
            assert cut(text, one["place"]) == one["typed"]
        if "path_place" in one:
            assert unquote(cut(text, one["path_place"])) in (one["path"], f"<{one['path']}>")
        if one.get("type") in ("list", "hazard", "prose", "picture", "heading") and not one.get("added"):
            assert cut(text, one["place"]).strip()


@every_note
def test_things_point_at_what_declares_them(path: Path) -> None:
    guide, data = compiled(path)
    for thing in data["things"]:
        if not thing["implied"]:
            typed = " ".join(cut(guide.source.text, thing["place"]).split()).casefold()
            assert " ".join(thing["name"].split()).casefold() in typed


def test_columns_count_characters_and_survive_windows_line_ends() -> None:
    text = "# Ä 😀\r\n\r\n## Öffnen 😀\r\n\r\n1. 😀 x\r\n2. Undo {screw ß: 4x PH0 M2x6}.\r\n"
    data = guide_json.as_data(guide_of(text))
    assert data["things"][0]["place"] == {"line": 6, "column": 9, "end_line": 6, "end_column": 31}


# ---------------------------------------------------------------- structure


@every_note
def test_what_is_referred_to_is_there(path: Path) -> None:
    _, data = compiled(path)
    things = {thing["id"] for thing in data["things"]}
    operations = {one["id"] for one in data["operations"]}
    actions = {one["id"]: one for one in data["actions"]}
    assert len(things) == len(data["things"])
    assert len(actions) == len(data["actions"])
    for one in data["actions"]:
        used = [use["id"] for role in ("objects", "mentions", "tools", "supplies", "effects") for use in one[role]]
        assert things.issuperset(used)
        assert one["operation"] in operations
        for need in one["needs"]:
            assert all(name in actions for way in need["ways"] for name in way)
            assert need["thing"] is None or need["thing"] in things | operations
    assert all(mark["thing"] in things for mark in data["marks"])
    assert all(name in actions for name in data["isolating"])


@every_note
def test_content_holds_each_action_once_and_in_order(path: Path) -> None:
    _, data = compiled(path)
    for operation in data["operations"]:
        held = [
            name for one in objects(operation["content"]) if "number" in one and "actions" in one
            for name in one["actions"]
        ]  # fmt: skip
        assert sorted(held) == sorted(operation["actions"])
        assert [one["id"] for one in data["actions"] if one["operation"] == operation["id"]] == operation[
            "actions"
        ]


def test_an_action_has_its_roles_needs_and_values(note: Callable[[str], Guide]) -> None:
    guide = note(
        "## Open\n\n1. Warm {adhesive seal} with {tool hot-air gun} {heat 70 °C, 2 min}.\n"
        "2. Pry off {part lid; class=cover} from the frame {risk lid: cracks}. "
        "{refit wipe with {supply alcohol: 1 ml}}\n"
    )
    data = guide_json.as_data(guide)
    warm, pry = data["actions"]
    assert [use["id"] for use in warm["tools"]] == ["hot-air-gun"]
    assert [(one["id"], one["change"]) for one in warm["effects"]] == [("seal", "undone")]
    assert warm["heats"][0]["temperature"]["low"] == 70
    assert warm["heats"][0]["duration"]["low"] == 120
    assert [use["id"] for use in pry["objects"]] == ["lid"]
    assert {need["reason"] for need in pry["needs"]} >= {"list"}
    assert pry["risks"][0]["thing"]["id"] == "lid"
    assert pry["risks"][0]["text"] == "cracks"
    assert [use["id"] for use in pry["refits"][0]["uses"]] == ["alcohol"]
    assert next(one for one in data["things"] if one["id"] == "lid")["class"] == "cover"


def test_prose_comes_as_text_and_as_typed(note: Callable[[str], Guide]) -> None:
    guide = note(
        "## Open\n\nSee the *old* {part lid}.\n\n| a | b |\n|---|---|\n| {lid} | 2 |\n\n1. Lift off {lid}.\n"
    )
    prose, table, lines = guide_json.as_data(guide)["operations"][0]["content"]
    assert (prose["type"], prose["block"]) == ("prose", "paragraph")
    assert prose["markdown"] == "See the *old* {part lid}."
    assert prose["text"].replace("*", "") == "See the old lid."
    assert table["block"] == "table"
    assert table["text"] == "a\tb\nlid\t2"
    assert lines["type"] == "list"
    assert lines["ordered"] is True
    assert lines["lines"][0]["text"] == "Lift off lid."


def test_an_unclean_note_says_so(note: Callable[[str], Guide]) -> None:
    guide = note("## One\n\n1. Undo {screw A}.\n")
    assert json.loads(guide_json.encode(guide, clean=False))["clean"] is False
    assert json.loads(guide_json.encode(guide))["clean"] is True


# ---------------------------------------------------------------- bytes


@every_note
def test_compiled_twice_the_bytes_are_the_same(path: Path) -> None:
    one, two = guide_at(path), guide_at(path)
    assert guide_json.encode(one, cautions(one)) == guide_json.encode(two, cautions(two))


def test_another_process_with_another_hash_seed_writes_the_same_bytes() -> None:
    code = (
        "import sys; from pathlib import Path; from tests.outputs.conftest import guide_at;"
        "from guidec.outputs import guide_json, bom; from guidec.plan.cautions import cautions;"
        "guide = guide_at(Path(sys.argv[1])); said = cautions(guide);"
        "sys.stdout.buffer.write(guide_json.encode(guide, said) + bom.encode(guide, said))"
    )
    outs = [
        subprocess.run(
            [sys.executable, "-c", code, str(SAMPLES[-1])],
            env={**os.environ, "PYTHONHASHSEED": seed},
            cwd=REPOSITORY,
            capture_output=True,
            check=True,
        ).stdout
        for seed in ("1", "4711")
    ]
    assert outs[0] == outs[1]
    assert len(outs[0]) > 50_000


def test_items_stand_on_lines_of_their_own() -> None:
    guide, data = compiled(SAMPLES[0])
    lines = guide_json.encode(guide, cautions(guide)).decode().splitlines()
    for thing in data["things"]:
        assert sum(line.startswith(f'  {{"id": "{thing["id"]}", "kind"') for line in lines) == 1


def test_a_number_that_is_none_becomes_null() -> None:
    assert number(float("inf")) is None
    assert number(float("nan")) is None
    assert json.dumps([number(5.0), number(0.15)]) == "[5, 0.15]"


PIECES = st.sampled_from(
    (
        *("# T\n\n", "## One {after nothing}\n\n", "## Two {also One} @0:10\n\n", "## One {instead of One}\n\n"),
        *("1. Undo {screw A: 4x PH0 M2x6; torque=0.2 N·m; holds=lid}.\n", "- Note {lid}.\n", "### g\n\n", "{"),
        *("2. Undo 2 of {A} and lift off {part lid}.\n", "> WARNING: hot {lid}\n\n", "   > CAUTION: x\n", "}"),
        *("- Warm {adhesive glue} with {tool gun} {heat 70-80 °C}.\n", "{part", "{measure <5 V at x}", "---\n"),
        *("![alt](p.jpg)\n{pin 1,2 3,4.5: lid}\n\n", "{connector c; from=lid; to=wall}", "```\nx\n```\n\n"),
        *("text `code` <b>\n\n", "| a | {lid} |\n|---|---|\n| b | {wait 5 s} |\n\n", "{? part odd}", "\n", "\t"),
        *("{risk lid: x} {refit with {supply grease: 1 g}}\n", "title: x\n", "{clip k: 3}", "{heat 1e999 °C}"),
    )
)


@settings(max_examples=120, deadline=None)
@given(st.lists(st.one_of(PIECES, st.text(max_size=12)), max_size=14).map("".join))
def test_whatever_is_typed_the_json_keeps_to_its_schema(text: str) -> None:
    guide = guide_of(text)
    FAST.validate(json.loads(guide_json.encode(guide)))
