"""The site as files: links, feed, site map, structured data, the search index, what it says of itself.

Atom: RFC 4287, read by feedparser. Site maps: sitemaps.org protocol 0.9. JSON-LD: the types of schema.org as npm
`schema-dts` has them. Markup: the Nu Html Checker (npm `vnu-jar`). The search index: npm `minisearch` itself, in
node.
"""

from __future__ import annotations

import json
import re
import subprocess
from collections.abc import Iterator
from dataclasses import replace
from datetime import datetime
from functools import cache
from html import unescape
from html.parser import HTMLParser
from pathlib import Path
from typing import Any
from urllib.parse import unquote, urlsplit
from xml.etree import ElementTree

import feedparser
import pytest

from guidec import compile as compiler
from guidec.outputs import html
from guidec.shelf import feed
from guidec.shelf.layout import ASSETS
from guidec.shelf.pages import search
from guidec.shelf.settings import Settings
from guidec.shelf.state import dumped, loaded

from ..outputs.conftest import NPM
from .shelves import REPOSITORY, SAMPLES, SETTINGS, built, note, shelf

ADDRESS = "https://shelf.example/guides"


@pytest.fixture(scope="module")
def site(tmp_path_factory: pytest.TempPathFactory) -> Path:
    """The samples, a German note and a bad one published, in two languages."""
    folder = tmp_path_factory.mktemp("shelf")
    notes = {path.relative_to(SAMPLES).as_posix(): path for path in SAMPLES.glob("*/*.md")}
    shelf(folder, {name: path.read_text(encoding="utf-8") for name, path in notes.items()}, SETTINGS)
    for path in SAMPLES.glob("*/pics/*.jpg"):
        at = folder / path.relative_to(SAMPLES)
        at.parent.mkdir(exist_ok=True)
        at.write_bytes(path.read_bytes())
    (folder / "d.md").write_text(note("D4"), encoding="utf-8")
    (folder / "klein.md").write_bytes((REPOSITORY / "tests" / "outputs" / "notes" / "klein.md").read_bytes())
    (folder / "about.md").write_text("# About\n\nA page.\n")
    (folder / "shelf.yaml").write_text(f"{SETTINGS}pages: [about.md]\nerrors: publish\n", encoding="utf-8")
    out = tmp_path_factory.mktemp("out") / "site"
    built(folder, out, jobs=2)
    return out


class Links(HTMLParser):
    def __init__(self, page: str) -> None:
        super().__init__()
        self.found: list[str] = []
        self.ids: list[str] = []
        self.scripts: list[str] = []
        self._data = False
        self.feed(page)

    def handle_starttag(self, tag: str, attrs: list[tuple[str, str | None]]) -> None:
        values = dict(attrs)
        self.found += [values[name] or "" for name in ("href", "src", "action") if name in values]
        self.ids += [values["id"] or ""] if "id" in values else []
        self._data = tag == "script" and values.get("type") == "application/ld+json"

    def handle_data(self, data: str) -> None:
        if self._data:
            self.scripts.append(data)
            self._data = False


def pages(site: Path) -> Iterator[tuple[str, Links]]:
    for path in sorted(site.rglob("*.html")):
        yield path.relative_to(site).as_posix(), Links(path.read_text(encoding="utf-8"))


def target(page: str, link: str) -> tuple[str, str] | None:
    """The file and the fragment that a link leads to; None for one that leaves the site."""
    parts = urlsplit(link)
    if parts.scheme or parts.netloc:
        return None
    at = (Path("/") / page).parent / unquote(parts.path) if parts.path else Path("/") / page
    import posixpath

    return posixpath.normpath(at.as_posix()).lstrip("/"), unquote(parts.fragment)


def test_no_link_is_dead(site: Path) -> None:
    ids = {page: set(links.ids) for page, links in pages(site)}
    dead = []
    for page, links in pages(site):
        for link in links.found:
            found = target(page, link)
            if found is None:
                continue
            file, fragment = found
            if not (site / file).is_file() or (fragment and fragment not in ids.get(file, ())):
                dead.append((page, link))
    assert dead == []


