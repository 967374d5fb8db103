"""Outputs arrive whole or not at all, and nothing that is not ours is touched."""

from __future__ import annotations

import multiprocessing
import os
import signal
import subprocess
import sys
import time
from pathlib import Path

import pytest

from guidec.edge import swap, write
from guidec.edge.write import MANIFEST, RefusedError, write_file, write_folder


def tree(folder: Path) -> dict[str, bytes]:
    """All files of a folder that a person would see."""
    return {
        at.relative_to(folder).as_posix(): at.read_bytes()
        for at in sorted(folder.rglob("*"))
        if at.is_file() and at.name != MANIFEST
    }


def test_a_folder_holds_just_what_was_given(tmp_path: Path):
    target = write_folder(tmp_path / "deep" / "out", "lamp", {"index.html": b"1", "pictures/a.webp": b"2"})
    assert target == tmp_path / "deep" / "out" / "lamp"
    assert tree(tmp_path / "deep") == {"out/lamp/index.html": b"1", "out/lamp/pictures/a.webp": b"2"}


def test_what_an_earlier_build_wrote_and_this_one_does_not_is_gone(tmp_path: Path):
    write_folder(tmp_path, "lamp", {"index.html": b"1", "route-cell.html": b"2", "pictures/old.webp": b"3"})
    write_folder(tmp_path, "lamp", {"index.html": b"new"})
    assert tree(tmp_path) == {"lamp/index.html": b"new"}
    assert not (tmp_path / "lamp" / "pictures").exists()


def test_files_of_others_in_the_folder_stay(tmp_path: Path):
    write_folder(tmp_path, "lamp", {"index.html": b"1"})
    (tmp_path / "lamp" / "notes").mkdir()
    (tmp_path / "lamp" / "notes" / "mine.txt").write_bytes(b"mine")
    (tmp_path / "lamp" / "link").symlink_to("/nowhere/at all")
    write_folder(tmp_path, "lamp", {"index.html": b"2"})
    assert tree(tmp_path) == {"lamp/index.html": b"2", "lamp/notes/mine.txt": b"mine"}
    assert (tmp_path / "lamp" / "link").readlink() == Path("/nowhere/at all")


@pytest.mark.parametrize(("foreign", "output"), [("index.html", "index.html"), ("pictures", "pictures/a.webp")])
def test_a_file_of_others_in_the_way_stops_everything(tmp_path: Path, foreign: str, output: str):
    (tmp_path / "lamp").mkdir()
    (tmp_path / "lamp" / foreign).write_bytes(b"mine")
    with pytest.raises(RefusedError) as refused:
        write_folder(tmp_path, "lamp", {"guide.json": b"1", output: b"2"})
    assert refused.value.variant == "foreign"
    assert refused.value.facts["path"] == str(tmp_path / "lamp" / foreign)
    assert tree(tmp_path) == {f"lamp/{foreign}": b"mine"}


def test_a_link_in_the_way_is_not_followed(tmp_path: Path):
    elsewhere = tmp_path / "elsewhere"
    elsewhere.mkdir()
    (tmp_path / "out").mkdir()
    (tmp_path / "out" / "lamp").symlink_to(elsewhere)
    with pytest.raises(RefusedError, match="link"):
        write_folder(tmp_path / "out", "lamp", {"index.html": b"1"})
    assert list(elsewhere.iterdir()) == []


def test_a_link_for_a_subfolder_is_not_followed(tmp_path: Path):
    elsewhere = tmp_path / "elsewhere"
    elsewhere.mkdir()
    (tmp_path / "lamp").mkdir()
    (tmp_path / "lamp" / "pictures").symlink_to(elsewhere)
    with pytest.raises(RefusedError, match="foreign"):
        write_folder(tmp_path, "lamp", {"pictures/a.webp": b"1"})
    assert list(elsewhere.iterdir()) == []


@pytest.mark.parametrize("where", ["out", "out/lamp"])
def test_a_file_where_a_folder_must_go_is_said_and_left(tmp_path: Path, where: str):
    at = tmp_path / where
    at.parent.mkdir(exist_ok=True)
    at.write_bytes(b"mine")
    with pytest.raises(RefusedError):
        write_folder(tmp_path / "out", "lamp", {"index.html": b"1"})
    assert at.read_bytes() == b"mine"


