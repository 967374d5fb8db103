"""Builds that are killed, and builds that meet: the site on the disk is a whole one at any time."""

from __future__ import annotations

import os
import signal
import subprocess
import sys
import threading
import time
from pathlib import Path

import pytest

from guidec.shelf import run
from guidec.shelf.store import Store
from guidec.shelf.unit import Job, Made, make

from .shelves import built, codes, contents, note, shelf

BUILD = """
import sys
from guidec.cli import main
sys.exit(main(["shelf", sys.argv[1], "-o", sys.argv[2], "--no-pdf", "--jobs", sys.argv[3]]))
"""


def command(folder: Path, site: Path, jobs: int = 2) -> list[str]:
    return [sys.executable, "-c", BUILD, str(folder), str(site), str(jobs)]


@pytest.fixture
def folder(tmp_path: Path) -> Path:
    return shelf(tmp_path / "notes", {f"n{at}.md": note(f"A{at}") for at in range(14)})


@pytest.mark.parametrize("done", [0, 4, 10])
def test_a_killed_build_leaves_the_old_site_whole_and_the_next_run_finishes(
    folder: Path, tmp_path: Path, done: int
) -> None:
    """`done`: how many of the fourteen guides are made anew when it is killed, so that no clock decides."""
    site, work = tmp_path / "site", tmp_path / ".site.guidec-work"
    built(folder, site)
    for at in range(14):
        (folder / f"n{at}.md").write_text(note(f"A{at}", extra="3. Lift out {part bracket}.\n"))
    before = contents(site, state=True)
    process = subprocess.Popen(command(folder, site), stdout=subprocess.DEVNULL, start_new_session=True)
    for _ in range(6000):
        guides = work / "guides"
        if process.poll() is not None or (guides.exists() and len(list(guides.iterdir())) >= done):
            break
        time.sleep(0.005)
    process.send_signal(signal.SIGKILL)
    process.wait()
    assert contents(site, state=True) == before, "killed before its end, so nothing may have changed"
    assert work.exists(), "it was killed while it was at work"
    report = built(folder, site)
    assert len(report.made) == 14
    built(folder, tmp_path / "fresh")
    again, fresh = contents(site), contents(tmp_path / "fresh")
    told = {"index.html", "changes.html", "changes.json", "data.html"}
    assert {name for name in again | fresh if again.get(name) != fresh.get(name)} <= told
    assert not list(tmp_path.glob(".site*"))


def test_the_new_site_takes_the_old_ones_place_in_one_move(folder: Path, tmp_path: Path) -> None:
    """Whoever has the old folder open goes on reading the old site, whole, to its end."""
    site = tmp_path / "site"
    built(folder, site)
    before = contents(site, state=True)
    opened = os.open(site, os.O_RDONLY)
    try:
        (folder / "n3.md").unlink()
        seen: list[dict[str, str]] = []

        def finish(store: Store, *rest: object) -> None:
            seen.append(contents(site, state=True))
            real(store, *rest)

        real = Store.finish
        with pytest.MonkeyPatch.context() as patch:
            patch.setattr(Store, "finish", finish)
            built(folder, site)
        assert seen == [before], "until the very end the old site stands untouched"
        assert site.stat().st_ino != os.fstat(opened).st_ino
    finally:
        os.close(opened)


def test_a_second_build_waits_for_the_first_and_says_so(folder: Path, tmp_path: Path) -> None:
    site = tmp_path / "site"
    entered, leave, said = threading.Event(), threading.Event(), threading.Event()

    def hold() -> None:
        with Store(site).turn(lambda: None):
            entered.set()
            leave.wait(20)

    first = threading.Thread(target=hold)
    first.start()
    entered.wait(5)
    second = threading.Thread(target=lambda: built(folder, site, waiting=said.set))
    second.start()
    assert said.wait(10)
    assert not site.exists()
    leave.set()
    first.join()
    second.join()
    assert (site / "index.html").exists()
    assert not list(tmp_path.glob(".site*"))


def test_two_builds_at_once_end_in_one_whole_site(folder: Path, tmp_path: Path) -> None:
    site = tmp_path / "site"
    both = [subprocess.Popen(command(folder, site, 1), stdout=subprocess.PIPE, text=True) for _ in range(2)]
    said = sorted(process.communicate()[0].splitlines()[-1] for process in both)
    assert [process.returncode for process in both] == [0, 0]
    assert "14 made" in said[0]
    assert "nothing to do" in said[1]


def _dies(job: Job) -> Made:
    if job.note == "n7.md":
        os._exit(9)
    return make(job)


def test_a_worker_that_dies_costs_its_note_alone(
    folder: Path, tmp_path: Path, monkeypatch: pytest.MonkeyPatch
) -> None:
    monkeypatch.setattr(run, "make", _dies)
    report = built(folder, tmp_path / "site", jobs=2)
    assert codes(report) == {"n7.md": ["B112"]}
    assert len(report.made) == 13


def _raises(job: Job) -> Made:
    if job.note == "n7.md":
        raise ZeroDivisionError("a fault")
    return make(job)


@pytest.mark.parametrize("jobs", [1, 2])
def test_a_fault_of_the_program_costs_its_note_alone(
    folder: Path, tmp_path: Path, monkeypatch: pytest.MonkeyPatch, jobs: int
) -> None:
    monkeypatch.setattr(run, "make", _raises)
    report = built(folder, tmp_path / "site", jobs=jobs)
    assert codes(report) == {"n7.md": ["B112"]}
    assert "ZeroDivisionError: a fault" in report.diagnostics["n7.md"][0]["message"]
