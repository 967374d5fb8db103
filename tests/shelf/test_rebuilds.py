"""Rebuilds: only what changed is made, nothing stale stays, one bad note stops no other."""

from __future__ import annotations

import json
import os
from pathlib import Path

import pytest

from guidec.cli import main
from guidec.edge.write import RefusedError
from guidec.shelf.pages import classes, compare

from .shelves import BROKEN, built, codes, contents, note, shelf


@pytest.fixture
def folder(tmp_path: Path) -> Path:
    return shelf(tmp_path / "notes", {"a.md": note("A1"), "b.md": note("B2"), "deep/c.md": note("C3")})


@pytest.fixture
def site(tmp_path: Path) -> Path:
    return tmp_path / "site"


def pages(site: Path) -> set[str]:
    return {path.name for path in (site / "guides").iterdir()}


LAMPS = {f"nordhavn-{name}-work-lamp" for name in ("a1", "b2", "c3")}


def test_a_folder_becomes_a_site_with_each_guide_its_routes_and_data(folder: Path, site: Path) -> None:
    report = built(folder, site)
    assert set(report.made) == pages(site) == LAMPS
    lamp = site / "guides" / "nordhavn-a1-work-lamp"
    files = {path.name for path in lamp.iterdir()}
    assert {"index.html", "route-cell-pack.html", "guide.json", "bom.json", "parts.csv"} <= files
    assert {"index.html", "search.html", "data.html", "catalogue.json"} <= {path.name for path in site.iterdir()}


def test_an_unchanged_shelf_is_left_alone(folder: Path, site: Path) -> None:
    built(folder, site)
    before = {path: path.stat().st_mtime_ns for path in site.rglob("*")}
    inode = site.stat().st_ino
    report = built(folder, site)
    assert (report.made, report.wrote, report.stayed) == ([], 0, 3)
    assert {path: path.stat().st_mtime_ns for path in site.rglob("*")} == before
    assert site.stat().st_ino == inode


def test_one_edit_makes_its_guide_and_the_shared_pages_that_show_it(folder: Path, site: Path) -> None:
    built(folder, site)
    before = contents(site)
    (folder / "b.md").write_text(note("B2", extra="3. Lift out {part bracket}.\n"))
    report = built(folder, site)
    assert report.made == ["nordhavn-b2-work-lamp"]
    changed = {name for name, digest in contents(site).items() if before.get(name) != digest}
    assert {name.split("/")[1] for name in changed if name.startswith("guides/")} == {"nordhavn-b2-work-lamp"}
    assert "assets/search-index.js" in changed
    assert not {"parts/cover.html", "tools/index.html", "assets/shelf.css", "robots.txt"} & changed


def test_an_edited_shelf_is_byte_for_byte_the_one_built_afresh(folder: Path, site: Path, tmp_path: Path) -> None:
    built(folder, site)
    (folder / "b.md").write_text(note("B2", extra="3. Lift out {part bracket}.\n"))
    built(folder, site)
    built(folder, tmp_path / "fresh")
    told = {"index.html", "changes.html", "changes.json", "data.html"}
    again, fresh = contents(site), contents(tmp_path / "fresh")
    assert again.keys() == fresh.keys()
    assert {name for name in again if again[name] != fresh[name]} <= told


def test_pages_whose_guides_look_the_same_on_them_are_not_made_again(
    folder: Path, site: Path, monkeypatch: pytest.MonkeyPatch
) -> None:
    """A remark is on no shared page; a part more is on some, and the catalogue knows of both."""
    made: list[str] = []
    table = classes.table
    monkeypatch.setattr(
        classes, "table", lambda title, *rest, **how: made.append(title) or table(title, *rest, **how)
    )
    built(folder, site)
    assert made
    made.clear()
    (folder / "b.md").write_text(note("B2", extra="\nA remark on it.\n"))
    assert built(folder, site).made == ["nordhavn-b2-work-lamp"]
    assert made == []
    (folder / "b.md").write_text(note("B2", extra="3. Lift out {part bracket; class=cover}.\n"))
    built(folder, site)
    assert made, "the entry is another now, and its rows may be"
    assert "bracket" in (site / "parts" / "cover.html").read_text()
    assert "bracket" in (site / "catalogue.json").read_text()


