"""Making a guide of a note: pages and data against a bare render, the PDF against WeasyPrint on the same page."""

from __future__ import annotations

from collections.abc import Container
from functools import cache
from pathlib import Path
from typing import Any

from bench.floors import bare_parse
from bench.notes import note
from bench.rendered import Rendered, rendered
from bench.row import Ratio

__all__ = ["ROWS"]


@cache
def _text() -> str:
    return note(60)


WHOLE = ("pages", "guide.json", "bom.json", "routes.json", "tables")
"""The outputs, by their names in `guidec.make`, that are the whole guide's page and data."""


def _build(outputs: Container[str] | None = None) -> None:
    """A note checked and made into pages and data: into those of the outputs named, all unless said."""
    from guidec import compile as compiler
    from guidec import make
    from guidec.edge.load import of_bytes

    every = make.OUTPUTS
    make.OUTPUTS = tuple(one for one in every if outputs is None or one[0] in outputs)
    try:
        built = compiler.build(of_bytes("bench.md", _text().encode(), Path()), compiler.Options(pdf=False))
    finally:
        make.OUTPUTS = every
    assert {"index.html", "guide.json", "bom.json", "parts.csv"} <= set(built.files)


@cache
def _templates() -> Rendered:
    """Each page's template and its values; the whole guide's first."""
    return rendered(_build)


def _bare_render(pages: int | None = None) -> None:
    """The note parsed bare, and so many of the same pages (all unless said) rendered from values at hand."""
    bare_parse(_text())
    for template, values in _templates()[:pages]:
        template.render(**values)


@cache
def _guide() -> Any:
    from guidec import compile as compiler
    from guidec.edge.load import of_bytes

    known = compiler.check(of_bytes("bench.md", _text().encode(), Path())).model
    assert known
    return known.guide


def _print() -> bytes:
    from guidec.outputs import pdf

    return pdf.sheet(_guide(), clean=True)


@cache
def _page() -> tuple[str, str, Any]:
    """What the PDF is set from: the page, its style and its files, taken on their way to the printer."""
    from guidec.outputs import printer

    taken: list[tuple[str, str, Any]] = []
    write = printer.write

    def take(page: str, css: str, files: Any, identifier: bytes) -> bytes:
        taken.append((page, css, files))
        return write(page, css, files, identifier)

    printer.write = take
    try:
        _print()
    finally:
        printer.write = write
    return taken[0]


def _bare_print() -> None:
    from weasyprint import CSS, HTML  # type: ignore[import-untyped]
    from weasyprint.text.fonts import FontConfiguration  # type: ignore[import-untyped]

    from guidec.outputs.printer import ROOT, _Files

    page, css, files = _page()
    fonts, fetcher = FontConfiguration(), _Files(files)
    sheet = CSS(string=css, base_url=ROOT, url_fetcher=fetcher, font_config=fonts)
    HTML(string=page, base_url=ROOT, url_fetcher=fetcher).write_pdf(
        stylesheets=[sheet], font_config=fonts, pdf_variant="pdf/ua-1"
    )


ROWS = (
    Ratio(
        "whole guide's page and data, 60 actions / bare parse, page rendered",
        lambda: _build(WHOLE),
        lambda: _bare_render(1),
        5.0,
        runs=15,
    ),
    Ratio("guides to each part too, 60 actions / the same pages rendered", _build, _bare_render, 5.0, runs=5),
    Ratio("PDF, 60 actions / bare WeasyPrint on the same page", _print, _bare_print, 1.15, runs=5),
)