def test_every_page_is_reached_from_the_front_page(site: Path) -> None:
    links = {page: {found[0] for link in one.found if (found := target(page, link))} for page, one in pages(site)}
    reached, left = set(), ["index.html"]
    while left:
        page = left.pop()
        if page not in reached:
            reached.add(page)
            left += links.get(page, ())
    assert set(links) - reached == set()
    data = {path.relative_to(site).as_posix() for path in site.glob("catalogue.*")}
    assert data <= reached


def test_pages_ask_for_nothing_from_elsewhere(site: Path) -> None:
    for path in site.rglob("*.html"):
        text = path.read_text(encoding="utf-8")
        for tag in re.findall(r"<(?:script|img|link)\b[^>]*>", text):
            if "canonical" not in tag:
                assert "//" not in tag.replace("https://shelf.example", ""), (path, tag)
        assert "Content-Security-Policy" in text
    assert "url(" not in (site / "assets" / "shelf.css").read_text()
    assert "@import" not in (site / "assets" / "shelf.css").read_text()


def checked(paths: list[Path]) -> list[tuple[str, str]]:
    """What the checker says of pages: (page's folder and name, message)."""
    jar = NPM / "vnu-jar" / "build" / "dist" / "vnu.jar"
    run = subprocess.run(
        ["java", "-jar", str(jar), "--errors-only", "--format", "json", *map(str, paths)],
        capture_output=True,
        text=True,
        check=False,
    )
    newer = re.compile(
        r"CSS: “[\w-]+”: Property “[\w-]+” doesn't exist"
    )  # to the checker, which knows no newer ones
    found = [one for one in json.loads(run.stderr)["messages"] if not newer.match(one["message"])]
    return sorted(("/".join(one["url"].rsplit("/", 2)[1:]), one["message"]) for one in found)


def test_the_markup_of_the_sites_own_pages_is_valid(site: Path) -> None:
    some = [path for path in site.rglob("*.html") if "guides" not in path.relative_to(site).parts]
    assert len(some) > 100
    assert checked(some) == []


def test_the_frame_adds_nothing_wrong_to_a_guides_pages(site: Path, tmp_path: Path) -> None:
    note = SAMPLES / "head-torch" / "head-torch.md"
    made = compiler.build(compiler.load(note), compiler.Options(pdf=False))
    bare = compiler.write(made, tmp_path)
    names = ["index.html", next(name for name in made.files if name.startswith("route-"))]
    assert checked([site / "guides" / made.slug / name for name in names]) == checked(
        [bare / name for name in names]
    )


def test_the_frame_fits_the_template_of_the_guides_page(site: Path) -> None:
    """The four places where the frame is put in are there once, and all of it is put in."""
    for path in site.glob("guides/*/*.html"):
        text = path.read_text(encoding="utf-8")
        for once in ('class="shelf-bar"', 'class="shelf-foot"', '<link rel="canonical"', "<main"):
            assert text.count(once) == 1, (path, once)
        policy = re.search(r'http-equiv="Content-Security-Policy" content="([^"]*)"', text)
        assert policy
        assert unescape(policy[1]).count("'sha256-") in (2, 3), "the page's style, the shelf's, the script"
        assert text.index('class="shelf-bar"') < text.index("<main") < text.index('class="shelf-foot"')
    assert html.__file__


def test_canonical_links_and_cards_give_the_address(site: Path) -> None:
    for page, _ in pages(site):
        text = (site / page).read_text(encoding="utf-8")
        (canonical,) = re.findall(r'<link rel="canonical" href="([^"]*)">', text)
        assert unquote(canonical) == f"{ADDRESS}/{page}"
        for name in ("og:title", "og:type", "og:url", "og:site_name"):
            assert len(re.findall(f'<meta property="{name}" content="[^"]+">', text)) == 1, (page, name)
    phone = next(site.glob("guides/amber*/index.html")).read_text(encoding="utf-8")
    (picture,) = re.findall(r'<meta property="og:image" content="([^"]*)">', phone)
    assert (site / unquote(picture).removeprefix(f"{ADDRESS}/")).is_file()


