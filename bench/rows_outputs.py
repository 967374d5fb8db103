"""Making a guide of a note: pages and data against a bare render, the PDF against WeasyPrint on the same page."""

from __future__ import annotations

from functools import cache
from pathlib import Path
from typing import Any

from bench.floors import bare_parse
from bench.notes import note
from bench.row import Ratio

__all__ = ["ROWS"]


@cache
def _text() -> str:
    return note(60)


def _build(pdf: bool) -> None:
    from guidec import compile as compiler
    from guidec.edge.load import of_bytes

    built = compiler.build(of_bytes("bench.md", _text().encode(), Path()), compiler.Options(pdf=pdf))
    assert {"index.html", "guide.json", "bom.json", "parts.csv"} <= set(built.files)


@cache
def _template() -> tuple[Any, dict[str, Any]]:
    """The page's template and the values it is given, taken on their way to Jinja2."""
    import jinja2

    taken: list[tuple[Any, dict[str, Any]]] = []
    render = jinja2.Template.render

    def take(self: jinja2.Template, **values: Any) -> str:
        taken.append((self, values))
        return render(self, **values)

    jinja2.Template.render = take  # type: ignore[method-assign]
    try:
        _build(pdf=False)
    finally:
        jinja2.Template.render = render  # type: ignore[method-assign]
    return taken[0]


def _bare_render() -> str:
    """The note parsed bare, and the same page rendered from values that are at hand."""
    bare_parse(_text())
    template, values = _template()
    page: str = template.render(**values)
    return page


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
        "pages and data, 60 actions / bare parse, same page rendered",
        lambda: _build(pdf=False),
        _bare_render,
        5.0,
        runs=15,
    ),
    Ratio("PDF, 60 actions / bare WeasyPrint on the same page", _print, _bare_print, 1.15, runs=5),
)
