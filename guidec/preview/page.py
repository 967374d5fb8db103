"""A note as made -> the page that the preview shows: the guide, what is wrong with it on top, and reloading."""

from __future__ import annotations

from collections.abc import Sequence
from pathlib import Path
from urllib.parse import quote

from markupsafe import Markup, escape

from guidec.messages import counts, text
from guidec.preview.site import Made
from guidec.rules.finding import Severity
from guidec.shelf.words import Words

__all__ = ["MOST", "asset", "front", "page"]

MOST = 60
"""So many messages are shown at a time: who has more mends the first ones first."""
ASSETS = Path(__file__).parent / "assets"
_EXTRA = (
    '<link rel="stylesheet" href="/-/preview.css">\n<script defer src="/-/preview.js" data-note="{note}" '
    'data-version="{version}" data-lost="{lost}"></script>\n'
)


def asset(name: str) -> bytes | None:
    """A file that comes with the preview."""
    at = ASSETS / name
    return at.read_bytes() if at.parent == ASSETS and at.is_file() else None


def page(name: str, file: str, made: Made, said: Words) -> str:
    """A page of a guide with the report on top; the report alone where there is no guide."""
    extra = _extra(name, made.version, said)
    report = _report(name, made, said)
    found = made.files.get(file)
    if found is None:
        return _document(name, Markup("<main><h1>{}</h1>{}</main>").format(name, report), extra, said)
    whole = found.decode()
    for old, new in (
        ("script-src ", "script-src 'self' "),
        ("style-src ", "connect-src 'self'; style-src 'self' "),
        ("</head>", f"{extra}</head>"),
        ('<div class="frame">', f'{report}\n<div class="frame">'),
    ):
        whole = whole.replace(old, new, 1)
    return whole


def _extra(note: str, version: int, said: Words) -> Markup:
    return Markup(_EXTRA).format(note=note, version=version, lost=said("preview-lost"))


def _report(name: str, made: Made, said: Words) -> Markup:
    """What the terminal says as well, folded in where there are no errors."""
    label = said("preview-report")
    if made.fault:
        fault = Markup('<p class="pv-sum"><b>{}</b></p><pre>{}</pre>').format(said("preview-fault"), made.fault)
        return Markup('<section class="pv" aria-label="{}">{}</section>').format(label, fault)
    errors = any(one.severity is Severity.ERROR for one in made.diagnostics)
    shown = Markup("").join(
        Markup('<pre class="{}">{}</pre>').format(one.severity.value, text([one], width=90).rstrip())
        for one in made.diagnostics[:MOST]
    )
    if len(made.diagnostics) > MOST:
        shown += Markup("<p>{}</p>").format(said("and-more", count=len(made.diagnostics) - MOST))
    summary = Markup('<summary class="pv-sum"><b>{}</b> {}</summary>').format(counts(made.diagnostics), name)
    opened = Markup(" open") if errors else Markup("")
    return Markup('<section class="pv" aria-label="{}"><details{}>{}{}</details></section>').format(
        label, opened, summary, shown
    )


def front(notes: Sequence[tuple[str, Made | None]], version: int, said: Words) -> str:
    """The list of a folder's notes; what is known of those that were looked at."""
    rows = [
        Markup('<li><a href="/{}/">{}</a> <span>{}</span></li>').format(
            quote(name), name, counts(made.diagnostics) if made and not made.fault else ""
        )
        for name, made in notes
    ]
    listed = Markup("<ul>{}</ul>").format(Markup("").join(rows))
    shown = listed if rows else Markup("<p>{}</p>").format(said("preview-none"))
    title = said("preview-notes")
    body = Markup("<main><h1>{}</h1>{}</main>").format(title, shown)
    return _document(title, body, _extra("", version, said), said)


def _document(title: str, body: Markup, extra: Markup, said: Words) -> str:
    return f"""<!DOCTYPE html>
<html lang="{said.language}">
<head>
<meta charset="utf-8">
<meta name="viewport" content="width=device-width, initial-scale=1">
<meta name="color-scheme" content="light dark">
<title>{escape(title)}</title>
{extra}</head>
<body class="pv-page">
{body}
</body>
</html>
"""
