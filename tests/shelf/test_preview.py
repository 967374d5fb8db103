"""The preview: what a browser sees while a note is written, and how soon; and that nobody else sees it."""

from __future__ import annotations

import http.client
import socket
import time
from collections.abc import Callable, Iterator
from pathlib import Path

import pytest
from selenium.webdriver.common.by import By

from guidec.cli import main
from guidec.commands.preview import Reports
from guidec.preview.run import preview
from guidec.preview.server import Server
from guidec.preview.site import Made, Notes

from ..outputs.browser import Browser, browser
from .shelves import BROKEN, note


@pytest.fixture(scope="module")
def window(tmp_path_factory: pytest.TempPathFactory) -> Iterator[Browser]:
    with browser(tmp_path_factory.mktemp("profile")) as opened:
        opened.window(900)
        yield opened


@pytest.fixture
def lamp(tmp_path: Path) -> Path:
    path = tmp_path / "lamp.md"
    path.write_text(note("A1"))
    return path


@pytest.fixture
def said() -> list[tuple[str, Made]]:
    return []


@pytest.fixture
def server(lamp: Path, said: list[tuple[str, Made]]) -> Iterator[Server]:
    with preview(lamp, 0, lambda name, made: said.append((name, made))) as running:
        yield running


def get(server: Server, path: str, host: str | None = None) -> tuple[int, str, str]:
    connection = http.client.HTTPConnection("127.0.0.1", server.server_address[1], timeout=20)
    connection.request("GET", path, headers={"Host": host} if host else {})
    answer = connection.getresponse()
    return answer.status, answer.headers.get("Content-Type", ""), answer.read().decode("utf-8", "replace")


def until(ready: Callable[[], object], seconds: float = 10) -> float:
    start = time.perf_counter()
    while not ready():
        assert time.perf_counter() - start < seconds, "it never came"
        time.sleep(0.01)
    return time.perf_counter() - start


def test_it_listens_on_the_loopback_interface_alone(server: Server) -> None:
    assert server.server_address[0] == "127.0.0.1"
    others = {info[4][0] for info in socket.getaddrinfo(socket.gethostname(), None, socket.AF_INET)}
    for address in others - {"127.0.0.1"}:
        with pytest.raises(OSError):
            socket.create_connection((str(address), server.server_address[1]), timeout=2)


@pytest.mark.parametrize("host", ["evil.example", "evil.example:80", "127.0.0.1.evil.example", ""])
def test_it_answers_to_its_own_name_alone(server: Server, host: str) -> None:
    assert get(server, "/lamp.md/", host or "x")[0] == 403


@pytest.mark.parametrize(
    "path",
    [
        "/etc/passwd",
        "/../../etc/passwd",
        "/lamp.md/../../etc/passwd",
        "/-/../page.py",
        "/lamp.md/%2e%2e/lamp.md",
        "/x.md/",
    ],
)
def test_it_gives_out_nothing_but_guides(server: Server, path: str) -> None:
    assert get(server, path)[0] == 404


def test_the_page_shows_the_guide_and_what_is_wrong_with_it(
    server: Server, lamp: Path, said: list[tuple[str, Made]]
) -> None:
    assert get(server, "/")[0] == 302
    status, kind, text = get(server, "/lamp.md/")
    assert (status, kind) == (200, "text/html; charset=utf-8")
    assert "Nordhavn A1" in text
    lamp.write_text(note("A1", extra=BROKEN))
    until(lambda: len(said) > 1)
    text = get(server, "/lamp.md/")[2]
    assert "<details open>" in text
    assert '<pre class="error">' in text
    assert "taken out" in text
    assert get(server, "/lamp.md/guide.json")[0] == 200
    assert get(server, "/lamp.md/route-cell-pack.html")[0] == 200


BROKEN_STATES = [
    b"",
    b"\0\1\2\3",
    b"---\ntitle: [\n",
    b"---\n" * 50,
    b"# " + b"{part " * 3000,
    b"## {screw A: 4x\n\n1. Undo {",
    b"\xff\xfe\xfa caf\xe9",
    b"> " * 2000,
    b"---\ntitle: x\n---\n\n## A {after A}\n\n1. Lift off {part a; under=a}.\n",
]


def test_it_survives_a_note_in_any_broken_state(server: Server, lamp: Path, said: list[tuple[str, Made]]) -> None:
    get(server, "/lamp.md/")
    for state in BROKEN_STATES:
        before = len(said)
        lamp.write_bytes(state)
        until(lambda before=before: len(said) > before)
        status, _, text = get(server, "/lamp.md/")
        assert status == 200
        assert 'class="pv"' in text
    before = len(said)
    lamp.unlink()
    until(lambda: len(said) > before)
    assert "N001" in get(server, "/lamp.md/")[2]
    lamp.write_text(note("A1"))
    until(lambda: said[-1][1].files)
    assert "Nordhavn A1" in get(server, "/lamp.md/")[2]
    assert not said[-1][1].fault


def test_a_fault_of_the_program_is_shown_and_the_server_goes_on(
    server: Server, lamp: Path, said: list[tuple[str, Made]], monkeypatch: pytest.MonkeyPatch
) -> None:
    from guidec import compile as compiler

    def fails(*_: object) -> None:
        raise ZeroDivisionError("a fault")

    monkeypatch.setattr(compiler, "build", fails)
    status, _, text = get(server, "/lamp.md/")
    assert status == 200
    assert "ZeroDivisionError: a fault" in text
    monkeypatch.undo()
    lamp.write_text(note("A1", extra="\nMore.\n"))
    until(lambda: said[-1][1].files)
    assert "Nordhavn A1" in get(server, "/lamp.md/")[2]


