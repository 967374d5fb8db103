"""The site in a real Chromium, from a folder and without a server: at three widths, light, dark, printed.

Accessibility: axe-core (npm), WCAG 2.2 A and AA and best practices. Dead links are followed in `test_site`.
"""

from __future__ import annotations

import io
from collections.abc import Iterator
from pathlib import Path

import pytest
from selenium.webdriver.common.by import By
from selenium.webdriver.common.keys import Keys
from selenium.webdriver.support.expected_conditions import (
    presence_of_all_elements_located,
    title_contains,
    url_contains,
)
from selenium.webdriver.support.wait import WebDriverWait

from ..outputs.browser import Browser, browser
from ..outputs.conftest import NPM
from .shelves import BROKEN, SETTINGS, built, note, shelf

PAGES = (
    "index.html",
    "compare/index.html",
    "parts/index.html",
    "parts/battery.html",
    "tools/index.html",
    "tools/plastic-card.html",
    "hazards/index.html",
    "search.html",
    "changes.html",
    "data.html",
    "about.html",
    "makers/nordhavn.html",
    "de/index.html",
    "guides/nordhavn-a1-work-lamp/index.html",
    "guides/nordhavn-a1-work-lamp/route-cell-pack.html",
)


@pytest.fixture(scope="module")
def window(tmp_path_factory: pytest.TempPathFactory) -> Iterator[Browser]:
    with browser(tmp_path_factory.mktemp("profile")) as opened:
        yield opened


@pytest.fixture(scope="module")
def site(tmp_path_factory: pytest.TempPathFactory) -> Path:
    folder = tmp_path_factory.mktemp("shelf")
    notes = {f"{name}.md": note(name) for name in ("A1", "B22", "C3")}
    notes["k.md"] = note("K9", maker="Kestrel & Daughters", extra="3. Undo {screw B: 12x T5 M1.6x4}.\n")
    notes["bad.md"] = note("Z1", extra=BROKEN)
    notes["about.md"] = "# About\n\nText with `code` and a [link](https://shelf.example/x).\n"
    colours = 'colours: {light: {paper: "#fbf8f1", link: "#7a4300"}, dark: {link: "#ffc46b"}}\n'
    shelf(folder, notes, f"{SETTINGS}pages: [about.md]\nerrors: publish\n{colours}")
    out = tmp_path_factory.mktemp("out") / "site"
    built(folder, out)
    (folder / "C3.md").unlink()
    built(folder, out)
    return out


@pytest.mark.parametrize("dark", [False, True], ids=["light", "dark"])
@pytest.mark.parametrize("width", [390, 900, 1400])
def test_axe_finds_no_violation_and_nothing_overflows(window: Browser, site: Path, width: int, dark: bool) -> None:
    axe = (NPM / "axe-core" / "axe.min.js").read_text(encoding="utf-8")
    window.window(width, dark=dark)
    for page in PAGES:
        window.open(site / page)
        assert window.run("return document.documentElement.scrollWidth") <= width, page
        found = window.axe(axe)
        assert [(page, one["id"], one["nodes"][0]["html"][:200]) for one in found] == []


def test_pages_ask_for_nothing_but_what_lies_beside_them_and_the_console_is_quiet(
    window: Browser, site: Path
) -> None:
    window.window(1400)
    for page in PAGES:
        window.open(site / page)
        asked = window.requests()
        assert asked
        assert [one for one in asked if not one.startswith((site.as_uri(), "data:"))] == []
        assert window.console() == [], page


def search(window: Browser, words: str) -> list[str]:
    box = window.driver.find_element(By.ID, "q")
    box.clear()
    box.send_keys(words, Keys.ENTER)
    return [one.text for one in window.driver.find_elements(By.CSS_SELECTOR, "#hits a")]


@pytest.mark.parametrize(
    ("words", "first"),
    [
        ("kestrel", "Kestrel & Daughters K9 work lamp"),
        ("kestral", "Kestrel & Daughters K9 work lamp"),
        ("B22", "Nordhavn B22 work lamp"),
        ("NL-B22-7", "Nordhavn B22 work lamp"),
        ("T5 driver", "Kestrel & Daughters K9 work lamp"),
        ("daugters k9", "Kestrel & Daughters K9 work lamp"),
    ],
)
def test_search_from_a_file_forgives_slips(window: Browser, site: Path, words: str, first: str) -> None:
    window.window(900)
    window.open(site / "search.html")
    assert search(window, words)[:1] == [first]


def test_a_hit_leads_to_its_guide_and_says_where_it_was_found(window: Browser, site: Path) -> None:
    window.window(900)
    window.open(site / "search.html")
    assert len(search(window, "cell pakc")) == 4
    assert "part: " in window.driver.find_element(By.CSS_SELECTOR, "#hits p").text
    window.driver.find_element(By.CSS_SELECTOR, "#hits a").click()
    assert "/guides/" in window.driver.current_url
    assert window.driver.find_elements(By.TAG_NAME, "h1")


