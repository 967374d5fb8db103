"""What all pages of a site share: the head, the way round the shelf, the foot -> a whole page."""

from __future__ import annotations

import html
from collections.abc import Callable, Iterable
from functools import cache
from pathlib import Path

from markupsafe import Markup, escape

from guidec.outputs.template import file
from guidec.quick import dataclass
from guidec.shelf.settings import Settings
from guidec.shelf.words import Words

__all__ = ["Page", "asset", "colours", "document", "head", "navigation", "stylesheet"]

ASSETS = Path(__file__).parent / "assets"
_WAYS = (
    ("index.html", "devices"),
    ("parts/index.html", "by-class"),
    ("compare/index.html", "compare"),
    ("tools/index.html", "tools"),
    ("hazards/index.html", "hazards-short"),
    ("search.html", "search"),
)
_POLICY = (
    "default-src 'none'; img-src 'self' file: data:; style-src 'self' file:; script-src 'self' file:; "
    "base-uri 'none'; form-action 'self' file:"
)


@dataclass(frozen=True, slots=True)
class Page:
    """One of the site's own pages. `path`: from the language's folder; `scripts`: under `assets/`.

    `body`: makes its HTML; `shows`: a digest of what that is made of besides settings and words, empty where it is
    made to know. `wide`: for tables that need the whole window; `text`: what it is, in a sentence.
    """

    path: str
    title: str
    body: Callable[[], Markup]
    text: str = ""
    scripts: tuple[str, ...] = ()
    wide: bool = False
    shows: str = ""


@cache
def asset(name: str) -> str:
    """A text file that comes with the shelf."""
    return (ASSETS / name).read_text(encoding="utf-8")


@cache
def stylesheet(own: tuple[tuple[str, str, str], ...]) -> str:
    """The style of the site's own pages: that of the bench sheet, and the shelf's."""
    parts = (file("base.css"), file("screen.css"), file("print.css"), asset("frame.css"), asset("shelf.css"))
    return "\n".join((*parts, colours(own)))


@cache
def colours(own: tuple[tuple[str, str, str], ...]) -> str:
    """The colours that a shelf sets, as custom properties; print keeps its black and white."""
    rules = []
    for scheme in ("light", "dark"):
        said = " ".join(f"--{name}: {colour};" for where, name, colour in own if where == scheme)
        if said:
            rules.append(f"@media screen and (prefers-color-scheme: {scheme}) {{ :root {{ {said} }} }}")
    return "\n".join(rules)


def head(*, title: str, text: str, address: str | None, site: str, picture: str | None, kind: str) -> Markup:
    """The canonical link and what a link to the page shows where it is shared."""
    rows = [f'<meta name="description" content="{escape(text)}">'] if text else []
    named = [("og:title", title), ("og:type", kind), ("og:site_name", site)]
    named += [("og:description", text)] if text else []
    if address:
        rows.append(f'<link rel="canonical" href="{escape(address)}">')
        named += [("og:url", address), *([("og:image", picture)] if picture else [])]
    rows += [f'<meta property="{name}" content="{escape(value)}">' for name, value in named]
    rows.append(f'<meta name="twitter:card" content="{"summary_large_image" if picture else "summary"}">')
    return Markup("".join(f"{row}\n" for row in rows))


def navigation(title: str, root: str, said: Words, *, here: str = "") -> Markup:
    """The bar at the top: the shelf's name, and the ways in. `root`: from this page to the language's folder."""
    items = [
        Markup('<li><a href="{}"{}>{}</a></li>').format(
            root + path, Markup(' aria-current="page"') if path == here else "", said(key)
        )
        for path, key in _WAYS
    ]
    return Markup(
        '<nav class="shelf-bar" aria-label="{}"><p class="shelf-name"><a href="{}">{}</a></p><ul>{}</ul></nav>'
    ).format(said("shelf"), f"{root}index.html", title, Markup("").join(items))


def document(
    page: Page,
    settings: Settings,
    said: Words,
    prefix: str,
    *,
    header: str,
    footer: str,
) -> bytes:
    """A whole page, UTF-8. `prefix`: the language's folder (`` or `de/`); `header`, `footer`: HTML."""
    depth = (prefix + page.path).count("/")
    top, own = "../" * depth, "../" * page.path.count("/")
    full = f"{page.title} · {settings.title}" if page.path != "index.html" else settings.title
    address = f"{settings.address}/{prefix}{page.path}" if settings.address else None
    meta = head(
        title=page.title, text=page.text, address=address, site=settings.title, picture=None, kind="website"
    )
    scripts = "".join(f'<script defer src="{top}assets/{name}"></script>\n' for name in page.scripts)
    title = escape(settings.title)
    feed = f'<link rel="alternate" type="application/atom+xml" href="{top}feed.xml" title="{title}">\n'
    return f"""<!DOCTYPE html>
<html lang="{said.language}">
<head>
<meta charset="utf-8">
<meta http-equiv="Content-Security-Policy" content="{html.escape(_POLICY, quote=True).replace("&#x27;", "'")}">
<meta name="viewport" content="width=device-width, initial-scale=1">
<meta name="color-scheme" content="light dark">
<title>{escape(full)}</title>
<meta name="generator" content="guidec">
{meta}{feed if settings.address else ""}<link rel="stylesheet" href="{top}assets/shelf.css">
{scripts}</head>
<body class="shelf{" wide" if page.wide else ""}">
<a class="skip" href="#main">{escape(said("skip-to-main"))}</a>
{navigation(settings.title, own, said, here=page.path)}
{f'<div class="own-head">{header}</div>' if header else ""}
<main id="main" tabindex="-1">
{page.body()}
</main>
{_foot(settings, said, own, prefix, page, footer)}
</body>
</html>
""".encode()


def _foot(settings: Settings, said: Words, own: str, prefix: str, page: Page, footer: str) -> str:
    items = [_link(f"{own}changes.html", said("changes")), _link(f"{own}data.html", said("data"))]
    for name in settings.pages if not prefix else ():
        items.append(_link(f"{own}{Path(name).stem}.html", _page_title(name)))
    items += _other_languages(settings, said, prefix, page)
    licence = (
        f'<p class="cap">{escape(said("licence"))}: {escape(settings.licence)}</p>' if settings.licence else ""
    )
    mine = f'<div class="own">{footer}</div>' if footer else ""
    rows = "".join(f"<li>{one}</li>" for one in items)
    more = f'<nav aria-label="{escape(said("more"))}"><ul>{rows}</ul></nav>'
    return f'<footer class="shelf-foot">{more}{mine}{licence}</footer>'


def _page_title(name: str) -> str:
    return Path(name).stem.replace("-", " ").replace("_", " ").capitalize()


def _other_languages(settings: Settings, said: Words, prefix: str, page: Page) -> Iterable[Markup]:
    top = "../" * (prefix + page.path).count("/")
    first = settings.languages[0]
    for language in settings.languages:
        own = "" if language == first else f"{language}/"
        if own != prefix and not (prefix == "" and page.path in map(_html, settings.pages)):
            name = said.named("language", language)
            tag = '<a href="{}{}{}" lang="{}" hreflang="{}">{}</a>'
            yield Markup(tag).format(top, own, page.path, language, language, name)


def _html(name: str) -> str:
    return f"{Path(name).stem}.html"


def _link(href: str, text: str) -> Markup:
    return Markup('<a href="{}">{}</a>').format(href, text)