def test_the_feed_is_atom(site: Path) -> None:
    read = feedparser.parse((site / "feed.xml").read_bytes())
    assert not read.bozo, read.get("bozo_exception")
    assert read.version == "atom10"
    assert read.feed.id == f"{ADDRESS}/"
    assert [link for link in read.feed.links if link.rel == "self"]
    assert len(read.entries) == 5
    for entry in read.entries:
        assert entry.id == entry.link
        assert (site / unquote(entry.id).removeprefix(f"{ADDRESS}/")).is_file()
        datetime.fromisoformat(entry.updated)
        assert entry.title
        assert entry.summary
        assert entry.author
    days = [entry.updated for entry in read.entries]
    assert days == sorted(days, reverse=True)
    assert read.feed.updated == days[0]


ATOM = "{http://www.w3.org/2005/Atom}"


def test_the_feed_has_what_the_standard_wants_of_it(site: Path) -> None:
    """RFC 4287, sections 4.1.1 and 4.1.2: exactly one id, title and updated; at most one self link; an author."""
    root = ElementTree.fromstring((site / "feed.xml").read_bytes())
    for element in (root, *root.findall(f"{ATOM}entry")):
        for name in ("id", "title", "updated"):
            assert len(element.findall(f"{ATOM}{name}")) == 1
        assert element.findall(f"{ATOM}author") or root.findall(f"{ATOM}author")
        alternates = [one for one in element.findall(f"{ATOM}link") if one.get("rel") == "alternate"]
        assert len(alternates) == 1
    ids = [one.findtext(f"{ATOM}id") for one in root.findall(f"{ATOM}entry")]
    assert len(set(ids)) == len(ids)


def test_the_site_map_lists_every_page_once(site: Path) -> None:
    root = ElementTree.fromstring((site / "sitemap.xml").read_bytes())
    space = "{http://www.sitemaps.org/schemas/sitemap/0.9}"
    assert root.tag == f"{space}urlset"
    found = [unquote(one.text or "") for one in root.iter(f"{space}loc")]
    assert sorted(found) == sorted(f"{ADDRESS}/{page}" for page, _ in pages(site))
    robots = (site / "robots.txt").read_text()
    assert f"Sitemap: {ADDRESS}/sitemap.xml" in robots.splitlines()


def test_a_site_map_past_the_bound_of_one_file_is_parted() -> None:
    settings = Settings("x", address=ADDRESS)
    made = feed.site_maps([f"{at}.html" for at in range(7)], settings, most=3)
    assert set(made) == {"sitemap.xml", "sitemap-1.xml", "sitemap-2.xml", "sitemap-3.xml"}
    assert made["sitemap.xml"].count(b"<sitemap>") == 3
    assert [made[f"sitemap-{at}.xml"].count(b"<url>") for at in (1, 2, 3)] == [3, 3, 1]


def test_without_an_address_nothing_claims_one(tmp_path: Path) -> None:
    built(shelf(tmp_path / "notes", {"a.md": note("A1")}), tmp_path / "site")
    assert not (tmp_path / "site" / "feed.xml").exists()
    assert not (tmp_path / "site" / "sitemap.xml").exists()
    for path in (tmp_path / "site").rglob("*.html"):
        assert "canonical" not in path.read_text(encoding="utf-8")


# ---------------------------------------------------------------- structured data


@cache
def schema_org() -> tuple[dict[str, set[str]], dict[tuple[str, str], set[str]]]:
    """Types with their bases, and the types that a property of a type may have, as `schema-dts` declares them."""
    text = (NPM / "schema-dts" / "dist" / "schema.d.ts").read_text(encoding="utf-8")
    bases: dict[str, set[str]] = {}
    ranges: dict[tuple[str, str], set[str]] = {}
    for name, extends, body in re.findall(
        r"interface (\w+?)(?:Base|Leaf) extends ([^{]+)\{(.*?)^\}", text, re.M | re.S
    ):
        found = {one.removesuffix("Base") for one in re.findall(r"\w+Base", extends)}
        bases[name] = bases.get(name, set()) | found - {name}
        for key, value in re.findall(r'"(\w+)"\?: SchemaValue<([^,]+), "', body):
            ranges[name, key] = {one.strip() for one in value.split("|")}
    return bases, ranges


def ancestors(name: str) -> set[str]:
    bases, _ = schema_org()
    return {name}.union(*(ancestors(one) for one in bases.get(name, ())))


