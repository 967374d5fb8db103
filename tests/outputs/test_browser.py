"""The page in a real Chromium, from a file: at three widths, light and dark, with scripts and without.

Accessibility: axe-core (npm), WCAG 2.2 A and AA and best practices."""

from __future__ import annotations

import subprocess
from collections.abc import Iterator
from pathlib import Path

import pytest
from selenium.webdriver.common.by import By
from selenium.webdriver.common.keys import Keys

from guidec.compile import Options, build
from guidec.edge.load import load
from guidec.outputs import html

from .browser import Browser, browser
from .conftest import NOTES, NPM, SAMPLES, guide_at, pictures_of

WIDTHS = (390, 900, 1400)
WHOLE = ("head-torch", "pocket-phone")
"""The notes of which the whole guide is opened too, with all its sections, and a guide to one part."""
PAGES = (NOTES / "every.md", NOTES / "klein.md", NOTES / "odd.md", *SAMPLES)


@pytest.fixture(scope="module")
def window(tmp_path_factory: pytest.TempPathFactory) -> Iterator[Browser]:
    with browser(tmp_path_factory.mktemp("profile")) as opened:
        yield opened


@pytest.fixture(scope="module")
def site(tmp_path_factory: pytest.TempPathFactory) -> dict[str, Path]:
    """The pages of all notes, each in a folder with its pictures."""
    made = {}
    for path in PAGES:
        folder = tmp_path_factory.mktemp(path.stem)
        made[path.stem] = folder / "index.html"
        made[path.stem].write_bytes(html.page(guide_at(path), clean=path.stem != "klein"))
        for name, content in pictures_of(path).items():
            (folder / name).parent.mkdir(exist_ok=True)
            (folder / name).write_bytes(content)
    for path in PAGES:
        if path.stem in WHOLE:
            _compiled(path, made)
    return made


def _compiled(path: Path, made: dict[str, Path]) -> None:
    """All pages of a note as a compile writes them."""
    built = build(load(path), Options(pdf=False))
    folder = made[path.stem].parent / "whole"
    for name, content in built.files.items():
        (folder / name).parent.mkdir(parents=True, exist_ok=True)
        (folder / name).write_bytes(content)
    made[f"{path.stem} whole"] = folder / "index.html"
    made[f"{path.stem} route"] = max(folder.glob("route-*.html"), key=lambda page: page.stat().st_size)


@pytest.fixture(scope="module")
def axe() -> str:
    return (NPM / "axe-core" / "axe.min.js").read_text(encoding="utf-8")


@pytest.mark.parametrize("dark", [False, True], ids=["light", "dark"])
@pytest.mark.parametrize("width", WIDTHS)
@pytest.mark.parametrize(
    "name", [*(path.stem for path in PAGES), *(f"{stem} {page}" for stem in WHOLE for page in ("whole", "route"))]
)
def test_axe_finds_no_violation_and_nothing_overflows(
    window: Browser, site: dict[str, Path], axe: str, name: str, width: int, dark: bool
) -> None:
    window.window(width, dark=dark)
    window.open(site[name])
    wide = window.run("return document.documentElement.scrollWidth")
    assert wide <= width
    found = window.axe(axe)
    assert [(one["id"], one["nodes"][0]["html"][:200]) for one in found] == []


@pytest.mark.parametrize("name", [path.stem for path in PAGES])
def test_the_page_asks_for_nothing_but_its_pictures_and_the_console_stays_quiet(
    window: Browser, site: dict[str, Path], name: str
) -> None:
    window.window(1400)
    window.open(site[name])
    expected = {(site[name].parent / path).as_uri() for path in pictures_of(_note(name))}
    if expected:
        missing = """
          const all = [...document.images], late = all.find(i => !i.complete || !i.naturalWidth);
          if (late) late.scrollIntoView();
          return late ? late.src : all.length ? "" : "no picture";
        """
        for _ in range(100):
            if window.run(missing) == "":
                break
            window.driver.execute_async_script("setTimeout(arguments[0], 50)")
        assert window.run(missing) == ""
    asked = set(window.requests()) - {site[name].as_uri()}
    assert all(address.startswith("file:") for address in asked)
    if expected:
        assert asked <= expected
        assert window.console() == []


