"""Entries and the address of the site -> what programs read: the Atom feed, the site map, `robots.txt`.

Atom: RFC 4287. Site maps: sitemaps.org protocol 0.9, at most 50,000 addresses a file.
"""

from __future__ import annotations

import re
from collections.abc import Sequence
from urllib.parse import quote
from xml.sax.saxutils import escape, quoteattr

from guidec.shelf.entry import Entry
from guidec.shelf.frame import guide_address
from guidec.shelf.settings import Settings

__all__ = ["atom", "robots", "site_maps"]

MOST_ADDRESSES = 50_000
_NEWEST = 50
_DAY = re.compile(r"\d{4}-\d{2}-\d{2}")
_FORBIDDEN = re.compile("[^\t\n\r\u0020-\ud7ff\ue000-\ufffd\U00010000-\U0010ffff]")
_XML = '<?xml version="1.0" encoding="utf-8"?>\n'


def atom(entries: Sequence[Entry], settings: Settings) -> bytes:
    """The feed of the newest guides: those of which the note says the day. Needs the site's address."""
    dated = sorted((one for one in entries if one.date and _DAY.match(one.date)), key=lambda one: one.slug)
    newest = sorted(dated, key=lambda one: str(one.date), reverse=True)[:_NEWEST]
    address = str(settings.address)
    updated = _time(str(newest[0].date)) if newest else "1970-01-01T00:00:00Z"
    rows = [
        f"<id>{_text(address)}/</id>",
        f"<title>{_text(settings.title)}</title>",
        f"<updated>{updated}</updated>",
        f'<link rel="self" type="application/atom+xml" href={quoteattr(address + "/feed.xml")}/>',
        f'<link rel="alternate" type="text/html" href={quoteattr(address + "/index.html")}/>',
        f"<author><name>{_text(settings.author or settings.title)}</name></author>",
        '<generator uri="urn:guidec">guidec</generator>',
    ]
    if settings.description:
        rows.append(f"<subtitle>{_text(settings.description)}</subtitle>")
    rows += [_entry(one, settings) for one in newest]
    body = "\n".join(rows)
    language = quoteattr(settings.languages[0])
    return f'{_XML}<feed xmlns="http://www.w3.org/2005/Atom" xml:lang={language}>\n{body}\n</feed>\n'.encode()


def _entry(entry: Entry, settings: Settings) -> str:
    address = str(guide_address(settings.address, entry.slug))
    author = f"<author><name>{_text(entry.author)}</name></author>" if entry.author else ""
    rights = f"<rights>{_text(entry.licence)}</rights>" if entry.licence else ""
    text = f"<summary>{_text(entry.text)}</summary>" if entry.text else f"<summary>{_text(entry.title)}</summary>"
    return (
        f"<entry xml:lang={quoteattr(entry.language)}><id>{_text(address)}</id><title>{_text(entry.title)}</title>"
        f"<updated>{_time(str(entry.date))}</updated>"
        f'<link rel="alternate" type="text/html" href={quoteattr(address)}/>{author}{rights}{text}</entry>'
    )


def site_maps(names: Sequence[str], settings: Settings, most: int = MOST_ADDRESSES) -> dict[str, bytes]:
    """`sitemap.xml` for the pages (names on the site); past the bound of one file, an index and its parts."""
    pages = [name for name in sorted(names) if name.endswith(".html")]
    parts = [pages[at : at + most] for at in range(0, len(pages), most)] or [[]]
    if len(parts) == 1:
        return {"sitemap.xml": _site_map("urlset", "url", parts[0], settings)}
    made = {f"sitemap-{at}.xml": _site_map("urlset", "url", part, settings) for at, part in enumerate(parts, 1)}
    return {"sitemap.xml": _site_map("sitemapindex", "sitemap", [*made], settings), **made}


def _site_map(root: str, each: str, names: Sequence[str], settings: Settings) -> bytes:
    rows = "\n".join(f"<{each}><loc>{_text(f'{settings.address}/{quote(name)}')}</loc></{each}>" for name in names)
    return f'{_XML}<{root} xmlns="http://www.sitemaps.org/schemas/sitemap/0.9">\n{rows}\n</{root}>\n'.encode()


def robots(settings: Settings) -> bytes:
    """Everything may be read; the site map where there is one."""
    where = f"Sitemap: {settings.address}/sitemap.xml\n" if settings.address else ""
    return f"User-agent: *\nAllow: /\n{where}".encode()


def _time(day: str) -> str:
    return f"{day[:10]}T00:00:00Z"


def _text(text: str) -> str:
    return escape(_FORBIDDEN.sub("\ufffd", text))