def test_the_front_pages_search_box_leads_to_the_answer(window: Browser, site: Path) -> None:
    window.window(900)
    for start, ways in (("index.html", 1), ("de/index.html", 1)):
        window.open(site / start)
        window.driver.find_element(By.ID, "q").send_keys("kestrel", Keys.ENTER)
        wait = WebDriverWait(window.driver, 20)
        wait.until(url_contains("search.html?q=kestrel"))
        hits = wait.until(presence_of_all_elements_located((By.CSS_SELECTOR, "#hits a")))
        assert len(hits) == ways
        hits[0].click()
        wait.until(title_contains("Kestrel"))


def test_nothing_found_is_said(window: Browser, site: Path) -> None:
    window.window(900)
    window.open(site / "search.html")
    assert search(window, "xylophone") == []
    assert window.driver.find_element(By.ID, "said").text == "Nothing found for this."


def column(window: Browser, at: int) -> list[str]:
    rows = window.driver.find_elements(By.CSS_SELECTOR, "table.sortable tbody tr")
    return [row.find_elements(By.CSS_SELECTOR, "th, td")[at].text for row in rows]


def test_a_column_sorts_both_ways_and_dashes_stay_last(window: Browser, site: Path) -> None:
    window.window(1400)
    window.open(site / "compare" / "index.html")
    heads = window.driver.find_elements(By.CSS_SELECTOR, "table.sortable thead th")
    screws = next(at for at, one in enumerate(heads) if "SCREWS" in one.text.upper())
    heads[screws].find_element(By.TAG_NAME, "button").click()
    assert heads[screws].get_attribute("aria-sort") == "ascending"
    assert column(window, screws)[-1] == "12 × T5, 4 × PH0"
    heads[screws].find_element(By.TAG_NAME, "button").send_keys(Keys.ENTER)
    assert heads[screws].get_attribute("aria-sort") == "descending"
    assert column(window, screws)[0] == "12 × T5, 4 × PH0"
    heads[0].find_element(By.TAG_NAME, "button").click()
    assert column(window, 0) == sorted(column(window, 0), key=str.casefold)
    assert heads[screws].get_attribute("aria-sort") is None


def test_without_scripts_all_but_the_search_is_there(window: Browser, site: Path) -> None:
    window.window(900, scripts=False)
    try:
        for page in PAGES:
            window.open(site / page)
            assert window.driver.find_element(By.TAG_NAME, "h1").text
        window.open(site / "search.html")
        assert "needs scripts" in window.driver.find_element(By.TAG_NAME, "main").text
        window.open(site / "compare" / "index.html")
        assert len(window.driver.find_elements(By.CSS_SELECTOR, "table.sortable tbody tr")) == 4
        assert window.driver.find_elements(By.CSS_SELECTOR, "table.sortable button") == []
    finally:
        window.window(900)


def test_the_printed_comparison_keeps_every_column_and_the_order_it_was_sorted_by(
    window: Browser, site: Path, tmp_path: Path
) -> None:
    import subprocess

    window.window(1400)
    window.open(site / "compare" / "index.html")
    buttons = window.driver.find_elements(By.CSS_SELECTOR, "table.sortable thead button")
    buttons[0].click()
    buttons[0].click()
    window.window(1400, media="print")
    paper = tmp_path / "compare.pdf"
    paper.write_bytes(window.print())
    run = subprocess.run(["pdftotext", "-layout", str(paper), "-"], capture_output=True, text=True, check=True)
    text = run.stdout
    assert text.index("Nordhavn") < text.index("Kestrel")
    for words in ("12 × T5", "GLUED", "CHARGING", "50 %"):
        assert words in text.upper() or words in text
    assert "Hazards" not in text.split("Comparison")[0], "the bar does not print"
    assert io.BytesIO(paper.read_bytes()).read(5) == b"%PDF-"


def test_dark_and_own_colours_are_used(window: Browser, site: Path) -> None:
    colour = """
      const link = document.querySelector("main .table a") ?? document.body;
      return [getComputedStyle(document.body).backgroundColor, getComputedStyle(link).color];
    """
    for page in ("index.html", "guides/nordhavn-a1-work-lamp/index.html"):
        window.window(900)
        window.open(site / page)
        assert window.run(colour)[0] == "rgb(251, 248, 241)", page
        window.window(900, dark=True)
        window.open(site / page)
        assert window.run(colour)[0] == "rgb(20, 23, 26)", page
    window.open(site / "index.html")
    assert window.run(colour)[1] == "rgb(255, 196, 107)"