def _note(name: str) -> Path:
    return next(path for path in PAGES if path.stem == name)


@pytest.mark.parametrize("width", WIDTHS)
def test_text_keeps_a_readable_measure(window: Browser, site: dict[str, Path], width: int) -> None:
    """No line of running text over 80 characters (WCAG 1.4.8 names 80)."""
    window.window(width)
    window.open(site["pocket-phone"])
    script = """
      const p = document.querySelector(".intro p"), s = getComputedStyle(p), c = document.createElement("canvas");
      const pen = c.getContext("2d"); pen.font = `${s.fontWeight} ${s.fontSize} ${s.fontFamily}`;
      return p.clientWidth / (pen.measureText(p.textContent).width / p.textContent.length);
    """
    assert 30 <= window.run(script) <= 80


@pytest.mark.parametrize(("width", "beside"), [(390, False), (900, True), (1400, True)])
def test_the_contents_stand_beside_the_sheet_from_a_medium_width(
    window: Browser, site: dict[str, Path], width: int, beside: bool
) -> None:
    window.window(width)
    window.open(site["every"])
    script = """
      const box = name => document.querySelector(name).getBoundingClientRect();
      return box("nav.contents").right <= box("main").left;
    """
    assert window.run(script) is beside


def test_targets_outside_running_text_are_24_pixels(window: Browser, site: dict[str, Path]) -> None:
    """WCAG 2.2, 2.5.8."""
    window.window(390)
    window.open(site["every"])
    script = """
      return [...document.querySelectorAll(".contents a, .no, .tick, button")].filter(e => e.offsetParent)
        .map(e => [e.outerHTML.slice(0, 80), e.getBoundingClientRect()])
        .filter(([, box]) => box.width < 24 || box.height < 24).map(([html]) => html);
    """
    assert window.run(script) == []


def test_the_keyboard_finds_the_skip_link_first_and_focus_shows(window: Browser, site: dict[str, Path]) -> None:
    window.window(900)
    window.open(site["every"])
    active = window.driver.switch_to.active_element
    active.send_keys(Keys.TAB)
    skip = window.driver.switch_to.active_element
    assert skip.get_attribute("class") == "skip"
    assert window.run("return getComputedStyle(arguments[0]).outlineStyle", skip) == "solid"
    window.driver.execute_async_script("setTimeout(arguments[0], 100)")
    assert skip.rect["y"] >= 0
    skip.send_keys(Keys.ENTER)
    assert window.run("return document.activeElement.id") == "sheet"


def test_ticks_are_kept_and_can_be_cleared(window: Browser, site: dict[str, Path]) -> None:
    window.window(900)
    window.open(site["every"])
    window.run("localStorage.clear(); location.reload()")
    boxes = window.driver.find_elements(By.CSS_SELECTOR, ".tick input")
    assert len(boxes) > 15
    window.run("arguments[0].scrollIntoView({block: 'center', behavior: 'instant'})", boxes[2])
    boxes[2].click()
    assert window.driver.find_element(By.CSS_SELECTOR, "output").text == f"1 of {len(boxes)} ticked"
    window.open(site["every"])
    assert window.run("return [...document.querySelectorAll('.tick input')].map(b => b.checked)")[:4] == [
        False,
        False,
        True,
        False,
    ]
    window.driver.find_element(By.CSS_SELECTOR, "#bar button").click()
    window.open(site["every"])
    assert window.run("return document.querySelectorAll('.tick input:checked').length") == 0