def test_a_write_that_fails_leaves_the_earlier_folder_whole(tmp_path: Path, monkeypatch: pytest.MonkeyPatch):
    write_folder(tmp_path, "lamp", {"index.html": b"1", "guide.json": b"1"})
    real = Path.write_bytes

    def full(self: Path, data: bytes) -> int:
        if self.name == "guide.json":
            raise OSError(28, "No space left on device")
        return real(self, data)

    monkeypatch.setattr(Path, "write_bytes", full)
    with pytest.raises(RefusedError) as refused:
        write_folder(tmp_path, "lamp", {"index.html": b"2", "guide.json": b"2"})
    assert refused.value.facts["reason"] == "no space left on device"
    assert tree(tmp_path) == {"lamp/index.html": b"1", "lamp/guide.json": b"1"}


def test_without_the_one_move_of_the_system_two_renames_do(tmp_path: Path, monkeypatch: pytest.MonkeyPatch):
    monkeypatch.setattr(swap, "_at_once", lambda new, old: False)
    write_folder(tmp_path, "lamp", {"index.html": b"1", "old.html": b"1"})
    write_folder(tmp_path, "lamp", {"index.html": b"2"})
    assert tree(tmp_path) == {"lamp/index.html": b"2"}
    assert [at.name for at in tmp_path.iterdir()] == ["lamp"]


@pytest.mark.skipif(sys.platform != "linux", reason="the call of this system's name is looked for")
def test_this_system_has_the_one_move(tmp_path: Path):
    for name in ("a", "b"):
        (tmp_path / name).mkdir()
        (tmp_path / name / name).touch()
    assert swap._at_once(os.fsencode(tmp_path / "a"), os.fsencode(tmp_path / "b"))
    assert [at.name for at in (tmp_path / "a").iterdir()] == ["b"]


KILLED = """
import os, signal, sys
from pathlib import Path
from guidec.edge import write
real = Path.write_bytes
def stop(self, data):
    if self.name == "z.html":
        os.kill(os.getpid(), signal.SIGKILL)
    return real(self, data)
Path.write_bytes = stop
write.write_folder(Path(sys.argv[1]), "lamp", {"index.html": b"2", "z.html": b"2"})
"""


def test_a_killed_run_leaves_the_old_folder_and_the_next_sweeps_up(tmp_path: Path):
    write_folder(tmp_path, "lamp", {"index.html": b"1"})
    killed = subprocess.run([sys.executable, "-c", KILLED, str(tmp_path)], check=False)
    assert killed.returncode == -signal.SIGKILL
    assert (tmp_path / "lamp" / "index.html").read_bytes() == b"1"
    write_folder(tmp_path, "torch", {"index.html": b"3"})
    assert tree(tmp_path) == {"lamp/index.html": b"1", "torch/index.html": b"3"}
    assert sorted(at.name for at in tmp_path.iterdir()) == ["lamp", "torch"]


def _slowly(out: Path, name: str) -> None:
    real = Path.write_bytes

    def slow(self: Path, data: bytes) -> int:
        time.sleep(0.02)
        return real(self, data)

    Path.write_bytes = slow  # type: ignore[method-assign]
    write_folder(out, "lamp", {f"{k}.html": name.encode() for k in range(10)})


def test_two_runs_at_once_take_turns(tmp_path: Path):
    context = multiprocessing.get_context("fork")
    runs = [context.Process(target=_slowly, args=(tmp_path, name)) for name in ("a", "b", "c")]
    for run in runs:
        run.start()
    for run in runs:
        run.join(30)
    assert [run.exitcode for run in runs] == [0, 0, 0]
    assert len(set(tree(tmp_path).values())) == 1, "one run's files, not a mixture"


def test_folders_and_files_get_the_rights_that_a_person_would_give(tmp_path: Path):
    old = os.umask(0o022)
    try:
        target = write_folder(tmp_path, "lamp", {"index.html": b"1"})
    finally:
        os.umask(old)
    assert target.stat().st_mode & 0o777 == 0o755
    assert (target / "index.html").stat().st_mode & 0o777 == 0o644


def test_one_file_is_replaced_whole_or_left(tmp_path: Path, monkeypatch: pytest.MonkeyPatch):
    at = tmp_path / "note.md"
    write_file(at, b"1")
    write_file(at, b"2")
    assert tree(tmp_path) == {"note.md": b"2"}

    def broken(self: Path, target: Path) -> Path:
        raise OSError(5, "Input/output error")

    monkeypatch.setattr(Path, "replace", broken)
    with pytest.raises(RefusedError):
        write_file(at, b"3")
    assert tree(tmp_path) == {"note.md": b"2"}


def test_the_manifest_names_what_was_written(tmp_path: Path):
    target = write_folder(tmp_path, "lamp", {"b.csv": b"", "a/c.csv": b""})
    assert (target / write.MANIFEST).read_text() == "a/c.csv\nb.csv\n"
