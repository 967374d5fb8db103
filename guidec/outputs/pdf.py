"""A guide -> its bench sheet as PDF/UA-1: tagged, with bookmarks, running heads and page numbers.

The bytes depend on the guide and the fonts alone: no clock, an identifier made from the content, no file but those
handed over. Source Sans Pro comes with a dependency; where that is missing the fonts of the system serve.
"""

from __future__ import annotations

import hashlib
from collections.abc import Container, Mapping
from functools import cache
from importlib.util import find_spec
from pathlib import Path
from string import Template
from types import ModuleType
from typing import Any

from markupsafe import Markup

from guidec.model.types import Guide
from guidec.outputs import figure
from guidec.outputs.sections import Section, on_paper, present
from guidec.outputs.template import file, render
from guidec.outputs.view import Sheet
from guidec.outputs.view import sheet as sheet_view
from guidec.source import Span

__all__ = ["CannotPrintError", "faces", "sheet", "typeset"]

SIZES = {"a4": "210mm 297mm", "letter": "8.5in 11in"}
FACES = (("Regular", 400, "normal"), ("It", 400, "italic"), ("Semibold", 600, "normal"), ("Bold", 700, "normal"))


class CannotPrintError(Exception):
    """The machine lacks what a PDF needs; the message says what, and what to do."""


def sheet(
    guide: Guide,
    *,
    clean: bool,
    sections: Container[str] | None = None,
    data: Mapping[str, Any] | None = None,
    picture: figure.Draws = figure.picture,
    files: Mapping[str, bytes] | None = None,
    paper: str = "a4",
    labels: Mapping[Span, str] | None = None,
) -> bytes:
    """The bench sheet of a guide.

    `files`: the bytes of pictures by the address that `picture` gives them. `paper`: `a4` or `letter`. The rest
    as for `html.page`. Raises CannotPrintError where Pango or any font is missing, KeyError for another paper.
    """
    given = data or {}
    values = sheet_view(guide, clean=clean, paper=True, picture=picture, labels=labels)
    chosen = on_paper(present(sections, given, values.lists))
    page = render(values, chosen, given)
    return typeset(page, style(values, chosen, paper), files or {})


def typeset(page: str, css: str, files: Mapping[str, bytes]) -> bytes:
    """A page and its style as PDF/UA-1; nothing is fetched but `files`."""
    printer = _printer()
    if not _faces() and not printer.system_fonts():
        raise CannotPrintError(
            "the PDF needs a font and this machine has none: install one, such as fonts-dejavu-core"
        )
    digest = hashlib.sha256("\0".join((page, css)).encode())
    for name in sorted(files):
        digest.update(name.encode() + b"\0" + files[name])
    made: bytes = printer.write(page, css, {**files, **_fonts()}, digest.digest()[:16])
    return made


def _printer() -> ModuleType:
    """The module that stands on WeasyPrint, which does not load without Pango."""
    try:
        from guidec.outputs import printer
    except OSError as error:
        raise CannotPrintError(
            "the PDF needs Pango, which is not installed: `apt-get install libpango-1.0-0 libpangoft2-1.0-0 "
            "libharfbuzz-subset0` or `brew install pango` (all else works without it)"
        ) from error
    return printer


def style(values: Sheet, sections: tuple[Section, ...], paper: str) -> str:
    """The style sheet of the PDF: its own rules with the words that stand in the page's margins."""
    says = values.words
    page = says("page-of", page="\1", pages="\2")
    parts = [_quoted(part) for part in page.replace("\1", "\0\1\0").replace("\2", "\0\2\0").split("\0") if part]
    counters = {_quoted("\1"): "counter(page)", _quoted("\2"): "counter(pages)"}
    facts = {label: value for _, label, value in values.facts}
    foot = " · ".join(f"{label} {facts[label]}" for label in (says("revision"), says("date")) if label in facts)
    own = Template(file("paper.css")).substitute(
        size=SIZES[paper],
        first="14mm",
        page=" ".join(counters.get(part, part) for part in parts),
        foot=_quoted(Markup(foot).unescape()),
        unclean="" if values.clean else Template(_UNCLEAN).substitute(words=_quoted(says("not-clean"))),
        family="".join(f'"{name}", ' for name in (["Sheet Sans"] if _faces() else [])),
    )
    extra = (file(f"sections/{section.name}.css") for section in sections)
    return "\n".join((faces(), file("base.css"), *extra, file("print.css"), own))


def faces() -> str:
    """The rules that name the fonts which come along."""
    return "\n".join(_FACE.substitute(file=name, weight=weight, style=style) for name, weight, style in _faces())


_UNCLEAN = (
    "@bottom-center { content: $words; font: 700 9pt/1.2 var(--sans); text-transform: uppercase; "
    "letter-spacing: .06em; border: 1.5pt solid #000; padding: 1mm 3mm; margin: 2mm 0 9mm; white-space: nowrap }"
)
_FACE = Template(
    '@font-face { font-family: "Sheet Sans"; src: url(file:///sheet/fonts/$file); '
    "font-weight: $weight; font-style: $style }"
)


def _quoted(text: str) -> str:
    """A text as a CSS string."""
    return '"' + "".join(f"\\{ord(char):x} " if char in '"\\\n<&' else char for char in text) + '"'


@cache
def _faces() -> tuple[tuple[str, int, str], ...]:
    """File name, weight and style of the faces that the font package brings; none where it is missing."""
    found = find_spec("font_source_sans_pro")
    if found is None or not found.submodule_search_locations:
        return ()
    folder = Path(found.submodule_search_locations[0]) / "files"
    names = ((f"SourceSansPro-{face}.ttf", weight, style) for face, weight, style in FACES)
    return tuple(face for face in names if (folder / face[0]).is_file())


@cache
def _fonts() -> Mapping[str, bytes]:
    """The font files by the name that the style sheet gives them."""
    found = find_spec("font_source_sans_pro")
    if found is None or not found.submodule_search_locations:
        return {}
    folder = Path(found.submodule_search_locations[0]) / "files"
    return {f"fonts/{name}": (folder / name).read_bytes() for name, _, _ in _faces()}