def faults(data: dict[str, Any]) -> Iterator[str]:
    """What schema.org does not know of a value: a type, a property of the type, the type of a property's value."""
    bases, ranges = schema_org()
    kind = data["@type"]
    if kind not in bases:
        yield f"no type {kind}"
    for key, value in data.items():
        if key.startswith("@"):
            continue
        allowed = set().union(*(ranges.get((one, key), set()) for one in ancestors(kind)))
        if not allowed:
            yield f"{kind} has no {key}"
            continue
        for one in value if isinstance(value, list) else [value]:
            if isinstance(one, dict):
                if not allowed & ancestors(one["@type"]):
                    yield f"{kind}.{key} is no {one['@type']}, but {allowed}"
                yield from faults(one)
            elif not allowed & {"Text", "URL", "Date", "Integer", "Number", "DateTime"}:
                yield f"{kind}.{key} is no text"


def test_the_check_of_structured_data_finds_faults() -> None:
    assert [*faults({"@type": "HowTo", "name": "x", "tool": {"@type": "HowToTool", "name": "y"}})] == []
    assert [*faults({"@type": "HowTo", "steps_": "x"})] == ["HowTo has no steps_"]
    assert [*faults({"@type": "HowTo", "tool": {"@type": "Person"}})]
    assert [*faults({"@type": "HowTwo"})] == ["no type HowTwo"]


def test_each_guide_is_a_valid_how_to(site: Path) -> None:
    guides = [page for page, _ in pages(site) if page.startswith("guides/") and page.endswith("/index.html")]
    assert len(guides) == 5
    for page, links in pages(site):
        assert len(links.scripts) == (page in guides), page
        for script in links.scripts:
            data = json.loads(script)
            assert data["@context"] == "https://schema.org"
            assert data["@type"] == "HowTo"
            assert [*faults(data)] == []
            assert unquote(data["url"]) == f"{ADDRESS}/{page}"
            steps = [step for part in data.get("step", ()) for step in part["itemListElement"]]
            assert all(step["text"] for step in steps)
            assert len(steps) >= 3 or "wetterfest" in page
            assert {"name", "tool", "author", "about"} <= data.keys()


def test_nothing_in_a_note_breaks_out_of_the_structured_data(tmp_path: Path) -> None:
    text = note("A1").replace("A work lamp with one cell.", "A </script><script>alert(1)</script> & <!-- lamp.")
    text = text.replace("{part lid;", "{part </script><b>lid;")
    built(shelf(tmp_path / "notes", {"a.md": text}), tmp_path / "site")
    page = (tmp_path / "site" / "guides" / "nordhavn-a1-work-lamp" / "index.html").read_text(encoding="utf-8")
    links = Links(page)
    assert "</script><script>alert(1)" in json.loads(links.scripts[0])["description"]
    assert "<script>alert" not in page
    for path in (tmp_path / "site").rglob("*.html"):
        assert "</script><b>lid" not in path.read_text(encoding="utf-8")


# ---------------------------------------------------------------- search


JS = """
const MiniSearch = require(process.argv[1]);
const { docs, queries, made } = JSON.parse(require("fs").readFileSync(0, "utf8"));
const options = { fields: ["title", "parts", "numbers", "tools"], storeFields: ["s", "t", "k"] };
const own = new MiniSearch(options);
own.addAll(docs.map((doc, id) => ({ id, ...doc })));
const loaded = MiniSearch.loadJS(made, options);
const how = { fuzzy: 1, prefix: true };
const ask = index => queries.map(query => index.search(query, how).map(r => [r.s, r.score.toFixed(6)]));
console.log(JSON.stringify({ own: own.toJSON(), a: ask(own), b: ask(loaded) }));
"""


def entries(site: Path) -> list[Any]:
    with (site / ".guidec-shelf").open("rb") as lines:
        state = loaded(lines)
    assert state
    return [one.entry for one in state.guides.values()]


