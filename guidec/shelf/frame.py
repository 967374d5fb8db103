"""A guide's pages -> the same pages in the frame of a shelf: the way to the others, the files, the shelf's foot.

The pages stay what they are, one file each that asks for nothing. What is added is put in at four places of the
page (its policy, the end of its head, the begin and the end of its body), which the tests hold to its template.
"""

from __future__ import annotations

import base64
import hashlib
import re
from collections.abc import Mapping
from functools import cache
from urllib.parse import quote

from markupsafe import Markup, escape

from guidec.model.types import Guide
from guidec.quick import dataclass
from guidec.shelf.entry import Entry
from guidec.shelf.howto import howto, script
from guidec.shelf.layout import asset, colours, head, navigation
from guidec.shelf.words import Words, words

__all__ = ["Frame", "framed", "guide_address"]

_FRAME = re.compile(r'(?P<at>)<div class="frame">')
_BODY = re.compile(r"<body[^>]*>(?P<at>)")
_SHOWN = (
    ("guide.pdf", "file.pdf"),
    ("guide.json", "file.guide"),
    ("bom.json", "file.bom"),
    ("bom.cdx.json", "file.bom-cdx"),
    ("bom.xlsx", "file.bom-xlsx"),
    ("routes.json", "file.routes"),
    ("score.json", "file.score"),
    ("parts.csv", "file.parts"),
    ("fasteners.csv", "file.fasteners"),
    ("tools.csv", "file.tools"),
    ("supplies.csv", "file.supplies"),
    ("chapters.vtt", "file.chapters"),
)


@dataclass(frozen=True, slots=True)
class Frame:
    """What a shelf says on the pages of its guides. `footer`: HTML, made of the settings' Markdown."""

    title: str
    address: str | None
    footer: str
    colours: tuple[tuple[str, str, str], ...] = ()
    languages: tuple[str, ...] = ("en",)

    def ways(self, language: str) -> str:
        """The folder of the site's own pages in a language, from a guide's: its own, or the first."""
        there = language in self.languages[1:]
        return f"../../{language}/" if there else "../../"


def framed(files: Mapping[str, bytes], entry: Entry, guide: Guide, frame: Frame) -> dict[str, bytes]:
    """All files of a guide, its pages in the frame."""
    said = words(entry.language)
    around = _Around(
        style=asset("frame.css") + colours(frame.colours),
        top=navigation(frame.title, frame.ways(said.language), said),
        foots=(_foot(entry, frame, said, whole=True), _foot(entry, frame, said, whole=False)),
    )
    made = {}
    for name, data in files.items():
        page = name.endswith(".html") and "/" not in name
        made[name] = _page(name, data.decode(), entry, guide, frame, around).encode() if page else data
    return made


@dataclass(frozen=True, slots=True)
class _Around:
    """What all pages of a guide have around them. `foots`: of the whole guide's page, and of the others."""

    style: str
    top: str
    foots: tuple[str, str]


def guide_address(address: str | None, slug: str, name: str = "index.html") -> str | None:
    """The address of a guide's page on the finished site."""
    return f"{address}/guides/{quote(slug)}/{quote(name)}" if address else None


def _page(name: str, page: str, entry: Entry, guide: Guide, frame: Frame, around: _Around) -> str:
    whole = name == "index.html"
    address = guide_address(frame.address, entry.slug, name)
    extra = _head(page, entry, frame, address)
    if whole:
        data = script(howto(entry, guide, address))
        extra += Markup('<script type="application/ld+json">{}</script>\n').format(Markup(data))
    extra += Markup("<style>{}</style>\n").format(Markup(around.style))
    page = page.replace("style-src ", f"style-src {_hash(around.style)} ", 1).replace(
        "</head>", f"{extra}</head>", 1
    )
    place = _FRAME.search(page) or _BODY.search(page)
    if place:
        at = place.start("at")
        page = f"{page[:at]}{around.top}\n{page[at:]}"
    before, _, after = page.rpartition("</body>")
    body, scripts, rest = before.rpartition("<script>")
    foot = around.foots[0 if whole else 1]
    return f"{body}{foot}{scripts}{rest}</body>{after}" if scripts else f"{before}{foot}</body>{after}"


def _head(page: str, entry: Entry, frame: Frame, address: str | None) -> Markup:
    title = page.partition("<title>")[2].partition("</title>")[0]
    picture = f"{address.rpartition('/')[0]}/{quote(entry.picture)}" if address and entry.picture else None
    return head(
        title=Markup(title), text=entry.text, address=address, site=frame.title, picture=picture, kind="article"
    )


@cache
def _hash(text: str) -> str:
    return f"'sha256-{base64.b64encode(hashlib.sha256(text.encode()).digest()).decode()}'"


def _foot(entry: Entry, frame: Frame, said: Words, *, whole: bool) -> str:
    files = [(path, said(key)) for path, key in _SHOWN if path in entry.files]
    ways = [(one.page, one.name) for one in entry.parts if one.page]
    back = [] if whole else [("index.html", said("whole-guide"))]
    lists = ""
    if back or files:
        lists += _list(said("files"), [*back, *files])
    if ways and whole:
        lists += _list(said("route-guides"), ways)
    own = f'<div class="own">{frame.footer}</div>' if frame.footer else ""
    return f'<footer class="shelf-foot">{lists}{own}</footer>\n'


def _list(label: str, rows: list[tuple[str, str]]) -> str:
    items = "".join(f'<li><a href="{escape(quote(path))}">{escape(text)}</a></li>' for path, text in rows)
    return f'<nav aria-label="{escape(label)}"><p class="cap">{escape(label)}</p><ul>{items}</ul></nav>'
