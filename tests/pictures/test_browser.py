"""Compiled pages with their pictures in a real Chromium: axe-core finds nothing, larger views open and close."""

from __future__ import annotations

from collections.abc import Iterator
from pathlib import Path

import pytest

from guidec import compile as compiler
from tests.outputs.browser import Browser, browser
from tests.outputs.conftest import NPM, SAMPLES

from .photos import encoded, scene

LARGEST = max(SAMPLES, key=lambda path: path.stat().st_size)


@pytest.fixture(scope="module")
def site(tmp_path_factory: pytest.TempPathFactory) -> Path:
    """The largest sample, compiled."""
    folder = tmp_path_factory.mktemp("site")
    options = compiler.Options(pdf=False, cache=folder / "cache")
    return compiler.write(compiler.build(compiler.load(LARGEST), options), folder / "out")


@pytest.fixture(scope="module")
def window(tmp_path_factory: pytest.TempPathFactory) -> Iterator[Browser]:
    with browser(tmp_path_factory.mktemp("profile")) as opened:
        yield opened


@pytest.mark.parametrize("dark", [False, True], ids=["light", "dark"])
@pytest.mark.parametrize("width", [390, 900, 1400])
@pytest.mark.parametrize("page", ["index.html", "tray.html"])
def test_axe_finds_no_violation(window: Browser, site: Path, page: str, width: int, dark: bool):
    window.window(width, dark=dark)
    window.open(site / page)
    if page == "index.html":
        assert window.run("return document.querySelectorAll('.pins').length") > 3
        assert window.run("return document.documentElement.scrollWidth") <= width
    source = (NPM / "axe-core" / "axe.min.js").read_text(encoding="utf-8")
    assert [(one["id"], one["nodes"][0]["html"][:200]) for one in window.axe(source)] == []
    assert window.console() == []


def test_a_picture_opens_larger_in_a_dialog_with_its_marks_and_closes_again(window: Browser, site: Path):
    window.window(1400)
    window.open(site / "index.html")
    window.run("document.querySelector('a.larger').click()")
    assert window.run("return document.querySelector('dialog').open")
    assert window.run("return document.querySelectorAll('dialog .pins text').length") > 0
    assert window.run("return document.activeElement.textContent") == "Close"
    window.run("document.querySelector('dialog button').click()")
    assert not window.run("return document.querySelector('dialog').open")
    assert window.console() == []


def test_without_scripts_the_link_leads_to_the_picture(window: Browser, site: Path):
    window.window(1400, scripts=False)
    window.open(site / "index.html")
    window.window(1400)
    target = window.run("return document.querySelector('a.larger').getAttribute('href')")
    assert (site / target).is_file()


def test_nothing_moves_when_the_pictures_arrive(window: Browser, site: Path):
    window.window(390)
    window.open(site / "index.html")
    height = "return document.documentElement.scrollHeight"
    before = window.run("document.querySelectorAll('img,source').forEach(i => i.remove()); " + height)
    window.open(site / "index.html")
    held = window.run(height)
    window.run("document.querySelectorAll('img').forEach(i => { i.loading = 'eager'; })")
    for _ in range(100):
        if window.run("return [...document.images].every(i => i.complete && i.naturalWidth)"):
            break
        window.driver.execute_async_script("setTimeout(arguments[0], 50)")
    assert window.run("return [...document.images].every(i => i.naturalWidth)")
    pictures = window.run("return document.images.length")
    assert before < held
    assert abs(window.run(height) - held) < pictures, "less than a pixel each, from rounding"


def test_labels_are_as_large_on_tall_photos_as_on_wide_ones(window: Browser, tmp_path: Path):
    """At full width a label is about 30 pixels high, whatever shape the photo has."""
    (tmp_path / "tall.jpg").write_bytes(encoded(scene(900, 1200), "JPEG"))
    (tmp_path / "wide.jpg").write_bytes(encoded(scene(1600, 600), "JPEG"))
    note = tmp_path / "lamp.md"
    note.write_text(
        "---\nlanguage: en\npower: none\n---\n\n# Lamp\n\n## Open\n\n1. Lift off {part lid}.\n\n"
        "![Tall](tall.jpg)\n{pin 50,50: lid}\n\n![Wide](wide.jpg)\n{pin 50,50: lid}\n",
        encoding="utf-8",
    )
    options = compiler.Options(pdf=False, cache=tmp_path / "cache")
    folder = compiler.write(compiler.build(compiler.load(note), options), tmp_path / "out")
    window.window(1400)
    window.open(folder / "index.html")
    high = window.run(
        "return [...document.querySelectorAll('rect.label')].map(r => r.getBoundingClientRect().height)"
    )
    tall, wide = high
    assert tall == pytest.approx(30, abs=6)
    assert wide == pytest.approx(tall, rel=0.25), "the column is a little narrower than the widest picture"