def test_the_count_of_ticks_is_in_view_at_every_operation_and_hides_nothing_before_them(
    window: Browser, site: dict[str, Path]
) -> None:
    window.window(900)
    window.open(site["pocket-phone"])
    bar = "const at = document.getElementById('bar').getBoundingClientRect(); return [at.top, at.bottom]"
    for one in window.run("return [...document.querySelectorAll('.op')].map(op => op.id)"):
        window.run("document.getElementById(arguments[0]).scrollIntoView({behavior: 'instant'})", one)
        top, bottom = window.run(bar)
        assert 0 <= top < bottom <= 1000, one
    window.run("document.getElementById('hazards').scrollIntoView({behavior: 'instant'})")
    assert window.run(bar)[0] >= window.run("return document.querySelector('.op').getBoundingClientRect().top")


def test_ticks_of_another_guide_are_not_taken_over(window: Browser, site: dict[str, Path]) -> None:
    window.window(900)
    window.open(site["every"])
    window.run("document.querySelector('.tick input').click()")
    window.open(site["pocket-phone"])
    assert window.run("return document.querySelectorAll('.tick input:checked').length") == 0


def test_ticks_work_where_storage_is_blocked(window: Browser, site: dict[str, Path], tmp_path: Path) -> None:
    """A sandboxed frame has no storage: reading `localStorage` there throws."""
    window.window(900)
    frame = tmp_path / "frame.html"
    frame.write_text(f'<iframe sandbox="allow-scripts" src="{site["every"].as_uri()}" width="800" height="900">')
    window.open(frame)
    window.driver.switch_to.frame(0)
    try:
        blocked = "try { localStorage; return false } catch { return true }"
        assert window.run(blocked) is True
        box = window.driver.find_element(By.CSS_SELECTOR, ".tick input")
        window.run("arguments[0].click()", box)
        assert window.driver.find_element(By.CSS_SELECTOR, "output").text.startswith("1 of ")
    finally:
        window.driver.switch_to.default_content()
    assert [line for line in window.console() if "Uncaught" in line] == []


def test_without_scripts_all_is_there_and_boxes_can_be_ticked(window: Browser, site: dict[str, Path]) -> None:
    window.window(900, scripts=False)
    try:
        window.open(site["every"])
        box = window.driver.find_element(By.CSS_SELECTOR, ".tick input")
        box.click()
        assert box.is_selected()
        assert not window.driver.find_element(By.CSS_SELECTOR, "#bar").is_displayed()
        assert "Lift off back panel" in window.driver.find_element(By.CSS_SELECTOR, "main").text
    finally:
        window.window(900)


def test_a_script_that_is_not_the_pages_own_does_not_run(
    window: Browser, site: dict[str, Path], tmp_path: Path
) -> None:
    window.window(900)
    page = site["every"].read_text(encoding="utf-8")
    spoilt = tmp_path / "spoilt.html"
    spoilt.write_text(page.replace("</main>", "<script>document.title = 'run'</script></main>"), encoding="utf-8")
    window.open(spoilt)
    assert window.driver.title.startswith("Kestrel")
    assert any("Content Security Policy" in line for line in window.console())


def test_the_browser_prints_the_sheet_in_ink(window: Browser, site: dict[str, Path]) -> None:
    window.window(900, media="print", dark=True)
    window.open(site["every"])
    look = """
      const style = name => getComputedStyle(document.querySelector(name));
      const body = style("body");
      return [body.color, body.backgroundColor, style("nav.contents").display, style(".bar").display];
    """
    assert window.run(look) == ["rgb(0, 0, 0)", "rgb(255, 255, 255)", "none", "none"]
    window.window(900)


def test_a_page_that_is_not_clean_is_printed_so_on_every_sheet(window: Browser, site: dict[str, Path]) -> None:
    window.window(900, media="print")
    window.open(site["klein"])
    window.run("document.querySelector('.op').style.marginTop = '60cm'")
    done = subprocess.run(["pdftotext", "-", "-"], input=window.print(), capture_output=True, check=True)
    window.window(900)
    sheets = done.stdout.decode().split("\f")[:-1]
    assert len(sheets) > 1
    assert all("NICHT SAUBER" in sheet.upper() for sheet in sheets)