def test_a_class_page_follows_each_part_of_a_guide(folder: Path, site: Path, tmp_path: Path) -> None:
    """Edit after edit, the site is the one that is built afresh, changes and sizes apart."""
    told = {"index.html", "changes.html", "changes.json", "data.html"}
    texts = (
        note("B2").replace("class=battery", "class=other"),
        note("B2").replace("4x PH0", "2x T5"),
        note("B2").replace("year: 2024", "year: 2019"),
        note("B2").replace("kind: work lamp", "kind: head lamp"),
        note("B2").replace("Do not lever", "Never lever"),
        note("B2"),
    )
    for turn, text in enumerate(texts):
        (folder / "b.md").write_text(text)
        built(folder, site)
        built(folder, tmp_path / f"fresh-{turn}")
        again, fresh = contents(site), contents(tmp_path / f"fresh-{turn}")
        assert {name for name in again | fresh if again.get(name) != fresh.get(name)} <= told, turn


def test_a_comparison_that_is_split_and_whole_again_is_made_again(
    folder: Path, site: Path, tmp_path: Path, monkeypatch: pytest.MonkeyPatch
) -> None:
    monkeypatch.setattr(compare, "PER_PAGE", 2)
    built(folder, site)
    assert (site / "compare" / "work-lamp.html").exists()
    (folder / "a.md").unlink()
    built(folder, site)
    assert {path.name for path in (site / "compare").iterdir()} == {"index.html"}
    built(folder, tmp_path / "fresh")
    assert contents(site / "compare") == contents(tmp_path / "fresh" / "compare")
    (folder / "a.md").write_text(note("A1"))
    built(folder, site)
    assert (site / "compare" / "work-lamp.html").exists()


def test_what_changed_is_told_until_something_else_does(folder: Path, site: Path) -> None:
    built(folder, site)
    assert "Nothing was added" in (site / "changes.html").read_text()
    (folder / "a.md").unlink()
    (folder / "b.md").write_text(note("B2", extra="3. Lift out {part bracket}.\n"))
    (folder / "d.md").write_text(note("D4"))
    built(folder, site)
    built(folder, site)
    text = (site / "changes.html").read_text()
    assert text.count('<tr><th scope="row"') == 3
    assert ">gone<" in text
    assert ">new<" in text
    assert ">revised<" in text


def test_a_deleted_note_leaves_nothing(folder: Path, site: Path) -> None:
    built(folder, site)
    (folder / "a.md").unlink()
    report = built(folder, site)
    assert report.gone == ["nordhavn-a1-work-lamp"]
    for path in site.rglob("*"):
        if path.is_file() and path.name not in (".guidec-shelf", "changes.html", "changes.json", "index.html"):
            assert b"nordhavn-a1" not in path.read_bytes(), path
    assert not list(site.parent.glob(".site*"))


def test_a_renamed_note_keeps_its_guide(folder: Path, site: Path) -> None:
    built(folder, site)
    (folder / "a.md").rename(folder / "z.md")
    built(folder, site)
    assert pages(site) == LAMPS


def test_a_picture_that_changes_makes_its_guide_anew(folder: Path, site: Path) -> None:
    from PIL import Image

    text = note("A1", extra="\n![The cell](pics/cell.png)\n")
    (folder / "a.md").write_text(text)
    report = built(folder, site)
    lamp = site / "guides" / "nordhavn-a1-work-lamp"
    assert not (lamp / "pictures").exists()
    (folder / "pics").mkdir()
    Image.new("RGB", (30, 20), "white").save(folder / "pics" / "cell.png")
    report = built(folder, site)
    assert report.made == ["nordhavn-a1-work-lamp"]
    first = {path.name for path in (lamp / "pictures").iterdir()}
    assert first
    Image.new("RGB", (31, 20), "black").save(folder / "pics" / "cell.png")
    built(folder, site)
    assert not first & {path.name for path in (lamp / "pictures").iterdir()}
    assert built(folder, site).made == []


def test_a_file_of_the_site_that_was_changed_by_hand_is_put_right(folder: Path, site: Path) -> None:
    built(folder, site)
    before = contents(site)
    (site / "guides" / "nordhavn-a1-work-lamp" / "index.html").write_text("scribble")
    (site / "compare" / "index.html").unlink()
    report = built(folder, site)
    assert report.made == ["nordhavn-a1-work-lamp"]
    after = contents(site)
    assert {name for name in before if before[name] != after.get(name)} <= {"changes.json", "data.html"}