def test_the_search_index_is_the_one_the_library_makes(site: Path) -> None:
    found = sorted(entries(site), key=lambda one: (one.title.casefold(), one.slug))
    docs = [dict(zip(search.FIELDS, search._fields(one), strict=True)) | search._stored(one) for one in found]
    made = search.index(found)
    given = {
        "docs": docs,
        "made": made,
        "queries": ["batery", "cell pack", "PH0", "hallmere", "nl-d4-7", "hinge cable"],
    }
    run = subprocess.run(
        ["node", "-e", JS, str(NPM / "minisearch" / "dist" / "cjs" / "index.cjs")],
        input=json.dumps(given),
        capture_output=True,
        text=True,
        check=False,
    )
    assert run.returncode == 0, run.stderr
    theirs = json.loads(run.stdout)
    own = theirs["own"]
    assert sorted(own.pop("index")) == [[term, rows] for term, rows in json.loads(json.dumps(made["index"]))]
    assert own.pop("averageFieldLength") == pytest.approx(made["averageFieldLength"])
    assert own == {key: value for key, value in made.items() if key not in ("index", "averageFieldLength")}
    assert theirs["a"] == theirs["b"]
    assert all(theirs["a"])


def test_the_search_library_is_the_published_one() -> None:
    version = json.loads((NPM / "minisearch" / "package.json").read_text())["version"]
    assert f"minisearch-{version}.js" == search.LIBRARY
    assert (ASSETS / search.LIBRARY).read_bytes() == (
        NPM / "minisearch" / "dist" / "umd" / "index.js"
    ).read_bytes()
    licence = (NPM / "minisearch" / "LICENSE.txt").read_bytes()
    assert (ASSETS / f"minisearch-{version}.LICENSE.txt").read_bytes() == licence


# ---------------------------------------------------------------- what pages say


def text(site: Path, page: str) -> str:
    return (site / page).read_text(encoding="utf-8")


def test_the_comparison_says_what_each_note_shows(site: Path) -> None:
    row = next(line for line in text(site, "compare/index.html").splitlines() if "Nordhavn D4" in line)
    assert ">4 × PH0<" in row
    assert "1 of 2 (50" in row
    battery = re.search(r'data-label="Battery, steps">(?P<n>\d+)<', row)
    lamp = json.loads((site / "guides" / "nordhavn-d4-work-lamp" / "routes.json").read_bytes())
    route = next(one for one in lamp["routes"] if one["part"] == "cell-pack")
    assert battery
    assert int(battery["n"]) == route["steps"]


def test_every_battery_is_on_the_page_of_batteries_with_its_way(site: Path) -> None:
    page = text(site, "parts/battery.html")
    rows = [line for line in page.splitlines() if line.startswith('<tr><th scope="row"')]
    assert len(rows) == 4
    lamp = next(row for row in rows if "Nordhavn" in row)
    assert "guides/nordhavn-d4-work-lamp/route-cell-pack.html" in lamp
    assert "1 bond" in lamp
    assert "plastic card" in lamp


def test_a_tool_leads_to_the_guides_that_need_it(site: Path) -> None:
    page = text(site, "tools/ph0-screwdriver.html")
    assert "nordhavn-d4-work-lamp" in page
    assert "hallmere" not in page


def test_hazards_stand_gravest_first_each_once(site: Path) -> None:
    words = re.findall(r'<p class="sig">(\w+)</p>', text(site, "hazards/index.html"))
    order = ["Danger", "Warning", "Caution", "Notice"]
    assert [order.index(word) for word in words] == sorted(order.index(word) for word in words)
    assert words.count("Danger") >= 2


def test_each_language_has_its_pages_and_leads_to_the_other(site: Path) -> None:
    assert 'lang="de"' in text(site, "de/index.html")
    assert "Vergleich" in text(site, "de/compare/index.html")
    assert 'href="../index.html" lang="en"' in text(site, "de/index.html")
    assert 'href="de/index.html" lang="de"' in text(site, "index.html")


def test_the_words_of_both_languages_are_the_same_ones() -> None:
    import yaml

    en, de = (
        yaml.safe_load((REPOSITORY / "guidec" / "shelf" / "words" / f"{name}.yaml").read_text())
        for name in ("en", "de")
    )
    assert en["words"].keys() == de["words"].keys()
    for key, said in en["words"].items():
        slots = re.findall(r"\{\w+\}", str(said))
        assert sorted(set(slots)) == sorted(set(re.findall(r"\{\w+\}", str(de["words"][key])))), key


def test_the_state_survives_being_written(site: Path) -> None:
    with (site / ".guidec-shelf").open("rb") as lines:
        state = loaded(lines)
    assert state
    anew = dumped(replace(state, lines={}))
    again = loaded(anew.splitlines(keepends=True))
    assert again
    assert replace(again, lines=state.lines) == state
    assert dumped(again) == anew
