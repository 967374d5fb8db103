"""`--on`: guides made by the workers of a Dask scheduler, one of which is killed; and sites at addresses."""

from __future__ import annotations

import os
import signal
import subprocess
import sys
import time
from collections.abc import Iterator
from pathlib import Path

import pytest

from guidec.cli import main
from guidec.shelf.build import Options, build
from guidec.shelf.far import Far
from guidec.shelf.inputs import opened
from guidec.shelf.run import OtherProgramError, remote

from .shelves import built, contents, note, shelf

distributed = pytest.importorskip("distributed")

WORKER = "from distributed.cli.dask_worker import main; main()"
SCHEDULER = "from distributed.cli.dask_scheduler import main; main()"
SIZE = 16


@pytest.fixture
def cluster(tmp_path: Path) -> Iterator[tuple[str, list[subprocess.Popen[bytes]]]]:
    """A scheduler and two workers, each a process of its own, on the loopback interface."""
    found = tmp_path / "scheduler.json"
    quiet = {"stdout": subprocess.DEVNULL, "stderr": subprocess.DEVNULL, "cwd": tmp_path}
    local = ["--scheduler-file", str(found), "--no-dashboard"]
    command = [sys.executable, "-c", SCHEDULER, "--host", "127.0.0.1", "--port", "0", *local]
    processes = [subprocess.Popen(command, **quiet)]  # type: ignore[call-overload]
    try:
        _until(found.exists)
        flags = ["--nthreads", "1", "--no-nanny", "--host", "127.0.0.1", *local]
        for _ in range(2):
            processes.append(subprocess.Popen([sys.executable, "-c", WORKER, *flags], **quiet))  # type: ignore[call-overload]
        import json

        address = json.loads(found.read_text())["address"]
        with distributed.Client(address, set_as_default=False) as client:
            client.wait_for_workers(2, timeout=30)
        yield address, processes
    finally:
        for process in processes[::-1]:
            process.kill()
            process.wait()


def _until(ready: object, seconds: float = 30) -> None:
    assert callable(ready)
    for _ in range(int(seconds * 20)):
        if ready():
            return
        time.sleep(0.05)
    raise TimeoutError


@pytest.fixture
def folder(tmp_path: Path) -> Path:
    return shelf(tmp_path / "notes", {f"n{at}.md": note(f"A{at}") for at in range(SIZE)})


def test_a_worker_killed_in_mid_build_changes_no_byte(
    cluster: tuple[str, list[subprocess.Popen[bytes]]], folder: Path, tmp_path: Path
) -> None:
    address, processes = cluster
    built(folder, tmp_path / "here")
    killed = []

    def said(done: int, all_: int, name: str) -> None:
        if done == 3:
            os.kill(processes[1].pid, signal.SIGKILL)
            killed.append(all_ - done)

    from guidec.shelf.store import Store

    options = Options(lambda units: remote(address), pdf=False, said=said)
    report = build(opened(str(folder)), Store(tmp_path / "there"), options)
    assert killed == [SIZE - 3], "the worker was killed while there was work left"
    assert processes[1].wait() == -signal.SIGKILL
    assert not report.errors
    assert len(report.made) == SIZE
    assert contents(tmp_path / "there") == contents(tmp_path / "here")


def test_notes_and_site_may_lie_at_addresses(
    cluster: tuple[str, list[subprocess.Popen[bytes]]], folder: Path, tmp_path: Path
) -> None:
    from PIL import Image

    address, _ = cluster
    (folder / "deep").mkdir()
    (folder / "deep" / "p.md").write_text(note("P1", extra="\n![The cell](cell.png)\n![gone](../../x.png)\n"))
    Image.new("RGB", (30, 20), "white").save(folder / "deep" / "cell.png")
    built(folder, tmp_path / "here")
    site = f"file://{tmp_path}/there"
    call = ["shelf", f"file://{folder}", "-o", site, "--no-pdf", "--on", address]
    status = main(call)
    assert contents(tmp_path / "there") == contents(tmp_path / "here")
    (folder / "n3.md").unlink()
    assert main(call) == status
    assert not [name for name in contents(tmp_path / "there") if "nordhavn-a3" in name]
    assert main(call) == status


def test_a_site_in_memory(folder: Path) -> None:
    """Any file system that fsspec knows: here one that has no folders, no times and no links."""
    from guidec.shelf.run import local

    options = Options(lambda units: local(1, units), pdf=False)
    for _ in range(2):
        report = build(opened(str(folder)), Far("memory://bench/site"), options)
    assert (report.made, report.wrote) == ([], 0)
    import fsspec

    files = fsspec.filesystem("memory")
    assert b"Nordhavn A3" in files.cat_file("/bench/site/index.html")
    (folder / "n3.md").unlink()
    build(opened(str(folder)), Far("memory://bench/site"), options)
    assert not [name for name in files.find("/bench/site") if "nordhavn-a3" in name]


def test_workers_of_another_version_are_refused(
    cluster: tuple[str, list[subprocess.Popen[bytes]]], monkeypatch: pytest.MonkeyPatch
) -> None:
    from guidec.shelf import run

    address, _ = cluster
    monkeypatch.setattr(run, "OURS", lambda: "another")
    with pytest.raises(OtherProgramError, match="another version"), remote(address):
        pass


def test_a_scheduler_that_is_not_there_is_a_wrong_call(
    folder: Path, tmp_path: Path, capsys: pytest.CaptureFixture[str]
) -> None:
    call = ["shelf", str(folder), "-o", str(tmp_path / "site"), "--on", "tcp://127.0.0.1:9"]
    assert main(call) == 2
    assert "cannot build on `tcp://127.0.0.1:9`: no scheduler answers there" in capsys.readouterr().err
    assert not (tmp_path / "site").exists()


def test_an_address_without_a_scheduler_is_a_wrong_call(
    tmp_path: Path, capsys: pytest.CaptureFixture[str]
) -> None:
    assert main(["shelf", str(tmp_path), "-o", "s3://bucket/site"]) == 2
    assert "`--on`" in capsys.readouterr().err