def test_a_save_is_on_the_page_well_within_a_second_and_the_page_stays_where_it_was(
    server: Server, lamp: Path, window: Browser
) -> None:
    """Five saves; each is timed from the write to the reloaded page in the browser."""
    window.driver.get(server.address)
    until(lambda: window.run("return document.documentElement.dataset.preview ?? ''"))
    place = "return Math.round(document.getElementById('op-take-out-the-cell').getBoundingClientRect().top)"
    window.run("document.getElementById('op-take-out-the-cell').scrollIntoView(); scrollBy(0, -100)")
    at = window.run(place)
    times = []
    for turn in range(5):
        word = f"addition number {turn}"
        time.sleep(0.3)
        changed = note("A1").replace(
            "A work lamp with one cell.", f"A work lamp.\n\nAn {word}." + "\n\nMore." * turn
        )
        start = time.perf_counter()
        lamp.write_text(changed)
        until(lambda word=word: word in str(window.run("return document.body?.innerText ?? ''")))
        times.append(time.perf_counter() - start)
        until(lambda: window.run("return document.documentElement.dataset.preview ?? ''"))
        assert abs(window.run(place) - at) <= 2
    assert sorted(times)[2] < 0.8, times


def test_a_folders_notes_are_listed_and_new_ones_appear(tmp_path: Path, lamp: Path, window: Browser) -> None:
    (tmp_path / "deep").mkdir()
    (tmp_path / "deep" / "b ü.md").write_text(note("B2"), encoding="utf-8")
    with preview(tmp_path, 0, lambda name, made: None) as server:
        window.driver.get(server.address)
        names = [one.text for one in window.driver.find_elements(By.CSS_SELECTOR, "li a")]
        assert names == ["deep/b ü.md", "lamp.md"]
        window.driver.find_elements(By.CSS_SELECTOR, "li a")[0].click()
        until(lambda: "Nordhavn B2" in window.driver.title)
        window.driver.get(server.address)
        (tmp_path / "new.md").write_text(note("C3"))
        until(lambda: "new.md" in window.run("return document.body.innerText"))


def test_a_picture_that_is_saved_is_shown(lamp: Path, said: list[tuple[str, Made]]) -> None:
    from PIL import Image

    lamp.write_text(note("A1", extra="\n![The cell](pics/cell.png)\n"))
    with preview(lamp, 0, lambda name, made: said.append((name, made))) as server:
        assert "N005" in get(server, "/lamp.md/")[2]
        (lamp.parent / "pics").mkdir()
        Image.new("RGB", (30, 20), "white").save(lamp.parent / "pics" / "cell.png")
        until(lambda: not any(one.code == "N005" for one in said[-1][1].diagnostics))
        assert any(name.startswith("pictures/") for name in said[-1][1].files)


def test_nothing_is_written_beside_the_note(server: Server, lamp: Path) -> None:
    get(server, "/lamp.md/")
    assert [path.name for path in lamp.parent.iterdir()] == ["lamp.md"]


def test_wrong_calls_are_said(lamp: Path, server: Server, capsys: pytest.CaptureFixture[str]) -> None:
    assert main(["preview", "no-such.md"]) == 2
    assert "no note or folder `no-such.md`" in capsys.readouterr().err
    assert main(["preview", str(lamp), "--port", str(server.server_address[1])]) == 2
    assert "cannot serve on port" in capsys.readouterr().err


def test_a_folders_list_speaks_the_language_of_its_shelf(tmp_path: Path) -> None:
    def listed() -> str:
        with preview(tmp_path, 0, lambda name, made: None) as running:
            return get(running, "/")[2]

    assert '<html lang="en">' in listed()
    assert "There are no notes here yet." in listed()
    (tmp_path / "shelf.yaml").write_text("title: Regal\nlanguages: [de, en]\n")
    assert '<html lang="de">' in listed()
    assert "Hier liegen noch keine Notizen." in listed()
    (tmp_path / "lamp.md").write_text(note("A1"))
    assert "<h1>Notizen</h1>" in listed()
    assert "lamp.md" in listed()


def test_only_the_note_and_its_pictures_make_it_anew(lamp: Path) -> None:
    lamp.write_text(note("A1") + "\n![Lid](pics/lid.jpg)\n")
    made: list[str] = []
    notes = Notes(lamp.parent, lamp.name, lambda name, _: made.append(name))
    notes.get("lamp.md")
    notes.changed({lamp.parent / "list.csv", lamp.parent / "pics" / "other.jpg", lamp.parent / "b.md"})
    assert made == ["lamp.md"]
    notes.changed({lamp.parent.resolve() / "pics" / "lid.jpg"})
    notes.changed({lamp.parent.resolve() / "lamp.md"})
    assert made == ["lamp.md"] * 3


def test_a_report_that_is_as_the_last_one_is_not_printed_again(capsys: pytest.CaptureFixture[str]) -> None:
    reports = Reports()
    for made in (Made(1), Made(2), Made(3, fault="x"), Made(4)):
        reports.said("lamp.md", made)
    assert capsys.readouterr().out.count("lamp.md") == 3