def test_a_file_that_no_build_wrote_is_taken_along(folder: Path, site: Path) -> None:
    built(folder, site)
    (site / "CNAME").write_text("shelf.example")
    (site / "own").mkdir()
    (site / "own" / "x.txt").write_text("mine")
    (folder / "a.md").unlink()
    built(folder, site)
    assert (site / "CNAME").read_text() == "shelf.example"
    assert (site / "own" / "x.txt").read_text() == "mine"


def test_a_foreign_file_in_a_pages_place_stops_the_build_and_stays(folder: Path, site: Path) -> None:
    site.mkdir()
    (site / "index.html").write_text("mine")
    with pytest.raises(RefusedError) as refused:
        built(folder, site)
    assert refused.value.variant == "foreign"
    assert [path.name for path in site.iterdir()] == ["index.html"]
    assert (site / "index.html").read_text() == "mine"


def test_one_bad_note_stops_no_other_and_keeps_its_older_page(folder: Path, site: Path) -> None:
    built(folder, site)
    old = contents(site / "guides" / "nordhavn-a1-work-lamp")
    (folder / "a.md").write_text(note("A1", extra=BROKEN))
    (folder / "b.md").write_text(note("B2", extra="3. Lift out {part bracket}.\n"))
    report = built(folder, site)
    assert report.made == ["nordhavn-b2-work-lamp"]
    assert report.old == ["a.md"]
    assert list(codes(report)) == ["a.md"]
    assert contents(site / "guides" / "nordhavn-a1-work-lamp") == old
    again = built(folder, site)
    assert (again.made, again.wrote, again.old) == ([], 0, ["a.md"])
    assert codes(again) == codes(report)


def test_a_bad_note_without_an_older_page_is_left_out(folder: Path, site: Path) -> None:
    (folder / "a.md").write_text(note("A1", extra=BROKEN))
    report = built(folder, site)
    assert report.errors
    assert report.out == ["a.md"]
    assert built(folder, site).out == ["a.md"]
    assert pages(site) == LAMPS - {"nordhavn-a1-work-lamp"}


def test_the_command_says_how_many_notes_were_left_out(
    folder: Path, site: Path, capsys: pytest.CaptureFixture[str]
) -> None:
    (folder / "a.md").write_text(note("A1", extra=BROKEN))
    (folder / "b.md").write_text(DRAFT)
    call = ["shelf", str(folder), "-o", str(site), "--no-pdf", "--jobs", "1", "--leave-drafts"]
    assert main(call) == 1
    assert "1 guide (1 made, 0 unchanged, 2 notes left out)" in capsys.readouterr().out
    assert main([*call, "--format", "json"]) == 1
    told = json.loads(capsys.readouterr().out)
    assert (told["left_out"], told["drafts_left"]) == (["a.md"], ["b.md"])


@pytest.mark.parametrize(("policy", "stays"), [("keep-old", True), ("leave-out", False), ("publish", True)])
def test_what_becomes_of_a_bad_note_is_a_setting(folder: Path, site: Path, policy: str, stays: bool) -> None:
    built(folder, site)
    (folder / "shelf.yaml").write_text(f"title: Bench shelf\nerrors: {policy}\n")
    (folder / "a.md").write_text(note("A1", extra=BROKEN))
    report = built(folder, site)
    assert report.errors
    lamp = site / "guides" / "nordhavn-a1-work-lamp"
    assert lamp.exists() == stays
    if policy == "publish":
        assert 'class="unclean"' in (lamp / "index.html").read_text()


def test_bytes_that_are_no_note_are_an_error_of_that_note_alone(folder: Path, site: Path) -> None:
    (folder / "bad.md").write_bytes(b"\0\1\2 no text")
    (folder / "empty.md").write_bytes(b"")
    report = built(folder, site)
    assert set(codes(report)) == {"bad.md", "empty.md"}
    assert pages(site) == LAMPS


def test_numbers_past_all_sense_and_halves_of_characters_hold_up_no_build(folder: Path, site: Path) -> None:
    many = "9" * 23
    (folder / "a.md").write_text(
        note("A1").replace("4x PH0", f"{many}x PH0").replace("{part lid;", f"{{part lid; qty={many};")
    )
    (folder / "b.md").write_text(note("B2").replace("2600 mAh", f"{many} mAh"))
    (folder / "half.md").write_text(
        note("H5").replace("title: Nordhavn H5 work lamp", 'title: "half \\ud800 a lamp"')
    )
    first = built(folder, site)
    assert pages(site) >= LAMPS
    assert (site / "guides" / "nordhavn-a1-work-lamp" / "tray.svg").stat().st_size < 1_000_000
    again = built(folder, site)
    assert (again.made, again.wrote, again.stayed) == ([], 0, len(first.made))


