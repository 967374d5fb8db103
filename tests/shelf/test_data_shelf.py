"""The data files as `guidec shelf` writes them: fresh, after an edit, with Parquet and without its library."""

from __future__ import annotations

import json
import sqlite3
from pathlib import Path
from typing import Any

import pytest
from pyarrow import parquet

from guidec.shelf import catalogue, settings
from guidec.source import Source
from tests.shelf.shelves import built, note, shelf


@pytest.fixture
def folder(tmp_path: Path) -> Path:
    return shelf(tmp_path / "notes", {f"n{at}.md": note(f"A{at}") for at in range(6)})


def data(site: Path, *, of: bool = False) -> dict[str, bytes]:
    return {name: (site / name).read_bytes() for name in catalogue.names(parquet=of)}


def test_an_edit_goes_on_from_the_old_files_and_gives_what_a_fresh_build_gives(
    folder: Path, tmp_path: Path, monkeypatch: pytest.MonkeyPatch
):
    built(folder, tmp_path / "site")
    (folder / "n3.md").write_text(note("A3", extra="3. Lift out {part bracket}.\n"))
    seen: list[Any] = []
    ours = catalogue._renew
    monkeypatch.setattr(catalogue, "_renew", lambda *given: seen.append(given[3]) or ours(*given))
    built(folder, tmp_path / "site")
    assert seen == [frozenset({"nordhavn-a3-work-lamp"})], "only the edited guide was made anew"
    built(folder, tmp_path / "fresh")
    edited, fresh = data(tmp_path / "site"), data(tmp_path / "fresh")
    changes = json.loads(edited.pop("changes.json"))
    assert json.loads(fresh.pop("changes.json"))["first"]
    assert edited == fresh
    (changed,) = changes["changed"]
    assert changed["parts"]["added"] == changed["routes"]["added"] == ["bracket"]


def test_a_file_that_somebody_changed_is_not_gone_on_from(folder: Path, tmp_path: Path):
    site = tmp_path / "site"
    built(folder, site)
    with sqlite3.connect(site / "catalogue.sqlite") as database:
        database.execute("UPDATE guides SET title = 'mine'")
    (folder / "n3.md").write_text(note("A3", extra="3. Lift out {part bracket}.\n"))
    built(folder, site)
    with sqlite3.connect(site / "catalogue.sqlite") as database:
        assert database.execute("SELECT count(*) FROM guides WHERE title = 'mine'").fetchone() == (0,)


def test_a_guide_that_goes_is_gone_from_all_data(folder: Path, tmp_path: Path):
    built(folder, tmp_path / "site")
    (folder / "n5.md").unlink()
    built(folder, tmp_path / "site")
    found = data(tmp_path / "site")
    changes = json.loads(found.pop("changes.json"))
    assert [one["id"] for one in changes["removed"]] == ["nordhavn-a5-work-lamp"]
    assert not [name for name, content in found.items() if b"nordhavn-a5" in content]


def test_parquet_is_written_where_the_shelf_asks_for_it(folder: Path, tmp_path: Path):
    (folder / "shelf.yaml").write_text("title: Bench shelf\nparquet: true\n")
    built(folder, tmp_path / "site")
    assert parquet.read_table(tmp_path / "site/tables/guides.parquet").num_rows == 6
    assert b"tables/parts.parquet" in (tmp_path / "site/data.html").read_bytes()


def test_parquet_without_its_library_is_one_message(monkeypatch: pytest.MonkeyPatch):
    monkeypatch.setattr(settings, "find_spec", lambda name: None)
    found, findings = settings.read(Source.of("shelf.yaml", "title: Bench\nparquet: true\n"), "Bench")
    assert [one.code for one in findings] == ["B115"]
    assert not found.parquet
    assert settings.read(Source.of("shelf.yaml", "parquet: false\n"), "Bench")[1] == ()
