"""Where the data comes from."""

from __future__ import annotations

import json
from pathlib import Path

import pytest
from click.testing import CliRunner

from guidec.commands.explain import command
from guidec.trade.load import data, names
from guidec.trade.sources import STATUSES, explained, page, sources

REPOSITORY = Path(__file__).parents[2]


def test_the_page_in_the_docs_is_up_to_date():
    """Write it anew with `python -m guidec.trade.sources > docs/sources.md`."""
    assert (REPOSITORY / "docs" / "sources.md").read_text(encoding="utf-8") == page()


@pytest.mark.parametrize("name", names())
def test_every_data_file_names_its_sources(name: str):
    assert any(cited.file == f"{name}.yaml" for cited in sources())


@pytest.mark.parametrize("cited", sources(), ids=lambda cited: f"{cited.file} {cited.where}")
def test_every_source_says_how_far_it_carries(cited):
    assert cited.status in STATUSES
    assert cited.source.strip()


def bare(value: object, covered: bool, path: str = "") -> list[str]:
    """Lists of rows in which some row has a source and some has none, above which none stands."""
    found = []
    if isinstance(value, dict):
        covered = covered or ("source" in value and "status" in value)
        for key, inner in value.items():
            found += bare(inner, covered, f"{path}/{key}")
    elif isinstance(value, list) and value and all(isinstance(each, dict) for each in value) and not covered:
        found += [f"{path}/{at}" for at, each in enumerate(value) if not ("source" in each and "status" in each)]
    return found


@pytest.mark.parametrize("name", [name for name in names() if "/" not in name])
def test_every_row_has_a_source_or_stands_under_one(name: str):
    assert bare(data(name), False) == []


def test_the_list_can_be_asked_for():
    shown = CliRunner().invoke(command, ["sources"])
    assert shown.exit_code == 0
    assert shown.output == page()
    plain = json.loads(CliRunner().invoke(command, ["sources", "--format", "json"]).output)
    assert [row["source"] for row in plain["sources"]] == [cited.source for cited in sources()]


def test_the_list_as_data_has_every_source():
    text, plain = explained()
    assert len(plain["sources"]) == len(sources())
    assert all(cited.source in text for cited in sources())