def test_two_notes_of_one_title_are_told_apart_by_an_error(folder: Path, site: Path) -> None:
    (folder / "b2.md").write_text(note("A1"))
    report = built(folder, site, jobs=2)
    assert codes(report) == {"b2.md": ["B110"]}
    assert '"a.md"' in (site / "guides" / "nordhavn-a1-work-lamp" / "bom.json").read_text()
    (folder / "0.md").write_text(note("A1"))
    assert set(codes(built(folder, site))) == {"a.md", "b2.md"}
    (folder / "0.md").unlink()
    (folder / "a.md").unlink()
    report = built(folder, site)
    assert codes(report) == {}
    assert pages(site) == LAMPS
    assert built(folder, site).wrote == 0


DRAFT = note("A1").replace("{part lid;", "{? part lid;")


def test_a_draft_is_refused(folder: Path, site: Path) -> None:
    (folder / "a.md").write_text(DRAFT)
    report = built(folder, site)
    assert codes(report) == {"a.md": ["B111"]}
    assert pages(site) == LAMPS - {"nordhavn-a1-work-lamp"}


def test_a_draft_is_left_out_where_asked_and_said_so(folder: Path, site: Path) -> None:
    built(folder, site)
    (folder / "a.md").write_text(DRAFT)
    report = built(folder, site, leave_drafts=True)
    assert not report.errors
    assert report.drafts == ["a.md"]
    assert pages(site) == LAMPS - {"nordhavn-a1-work-lamp"}
    again = built(folder, site, leave_drafts=True)
    assert (again.wrote, again.drafts) == (0, ["a.md"])
    assert codes(built(folder, site)) == {"a.md": ["B111"]}


def test_other_settings_make_the_pages_anew(folder: Path, site: Path) -> None:
    built(folder, site)
    (folder / "shelf.yaml").write_text("title: Another name\n")
    report = built(folder, site)
    assert len(report.made) == 3
    assert "Another name" in (site / "guides" / "nordhavn-a1-work-lamp" / "index.html").read_text()


def test_faulty_settings_write_nothing(folder: Path, site: Path) -> None:
    (folder / "shelf.yaml").write_text("titel: Bench shelf\n")
    report = built(folder, site)
    assert report.stopped
    assert not site.exists()


def test_a_folder_without_notes_says_so(tmp_path: Path) -> None:
    report = built(shelf(tmp_path / "notes", {"README.md": "# no note"}), tmp_path / "site")
    assert codes(report) == {"notes": ["B113"]}


def test_a_state_that_cannot_be_read_is_as_good_as_none(folder: Path, site: Path) -> None:
    built(folder, site)
    before = contents(site)
    (site / "own.txt").write_text("mine")
    (site / ".guidec-shelf").write_text('{"format": "something else"}\n')
    (folder / "a.md").unlink()
    assert len(built(folder, site).made) == 2
    assert pages(site) == LAMPS - {"nordhavn-a1-work-lamp"}
    assert contents(site).keys() - before.keys() == {"own.txt"}


def test_own_pages_and_what_is_left_out(folder: Path, site: Path) -> None:
    (folder / "about.md").write_text("# About us\n\nHello <b>there</b>.\n")
    (folder / "shelf.yaml").write_text("title: Bench shelf\npages: [about.md]\nleave-out: [deep/*]\n")
    built(folder, site)
    text = (site / "about.html").read_text()
    assert "<h1>About us</h1>" in text
    assert "&lt;b&gt;" in text
    assert 'href="about.html"' in (site / "index.html").read_text()
    assert pages(site) == LAMPS - {"nordhavn-c3-work-lamp"}


def test_any_number_of_jobs_gives_the_same_bytes(folder: Path, tmp_path: Path) -> None:
    built(folder, tmp_path / "one", jobs=1)
    built(folder, tmp_path / "three", jobs=3)
    assert contents(tmp_path / "one") == contents(tmp_path / "three")


def test_the_order_in_which_files_were_written_changes_nothing(folder: Path, tmp_path: Path) -> None:
    built(folder, tmp_path / "one")
    for name in ("deep/c.md", "a.md"):
        os.utime(folder / name, (1, 1))
    built(folder, tmp_path / "two")
    assert contents(tmp_path / "one") == contents(tmp_path / "two")
