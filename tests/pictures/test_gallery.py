"""Many photos: worked on once, kept, shared, in processes of their own that a hostile photo cannot bring down."""

from __future__ import annotations

import subprocess
import sys
import threading
from pathlib import Path

import pytest

from guidec.pictures import crew
from guidec.pictures import gallery as module
from guidec.pictures.cache import Cache, standard_folder
from guidec.pictures.gallery import gallery

from .photos import encoded, scene

A, B = encoded(scene(900, 600, 1), "JPEG"), encoded(scene(900, 600, 2), "JPEG")
FILES = {"a.jpg": A, "again.jpg": A, "b.jpg": B, "cut.jpg": A[:5000]}


def test_a_photo_is_worked_on_once_however_often_and_wherever_it_is_shown(tmp_path: Path):
    shown = [("a.jpg", None), ("again.jpg", None), ("a.jpg", None), ("a.jpg", (0.0, 0.0, 50.0, 50.0))]
    found = gallery(shown, FILES.__getitem__, folder=tmp_path)
    assert found.worked == 2, "the whole, and the part"
    assert found.derived["a.jpg", None] is found.derived["again.jpg", None]


def test_an_unchanged_rebuild_starts_no_worker(tmp_path: Path, monkeypatch: pytest.MonkeyPatch):
    first = gallery([("a.jpg", None), ("b.jpg", None)], FILES.__getitem__, folder=tmp_path)
    monkeypatch.setattr(crew.subprocess, "Popen", lambda *_, **__: pytest.fail("a worker was started"))
    again = gallery([("a.jpg", None), ("b.jpg", None)], FILES.__getitem__, folder=tmp_path)
    assert (first.worked, again.worked) == (2, 0)
    assert first.derived == again.derived


def test_one_worker_and_two_make_the_same(tmp_path: Path):
    photos = [("a.jpg", None), ("b.jpg", None)]
    one = gallery(photos, FILES.__getitem__, folder=tmp_path / "1", workers=1)
    two = gallery(photos, FILES.__getitem__, folder=tmp_path / "2", workers=2)
    assert one.derived == two.derived


def test_a_damaged_entry_counts_as_missing(tmp_path: Path):
    gallery([("a.jpg", None)], FILES.__getitem__, folder=tmp_path)
    (entry,) = [path for path in tmp_path.rglob("*") if path.is_file()]
    entry.write_bytes(entry.read_bytes()[:-1])
    assert gallery([("a.jpg", None)], FILES.__getitem__, folder=tmp_path).worked == 1


def test_builds_that_share_a_cache_do_not_get_in_each_others_way(tmp_path: Path):
    results = []

    def build() -> None:
        results.append(gallery([("a.jpg", None)], FILES.__getitem__, folder=tmp_path, workers=1).derived)

    builds = [threading.Thread(target=build) for _ in range(4)]
    for one in builds:
        one.start()
    for one in builds:
        one.join()
    assert len(results) == 4
    assert all(one == results[0] for one in results)
    assert len([path for path in tmp_path.rglob("*") if path.is_file()]) == 1, "nothing half written is left"


def test_a_cache_that_cannot_be_written_does_no_harm(tmp_path: Path):
    (tmp_path / "file").write_text("in the way")
    found = gallery([("a.jpg", None)], FILES.__getitem__, folder=tmp_path / "file")
    assert found.worked == 1


def test_the_cache_throws_out_what_was_used_longest_ago(tmp_path: Path):
    import os

    found = gallery([("a.jpg", None), ("b.jpg", None)], FILES.__getitem__, folder=tmp_path)
    assert found.worked == 2
    entries = sorted(path for path in tmp_path.rglob("*") if path.is_file())
    os.utime(entries[0], (1, 1))
    Cache(tmp_path).prune(most=entries[1].stat().st_size + 1)
    assert [path.exists() for path in entries] == [False, True]


def test_the_standard_place_follows_the_xdg_base_directories(monkeypatch: pytest.MonkeyPatch, tmp_path: Path):
    monkeypatch.setenv("XDG_CACHE_HOME", str(tmp_path))
    assert standard_folder() == tmp_path / "guidec"
    monkeypatch.setenv("XDG_CACHE_HOME", "relative")
    assert "relative" not in str(standard_folder()), "the specification says to ignore relative paths"


def test_a_broken_photo_is_one_trouble_and_the_rest_is_made(tmp_path: Path):
    found = gallery([("cut.jpg", None), ("a.jpg", None)], FILES.__getitem__, folder=tmp_path)
    assert "damaged" in found.troubles["cut.jpg"]
    assert ("a.jpg", None) in found.derived


def test_a_photo_that_changes_between_looks_is_refused(tmp_path: Path):
    versions = iter((A, B, B))
    found = gallery([("a.jpg", None)], lambda _: next(versions), folder=tmp_path)
    assert found.troubles == {"a.jpg": "the file changes while it is read"}


def test_a_photo_that_ends_its_worker_costs_that_photo_alone(tmp_path: Path, monkeypatch: pytest.MonkeyPatch):
    dies = (
        "import sys; sys.path.insert(0, sys.argv[1]); import guidec.pictures.worker as w, os, json\n"
        "real = w.derive\nw.derive = lambda d, b: os._exit(9) if len(d) < 9000 else real(d, b)\nw.main()"
    )
    monkeypatch.setattr(crew, "_START", dies)
    found = gallery([("cut.jpg", None), ("a.jpg", None)], FILES.__getitem__, folder=tmp_path, workers=1)
    assert "ended the process" in found.troubles["cut.jpg"]
    assert ("a.jpg", None) in found.derived


def test_a_photo_that_takes_for_ever_is_given_up(tmp_path: Path, monkeypatch: pytest.MonkeyPatch):
    sleeps = "import time; time.sleep(60)"
    monkeypatch.setattr(crew, "_START", sleeps)
    monkeypatch.setattr(crew, "LONGEST", 0.5)
    found = gallery([("a.jpg", None)], FILES.__getitem__, folder=tmp_path)
    assert "took longer" in found.troubles["a.jpg"]


def test_progress_is_told_up_to_the_last(tmp_path: Path):
    said: list[str] = []
    gallery([("a.jpg", None), ("b.jpg", None)], FILES.__getitem__, folder=tmp_path, said=said.append)
    assert said[-1] == module.bar(2, 2)
    assert said[-1].endswith("2 of 2")


LARGE = r"""
import re, sys
from guidec.pictures.derive import derive
made = derive(open(sys.argv[1], "rb").read())
most = re.search(r"VmHWM:\s+(\d+)", open("/proc/self/status").read())
print(int(most[1]) // 1024, made.width, made.height)
"""


@pytest.mark.skipif(sys.platform != "linux", reason="the size of a process is counted otherwise elsewhere")
@pytest.mark.parametrize(
    ("size", "format_"), [((8000, 6000), "JPEG"), ((8000, 6000), "PNG"), ((40_000, 5_000), "JPEG")]
)
def test_a_photo_of_48_megapixels_and_a_panorama_of_200_stay_within_600_megabytes(
    tmp_path: Path, size: tuple[int, int], format_: str
):
    from PIL import Image

    path = tmp_path / "large"
    scene(800, 600).resize(size, Image.Resampling.NEAREST).save(path, format_, quality=85)
    run = subprocess.run([sys.executable, "-c", LARGE, str(path)], capture_output=True, text=True, check=True)
    megabytes, width, height = map(int, run.stdout.split())
    assert (width, height) == size
    assert megabytes < 600
